"""Minutes on the hair. Minute 0 is the end of application, and the leaflet is never exceeded."""

from dataclasses import dataclass

from consult.plan.brief import Brief
from consult.sources import COMMON_PRACTICE, Number

CHECK_EVERY = Number(5, "min", COMMON_PRACTICE)


@dataclass(frozen=True)
class Development:
    """Minutes of the new growth, and from when to when the lengths join; all from minute 0."""

    new_growth: int
    lengths_from: int
    end: int


def full_minutes(brief: Brief) -> int:
    """The leaflet's own minutes: for white hair when white is covered, else for new growth.

    Never longer because there is much white, and always within the leaflet's shortest and longest. Where
    no white is covered a strand test that came out as wanted sets the time within the same bounds.
    """
    if brief.covers_white:
        wanted = brief.minutes_white
    else:
        wanted = brief.minutes_new_growth if brief.strand_minutes is None else brief.strand_minutes
    return min(max(wanted, brief.minutes_min), brief.minutes_max)


def develop(brief: Brief, *, refresh: bool) -> Development:
    """The clock for new growth with or without a refresh of the lengths.

    The lengths join when the new growth has had its minutes; where the leaflet's longest time leaves
    no room behind them, they join earlier, so that the new growth never passes the longest time.
    """
    full = full_minutes(brief)
    if not refresh:
        return Development(full, full, full)
    joins = min(full, brief.minutes_max - brief.minutes_refresh)
    return Development(full, joins, joins + brief.minutes_refresh)


def checks(start: int, end: int, every: int = int(CHECK_EVERY)) -> tuple[int, ...]:
    """Check points between two minutes, the last one at the end."""
    return (*range(start + every, end, every), end)
