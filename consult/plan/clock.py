"""Minutes on the hair. The leaflet sets them, and is never exceeded."""

from consult.plan.case import Case
from consult.products.kinds import Leaflet, Product
from consult.sources import COMMON_PRACTICE, Number

CHECK_EVERY = Number(5, "min", COMMON_PRACTICE)


def full_minutes(case: Case, product: Product) -> int:
    """The minutes that are aimed at, as the leaflet counts them.

    The time of a strand test that came out as wanted, else the leaflet's own: for white hair when white is
    covered, else for new growth. Never longer because there is much white. A finding may demand the shortest or
    the longest time; all within the leaflet's bounds.
    """
    leaflet = product.leaflet
    demanded = case.limits.time
    if demanded:
        return leaflet.shortest if demanded.value == "shortest" else leaflet.longest
    wanted = leaflet.white if case.covers_white else leaflet.new_growth
    if case.tests.strand_minutes is not None:
        wanted = case.tests.strand_minutes
    return min(max(wanted, leaflet.shortest), leaflet.longest)


def room_after(leaflet: Leaflet, on_for: int) -> int:
    """The most minutes from the end of an application of `on_for` minutes to its rinse."""
    by_clock = leaflet.longest - (on_for if leaflet.counted_from == "the first touch" else 0)
    return by_clock if leaflet.total is None else min(by_clock, leaflet.total - on_for)


def minutes_after(case: Case, product: Product, on_for: int) -> int:
    """Minutes from the end of an application of `on_for` minutes to its rinse.

    The last hair gets the leaflet's shortest time at least; where that passes the room there is, a check says so.
    """
    leaflet, full = product.leaflet, full_minutes(case, product)
    wanted = full - on_for if leaflet.counted_from == "the first touch" else full
    return max(min(wanted, room_after(leaflet, on_for)), leaflet.shortest)


def refresh_joins(case: Case, product: Product, on_for: int) -> int:
    """The minute at which the lengths join for a refresh.

    When the new growth has had its minutes; where the leaflet leaves no room behind them, earlier, so that the
    new growth never passes the longest time.
    """
    room = room_after(product.leaflet, on_for)
    return max(0, min(minutes_after(case, product, on_for), room - product.leaflet.refresh))


def checks(start: int, end: int, every: int = int(CHECK_EVERY)) -> tuple[int, ...]:
    """Check points between two minutes, the last one at the end."""
    return (*range(start + every, end, every), end)
