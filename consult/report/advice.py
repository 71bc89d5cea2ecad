"""What is told of a day that went wrong and before a pack is bought: blocks of lines, and cards as plain text."""

from collections.abc import Callable, Iterable
from textwrap import fill

from consult.gates.words import reason_words, when
from consult.plan.lines import Line
from consult.remedies.mend import Mend
from consult.remedies.remedy import Remedy
from consult.report.rows import Block, Row, line_rows
from consult.sources import ASSUMPTION, COMMON_PRACTICE
from consult.trade import Voice

NARROWEST = 24


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
        f"Not before {when(mend.at)}, {mend.way.extent}: {plan.approach}. Before it a new allergy alert test with the "
        "very mix, 48 hours before at least, and a strand test. A sign on the skin, or a strand that comes out "
        "otherwise: no mending, see a licensed colourist.",
        "Judged as of that day by the same rules and checks as any plan, both tests taken as clear; the leaflet of the "
        "pack comes first.",
        ("fda-hair-dye-qa", COMMON_PRACTICE, ASSUMPTION),
    )
    return (first, *line_rows(tuple(told), voice), *cautions)


def line_entries(lines: tuple[Line, ...], voice: Voice) -> list[dict[str, object]]:
    """Lines as plain data, for JSON."""
    return [
        {"say": told.say.in_voice(voice), "because": told.because.in_voice(voice), "sources": list(told.sources)}
        for told in lines
    ]


def remedy_data(found: Remedy, voice: Voice) -> dict[str, object]:
    """The remedy as plain data, for JSON."""
    parts = {name: getattr(found, name) for name in ("now", "never", "then", "say", "ask")}
    mend = found.mend
    return {
        "help": found.help.word,
        **{name: line_entries(lines, voice) for name, lines in parts.items()},
        "mend": {"not_before": mend.at.isoformat(), "plan": mend.plan.approach} if mend else None,
        "record_verdict": found.recorded.verdict.word,
    }
