"""The plans of the demo clients, as the tests of the plan ask for them."""

from collections.abc import Callable, Iterable
from typing import Any

from msgspec.structs import replace

from consult.head.bands import Area, Band
from consult.plan.case import Case
from consult.plan.lines import Line
from consult.plan.steps import Step
from consult.plan.types import Held, Made, Plan
from consult.trade import Zone
from tests.demo import judged


def made(name: str, **changes: Any) -> Made:
    """The plan of a demo client that must come about; `hair__length_cm=20` changes one answer."""
    plan = judged(name, **changes).plan
    assert isinstance(plan, Made), reason(plan)
    return plan


def held(name: str, **changes: Any) -> Held:
    """The hold of a demo client that must come about."""
    plan = judged(name, **changes).plan
    assert isinstance(plan, Held), reason(plan)
    return plan


def reason(plan: Plan) -> str:
    """What a plan came to, for the message of a failing test."""
    why = [f.rule for f in getattr(plan, "findings", ())] + list(getattr(plan, "missing", ()))
    return f"{type(plan).__name__}: {', '.join(why)}"


def clocked(plan: Made) -> list[Step]:
    """The steps on the clock."""
    return [step for step in plan.steps if step.clock]


def said(lines: Iterable[Line | Step]) -> str:
    """Everything that is said, in trade words."""
    return " ".join(line.say.trade for line in lines)


def rules(plan: Held) -> set[str]:
    """The ids of what holds a plan."""
    return {finding.rule for finding in plan.findings}


def with_bands(case: Case, change: Callable[[Zone, Band], Band]) -> Case:
    """The same case on a head whose bands are changed, zone by zone."""
    areas = tuple(
        Area((zone,), replace(area.strand, bands=tuple(change(zone, band) for band in area.strand.bands)))
        for area in case.head.areas
        for zone in area.zones
    )
    return replace(case, head=replace(case.head, areas=areas))
