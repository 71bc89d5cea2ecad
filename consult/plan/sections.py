"""How the head is divided, where to begin, and how long a hand takes."""

import math
from dataclasses import dataclass

from consult.plan.application import Application, Applications, Touch, span
from consult.plan.case import Case
from consult.plan.lines import Line, line
from consult.plan.phrasing import percent
from consult.plan.settings import Settings
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS, Stretch, Zone

PARTING_CM = Number(1.0, "cm", COMMON_PRACTICE)
PARTING_FINE_CM = Number(0.6, "cm", COMMON_PRACTICE)
HEAD_ARC_CM = Number(52, "cm of partings over the whole head", ASSUMPTION)
FINER_QUICKER = Number(0.6, "of a parting's time goes with its thickness", ASSUMPTION)
SLOWER_A_CM = Number(0.01, "times slower a parting for each cm of length that is coloured", ASSUMPTION)
MUCH_WHITE = THRESHOLDS["much-white"] / 100


@dataclass(frozen=True)
class Section:
    """A part of the head that is worked in one go, and the zones it lies in."""

    name: str
    zones: tuple[Zone, ...]


_FRONT = (Zone.FRONT, Zone.TEMPLES)
_BACK = (Zone.CROWN, Zone.NAPE)
_FOUR_FRONT = (Section("front left", _FRONT), Section("front right", _FRONT))
_FIVE_FRONT = (
    Section("top front", (Zone.FRONT,)),
    Section("front left", (Zone.TEMPLES,)),
    Section("front right", (Zone.TEMPLES,)),
)
_BOTH_BACK = (Section("back left", _BACK), Section("back right", _BACK))


def parting_cm(case: Case) -> float:
    """Thickness of a parting: about 1 cm, finer on dense hair and on resistant or mostly white hair."""
    hair = case.hair
    finer = hair.density == "high" or hair.white_resists or case.head.white_mean >= MUCH_WHITE
    return float(PARTING_FINE_CM if finer else PARTING_CM)


def whitest(case: Case) -> Zone:
    """The zone with most white; among equals the one that shows most: front, temples, crown, nape."""
    return max(Zone, key=lambda zone: case.head.white[zone])


def start_place(case: Case) -> Line:
    """Where the first brushful goes."""
    if case.covers_white:
        zone = whitest(case)
        where = {Zone.FRONT: "the front hairline", Zone.TEMPLES: "the front hairline and the temples"}.get(
            zone, f"the {zone.value}"
        )
        return line(
            f"Begin at {where}.",
            f"White is densest there ({percent(case.head.white_most)}), so it gets the longest contact within "
            "the clock.",
        )
    if case.lift > 0:
        return line(
            "Begin at the back, where the hair is darkest.",
            "When colour lightens, the darkest hair needs it longest; the fine hairline comes last.",
            ("bccampus-hair-colour",),
        )
    return line(
        "Begin at the front, where the hair is lightest.",
        "When colour darkens, the lightest hair needs it longest.",
    )


def section_order(case: Case, settings: Settings) -> tuple[Section, ...]:
    """Sections in the order they get colour: front first, or back first when hair is lightened."""
    front = _FIVE_FRONT if settings.sections == 5 else _FOUR_FRONT
    lightening = case.lift > 0 and not case.covers_white
    back_first = lightening or (case.covers_white and whitest(case) in _BACK)
    return (*_BOTH_BACK, *front) if back_first else (*front, *_BOTH_BACK)


def section_minutes(case: Case, settings: Settings, *, lengths: bool) -> int:
    """Minutes one section takes: its partings at this person's pace, rounded up to whole minutes."""
    arc = HEAD_ARC_CM / settings.sections
    width = parting_cm(case)
    partings = math.ceil(arc / width - 1e-9)
    slower = 1 + SLOWER_A_CM * case.head.length_cm if lengths else 1.0
    each = settings.pace(case.work.at_home) * (1 - FINER_QUICKER + FINER_QUICKER * width)
    seconds = partings * each * slower
    return max(1, math.ceil(seconds / 60 - 1e-9))


def round_minutes(sections: tuple[Section, ...], each: int, hands: int) -> int:
    """Minutes of one round over the sections; two people do two at a time."""
    return each * math.ceil(len(sections) / hands)


def round_over(sections: tuple[Section, ...], each: int, hands: int, start: int) -> tuple[Touch, ...]:
    """One round over the sections from minute `start`."""
    return tuple(
        Touch(section.name, start + i // hands * each, start + (i // hands + 1) * each)
        for i, section in enumerate(sections)
    )


def plan_sections(case: Case, applications: Applications, settings: Settings) -> tuple[Line, ...]:
    """Sections, partings and the starting place, in the order they are used, and where to stop."""
    width = parting_cm(case)
    names = ", ".join(section.name for section in section_order(case, settings))
    lines = [
        line(
            "Divide into four sections: centre parting from front to nape, then ear to ear over the crown."
            if settings.sections == 4
            else "Divide into five sections: top front, both sides, both halves of the back.",
            "Sections keep track of what is done. Four are taught, five are examined in some places.",
            ("bccampus-hair-colour", "nic-practical-bulletin"),
        ),
        start_place(case),
        line(
            f"Order: {names}. Outline the partings, work through each section, cross-check at right angles.",
            "What is begun first has the longest contact.",
            plain=f"Order: {names}. Draw the partings first, finish one section after the other, and look "
            "crosswise whether a hair was missed.",
        ),
        line(
            f"Take partings of about {width:g} cm and cover both sides of each.",
            "Thin partings reach every hair"
            + ("; finer here, because the hair is dense or white." if width < PARTING_CM else "."),
            ("bccampus-hair-colour", COMMON_PRACTICE),
        ),
    ]
    return (*lines, *_where_to_stop(case, applications))


def _where_to_stop(case: Case, applications: Applications) -> list[Line]:
    lines = []
    reached = {stretch for a in applications for stretch in a.target.stretches}
    if any(_ends_at_new_growth(a) for a in applications) and case.head.treated:
        lines.append(
            line(
                f"Stop at the line of demarcation, {case.hair.new_growth_cm:g} cm from the scalp; overlap at most "
                "1 to 2 mm.",
                "Overlap on coloured hair adds damage and leaves a darker band.",
                plain=f"Stop where the old colour begins, {case.hair.new_growth_cm:g} cm from the scalp; go over it "
                "by 1 to 2 mm at most.",
            )
        )
    porous = any(b.porosity == "high" for b in case.head.treated if b.stretch is Stretch.ENDS)
    if Stretch.ENDS in reached and porous and not any(a.water for a in applications):
        lines.append(
            line(
                "Porous ends last, or one level lighter, and wiped as soon as they match.",
                "Porous hair takes colour fast and dark.",
                plain="Rough ends last; wipe them as soon as they look right.",
            )
        )
    split = _split(applications)
    if split and case.hair.new_growth_cm > THRESHOLDS["long-new-growth"]:
        start, _ = span(case.head, split.target)
        lines.append(
            line(
                f"Split the {case.hair.new_growth_cm:g} cm of new growth: first from {start:g} cm off the scalp, the "
                "rest at the scalp later. A warm band may show all the same.",
                f"Beyond {THRESHOLDS['long-new-growth']:g} cm new growth passes the scalp's warm zone and lightens "
                "unevenly.",
            )
        )
    return lines


def _ends_at_new_growth(application: Application) -> bool:
    stretches = application.target.stretches
    return Stretch.NEW_GROWTH in stretches and Stretch.LENGTHS not in stretches


def _split(applications: Applications) -> Application | None:
    """The application that takes the new growth off the scalp only."""
    only_new = (Stretch.NEW_GROWTH,)
    return next((a for a in applications if a.target.stretches == only_new), None)
