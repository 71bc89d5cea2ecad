"""A sentence of a plan: what, why and on whose word, in both voices."""

from dataclasses import dataclass

from consult.sources import COMMON_PRACTICE
from consult.trade import Phrase


@dataclass(frozen=True)
class Line:
    """What is told, its reason, its source ids, and the rules that demand it, if any do."""

    say: Phrase
    because: Phrase
    sources: tuple[str, ...]
    rules: tuple[str, ...] = ()


def line(
    say: str,
    because: str,
    sources: tuple[str, ...] = (COMMON_PRACTICE,),
    *,
    plain: str = "",
    plain_because: str = "",
    rules: tuple[str, ...] = (),
) -> Line:
    """A line whose trade words do for everybody unless plain ones are given."""
    return Line(Phrase(say, plain or say), Phrase(because, plain_because or because), sources, rules)
