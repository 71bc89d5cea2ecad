"""A sentence of a plan: what, why and on whose word, in both voices."""

from msgspec import Struct

from consult.sources import COMMON_PRACTICE
from consult.trade import Phrase


class Line(Struct, frozen=True):
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
