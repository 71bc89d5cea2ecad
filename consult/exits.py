"""The program's exit codes. 128 and the number of a signal stand for one that ended it."""

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from consult.plan.types import Plan

PLAN_MADE: Final = 0
FAILED: Final = 1
"""The program failed, or was left without saving."""
BAD_INPUT: Final = 2
HELD: Final = 3
STOPPED: Final = 4
UNFINISHED: Final = 5
"""Questions asked line by line ended before the last; what was answered is kept."""
INTERRUPTED: Final = 130


def of_plan(plan: "Plan") -> int:
    """What a plan ends with."""
    from consult.plan.types import Made, Stopped

    if isinstance(plan, Stopped):
        return STOPPED
    return PLAN_MADE if isinstance(plan, Made) else HELD
