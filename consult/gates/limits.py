"""What findings demand of a plan, beside their words: typed effects, and their union, the limits.

A rule carries an `Effect`; the judgement joins the effects of its findings into `Limits`, strictest wins.
A demand names the rules that make it, so that the plan can name them as its reason.
"""

from collections.abc import Iterable
from typing import Generic, Literal, TypeVar

from msgspec import Struct, field

from consult.trade import Phrase, Stretch

T = TypeVar("T")
Time = Literal["shortest", "longest"]


class Effect(Struct, frozen=True):
    """What one rule demands of the plan. Nothing is demanded where a field has its default.

    developer_at_most  percent of the developer in the bottle
    time               the leaflet's shortest or longest time
    leave              stretches of the strand that get no colour
    no_lift            nothing that lightens
    off_scalp          no colour on the stretch at the scalp
    strand_test        a strand test that held, before anything is mixed
    licensed           by a licensed colourist or a trainee under supervision only
    test_hours         hours from allergy alert test to colour
    before, during, after  a step more, before mixing, while the colour is on, after the rinse
    """

    developer_at_most: float | None = None
    time: Time | None = None
    leave: tuple[Stretch, ...] = ()
    no_lift: bool = False
    off_scalp: bool = False
    strand_test: bool = False
    licensed: bool = False
    test_hours: float | None = None
    before: Phrase | None = None
    during: Phrase | None = None
    after: Phrase | None = None


class Demand(Struct, Generic[T], frozen=True):
    """One demand: the strictest value, and the ids of the rules that ask for it."""

    value: T
    rules: tuple[str, ...]


class Limits(Struct, frozen=True):
    """The union of what all findings demand; None or empty where nothing is demanded.

    Of two times the shortest wins; of two strengths the weaker, of two waits the longer.
    """

    developer_at_most: Demand[float] | None = None
    time: Demand[Time] | None = None
    leave: tuple[Demand[Stretch], ...] = ()
    no_lift: Demand[bool] | None = None
    off_scalp: Demand[bool] | None = None
    strand_test: Demand[bool] | None = None
    licensed: Demand[bool] | None = None
    test_hours: Demand[float] | None = None
    before: tuple[Demand[Phrase], ...] = ()
    during: tuple[Demand[Phrase], ...] = ()
    after: tuple[Demand[Phrase], ...] = ()

    def leaves(self, stretch: Stretch) -> Demand[Stretch] | None:
        """The demand to keep colour off a stretch, if there is one."""
        return next((demand for demand in self.leave if demand.value is stretch), None)


NO_EFFECT, NO_LIMITS = Effect(), Limits()


class _Asked(Struct, Generic[T]):
    """Who asks for which value of one kind of demand."""

    by: dict[T, list[str]] = field(default_factory=dict)

    def add(self, value: T | None, rule: str) -> None:
        if value is not None:
            self.by.setdefault(value, []).append(rule)

    def all(self) -> tuple[Demand[T], ...]:
        return tuple(Demand(value, tuple(rules)) for value, rules in self.by.items())

    def strictest(self, order: "Iterable[T]") -> Demand[T] | None:
        """The first of the values in `order` that somebody asks for."""
        return next((Demand(value, tuple(self.by[value])) for value in order if value in self.by), None)


def union(effects: Iterable[tuple[str, Effect]]) -> Limits:
    """The limits of (rule id, effect) pairs: strictest wins, whatever their order."""
    strengths, waits = _Asked[float](), _Asked[float]()
    times, leave = _Asked[Time](), _Asked[Stretch]()
    yes = {name: _Asked[bool]() for name in ("no_lift", "off_scalp", "strand_test", "licensed")}
    steps = {name: _Asked[Phrase]() for name in ("before", "during", "after")}
    for rule, effect in sorted(effects, key=lambda pair: pair[0]):
        strengths.add(effect.developer_at_most, rule)
        waits.add(effect.test_hours, rule)
        times.add(effect.time, rule)
        for stretch in effect.leave:
            leave.add(stretch, rule)
        for name, asked in yes.items():
            asked.add(getattr(effect, name) or None, rule)
        for name, step in steps.items():
            step.add(getattr(effect, name), rule)
    return Limits(
        developer_at_most=strengths.strictest(sorted(strengths.by)),
        time=times.strictest(("shortest", "longest")),
        leave=leave.all(),
        no_lift=yes["no_lift"].strictest([True]),
        off_scalp=yes["off_scalp"].strictest([True]),
        strand_test=yes["strand_test"].strictest([True]),
        licensed=yes["licensed"].strictest([True]),
        test_hours=waits.strictest(sorted(waits.by, reverse=True)),
        before=steps["before"].all(),
        during=steps["during"].all(),
        after=steps["after"].all(),
    )
