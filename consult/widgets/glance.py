"""The result as it is looked at: its parts, each drawn from the working sheet for the room there is.

A part names the lines of the report that lie behind it, which open when it is chosen.
"""

from collections.abc import Callable, Iterator, Sequence
from datetime import time
from enum import IntEnum
from typing import Final

from msgspec import Struct
from textual.content import Content

from consult.gates.verdict import Verdict
from consult.plan.aftercare import ANAPHYLAXIS, RINSE_AT_ONCE
from consult.report import STILL_TO_ANSWER
from consult.report.difference import TITLE
from consult.report.sheet import Sheet, Told, Work
from consult.report.sheet_bowls import BowlBox, alike
from consult.report.strand_picture import StrandPicture
from consult.trade import Voice
from consult.widgets.head import begins, head_lines
from consult.widgets.strand import NAMES, UNTOUCHED, strand_lines
from consult.widgets.text import Piece, lines, styled
from consult.widgets.time_line import clock_lines
from consult.widgets.verdicts import MARKS, STYLES

BULLET: Final = 2
"""Columns of the mark before a line of a list."""
WOULD_BE: Final = "would be"
"""Instead of afterwards, where nothing is to be mixed."""


class Height(IntEnum):
    """How many rows there are: just enough, some to spare, or plenty."""

    SMALL = 0
    MEDIUM = 1
    LARGE = 2


HEADS: Final = {Height.SMALL: (15, 6), Height.MEDIUM: (20, 9), Height.LARGE: (26, 12)}
"""Cells of one view of the head, across and down."""


class Room(Struct, frozen=True):
    """What there is to draw in: columns and rows, whether colours are shown as they are, and when the first touch is
    to be."""

    columns: int
    height: Height
    colours: bool
    start: time


class Part(Struct, frozen=True):
    """One part: a word for it, its name, the block of the report behind it, its body, and names of the body's rows."""

    key: str
    name: str
    block: str
    draw: Callable[[Room], Content]
    rows: Callable[[Room], Sequence[str]] = lambda _: ()
    beside: bool = False
    """Whether it stands side by side with the part before or behind it, its name above it."""
    hang: int = 0
    """Columns by which wrapped lines are moved in."""


def parts_of(sheet: Sheet, verdict: Verdict | None, changed: str = "") -> list[Part]:
    """The parts of a result in the order in which they are needed; `verdict` is None while it is not settled,
    `changed` says what became of it since the result before."""
    found = [Part("verdict", "Verdict", "Why", lambda room: _verdict(sheet, verdict, room))]
    if changed:
        found.append(Part("changed", "Changed", TITLE, lambda _: styled(changed)))
    if sheet.come_back:
        behind = "Why" if sheet.do else STILL_TO_ANSWER
        found.append(Part("do", "Do now", behind, lambda _: _what_to_do(sheet), hang=BULLET))
    if sheet.strands:
        found.append(_colour(sheet))
    if sheet.work:
        found += _work(sheet.work)
    elif sheet.other_ways:
        found.append(Part("ways", "Instead", "Instead", lambda _: _listed(sheet.other_ways), hang=BULLET))
    return found


def danger(sheet: Sheet, voice: Voice) -> Content:
    """What stands under every result: what is done at once, and first of all where something is put on."""
    said = (RINSE_AT_ONCE, ANAPHYLAXIS) if sheet.work else (ANAPHYLAXIS,)
    words = " ".join(told.say.in_voice(voice) for told in said)
    return styled(("Danger  ", "bold $error"), (words, "bold"))


def _verdict(sheet: Sheet, verdict: Verdict | None, room: Room) -> Content:
    mark, style = (MARKS[verdict], STYLES[verdict]) if verdict is not None else ("-", "bold")
    rows = [styled((f"[{mark}] {sheet.verdict}", style)), styled((sheet.what, "bold"))]
    cautions = [told for told in sheet.cautions if told.do]
    if room.height > Height.SMALL:
        rows += [_told(caution, sheet, room) for caution in cautions]
    elif cautions:
        things = "one thing" if len(cautions) == 1 else f"{len(cautions)} things"
        rows.append(styled((f"! {things} to take care of: Enter reads them", "$warning")))
    return lines(rows)


def _told(told: Told, sheet: Sheet, room: Room) -> Content:
    return styled(
        "! ", _reason(told, sheet), (f" {told.do}" if room.height is Height.LARGE else "", "$muted")
    )


def _reason(told: Told, sheet: Sheet) -> str:
    """Why, for a class behind its rule; without the verdict and the day of a wait where they stand above anyway."""
    above = next((v.title for v in Verdict if told.say.startswith(f"{v.title}: ")), "")
    why = told.say.removeprefix(f"{above}: ") if above.lower() in sheet.verdict.lower() else told.say
    rule = f"{told.rule}: " if told.rule else ""
    return rule + why.removesuffix(f" Until {sheet.verdict.removeprefix('Wait until ')}.")


def _what_to_do(sheet: Sheet) -> Content:
    """What to do first, each with its reason, then when to come back."""
    rows = []
    for told in sheet.do:
        pieces: list[Piece] = [(told.do or _reason(told, sheet), "bold")]
        if told.do:
            pieces += ["\n", (_reason(told, sheet), "$muted")]
        rows.append(styled(*pieces))
    if sheet.ask:
        rows += [
            styled((f"{STILL_TO_ANSWER}:", "bold $accent")),
            *(styled(f"- {words}") for words in sheet.ask),
        ]
    rows += [styled(words) for words in sheet.prepare]
    rows.append(styled(("Coming back: ", "bold $accent"), (sheet.come_back, "bold")))
    return lines(rows)


def _listed(said: Sequence[str]) -> Content:
    return lines([styled(f"- {words}") for words in said])


def _colour(sheet: Sheet) -> Part:
    """The strand of the first area drawn; the others too where there are plenty of rows, else in a line each."""
    first, *others = sheet.strands

    def draw(room: Room) -> Content:
        rows = strand_lines(first, room.columns, colours=room.colours)
        if others and room.height > Height.SMALL:
            rows = [styled((first.where, "$muted")), *rows]
        for strand in others:
            if room.height is Height.LARGE:
                rows += [
                    styled((strand.where, "$muted")),
                    *strand_lines(strand, room.columns, colours=room.colours),
                ]
            elif room.height is Height.MEDIUM:
                rows.append(styled((f"{strand.where}: ", "$muted"), _in_words(strand)))
        return lines(rows)

    def names(room: Room) -> list[str]:
        titled = [""] if others and room.height > Height.SMALL else []
        drawn = len(sheet.strands) if room.height is Height.LARGE else 1
        return [*titled, "", *named, *([*titled, "", *named] * (drawn - 1))][1:]

    named = NAMES if sheet.work else (NAMES[0], WOULD_BE, NAMES[2])
    return Part("colour", "Colour", sheet.strands_title, draw, names)


def _in_words(strand: StrandPicture) -> str:
    """Each piece of a strand from today to afterwards."""
    told = (
        f"{stripe.before.words} -> {stripe.after.words if stripe.after else UNTOUCHED}"
        for stripe in strand.stripes
    )
    return "; ".join(words.replace("depth ", "") for words in told)


def _work(work: Work) -> list[Part]:
    return [
        Part(
            "head",
            f"Head  {begins(work.head)}",
            "Sections and order",
            lambda room: _head(work, room),
            beside=True,
        ),
        Part("mix", "Buy and mix", "Mix", lambda _: _mix(work), beside=True),
        Part("clock", "Clock", "Step by step", lambda room: _clock(work, room)),
    ]


def _head(work: Work, room: Room) -> Content:
    wide, high = HEADS[room.height]
    return lines(head_lines(work.head, wide, high, named=room.height > Height.SMALL))


def _mix(work: Work) -> Content:
    rows = [styled(words) for words in work.buy]
    rows += [styled(*pieces) for pieces in _bowls(work.bowls)]
    return lines(rows)


def _bowls(bowls: Sequence[BowlBox]) -> Iterator[list[Piece]]:
    """A bowl with what is weighed into it; bowls mixed alike one after the other stand once."""
    for same in alike(bowls):
        bowl, count = same[0], len(same)
        packs = f"{bowl.packs} whole pack{'s' if bowl.packs > 1 else ''}"
        what = " + ".join(f"{part.grams:g} g {part.name}" for part in bowl.weighed) or packs
        times = f" ({count} times, one after the other)" if count > 1 else ""
        named = (f" {bowl.what_for}", "bold")
        yield [(f"\\_{bowl.grams:g} g_/", "bold $accent"), named, f"{times}: {what}"]


def _clock(work: Work, room: Room) -> Content:
    sections, key = room.height is Height.LARGE, room.height > Height.SMALL
    return lines(clock_lines(work.time, room.start, room.columns, sections=sections, key=key))
