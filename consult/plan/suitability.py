"""Can this product take this hair to this goal? If not: what would be seen, and what instead."""

from consult.plan.alternatives import LIFT_HOME, SAME_DEPTH, alternatives
from consult.plan.brief import Brief
from consult.plan.types import Line, Suitability
from consult.plan.words import other_tone, percent
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

SHADE_TOLERANCE = Number(0.5, "levels", COMMON_PRACTICE)
WHOLE_LEVEL = Number(1.0, "levels", COMMON_PRACTICE)
# Cautious end of what is taught, percent of developer -> levels; an upper bound on natural hair.
LIFT_BOUND = {0.0: 0.0, 3.0: 0.0, 6.0: 2.0, 9.0: 3.0, 12.0: 4.0}
LEAST_NEW_GROWTH = Number(0.5, "cm", ASSUMPTION)
WHITE_DEVELOPER = Number(6, "% developer for white hair", COMMON_PRACTICE)
BRIGHT_TONES = ("copper", "copper red", "red", "violet", "mahogany")
BRIGHT_FROM_WHITE = Number(0.30, "white share", COMMON_PRACTICE)
PRE_PIGMENT_FROM = Number(2.0, "levels", COMMON_PRACTICE)
_CP = (COMMON_PRACTICE,)


def lift_bound(percent: float) -> float:
    """Levels a developer can lift natural hair at most (common practice, cautious end)."""
    return max(lift for strength, lift in LIFT_BOUND.items() if strength <= percent)


def expected_depth(brief: Brief) -> float:
    """Depth the new growth is expected to reach.

    A kit's chart promises the shade for the depths on it. With a tube, a shade lighter than the hair
    lands half way (common practice), a shade at or below it lands on itself.
    """
    if brief.kit or brief.depth <= brief.natural:
        return brief.depth
    return (brief.natural + brief.depth) / 2


def judge_product(brief: Brief) -> Suitability:
    """Every reason against the product, what would be seen, the notes and the alternatives."""
    outcome = [
        *_class(brief),
        *_area(brief),
        *_too_early(brief),
        *_chart(brief),
        *_shade_against_goal(brief),
        *_filling_at_home(brief),
        *_lift(brief),
        *_white(brief),
        *_old_colour(brief),
    ]
    notes = [
        line
        for note in (_bright_on_white, _two_kinds_of_hair, _lighter_than_white_allows)
        for line in note(brief)
    ]
    return Suitability(
        reachable=not outcome,
        outcome=tuple(outcome),
        notes=tuple(notes),
        alternatives=tuple(alternatives(brief, reachable=not outcome)),
    )


def _class(brief: Brief) -> list[Line]:
    if brief.colour_class not in ("powder lightener", "direct (no developer)"):
        return []
    return [
        Line(
            f"No mix is planned for this class ({brief.colour_class}): follow its own leaflet.",
            "Only oxidative colour is planned here; lightener is a service of its own, and direct colour is not "
            "mixed.",
            ("uk-nos-advanced-colour", COMMON_PRACTICE),
        )
    ]


def _chart(brief: Brief) -> list[Line]:
    if brief.chart is None:
        return []
    darkest, lightest = brief.chart
    span = f"the chart starts at depth {darkest:g} and ends at {lightest:g}"
    if brief.natural < darkest:
        return [
            Line(
                f"This product will not give depth {brief.goal_depth:g} on natural depth {brief.natural:g}: "
                "no visible change, or at most a warm cast at the root.",
                f"The hair is darker than its chart: {span}. A kit adds colour and lifts only a little; "
                "on hair this dark the new colour does not show.",
                _CP,
            )
        ]
    if brief.natural > lightest:
        return [
            Line(
                f"This product will not give its picture on natural depth {brief.natural:g}: on hair this "
                "light the tone comes out stronger or off, and the depth darker than the picture.",
                f"The hair is lighter than its chart: {span}. Light hair has too little warmth of its own "
                "to carry the shade.",
                _CP,
            )
        ]
    return []


def _area(brief: Brief) -> list[Line]:
    if "scalp hair" in brief.areas:
        return []
    return [
        Line(
            "Nothing is planned here but the scalp hair, and it is not part of the wish.",
            "Amounts, sections and clock are those of a head of hair.",
            _CP,
        )
    ]


def _too_early(brief: Brief) -> list[Line]:
    if not brief.coloured or brief.new_growth_cm >= LEAST_NEW_GROWTH or change_of_lengths(brief):
        return []
    return [
        Line(
            f"Too early: there is {brief.new_growth_cm:g} cm of new growth. Wait until it is about 1 cm, or have "
            "faded lengths refreshed with a colour that only deposits.",
            "There is next to nothing to colour at the scalp, and every round there adds up.",
            _CP,
        )
    ]


def change_of_lengths(brief: Brief) -> str:
    """Why the lengths have to be coloured for good and not only refreshed; empty when they need not."""
    if brief.extent == "new growth only":
        return ""
    darker_by = brief.lightest_depth - brief.goal_depth
    if brief.lightened and darker_by >= WHOLE_LEVEL:
        return f"The lightened lengths go {darker_by:g} level(s) darker."
    if brief.lengths_depth - brief.goal_depth > WHOLE_LEVEL:
        return f"The lengths go {brief.lengths_depth - brief.goal_depth:g} levels darker."
    if brief.lengths_look == "even" and brief.lengths_depth - brief.goal_depth >= WHOLE_LEVEL:
        return "The lengths are even and a level lighter than the goal."
    if other_tone(brief.lengths_tone, brief.goal_tone):
        return f"The tone of the lengths changes from {brief.lengths_tone} to {brief.goal_tone}."
    return ""


def _filling_at_home(brief: Brief) -> list[Line]:
    darker_by = brief.lightest_depth - brief.goal_depth
    if not (brief.at_home and brief.lightened and darker_by >= PRE_PIGMENT_FROM):
        return []
    return [
        Line(
            "Not at home: the lightened hair needs warm pigment put back before it goes darker.",
            f"It goes {darker_by:g} levels darker; without a filler it turns dull, greenish or grey.",
            ("ofqual-colour-correction", COMMON_PRACTICE),
        )
    ]


def _shade_against_goal(brief: Brief) -> list[Line]:
    reached = expected_depth(brief)
    lines = []
    if abs(reached - brief.goal_depth) > SHADE_TOLERANCE:
        lines.append(
            Line(
                f"This shade is expected to reach depth {reached:g}, not the wanted {brief.goal_depth:g}.",
                f"Shade depth {brief.depth:g} on natural depth {brief.natural:g}; more than half a level away is "
                "another colour.",
                _CP,
            )
        )
    if other_tone(brief.tone, brief.goal_tone):
        lines.append(
            Line(
                f"This shade is {brief.tone}; {brief.goal_tone} is wanted.",
                "Tone families that do not pass into one another are another colour.",
                _CP,
            )
        )
    return lines


def _lift(brief: Brief) -> list[Line]:
    if brief.lift <= 0:
        return []
    if brief.colour_class == "demi-permanent":
        return [
            Line(
                "A demi-permanent colour does not lighten: the new growth stays at its own depth.",
                f"The goal is {brief.lift:g} level(s) lighter than the natural depth; this class only deposits.",
                ("modern-hair-science",),
            )
        ]
    bound = lift_bound(brief.developer_percent)
    if brief.lift > bound and not brief.kit:
        return [
            Line(
                f"{brief.developer_percent:g} % developer lifts at most {bound:g} level(s) on natural hair; "
                f"the goal asks for {brief.lift:g}.",
                "Developer strength is an upper bound for lift, and only on natural hair.",
                _CP,
            )
        ]
    return []


def _white(brief: Brief) -> list[Line]:
    if not brief.covers_white:
        return []
    if brief.colour_class == "demi-permanent":
        claim = "A demi-permanent colour blends white hair, it does not cover it"
        sources: tuple[str, ...] = ("bccampus-hair-colour",)
    elif brief.white_claim != "full cover":
        claim = f'The pack claims "{brief.white_claim}", not full cover'
        sources = _CP
    else:
        return []
    return [
        Line(
            "Not planned for covering white hair: white would stay visible or come out uneven.",
            f"{claim}. Up to {percent(brief.white_most)} of the hair is white where there is most.",
            sources,
        )
    ]


def _old_colour(brief: Brief) -> list[Line]:
    if brief.coloured and brief.goal_depth > brief.lengths_depth + SAME_DEPTH:
        return [
            Line(
                f"The coloured lengths (depth {brief.lengths_depth:g}) will not become depth "
                f"{brief.goal_depth:g}; only the new growth would lighten, leaving a light band at the root.",
                "Colour does not lift colour in any way that can be planned; coloured hair can be made "
                "darker, warmer or cooler.",
                ("red-seal-f13", COMMON_PRACTICE),
            )
        ]
    return []


def _white_wishes(brief: Brief) -> list[Line]:
    """What the wish for the white hair means with this product."""
    if brief.white_most == 0:
        return []
    if brief.goal_white == "leave":
        return [
            Line(
                "White hair is among the hair that gets colour: it will take the shade and cannot be left as it is.",
                "Only strands picked apart from the white ones could spare it.",
                _CP,
            )
        ]
    if brief.goal_white == "blend" and brief.colour_class != "demi-permanent":
        return [
            Line(
                "A permanent colour covers rather than blends; a demi-permanent one blends softly.",
                "Blending leaves no edge when it grows.",
                ("bccampus-hair-colour",),
            )
        ]
    return []


def _developer_choice(brief: Brief) -> list[Line]:
    """The lowest strength that does it; 6 % for white hair (common practice)."""
    if brief.kit:
        return []
    if brief.covers_white and brief.developer_percent != WHITE_DEVELOPER:
        return [
            Line(
                f"White hair is usually covered with {WHITE_DEVELOPER:g} % developer, not "
                f"{brief.developer_percent:g} %; the leaflet decides.",
                "Weaker does not open it enough, stronger leaves less colour in it.",
                _CP,
            )
        ]
    if brief.lift <= 0 and brief.developer_percent > WHITE_DEVELOPER:
        return [
            Line(
                f"No lift is wanted: a weaker developer than {brief.developer_percent:g} % does it with less wear, if "
                "the leaflet allows one.",
                "The lowest strength that does the work is the right one.",
                ("bccampus-hair-colour", COMMON_PRACTICE),
            )
        ]
    return []


def _bright_on_white(brief: Brief) -> list[Line]:
    if brief.tone in BRIGHT_TONES and brief.white_mean >= BRIGHT_FROM_WHITE and brief.goal_white != "leave":
        how = (
            "A kit cannot be mixed with a natural shade: choose one whose pack shows it on white hair."
            if brief.kit
            else "The mix therefore holds a share of natural shade."
        )
        return [
            Line(
                f"On white hair {brief.tone} comes out brighter and lighter than on the rest. {how}",
                "White hair has no pigment of its own under the tone.",
                _CP,
            )
        ]
    return []


def _two_kinds_of_hair(brief: Brief) -> list[Line]:
    """White hairs take the shade itself, pigmented ones land between; told when the two will differ."""
    pigmented = (brief.natural + brief.depth) / 2 if brief.depth > brief.natural else brief.depth
    if not brief.covers_white or abs(pigmented - brief.depth) < SAME_DEPTH:
        return []
    more = (
        " More than two levels from the natural depth shows as two colours: stay within two, or let a "
        "colourist lighten first."
        if abs(brief.lift) > LIFT_HOME
        else ""
    )
    return [
        Line(
            f"White hairs come out about depth {brief.depth:g}, the others about {pigmented:g}.{more}",
            "White hair has no pigment to lift and takes the shade's own depth; even cover is easiest at the "
            "depth of the hair that is not white.",
            _CP,
        )
    ]


def _lighter_than_white_allows(brief: Brief) -> list[Line]:
    if brief.white_most >= 0.25 and brief.goal_depth >= 8 and brief.natural < 7:
        return [
            Line(
                "Shades of depth 8 and above cover white hair poorly on hair that is not naturally blonde.",
                f"Natural depth {brief.natural:g}, goal {brief.goal_depth:g}.",
                _CP,
            )
        ]
    return []
