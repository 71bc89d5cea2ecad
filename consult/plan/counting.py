"""The same plan on another clock: minutes from the first touch, as a watch at the basin shows them."""

from msgspec.structs import replace

from consult.plan.steps import plan_steps
from consult.plan.timeline import scale
from consult.plan.types import Made


def from_first_touch(plan: Made) -> Made:
    """The plan with minute 0 at its first touch, so that no minute is negative; everything in it agrees with that."""
    start, _ = scale(plan.applications)
    applications = tuple(application.later(-start) for application in plan.applications)
    mixes = tuple(replace(mix, minute=mix.minute - start) for mix in plan.mixes)
    steps = plan_steps(plan.case, applications, mixes, plan.working, plan.reasons)
    return replace(plan, applications=applications, mixes=mixes, steps=steps)
