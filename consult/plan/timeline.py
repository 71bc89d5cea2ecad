"""The time line read off the applications: bars on one scale, and what their lengths ask for."""

import math

from msgspec import Struct

from consult.plan.application import Act, Application, Applications, Touch
from consult.plan.contact import clock_starts, contact_of
from consult.plan.lines import Line, line
from consult.plan.rounds import PACE_RANGE
from consult.plan.targets import in_a_sentence, name_of
from consult.products.kinds import Auxiliary, Filler, Leaflet, Product
from consult.sources import ASSUMPTION, COMMON_PRACTICE

BAR_WIDTH = 40


def working_minutes(applications: Applications) -> int:
    """Minutes of the longest round of painting."""
    return max((a.on_by - a.start for a in applications if a.act is Act.PAINT), default=0)


def scale(applications: Applications) -> tuple[int, int]:
    """(first, last) minute of all applications."""
    return min(a.start for a in applications), max(a.until for a in applications)


class Bar(Struct, frozen=True):
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
        if minute < touch.start or minute >= application.off(touch):
            cells.append(".")
        elif minute < touch.end:
            cells.append(":")
        else:
            cells.append("-" if minute < clock_starts(application, touch) else "=")
    return "".join(cells)


def timeline_lines(applications: Applications) -> tuple[Line, ...]:
    """What the clock asks for: how long putting on takes, how the leaflet counts, and fresh bowls on the way."""
    return (
        *(_round_line(a) for a in applications if a.act is Act.PAINT),
        *(told for a in applications if (told := _fresh_bowls(a))),
    )


def _round_line(application: Application) -> Line:
    product = application.bowl.product
    assert not isinstance(product, Auxiliary)
    on_for, contact = application.on_by - application.start, contact_of(application)
    least, most = (max(1, round(on_for * (1 + sign * PACE_RANGE))) for sign in (-1, 1))
    minutes = "minute" if on_for == 1 else "minutes"
    return line(
        f"{_doing(application)} takes about {on_for} {minutes} ({least} to {most}). The first hair has it on "
        f"{contact.longest} minutes in the end, the last {contact.shortest}.",
        f"{_READINGS[product.leaflet.counted_from].format(longest=product.leaflet.longest)}{_total(product)}"
        f"{_slack(application, product.leaflet)}",
        (COMMON_PRACTICE, ASSUMPTION),
    )


_READINGS = {
    "the end of application": "The leaflet's {longest} minutes at most are counted from the end of application.",
    "the first touch": "The leaflet's {longest} minutes at most are counted from the first touch.",
    "it does not say": "The leaflet does not say from when its {longest} minutes at most are counted: they are "
    "counted from the end of application here, and first and last hair are kept close together.",
}


def _doing(application: Application) -> str:
    filler = isinstance(application.bowl.product, Filler)
    return "Putting on the filler" if filler else f"Colouring {in_a_sentence(name_of(application.target))}"


def _total(product: Product | Filler) -> str:
    total = product.leaflet.total
    return "" if total is None else f" From the first touch to the rinse it allows {total}."


def _slack(application: Application, leaflet: Leaflet) -> str:
    """The longest that putting on may take, where the leaflet's clock runs meanwhile."""
    if leaflet.counted_from != "the first touch" or any(t.off is not None for t in application.touches):
        return ""
    return (
        f" If putting on takes more than {leaflet.longest - leaflet.shortest} minutes, stop where you are and rinse "
        f"{leaflet.longest} minutes after the first touch."
    )


def _fresh_bowls(application: Application) -> Line | None:
    product = application.bowl.product
    if isinstance(product, Auxiliary) or not product.works_in_the_bowl:
        return None
    on_for, life = application.on_by - application.start, product.leaflet.mix_life
    if application.act is not Act.PAINT or on_for <= life:
        return None
    return line(
        f"{_doing(application)} is long for one bowl: mix {math.ceil(on_for / life)} bowls one after the other.",
        f"A mix is used for {life} minutes at most: after that it has worked before it is on the hair.",
    )
