"""How a hand goes over the head: sections, partings, and the minutes they take.

A parting is lifted, and then painted: the first centimetres with the brush, what is beyond them drawn out.
So the time grows with what is parted and with what is painted. It is an estimate with its range, and a
person's own measured time replaces it.
"""

import math
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from consult.plan.application import Touch
from consult.plan.case import Case
from consult.plan.settings import Settings
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS, Stretch, Zone

PARTING_CM = Number(1.0, "cm", COMMON_PRACTICE)
PARTING_FINE_CM = Number(0.6, "cm", COMMON_PRACTICE)
PARTING_WIDE_CM = Number(1.5, "cm, where no white shows", COMMON_PRACTICE)
HEAD_ARC_CM = Number(52, "cm of partings over the whole head", ASSUMPTION)
FINER_QUICKER = Number(0.6, "of a parting's time goes with its thickness", ASSUMPTION)
# Together 21 s for 1.5 cm of new growth, so a trained hand's retouch takes 18 minutes, and 36 s for shoulder
# length, so a whole head takes half an hour: the 15 to 25 and the 20 to 30 minutes that are said to be usual.
LIFT_SECONDS = Number(12, "s to lift a parting of 1 cm, trained", ASSUMPTION)
PAINT_SECONDS = Number(6, "s a painted cm, trained", ASSUMPTION)
DRAW_SECONDS = Number(0.2, "s a cm that is drawn out beyond what is painted", ASSUMPTION)
PAINTED_CM = Number(3, "cm that are painted with the brush", ASSUMPTION)
CROP_CM = Number(5, "cm of hair, under which partings are brushed through and not lifted", ASSUMPTION)
CROP_QUICKER = Number(0.6, "of a parting's time on a crop", ASSUMPTION)
HOME_SLOWER = Number(1.6, "times a trained hand's time, alone at home", ASSUMPTION)
MEASURED_ON_CM = Number(1.5, "cm of new growth, on which a person's own pace is measured", ASSUMPTION)
PACE_RANGE = Number(0.3, "of the time either way", ASSUMPTION)
MUCH_WHITE = THRESHOLDS["much-white"] / 100


class Section(Struct, frozen=True):
    """A part of the head that is worked in one go, the zones it lies in, its half of the head."""

    name: str
    zones: tuple[Zone, ...]
    back: bool


_FRONT = (Zone.FRONT, Zone.TEMPLES)
_BACK = (Zone.CROWN, Zone.NAPE)
_FOUR_FRONT = (Section("front left", _FRONT, False), Section("front right", _FRONT, False))
_FIVE_FRONT = (
    Section("top front", (Zone.FRONT,), False),
    Section("front left", (Zone.TEMPLES,), False),
    Section("front right", (Zone.TEMPLES,), False),
)
_BOTH_BACK = (Section("back left", _BACK, True), Section("back right", _BACK, True))


def whitest(case: Case) -> Zone:
    """The zone with most white; among equals the one that shows most: front, temples, crown, nape."""
    return max(Zone, key=lambda zone: case.head.white[zone])


def section_order(case: Case, settings: Settings) -> tuple[Section, ...]:
    """Sections in the order they get colour: front first, or back first when hair is lightened."""
    front = _FIVE_FRONT if settings.sections == 5 else _FOUR_FRONT
    lightening = case.lift > 0 and not case.covers_white
    back_first = lightening or (case.covers_white and whitest(case) in _BACK)
    return (*_BOTH_BACK, *front) if back_first else (*front, *_BOTH_BACK)


class Working(Struct, frozen=True, dict=True):
    """Who goes over which sections, and how: with how many hands, and with wider partings where no white shows."""

    settings: Settings
    sections: tuple[Section, ...]
    hands: int
    wide: bool = False

    @cached_property
    def zones(self) -> tuple[Zone, ...]:
        """The zones of these sections, from the front to the nape."""
        mine = {zone for section in self.sections for zone in section.zones}
        return tuple(zone for zone in Zone if zone in mine)

    def half(self, *, back: bool) -> "Working":
        """The same on one half of the head."""
        return replace(self, sections=tuple(s for s in self.sections if s.back is back))

    def touches(self, case: Case, stretches: tuple[Stretch, ...], start: int = 0) -> tuple[Touch, ...]:
        """One round over the sections from minute `start`: each goes to the hand that is free first."""
        free = [0.0] * self.hands
        pace = self.pace(case, stretches)
        found = []
        for section in self.sections:
            hand = free.index(min(free))
            begun = free[hand]
            free[hand] += pace * self.partings(case, section) / 60
            end = max(round(free[hand]), round(begun) + 1)
            found.append(Touch(section.name, start + round(begun), start + end))
        return tuple(found)

    def minutes(self, case: Case, stretches: tuple[Stretch, ...]) -> int:
        """Minutes of one round."""
        return max(touch.end for touch in self.touches(case, stretches))

    def parting_cm(self, case: Case, section: Section) -> float:
        """Thickness of a section's partings: about 1 cm, finer on dense, resistant or mostly white hair."""
        hair = case.hair
        if hair.density == "high" or hair.white_resists or case.head.white_mean >= MUCH_WHITE:
            return float(PARTING_FINE_CM)
        shows_white = case.covers_white and any(case.head.white[zone] > 0 for zone in section.zones)
        return float(PARTING_WIDE_CM if self.wide and not shows_white else PARTING_CM)

    def partings(self, case: Case, section: Section) -> float:
        """The partings of a section, counted as so many of 1 cm by the time they take."""
        width = self.parting_cm(case, section)
        count = math.ceil(HEAD_ARC_CM / self.settings.sections / width - 1e-9)
        return count * (1 - FINER_QUICKER + FINER_QUICKER * width)

    def pace(self, case: Case, stretches: tuple[Stretch, ...]) -> float:
        """Seconds that one hand takes for one parting of 1 cm."""
        crop = float(CROP_QUICKER) if case.head.length_cm < CROP_CM else 1.0
        return parting_seconds(painted_cm(case, stretches)) * crop * slower(case, self.settings)


def slower(case: Case, settings: Settings) -> float:
    """How many times a trained hand's time this person takes: as they were timed, as their salon measured, else as
    is usual. Timed are the hands that work together, so each of them takes so many times as long."""
    if case.work.timed is not None:
        trained = HEAD_ARC_CM * parting_seconds(MEASURED_ON_CM) / 60
        return case.work.timed * case.work.hands / trained
    if settings.seconds_a_parting is not None:
        return settings.seconds_a_parting / parting_seconds(MEASURED_ON_CM)
    return float(HOME_SLOWER) if case.work.at_home else 1.0


def parting_seconds(painted: float) -> float:
    """Seconds a trained hand takes for one parting of 1 cm with so many cm to colour."""
    return (
        LIFT_SECONDS
        + PAINT_SECONDS * min(painted, PAINTED_CM)
        + DRAW_SECONDS * max(0.0, painted - PAINTED_CM)
    )


def painted_cm(case: Case, stretches: tuple[Stretch, ...]) -> float:
    """Centimetres of the longest strand that these stretches hold."""
    return sum(band.length_cm for band in case.head.areas[0].strand.bands if band.stretch in stretches)


def in_sections(case: Case, settings: Settings) -> Working:
    """The whole head, by whoever works."""
    return Working(settings, section_order(case, settings), case.work.hands)
