"""Cautions that go with every plan, aftercare, and the next dates."""

import math
from collections.abc import Iterable
from datetime import date, timedelta

from msgspec import Struct

from consult.colour.fade import share_left
from consult.dates import day_name
from consult.plan.application import Applications, products_of
from consult.plan.case import Case
from consult.plan.ledger import Account, worn
from consult.plan.lines import Line, line
from consult.plan.phrasing import percent
from consult.plan.rounds import MUCH_WHITE
from consult.products.kinds import Direct, Filler
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import AT_THE_SCALP, Porosity, Stretch

WHITE_DEPTH = Number(10, "depth that white hair looks like beside colour", ASSUMPTION)
WEEKS_LOW_CONTRAST = Number(6, "weeks at one level of contrast", COMMON_PRACTICE)
WEEKS_A_LEVEL = Number(0.4, "weeks less a level of contrast", COMMON_PRACTICE)
WEEKS_SHORTEST = Number(3, "weeks", COMMON_PRACTICE)
REFRESH_BELOW = Number(0.7, "share of the colour left", ASSUMPTION)
TEST_EARLIEST_DAYS = Number(6, "days before, within the week a test is valid", ASSUMPTION)

EMERGENCY = line(
    "Swelling of face, tongue or throat, wheeze, hoarseness, faintness: call the emergency number and say "
    '"anaphylaxis"; an adrenaline pen at once, if one is prescribed. Lie flat with raised legs, propped up only '
    "when breathing is hard; do not stand up, even if it is better. A second dose after 5 minutes if it is not.",
    "These are signs of anaphylaxis; it can come back when one stands up.",
    ("anaphylaxis-uk",),
)
RINSE_AT_ONCE = line(
    "Burning, itching, swelling: rinse at once, stop, get medical help.",
    "What is done in the first minute decides.",
)
ANAPHYLAXIS = line(
    'Face, tongue, throat, breath: call the emergency number, say "anaphylaxis".',
    "The shortest form of what to do in an emergency.",
    ("anaphylaxis-uk",),
)
LEAFLET_FIRST = line(
    "The product's leaflet, the law of the place and licensed practice come before this plan.",
    "The leaflet belongs to the product, this plan to one person's answers.",
    ("red-seal-f13", COMMON_PRACTICE),
)
_ALWAYS = (
    EMERGENCY,
    LEAFLET_FIRST,
    line(
        "The strand test decides: predicted results are estimates.",
        "No computation knows this very hair.",
    ),
    line(
        "Not for eyebrows or eyelashes.",
        "It may blind.",
        ("us-code-21-361",),
    ),
    line(
        "A clear allergy alert test does not prove that you are not allergic. Watch the test site for seven days.",
        "In the best trial found about one allergic person in ten was missed.",
        ("aat-trial-2018",),
    ),
)


_PEROXIDE = line(
    "Contains hydrogen peroxide: avoid contact with eyes; rinse them at once if it gets in, 20 minutes, lids open, "
    "then medical help.",
    "Label text of every peroxide hair product; of the rinsing times that advice pages give, the longest.",
    ("eu-1223-annex-iii", COMMON_PRACTICE),
)
_EYES = line(
    "Keep it out of the eyes; rinse them at once if it gets in, 20 minutes, lids open, then medical help.",
    "Of the rinsing times that advice pages give, the longest.",
)


def plan_cautions(applications: Applications) -> tuple[Line, ...]:
    """What stands beside every plan, in the words that fit what is put on."""
    peroxide = any(a.bowl.product.peroxide_on_head > 0 for a in applications)
    return (*_ALWAYS, _PEROXIDE if peroxide else _EYES)


def plan_aftercare(applications: Applications, ledger: Iterable[Account]) -> tuple[Line, ...]:
    """What to do from the rinse to the next visit."""
    lines = [
        line("Next wash after 48 to 72 hours.", "Advice, no laboratory proof."),
        line(
            "Mild shampoo, lukewarm water; cover from strong sun, salt and chlorine; heat protection.",
            "Light fades colour as much as washing does.",
        ),
        line(
            "Itching, rash or swelling in the next days, also on eyelids, ears or neck: see a doctor, write it "
            "down, no more colour.",
            "Allergic reactions can come days later.",
        ),
    ]
    no_more = worn(ledger)
    if no_more:
        lines.append(
            line(
                "Next time no developer on the lengths: some of them have had three oxidative passes or more.",
                "From the third pass over the same hair on damage becomes clear.",
                ("repeat-dyeing-2024",),
                plain="Next time keep colour with developer off the lengths: some of them have been coloured with it "
                "three times or more.",
                plain_because="From the third colouring of the same hair on damage becomes clear.",
            )
        )
    elif any(Stretch.LENGTHS in a.target.stretches for a in applications):
        lines.append(
            line(
                "Next time look at the lengths before colouring them: most visits need the new growth only.",
                "A third pass over the same hair is where damage becomes clear.",
                ("repeat-dyeing-2024",),
            )
        )
    # A filler is copper too; what goes over it is what is seen.
    seen = [product for product in products_of(applications) if not isinstance(product, Filler)]
    if any(product.shade.tone in ("copper", "copper red", "red") for product in seen):
        refresh = (
            "a refresh of the lengths without developer"
            if no_more
            else "a demi-permanent refresh of the lengths"
        )
        by = (
            "colour that needs no developer"
            if no_more
            else "a demi-permanent colour, one that fades in some weeks"
        )
        lines.append(
            line(
                f"Red and copper fade soonest: plan {refresh}.",
                "Intense warm shades lose most of what they lose in the first washes.",
                plain=f"Red and copper fade soonest: plan to freshen up the lengths with {by}.",
            )
        )
    if any(isinstance(product, Direct) for product in products_of(applications)):
        lines.append(
            line(
                "Colour without developer washes out: expect it to pale from the first washes on, and keep it off "
                "light towels while it bleeds.",
                "It lies in the outer layers of the hair and is held by nothing.",
                ("bccampus-hair-colour", COMMON_PRACTICE),
            )
        )
    return tuple(lines)


class Visit(Struct, frozen=True):
    """When to come back, and when the allergy alert test for it has to be put on."""

    colour_on: date
    test_from: date
    test_until: date
    lines: tuple[Line, ...]


def weeks_to_next(case: Case) -> int:
    """Weeks until the new growth shows: sooner with more contrast and where half of the hair is white."""
    white = case.head.white_most >= MUCH_WHITE and case.wish.white == "cover"
    grown = WHITE_DEPTH if white else case.head.natural_depth
    contrast = max(1.0, abs(grown - case.wish.depth))
    weeks = math.floor(max(WEEKS_SHORTEST, WEEKS_LOW_CONTRAST - WEEKS_A_LEVEL * (contrast - 1)))
    return {"every 3 to 4 weeks": min(weeks, 4), "every 5 to 8 weeks": max(weeks, 5)}.get(
        case.wish.upkeep or "", weeks
    )


def weeks_to_refresh(case: Case) -> int:
    """Weeks until so much colour has left the lengths that the eye may ask for a refresh; 52 at most."""
    tone = case.lengths_product.shade.tone
    porosity: Porosity = next((b.porosity for b in case.head.treated), "normal")
    for week in range(1, 52):
        if share_left(tone, week * case.hair.washes_a_week, week, porosity) < REFRESH_BELOW:
            return week
    return 52


def plan_visit(case: Case, applications: Applications, ledger: Iterable[Account], today: date) -> Visit:
    """The next date and the window for the allergy alert test before it."""
    weeks = weeks_to_next(case)
    day = today + timedelta(weeks=weeks)
    days_ahead = math.ceil(case.tests.hours / 24) + 1
    latest = day - timedelta(days=days_ahead)
    earliest = day - timedelta(days=max(TEST_EARLIEST_DAYS, days_ahead))
    return Visit(
        day,
        earliest,
        latest,
        (
            _next_new_growth(case, applications, weeks, day),
            _test(case, earliest, latest),
            _refresh(case, no_more=worn(ledger)),
        ),
    )


def _next_new_growth(case: Case, applications: Applications, weeks: int, day: date) -> Line:
    growth, left = case.head.growth, case.hair.new_growth_cm
    because = (
        f"Up to {percent(case.head.white_most)} white, natural depth {case.head.natural_depth:g} under "
        f"{case.wish.depth:g}; upkeep wished: {case.wish.upkeep or 'not said'}; growth: {growth.because}."
    )
    sources = (COMMON_PRACTICE,) if growth.own else (COMMON_PRACTICE, growth.source)
    grown = growth.cm(weeks * 7)
    if any(stretch in AT_THE_SCALP for a in applications for stretch in a.target.stretches):
        return line(
            f"Next new growth in about {weeks} weeks, {day_name(day)}: by then about {grown:.1f} cm.",
            because,
            sources,
        )
    return line(
        f"Look again in about {weeks} weeks, {day_name(day)}: the new growth that was left alone is then about "
        f"{left + grown:.1f} cm.",
        because,
        sources,
        plain=f"Look again in about {weeks} weeks, {day_name(day)}: the hair at the scalp that was left alone is then "
        f"about {left + grown:.1f} cm long.",
    )


def _test(case: Case, earliest: date, latest: date) -> Line:
    return line(
        f"Put the next allergy alert test on between {day_name(earliest)} and {day_name(latest)}, and read it twice.",
        f"Each colouring needs its own test, {case.tests.hours:g} hours before at least and not older than a "
        "week; a day to spare on either side.",
        ("fda-hair-dye-qa", ASSUMPTION),
    )


def _refresh(case: Case, *, no_more: bool) -> Line:
    weeks, shade = weeks_to_refresh(case), case.lengths_product.shade
    keeps = (
        f"{shade.tone} at {case.hair.washes_a_week:g} washes a week keeps about {percent(REFRESH_BELOW)} of its colour "
        "so long."
    )
    if no_more:
        return line(
            f"The lengths pale in about {weeks} weeks at the earliest: refresh them without developer, or not at all.",
            keeps,
            (ASSUMPTION, COMMON_PRACTICE),
            plain=f"The lengths pale in about {weeks} weeks at the earliest: freshen them up with colour that needs no "
            "developer, or leave them.",
        )
    return line(
        f"The lengths will want a refresh in about {weeks} weeks at the earliest; look before you do it.",
        keeps,
        (ASSUMPTION,),
    )
