"""What is told of a day that went wrong and before a pack is bought: blocks of lines, and cards as plain text."""

from collections.abc import Callable, Iterable
from textwrap import fill
from typing import TYPE_CHECKING

from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.questions import questions
from consult.buying.card import Card
from consult.buying.compare import Candidate, Comparison
from consult.buying.year import Habit, Year, YearVisit
from consult.dates import day_name, when
from consult.gates.judge import Finding
from consult.gates.words import reason_words
from consult.remedies.emergency import Emergency
from consult.remedies.help import Help
from consult.remedies.mend import Mend
from consult.remedies.remedy import Remedy
from consult.report.rows import Block, Row, line_rows
from consult.sources import ASSUMPTION, COMMON_PRACTICE
from consult.trade import Voice

if TYPE_CHECKING:
    # Needs numpy, which is loaded when causes are asked for.
    from consult.remedies.causes import Causes

NARROWEST = 24
CARD_TITLE = "Before buying: for this head only"
CARD_WIDTH = 44
"""Columns of a card: a phone held upright, or a slip of paper."""


def write_blocks(
    title: str, blocks: Iterable[Block], width: int, say: Callable[[str], object], *, why: bool = False
) -> None:
    """Hand on a title and blocks line by line; `why` adds reason and source to each row."""

    def told(text: str, first: str, then: str) -> None:
        say(fill(text, max(width, NARROWEST), initial_indent=first, subsequent_indent=then))

    told(title, "", "")
    for block in blocks:
        if not block.rows:
            continue
        say(f"\n{block.title.upper()}")
        for row in block.rows:
            told(row.say, "  ", "    ")
            if why:
                told(row.because, "      -> ", " " * 9)
                told(f"[{row.cited}]", " " * 9, " " * 9)


def emergency_blocks(told: Iterable[Emergency], voice: Voice) -> list[Block]:
    """What is seen, and under it what is done now, what is not done and what to tell."""
    blocks = []
    for one in told:
        parts = (("Now", one.now), ("Not", one.never), ("Tell", one.say))
        rows = [
            replace(row, say=f"{word}: {row.say}") for word, lines in parts for row in line_rows(lines, voice)
        ]
        blocks.append(Block(f"{one.name}: {one.help.title}", tuple(rows)))
    return blocks


def advice_blocks(found: Remedy, answers: Answers | None, voice: Voice) -> list[Block]:
    """What to do, and why it may have gone wrong where there is a record, `answers`, and nothing graver to see to."""
    blocks = remedy_blocks(found, voice)
    if answers is not None and found.help < Help.DOCTOR:
        from consult.remedies.causes import causes

        blocks.append(cause_block(causes(answers, found.day, found.at, found.salon), voice))
    return blocks


def remedy_blocks(found: Remedy, voice: Voice) -> list[Block]:
    """What to do, in the order in which it is needed."""
    return [
        Block("Do now", line_rows(found.now, voice)),
        Block("Do not", line_rows(found.never, voice)),
        Block("Tell, and take along", line_rows(found.say, voice)),
        Block("Later", line_rows(found.then, voice)),
        Block("Mended at home", _mend_rows(found.mend, voice) if found.mend else ()),
        Block("Still to tell", line_rows(found.ask, voice)),
    ]


def _mend_rows(mend: Mend, voice: Voice) -> tuple[Row, ...]:
    plan = mend.plan
    cautions = [
        Row(f"{reason_words(f, voice)} {f.remedy}", f.verdict.title, f.sources) for f in mend.found.findings
    ]
    told = (plan.because, *plan.amounts[1:], *(mend.found.forecast.lines if mend.found.forecast else ()))
    first = Row(
        f"Not before {when(mend.at)}: {plan.approach}. Before it a new allergy alert test with the "
        "very mix, 48 hours before at least, and a strand test. A sign on the skin, or a strand that comes out "
        "otherwise: no mending, see a licensed colourist.",
        "Judged as of that day by the same rules and checks as any plan, both tests taken as clear; the leaflet of the "
        "pack comes first.",
        ("fda-hair-dye-qa", COMMON_PRACTICE, ASSUMPTION),
    )
    return (first, *line_rows(tuple(told), voice), *cautions)


def cause_block(found: "Causes", voice: Voice) -> Block:
    """Why it may have gone wrong, the likeliest first."""
    from consult.remedies.causes import cause_line

    return Block(
        "Why, perhaps: never for certain",
        line_rows((*(cause_line(cause) for cause in found.ranked), *found.lines), voice),
    )


def remedy_data(found: Remedy, blocks: Iterable[Block]) -> dict[str, object]:
    """The remedy as plain data, for JSON."""
    mend = found.mend
    return {
        "help": found.help.word,
        "blocks": blocks_data(blocks),
        "mend": {"not_before": mend.at.isoformat(), "plan": mend.plan.approach} if mend else None,
        "next_consultation": found.recorded.verdict.word,
    }


def card_blocks(card: Card, voice: Voice) -> list[Block]:
    """The card for the shop."""
    return [
        Block("Look for" if card.photograph else "As things stand", line_rows(card.look, voice)),
        Block("Do not buy", line_rows(card.avoid, voice)),
        Block("Photograph in the shop", line_rows(card.photograph, voice)),
    ]


def card_text(card: Card, voice: Voice) -> str:
    """The card as it is printed or taken along on a phone."""
    told: list[str] = []
    write_blocks(CARD_TITLE, card_blocks(card, voice), CARD_WIDTH, told.append)
    return "\n".join(told) + "\n"


def comparison_blocks(found: Comparison, voice: Voice) -> list[Block]:
    """Each candidate as a block, those that work first; or why there is nothing to compare."""
    if found.against:
        return [Block("Buy none of them now", tuple(_finding_row(f, voice) for f in found.against))]
    if found.missing:
        names = ", ".join(dict.fromkeys(_short(path) for path in found.missing))
        row = Row(f"Still to answer: {names}.", "Nothing about a head is guessed.", (COMMON_PRACTICE,))
        return [Block("Not settled yet", (row,))]
    return [Block(f"{one.name}: {one.verdict}", _candidate_rows(one, voice)) for one in found.candidates]


def _short(path: str) -> str:
    return questions()[".".join(part for part in path.split(".") if not part.isdigit())].short


def _finding_row(finding: Finding, voice: Voice) -> Row:
    return Row(f"{reason_words(finding, voice)} {finding.remedy}", finding.verdict.title, finding.sources)


def _candidate_rows(one: Candidate, voice: Voice) -> tuple[Row, ...]:
    rows = [_finding_row(one.against, voice)] if one.against else []
    unknown = "Perhaps, because" if one.works is None else "Not known"
    if one.against is None and one.works is False:
        text = "It comes out clearly off the goal."
        rows.append(
            Row(text, "The forecast at the worst place that is coloured.", ("scanavez-2000", ASSUMPTION))
        )
    rows += [
        Row(f"{unknown}: {doubt}.", "What is not known is not promised.", (ASSUMPTION,))
        for doubt in one.doubts
    ]
    if one.places:
        told = "; ".join(f"{p.where} {p.now} -> {p.after}" for p in one.places)
        cover = (
            f", {one.cover * 100:.0f} % of the way from white to the goal" if one.cover is not None else ""
        )
        white = f" Cover: {one.white}{cover}." if one.white else ""
        rows.append(
            Row(
                f"Colour: {told}.{white}",
                "Depth and tone today and after, as the eye sees them; the strand test decides.",
                ("scanavez-2000", ASSUMPTION),
            )
        )
    if one.passes is not None:
        rows.append(
            Row(
                f"Damage: up to {one.more} oxidative pass on a stretch, {one.passes} then in all where there are most.",
                "From the third pass over the same hair damage becomes clear.",
                ("repeat-dyeing-2024",),
            )
        )
    if one.weeks:
        again, refresh = one.weeks
        text = f"Upkeep: new growth in about {again} weeks, a refresh in about {refresh} at the earliest."
        rows.append(Row(text, "By contrast, white share, washes and tone.", (COMMON_PRACTICE, ASSUMPTION)))
    if one.packs:
        cost = "price not known" if one.cost is None else f"together {one.cost:.2f}"
        rows.append(Row(f"Packs or tubes: {one.packs}, {cost}.", "As many as hardly run out.", (ASSUMPTION,)))
    return tuple(rows)


def year_blocks(found: Year, voice: Voice) -> list[Block]:
    """A year in each habit; why there is none where the first colouring is not made."""
    if not found.habits:
        told = [f for f in found.first.findings if f.verdict.blocks]
        row = Row(
            "There is no plan for the first colouring yet.", "A year starts from a plan.", (COMMON_PRACTICE,)
        )
        return [Block("Upkeep as a year", (row, *(_finding_row(f, voice) for f in told)))]
    blocks = [Block(f"Every {h.weeks} weeks, a year", _habit_rows(h, voice)) for h in found.habits]
    return [*blocks, Block("Which is the better way", line_rows(found.lines, voice))]


def _habit_rows(habit: Habit, voice: Voice) -> tuple[Row, ...]:
    cost = "price of a pack not known" if habit.cost is None else f"{habit.cost:.2f} in all"
    head = Row(
        f"{len(habit.visits)} touch-ups, {habit.packs} packs or tubes, {cost}; the same hair gets up to {habit.added} "
        "more oxidative passes.",
        "Each visit is planned by the whole program on the record of the one before it, its tests taken as clear.",
        (ASSUMPTION, "repeat-dyeing-2024"),
    )
    return (head, *(_visit_row(v) for v in habit.visits), *line_rows(habit.lines, voice))


def _visit_row(visit: YearVisit) -> Row:
    refresh = " and refresh of the lengths" if visit.refresh else ""
    left = f", about {visit.left_g} g of mix left over" if visit.left_g else ""
    packs = f"{visit.packs} pack{'' if visit.packs == 1 else 's'}"
    return Row(
        f"{day_name(visit.on)} touch-up{refresh}: about {visit.cm:g} cm grown out, at most {visit.cm_most:g}; "
        f"alert test put on between {day_name(visit.test.test_from)} and {day_name(visit.test.test_until)}; "
        f"{packs}{left}.",
        "Each colouring needs its own test, 48 hours before at least and not older than a week.",
        ("fda-hair-dye-qa", "growth-2016", ASSUMPTION),
    )


def blocks_data(blocks: Iterable[Block]) -> list[dict[str, object]]:
    """Blocks as plain data, for JSON."""
    return [
        {
            "title": block.title,
            "lines": [{"say": r.say, "because": r.because, "sources": list(r.sources)} for r in block.rows],
        }
        for block in blocks
        if block.rows
    ]
