"""What is read, line by line: a row with its reason and sources, and blocks of them."""

from msgspec import Struct

from consult.gates.verdict import Verdict
from consult.plan.lines import Line
from consult.sources import cite
from consult.trade import Voice


class Row(Struct, frozen=True):
    """One line to read; `because` and `sources` open behind it. `verdict` marks a finding.

    `paths` are the answers it rests on, where they are known without looking for them.
    `swatches` are (word, #rrggbb) pairs drawn before the text; each colour has its word.
    """

    say: str
    because: str
    sources: tuple[str, ...]
    verdict: Verdict | None = None
    rule: str = ""
    swatches: tuple[tuple[str, str], ...] = ()
    paths: tuple[str, ...] = ()

    @property
    def cited(self) -> str:
        return "; ".join(cite(source) for source in self.sources)

    @property
    def cited_shortly(self) -> str:
        """The first two sources; the record names them all."""
        more = len(self.sources) - 2
        shown = "; ".join(cite(source) for source in self.sources[:2])
        return f"{shown}; and {more} more in the record" if more > 0 else shown


class Block(Struct, frozen=True):
    title: str
    rows: tuple[Row, ...]


def line_rows(lines: tuple[Line, ...], voice: Voice) -> tuple[Row, ...]:
    return tuple(Row(told.say.in_voice(voice), told.because.in_voice(voice), told.sources) for told in lines)
