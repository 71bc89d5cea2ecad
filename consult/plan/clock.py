"""Minutes on the hair. The leaflet sets them, and is never exceeded."""

from consult.plan.case import Case
from consult.products.kinds import Product
from consult.sources import COMMON_PRACTICE, Number

CHECK_EVERY = Number(5, "min", COMMON_PRACTICE)


def full_minutes(case: Case, product: Product) -> int:
    """The leaflet's own minutes: for white hair when white is covered, else for new growth.

    Never longer because there is much white. Where no white is covered a strand test that came out as wanted
    sets the time. A finding may demand the shortest or the longest time; all within the leaflet's bounds.
    """
    leaflet = product.leaflet
    demanded = case.limits.time
    if demanded:
        return leaflet.shortest if demanded.value == "shortest" else leaflet.longest
    if case.covers_white:
        wanted = leaflet.white
    else:
        wanted = leaflet.new_growth if case.tests.strand_minutes is None else case.tests.strand_minutes
    return min(max(wanted, leaflet.shortest), leaflet.longest)


def refresh_joins(case: Case, product: Product) -> int:
    """The minute at which the lengths join for a refresh.

    When the new growth has had its minutes; where the leaflet's longest time leaves no room behind them,
    earlier, so that the new growth never passes the longest time.
    """
    return min(full_minutes(case, product), product.leaflet.longest - product.leaflet.refresh)


def checks(start: int, end: int, every: int = int(CHECK_EVERY)) -> tuple[int, ...]:
    """Check points between two minutes, the last one at the end."""
    return (*range(start + every, end, every), end)
