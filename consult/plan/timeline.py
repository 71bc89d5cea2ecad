"""The clock, simulated: when each section gets product and how long it is on, at every minute.

Minute 0 is the end of application, from which the leaflet counts. Application lies before it, in
negative minutes. `clock` is the time the leaflet counts, `contact` the true time on the hair.
"""

import math
from dataclasses import dataclass

from consult.plan.brief import Brief
from consult.plan.clock import develop, full_minutes
from consult.plan.sections import parting_cm, section_order
from consult.plan.settings import WORKING_LIMIT, Settings
from consult.plan.types import Approach, Line
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

HEAD_ARC_CM = Number(52, "cm of partings over the whole head", ASSUMPTION)
FINER_QUICKER = Number(0.6, "of a parting's time goes with its thickness", ASSUMPTION)
SLOWER_A_CM = Number(0.01, "times slower a parting for each cm of length that is coloured", ASSUMPTION)
LONGEST_ALONE = Number(60, "min of application for one person at home", ASSUMPTION)
LONGEST_LAG = Number(20, "min that the lengths run ahead", COMMON_PRACTICE)


@dataclass(frozen=True)
class Exposure:
    """One stretch of one section: minutes of application and of rinsing, and where its clock starts."""

    section: str
    stretch: str
    applied_from: int
    applied_to: int
    clock_from: int
    rinsed_at: int

    @property
    def clock(self) -> int:
        """Minutes as the leaflet counts them."""
        return self.rinsed_at - self.clock_from

    @property
    def contact(self) -> int:
        """The longest true contact: of the first hair touched."""
        return self.rinsed_at - self.applied_from

    def at(self, minute: int) -> int:
        """Minutes of true contact of its first hair at a minute of the clock; 0 before it is touched."""
        return max(0, min(minute, self.rinsed_at) - self.applied_from)


@dataclass(frozen=True)
class Timeline:
    """Every exposure in the order of application; `working` are the minutes of the longest round."""

    exposures: tuple[Exposure, ...]
    working: int
    waiting: int
    two_stages: bool
    lines: tuple[Line, ...]

    @property
    def bowls(self) -> int:
        """Bowls mixed one after the other, so that none is in use for too long."""
        return max(1, math.ceil(self.working / WORKING_LIMIT))


def section_minutes(brief: Brief, settings: Settings, *, whole_length: bool) -> int:
    """Minutes one section takes: its partings at this person's pace, rounded up to whole minutes."""
    arc = HEAD_ARC_CM / settings.sections
    width = parting_cm(brief)
    partings = math.ceil(arc / width - 1e-9)
    slower = 1 + SLOWER_A_CM * brief.strand.length_cm if whole_length else 1.0
    each = settings.pace(brief.at_home) * (1 - FINER_QUICKER + FINER_QUICKER * width)
    seconds = partings * each * slower
    return max(1, math.ceil(seconds / 60 - 1e-9))


def _round_minutes(sections: list[str], each: int, hands: int) -> int:
    """Minutes of one round over all sections; two people do two sections at a time."""
    return each * math.ceil(len(sections) / hands)


def _round(
    sections: list[str], stretch: str, start: int, each: int, rinse: int, hands: int
) -> list[Exposure]:
    """One round over all sections; the clock of the stretch starts when the round ends."""
    end = start + _round_minutes(sections, each, hands)
    return [
        Exposure(name, stretch, start + i // hands * each, start + (i // hands + 1) * each, end, rinse)
        for i, name in enumerate(sections)
    ]


def simulate(brief: Brief, approach: Approach, settings: Settings) -> Timeline:
    """The time line of an approach (never HOLD)."""
    sections = section_order(brief, settings)
    if approach in (Approach.NEW_GROWTH, Approach.REFRESH):
        return _roots(brief, approach, sections, settings)
    if approach is Approach.LENGTHS_FIRST:
        return _lengths_first(brief, sections, settings)
    return _whole(brief, sections, settings, two_stages=True)


def _roots(brief: Brief, approach: Approach, sections: list[str], settings: Settings) -> Timeline:
    each = section_minutes(brief, settings, whole_length=False)
    clock = develop(brief, refresh=approach is Approach.REFRESH)
    working = _round_minutes(sections, each, brief.hands)
    exposures = _round(sections, "new growth", -working, each, clock.end, brief.hands)
    if approach is Approach.REFRESH:
        joins = clock.lengths_from
        exposures += [Exposure(name, "lengths", joins, joins, joins, clock.end) for name in sections]
    return _timeline(exposures, working, 0, brief)


def _whole(brief: Brief, sections: list[str], settings: Settings, *, two_stages: bool) -> Timeline:
    each = section_minutes(brief, settings, whole_length=True)
    working = _round_minutes(sections, each, brief.hands)
    exposures = _round(sections, "scalp to ends", -working, each, full_minutes(brief), brief.hands)
    return _timeline(exposures, working, 0, brief, two_stages=two_stages)


def _lengths_first(brief: Brief, sections: list[str], settings: Settings) -> Timeline:
    """Lengths, a wait, roots. The lengths' clock runs on while the roots are put on and develop."""
    each = section_minutes(brief, settings, whole_length=True)
    each_root = section_minutes(brief, settings, whole_length=False)
    roots, full = _round_minutes(sections, each_root, brief.hands), full_minutes(brief)
    room = brief.minutes_max - full - roots
    if room < 0:
        return _whole(brief, sections, settings, two_stages=False)
    waiting = min(room, max(0, int(LONGEST_LAG) - roots))
    working = _round_minutes(sections, each, brief.hands)
    rinse = waiting + roots + full
    exposures = [
        *_round(sections, "lengths", -working, each, rinse, brief.hands),
        *_round(sections, "roots", waiting, each_root, rinse, brief.hands),
    ]
    return _timeline(exposures, working, waiting, brief)


def _timeline(
    exposures: list[Exposure], working: int, waiting: int, brief: Brief, *, two_stages: bool = True
) -> Timeline:
    return Timeline(
        tuple(exposures), working, waiting, two_stages, tuple(_warnings(exposures, working, brief))
    )


def _warnings(exposures: list[Exposure], working: int, brief: Brief) -> list[Line]:
    first, last = exposures[0], [e for e in exposures if e.stretch == exposures[0].stretch][-1]
    ahead = last.applied_to - first.applied_to
    lines = [
        Line(
            f"Application takes about {working} minutes; the first section is on {ahead} minutes longer than the "
            "last. Rinse in the order of application.",
            f"The leaflet's {brief.minutes_max} minutes at most are counted from the end of application.",
            (COMMON_PRACTICE, ASSUMPTION),
        )
    ]
    if working > WORKING_LIMIT:
        lines.append(
            Line(
                f"That is long for one bowl: mix {math.ceil(working / WORKING_LIMIT)} bowls one after the other, "
                "let somebody help, or take fewer and thicker partings where no white shows.",
                f"More than about {WORKING_LIMIT:g} minutes from one bowl: the mix has begun to work before it "
                "is on the hair.",
                (COMMON_PRACTICE,),
            )
        )
    return lines


BAR_WIDTH = 40


def bar(exposure: Exposure, start: int, end: int) -> str:
    """The exposure as a bar from `start` to `end`: put on (:), working before the clock (-), on it (=)."""
    scale = BAR_WIDTH / max(1, end - start)
    cells = []
    for cell in range(BAR_WIDTH):
        minute = start + (cell + 0.5) / scale
        if minute < exposure.applied_from or minute >= exposure.rinsed_at:
            cells.append(".")
        elif minute < exposure.applied_to:
            cells.append(":")
        else:
            cells.append("-" if minute < exposure.clock_from else "=")
    return "".join(cells)
