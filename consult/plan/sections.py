"""How the head is divided and where to begin."""

from consult.plan.brief import Brief
from consult.plan.settings import Settings
from consult.plan.types import Approach, Line
from consult.plan.words import percent
from consult.sources import COMMON_PRACTICE, Number

PARTING_CM = Number(1.0, "cm", COMMON_PRACTICE)
PARTING_FINE_CM = Number(0.6, "cm", COMMON_PRACTICE)
LONG_NEW_GROWTH = Number(2.5, "cm", "nic-practical-bulletin")
MUCH_WHITE = Number(0.5, "white share", COMMON_PRACTICE)
_CP = (COMMON_PRACTICE,)
_PLACE = {
    "front": "the front hairline",
    "temples": "the temples",
    "crown": "the crown",
    "nape": "the nape",
}


def parting_cm(brief: Brief) -> float:
    """Thickness of a parting: about 1 cm, finer on dense hair and on resistant or mostly white hair."""
    finer = brief.density == "high" or brief.white_resists or brief.white_mean >= MUCH_WHITE
    return float(PARTING_FINE_CM if finer else PARTING_CM)


def whitest(brief: Brief) -> str:
    """The zone with most white; among equals the one that shows most: front, temples, crown, nape."""
    return max(brief.white, key=lambda zone: brief.white[zone])


def start_place(brief: Brief) -> Line:
    """Where the first brushful goes."""
    if brief.covers_white:
        zone = whitest(brief)
        front = "temples" if zone == "temples" else "front"
        return Line(
            f"Begin at {_PLACE['front'] if zone in ('front', 'temples') else _PLACE[zone]}"
            + (" and the temples" if front == "temples" else "")
            + ".",
            f"White is densest there ({percent(brief.white_most)}), so it gets the longest contact within the clock.",
            _CP,
        )
    if brief.lift > 0:
        return Line(
            "Begin at the back, where the hair is darkest.",
            "When colour lightens, the darkest hair needs it longest; the fine hairline comes last.",
            ("bccampus-hair-colour",),
        )
    return Line(
        "Begin at the front, where the hair is lightest.",
        "When colour darkens, the lightest hair needs it longest.",
        _CP,
    )


def is_split(brief: Brief) -> bool:
    """Long new growth that is to be lightened is put on in two goes."""
    return brief.new_growth_cm > LONG_NEW_GROWTH and brief.lift > 0 and brief.coloured


def section_order(brief: Brief, settings: Settings) -> list[str]:
    """Sections in the order they get colour: front first, or back first when hair is lightened."""
    front, back = ["front left", "front right"], ["back left", "back right"]
    if settings.sections == 5:
        front = ["top front", *front]
    lightening = brief.lift > 0 and not brief.covers_white
    back_first = lightening or (brief.covers_white and whitest(brief) in ("crown", "nape"))
    return [*back, *front] if back_first else [*front, *back]


def plan_sections(brief: Brief, approach: Approach, settings: Settings) -> tuple[Line, ...]:
    """Sections, partings and the starting place, in the order they are used."""
    width = parting_cm(brief)
    lines = [
        Line(
            "Divide into four sections: centre parting from front to nape, then ear to ear over the crown."
            if settings.sections == 4
            else "Divide into five sections: top front, both sides, both halves of the back.",
            "Sections keep track of what is done. Four are taught, five are examined in some places.",
            ("bccampus-hair-colour", "nic-practical-bulletin"),
        ),
        start_place(brief),
        Line(
            "Order: "
            + ", ".join(section_order(brief, settings))
            + ". Outline the partings, work through each "
            "section, cross-check at right angles.",
            "What is begun first has the longest contact.",
            _CP,
        ),
        Line(
            f"Take partings of about {width:g} cm and cover both sides of each.",
            "Thin partings reach every hair"
            + (
                "; finer here, because the hair is dense or the white hair resists."
                if width < PARTING_CM
                else "."
            ),
            ("bccampus-hair-colour", COMMON_PRACTICE),
        ),
    ]
    if approach in (Approach.NEW_GROWTH, Approach.REFRESH):
        lines.append(
            Line(
                f"Stop at the line of demarcation, {brief.new_growth_cm:g} cm from the scalp; overlap at most "
                "1 to 2 mm.",
                "Overlap on coloured hair adds damage and leaves a darker band.",
                _CP,
            )
        )
    if approach in (Approach.ALL_OVER, Approach.LENGTHS_FIRST) and brief.porosity["ends"] == "high":
        lines.append(
            Line(
                "Porous ends last, or one level lighter, and wiped as soon as they match.",
                "Porous hair takes colour fast and dark.",
                _CP,
            )
        )
    if is_split(brief):
        lines.append(
            Line(
                f"Split the {brief.new_growth_cm:g} cm of new growth: first from 1.3 cm off the scalp, half way "
                "through the time the rest at the scalp. A warm band may show all the same.",
                f"Beyond {LONG_NEW_GROWTH:g} cm new growth passes the scalp's warm zone and lightens unevenly.",
                _CP,
            )
        )
    return tuple(lines)
