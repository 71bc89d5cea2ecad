"""One rule: when it fires, what it says, and what it demands of the plan."""

from collections.abc import Iterator

from msgspec import Struct

from consult.gates.conditions import AllOf, AnyEntry, AnyOf, Comparison, Condition, Not
from consult.gates.facts import FACTS
from consult.gates.limits import NO_EFFECT, Effect
from consult.gates.verdict import Verdict


class Until(Struct, frozen=True):
    """The end of a wait: a computed moment, or days or months after a date or after now."""

    words: str
    fact: str | None = None
    field: str | None = None
    days: int = 0
    months: int = 0


class Rule(Struct, frozen=True):
    """One rule. `unsure` is the verdict when it fires only because an answer is "not sure".

    kinds   the classes of product that it looks at; all when empty
    effect  what it demands of the plan
    """

    id: str
    when: Condition
    verdict: Verdict
    unsure: Verdict
    until: Until | None
    trade: str
    plain: str
    remedy: str
    sources: tuple[str, ...]
    kinds: tuple[str, ...] = ()
    effect: Effect = NO_EFFECT

    @property
    def paths(self) -> frozenset[str]:
        """The questions it rests on, by itself, by its facts or by the end of its wait."""
        tests = list(comparisons(self.when))
        facts = [test.fact for test in tests if test.fact]
        read = {test.field for test in tests if test.field}
        if self.until:
            facts += [self.until.fact] if self.until.fact else []
            read |= {self.until.field} if self.until.field else set()
        return frozenset(read).union(*(FACTS[fact].reads for fact in facts))

    def looks_at(self, known_class: str | None) -> bool:
        """False when the class of product is known and the rule is for others."""
        return not self.kinds or known_class is None or known_class in self.kinds


def comparisons(condition: Condition) -> Iterator[Comparison]:
    """Every comparison in a condition, those on list entries included."""
    match condition:
        case Comparison():
            yield condition
        case AllOf() | AnyOf():
            for part in condition.parts:
                yield from comparisons(part)
        case Not():
            yield from comparisons(condition.part)
        case AnyEntry():
            yield from comparisons(condition.where)
