"""Cautions that go with every plan, aftercare, and the next dates."""

import math
from datetime import date, timedelta
from typing import cast

from consult.colour.fade import share_left
from consult.plan.brief import Brief
from consult.plan.types import Approach, Line, Visit
from consult.plan.words import percent
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import Porosity, Tone

WHITE_DEPTH = Number(10, "depth that white hair looks like beside colour", ASSUMPTION)
WEEKS_LOW_CONTRAST = Number(6, "weeks at one level of contrast", COMMON_PRACTICE)
WEEKS_A_LEVEL = Number(0.4, "weeks less a level of contrast", COMMON_PRACTICE)
WEEKS_SHORTEST = Number(3, "weeks", COMMON_PRACTICE)
REFRESH_BELOW = Number(0.7, "share of the colour left", ASSUMPTION)
MUCH_WHITE = Number(0.5, "white share", COMMON_PRACTICE)
TEST_EARLIEST_DAYS = Number(6, "days before, within the week a test is valid", ASSUMPTION)
_CP = (COMMON_PRACTICE,)

CAUTIONS = (
    Line(
        "The product's leaflet, the law of the place and licensed practice come before this plan.",
        "The leaflet belongs to the product, this plan to one person's answers.",
        ("red-seal-f13", COMMON_PRACTICE),
    ),
    Line(
        "The strand test decides: predicted results are estimates.",
        "No computation knows this very hair.",
        _CP,
    ),
    Line(
        "Contains hydrogen peroxide: avoid contact with eyes; rinse them at once if it gets in, 20 minutes, "
        "lids open, then medical help.",
        "Label text of every peroxide hair product; of the rinsing times that advice pages give, the longest.",
        ("eu-1223-annex-iii", COMMON_PRACTICE),
    ),
    Line(
        "Not for eyebrows or eyelashes.",
        "It may blind.",
        ("us-code-21-361",),
    ),
    Line(
        "A clear allergy alert test does not prove that you are not allergic. Watch the test site for seven days.",
        "In the best trial found about one allergic person in ten was missed.",
        ("aat-trial-2018",),
    ),
    Line(
        "Swelling of face or throat, wheeze, faintness: call the emergency number, lie flat, legs raised.",
        "These are signs of anaphylaxis.",
        ("anaphylaxis-uk",),
    ),
)


def plan_aftercare(brief: Brief, approach: Approach) -> tuple[Line, ...]:
    """What to do from the rinse to the next visit."""
    lines = [
        Line("First shampoo after 48 to 72 hours.", "Advice, no laboratory proof.", _CP),
        Line(
            "Mild shampoo, lukewarm water; cover from strong sun, salt and chlorine; heat protection.",
            "Light fades colour as much as washing does.",
            _CP,
        ),
        Line(
            "Itching, rash or swelling in the next days, also on eyelids, ears or neck: see a doctor, write it "
            "down, no more colour.",
            "Allergic reactions can come days later.",
            _CP,
        ),
    ]
    if approach is not Approach.NEW_GROWTH:
        lines.append(
            Line(
                "Next time look at the lengths before colouring them: most visits need the new growth only.",
                "A third pass over the same hair is where damage becomes clear.",
                ("repeat-dyeing-2024",),
            )
        )
    if brief.tone in ("copper", "copper red", "red"):
        lines.append(
            Line(
                "Red and copper fade soonest: plan a demi-permanent refresh of the lengths.",
                "Intense warm shades lose most of what they lose in the first washes.",
                _CP,
            )
        )
    return tuple(lines)


def weeks_to_next(brief: Brief) -> int:
    """Weeks until the new growth shows: sooner with more contrast and where half of the hair is white."""
    grown = WHITE_DEPTH if brief.white_most >= MUCH_WHITE and brief.goal_white == "cover" else brief.natural
    contrast = max(1.0, abs(grown - brief.goal_depth))
    weeks = math.floor(max(WEEKS_SHORTEST, WEEKS_LOW_CONTRAST - WEEKS_A_LEVEL * (contrast - 1)))
    return {"every 3 to 4 weeks": min(weeks, 4), "every 5 to 8 weeks": max(weeks, 5)}.get(
        brief.upkeep or "", weeks
    )


def weeks_to_refresh(brief: Brief) -> int:
    """Weeks until so much colour has left the lengths that the eye may ask for a refresh; 52 at most."""
    tone, porosity = cast(Tone, brief.tone), cast(Porosity, brief.porosity["lengths"])
    for week in range(1, 52):
        if share_left(tone, week * brief.washes_a_week, week, porosity) < REFRESH_BELOW:
            return week
    return 52


def plan_visit(brief: Brief, today: date) -> Visit:
    """The next date and the window for the allergy alert test before it."""
    weeks = weeks_to_next(brief)
    day = today + timedelta(weeks=weeks)
    growth = brief.strand.growth
    latest = day - timedelta(days=math.ceil(brief.test_hours / 24) + 1)
    earliest = day - timedelta(days=max(TEST_EARLIEST_DAYS, math.ceil(brief.test_hours / 24) + 1))
    fresh = weeks_to_refresh(brief)
    lines = (
        Line(
            f"Next new growth in about {weeks} weeks, {day:%Y-%m-%d}: by then about {growth.cm(weeks * 7):.1f} cm.",
            f"Up to {percent(brief.white_most)} white, natural depth {brief.natural:g} under {brief.goal_depth:g}; "
            f"upkeep wished: {brief.upkeep or 'not said'}; growth: {growth.because}.",
            (COMMON_PRACTICE, growth.source) if not growth.own else _CP,
        ),
        Line(
            f"Put the next allergy alert test on between {earliest:%Y-%m-%d} and {latest:%Y-%m-%d}, and read it "
            "twice.",
            f"Each colouring needs its own test, {brief.test_hours:g} hours before at least and not older than a "
            "week; a day to spare on either side.",
            ("fda-hair-dye-qa", ASSUMPTION),
        ),
        Line(
            f"The lengths will want a refresh in about {fresh} weeks at the earliest; look before you do it.",
            f"{brief.tone} at {brief.washes_a_week:g} washes a week keeps about {percent(REFRESH_BELOW)} of its colour "
            "so long.",
            (ASSUMPTION,),
        ),
    )
    return Visit(day, earliest, latest, lines)
