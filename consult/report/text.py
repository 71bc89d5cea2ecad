"""The report as lines of plain text, as wide as they may be."""

from collections.abc import Callable
from textwrap import fill

from consult.consultation import Consultation
from consult.dates import when
from consult.report import headline, plan_headline, report
from consult.report.rows import Row
from consult.trade import Voice

NARROWEST = 24


def write_report(
    found: Consultation,
    voice: Voice,
    width: int,
    say: Callable[[str], object],
    *,
    why: bool = False,
    swatches: Callable[[Row], object] | None = None,
) -> None:
    """Hand on verdict and plan line by line; `why` adds reason and source, `swatches` draws a row's colours."""

    def told(text: str, first: str, then: str) -> None:
        say(fill(text, max(width, NARROWEST), initial_indent=first, subsequent_indent=then))

    told(headline(found), "VERDICT  ", " " * 9)
    told(plan_headline(found), " " * 9, " " * 9)
    told(f"judged as of {when(found.now)}", " " * 9, " " * 9)
    for block in report(found, voice):
        say(f"\n{block.title.upper()}")
        for row in block.rows:
            told(row.say, "  ", "    ")
            if row.swatches and swatches:
                swatches(row)
            if why or row.verdict is not None:
                told(row.because, "      -> ", " " * 9)
            if why:
                told(f"[{row.cited}]", " " * 9, " " * 9)
