"""A working sheet as plain text, 80 columns wide: for printers without a browser, and for screen readers."""

from collections.abc import Iterable
from datetime import time

from consult.paper.characters import head_lines, strand_lines, time_lines
from consult.paper.columns import COLUMNS, filled
from consult.paper.words import COPIES, HEALTH, JUDGED, LINES_FOR_NOTES, RESULT, STARTED, heading
from consult.report import STILL_TO_ANSWER
from consult.report.sheet import Sheet, StepBox, Told, Work
from consult.report.sheet_bowls import BowlBox
from consult.report.time_picture import Moment, clock_words

TICK = "[ ] "
RULE = "_" * (COLUMNS - 1)


def text_sheet(sheet: Sheet) -> str:
    """The whole sheet."""
    lines = [
        *filled(heading(sheet)),
        *filled(f"{JUDGED} {sheet.judged}. {COPIES[sheet.copy]}"),
        "",
        *filled(sheet.verdict.upper()),
        *filled(sheet.what),
        *filled(sheet.before_all),
        *_block("Emergencies", _items(sheet.emergencies)),
        *_block("What to do now, one after the other", _told(sheet.do)),
        *_block("Take care", _told(sheet.cautions)),
        *_block("When to come back", filled(sheet.come_back, "  ") if sheet.come_back else []),
        *_block(STILL_TO_ANSWER, _items(sheet.ask)),
        *_block("Meanwhile", _items(sheet.prepare)),
        *_block("Instead", _items(sheet.other_ways)),
        *_block(HEALTH, filled("; ".join(f"{name}: {said}" for name, said in sheet.health), "  ")),
    ]
    if sheet.work:
        lines += _work(sheet, sheet.work)
    strands = [line for strand in sheet.strands for line in (*strand_lines(strand), "")]
    note = "Not to scale; the sign says how light it is, the words what it is. The strand test decides."
    lines += _block(sheet.strands_title, [*strands, *filled(note)] if strands else [])
    if sheet.work:
        lines += _block("Afterwards", _items(sheet.work.aftercare))
        lines += _block("Next time", _items(sheet.work.next_time))
        lines += _block("What happened", _room(sheet))
    lines += _block("Notes", [RULE] * LINES_FOR_NOTES)
    return "\n".join(lines) + "\n"


def _block(title: str, lines: Iterable[str]) -> list[str]:
    inside = list(lines)
    return ["", title.upper(), *inside] if inside else []


def _items(said: Iterable[str]) -> list[str]:
    return [line for one in said for line in filled(one, "  - ")]


def _told(said: Iterable[Told]) -> list[str]:
    lines = []
    for one in said:
        lines += filled(one.say, "  - ")
        lines += filled(f"Do: {one.do}", "    ") if one.do else []
    return lines


def _work(sheet: Sheet, work: Work) -> list[str]:
    return [
        *_block("Buy or have ready", _items(work.buy)),
        *_block("Bowls", [line for bowl in work.bowls for line in _bowl(bowl, sheet.start)]),
        *_block("Sections, in this order", [*head_lines(work.head), *_items(work.dividing)]),
        *_block("Step by step", [line for box in work.steps for line in _step(box, sheet.start)]),
        *_block(
            STARTED.format(clock_words(sheet.start, 0)),
            [
                *time_lines(work.time, sheet.start),
                *_items(work.clock),
                "",
                *(line for moment in work.time.moments for line in _moment(moment, sheet.start)),
            ],
        ),
    ]


def _bowl(bowl: BowlBox, start: time | None) -> list[str]:
    packs = f"{bowl.packs} whole pack{'s' if bowl.packs > 1 else ''}: " if bowl.packs else ""
    return [
        *filled(f"Bowl {bowl.number}{f', {bowl.turn}' if bowl.turn else ''}: {bowl.what_for}", "  "),
        *filled(bowl.product, "    "),
        *(f"    {f'{part.grams:g} g':>9}  {part.name}" for part in bowl.weighed),
        *filled(f"together {packs}{bowl.grams:g} g; {bowl.how}", "    "),
        *(filled(bowl.rest, "    ") if bowl.rest else []),
        f"    {TICK}mixed at minute {bowl.minute} ({clock_words(start, bowl.minute)}); weighed ________ g",
    ]


def _step(box: StepBox, start: time | None) -> list[str]:
    timing = ""
    if box.minutes:
        first, last = (f"{minute} ({clock_words(start, minute)})" for minute in box.minutes)
        timing = f" [minute {first} to {last}]"
    return filled(f"{box.number}. {box.say}{timing}", f"  {TICK}")


def _moment(moment: Moment, start: time | None) -> list[str]:
    again = ", ".join(f"{minute} ({clock_words(start, minute)})" for minute in moment.again)
    said = f"{moment.words}; again at {again}" if again else moment.words
    return filled(said, f"  {TICK}{moment.minute:>3}  {clock_words(start, moment.minute)}  ")


def _room(sheet: Sheet) -> list[str]:
    """Room to write what happened."""
    wide = (14, 24, 16, 24)
    rows = [RESULT, *((part, "_" * 22, "_" * 14, "_" * 23) for part in sheet.parts)]
    return [
        "  First touch __:__   Last parting __:__   Rinsed __:__",
        f"  Scalp afterwards {'_' * 40}",
        *("  " + "".join(f"{cell:<{n}}" for cell, n in zip(row, wide, strict=True)).rstrip() for row in rows),
    ]
