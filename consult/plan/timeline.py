"""The time line read off the applications: bars on one scale, and what their lengths ask for."""

import math
from dataclasses import dataclass

from consult.plan.application import Act, Application, Applications, Touch
from consult.plan.lines import Line, line
from consult.plan.settings import WORKING_LIMIT
from consult.products.kinds import Auxiliary
from consult.sources import ASSUMPTION, COMMON_PRACTICE

BAR_WIDTH = 40


def working_minutes(applications: Applications) -> int:
    """Minutes of the longest round of painting."""
    return max((a.on_by - a.start for a in applications if a.act is Act.PAINT), default=0)


def scale(applications: Applications) -> tuple[int, int]:
    """(first, last) minute of all applications."""
    return min(a.start for a in applications), max(a.until for a in applications)


@dataclass(frozen=True)
class Bar:
    """One section of one application on the common scale of BAR_WIDTH cells."""

    application: Application
    touch: Touch
    cells: str


def bars(applications: Applications) -> tuple[Bar, ...]:
    """A bar a section: put on (:), on the hair before the leaflet's clock (-), on the clock (=)."""
    start, end = scale(applications)
    return tuple(Bar(a, touch, _cells(a, touch, start, end)) for a in applications for touch in a.touches)


def _cells(application: Application, touch: Touch, start: int, end: int) -> str:
    width = BAR_WIDTH / max(1, end - start)
    cells = []
    for cell in range(BAR_WIDTH):
        minute = start + (cell + 0.5) / width
        if minute < touch.start or minute >= application.until:
            cells.append(".")
        elif minute < touch.end:
            cells.append(":")
        else:
            cells.append("-" if minute < application.on_by else "=")
    return "".join(cells)


def timeline_lines(applications: Applications) -> tuple[Line, ...]:
    """What the clock asks for: rinsing in order, and further bowls or hands for a long round."""
    main = next(a for a in applications if not isinstance(a.bowl.product, Auxiliary))
    assert not isinstance(main.bowl.product, Auxiliary)
    longest = main.bowl.product.leaflet.longest
    working = working_minutes(applications)
    ahead = main.touches[-1].end - main.touches[0].end
    lines = [
        line(
            f"Application takes about {working} minutes; the first section is on {ahead} minutes longer than the "
            "last. Rinse in the order of application.",
            f"The leaflet's {longest} minutes at most are counted from the end of application.",
            (COMMON_PRACTICE, ASSUMPTION),
        )
    ]
    if working > WORKING_LIMIT and main.bowl.product.works_in_the_bowl:
        lines.append(
            line(
                f"That is long for one bowl: mix {math.ceil(working / WORKING_LIMIT)} bowls one after the other, "
                "let somebody help, or take fewer and thicker partings where no white shows.",
                f"More than about {WORKING_LIMIT:g} minutes from one bowl: the mix has begun to work before it "
                "is on the hair.",
            )
        )
    return tuple(lines)
