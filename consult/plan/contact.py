"""Whether every hair keeps within the leaflet's minutes, by the reading of the clock that applies.

Counted from the first touch, no hair may have the mix on longer than the longest time, and none shorter than
the shortest. Counted from the end of application, the minutes begin when the last hair has it; a total limit
counts from the first touch all the same. A leaflet that does not say is read by the trade's habit, from the
end of application, but first and last hair are kept close together. Where sections are rinsed one after the
other, each counts by itself.
"""

from msgspec import Struct

from consult.plan.application import Act, Application, Applications, Touch
from consult.products.kinds import Auxiliary, Filler
from consult.sources import ASSUMPTION, Number

MOST_APART = Number(
    20, "min between first and last hair, where the leaflet does not say how it counts", ASSUMPTION
)


class Contact(Struct, frozen=True):
    """True minutes on the hair of one application: the first hair of the first section, the last of the last."""

    longest: int
    shortest: int


def contact_of(application: Application) -> Contact:
    """Minutes from touch to rinse of the hair that has it longest and of the hair that has it shortest."""
    return Contact(
        max(application.off(touch) - touch.start for touch in application.touches),
        min(application.off(touch) - touch.end for touch in application.touches),
    )


def clock_starts(application: Application, touch: Touch) -> int:
    """The minute from which a section's hair counts by its leaflet; that of the hair that has it longest."""
    product = application.bowl.product
    by = "the end of application" if isinstance(product, Auxiliary) else product.leaflet.counted_from
    if by == "the first touch":
        return touch.start
    return _last_hair(application, touch)


def counted(application: Application) -> int:
    """Minutes as the leaflet counts them, of the hair that has it longest."""
    return max(application.off(t) - clock_starts(application, t) for t in application.touches)


def fits(applications: Applications) -> bool:
    """Every hair of every application keeps within its leaflet."""
    return all(misses_by(application) <= 0 for application in applications)


def misses_by(application: Application) -> int:
    """Minutes by which the worst hair misses its leaflet's limits; 0 or less when all keep within them."""
    product = application.bowl.product
    if isinstance(product, Auxiliary | Filler):
        return 0
    leaflet, contact = product.leaflet, contact_of(application)
    misses = [counted(application) - leaflet.longest]
    if application.act is not Act.COMB_THROUGH:
        # The last hair's minutes; only a refresh is shorter on purpose.
        last = min(application.off(touch) - _last_hair(application, touch) for touch in application.touches)
        misses.append(leaflet.shortest - last)
    if leaflet.total is not None:
        misses.append(contact.longest - leaflet.total)
    if leaflet.counted_from == "it does not say":
        misses.append(contact.longest - contact.shortest - int(MOST_APART))
    return max(misses)


def _last_hair(application: Application, touch: Touch) -> int:
    """When the last hair that is rinsed together with a section has it: the section's own, or the whole round's."""
    return application.on_by if touch.off is None else touch.end
