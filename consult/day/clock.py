"""How much time has passed, whatever became of the computer meanwhile.

Two clocks are read together: the time of day, which may be set, and the machine's own count since it was started,
which may not count sleep and begins anew at a restart. Of what the two say the longer time counts: hair that had its
minutes already must never be given them a second time.
"""

import time
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from msgspec import Struct

from consult.sources import ASSUMPTION, Number

TOLD_FROM = Number(5, "s by which the two clocks may differ before it is told", ASSUMPTION)
_BOOT_ID: Final = Path("/proc/sys/kernel/random/boot_id")
_COUNTS_SLEEP: Final = getattr(time, "CLOCK_BOOTTIME", None)


class Reading(Struct, frozen=True):
    """Both clocks at one moment. utc: seconds since 1970; up: seconds counted by the machine; boot: which of its
    starts that count belongs to, empty where the system does not say."""

    utc: float
    up: float
    boot: str


class Point(Struct, frozen=True):
    """A moment of a day. utc: seconds since 1970; lasted: seconds counted since the day's first reading, at least
    so many; restarts: how often the machine was started anew since then."""

    utc: float
    lasted: float
    restarts: int = 0


def read_clock() -> Reading:
    """Both clocks now."""
    up = time.monotonic() if _COUNTS_SLEEP is None else time.clock_gettime(_COUNTS_SLEEP)
    return Reading(time.time(), up, _boot())


def _boot() -> str:
    try:
        return _BOOT_ID.read_text("ascii").strip()
    except (OSError, ValueError):
        return ""


def points(readings: Iterable[Reading]) -> tuple[Point, ...]:
    """Readings in the order in which they were taken, as points of one day.

    Between two starts of the machine nothing is counted but what the second has counted: the least that passed.
    """
    found: list[Point] = []
    lasted, restarts, before = 0.0, 0, None
    for reading in readings:
        if before is not None:
            same = reading.boot == before.boot and reading.up >= before.up
            lasted += reading.up - before.up if same else reading.up
            restarts += not same
        before = reading
        found.append(Point(reading.utc, lasted, restarts))
    return tuple(found)


def elapsed(since: Point, now: Point) -> float:
    """Seconds from one point to a later one: the longer of what the two clocks say."""
    return max(now.utc - since.utc, now.lasted - since.lasted, 0.0)


def ahead(since: Point, now: Point) -> float:
    """Seconds by which the time of day has gone further than the machine's count; negative when it was set back."""
    return (now.utc - since.utc) - (now.lasted - since.lasted)
