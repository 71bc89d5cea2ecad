"""Which stretch of the strand gets colour, and in which order."""

from typing import cast

from consult.colour.fade import share_left
from consult.plan.brief import Brief
from consult.plan.suitability import PRE_PIGMENT_FROM, change_of_lengths
from consult.plan.types import Approach, Line
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import Porosity, Tone

LENGTHS_FIRST_FROM = Number(4.0, "cm of hair", ASSUMPTION)
_CP = (COMMON_PRACTICE,)


def choose_approach(brief: Brief) -> tuple[Approach, Line]:
    """The approach and why. Expects a product that suits."""
    darker_by = brief.lightest_depth - brief.goal_depth
    if brief.lightened and darker_by >= PRE_PIGMENT_FROM:
        return Approach.PRE_PIGMENT, Line(
            "Fill the lightened lengths with warm pigment first, then colour.",
            f"The lightened hair goes {darker_by:g} levels darker; without the missing warmth it would turn "
            "dull, greenish or grey and fade at once.",
            ("uk-nos-correction", "ofqual-colour-correction", COMMON_PRACTICE),
        )
    if brief.coloured:
        return _on_coloured(brief)
    if brief.lift > 0 and brief.strand.length_cm > LENGTHS_FIRST_FROM:
        return Approach.LENGTHS_FIRST, Line(
            "Lengths first, roots last.",
            "On natural hair that is made lighter the warm scalp speeds up the first centimetre; started "
            "together the roots would come out lighter and warmer.",
            _CP,
        )
    return Approach.ALL_OVER, Line(
        "From scalp to ends in one go.",
        "The hair carries no colour yet and is made no lighter; nothing runs ahead.",
        _CP,
    )


def _on_coloured(brief: Brief) -> tuple[Approach, Line]:
    only_new_growth = brief.extent == "new growth only"
    change = change_of_lengths(brief)
    if change:
        return Approach.ALL_OVER, Line(
            "New growth and lengths together.",
            f"{change} Coloured hair can be made darker, warmer or cooler by colour.",
            ("red-seal-f13", COMMON_PRACTICE),
        )
    if brief.lengths_look == "even" or only_new_growth:
        wished = " All over was wished for; these lengths need none." if brief.extent == "all over" else ""
        return Approach.NEW_GROWTH, Line(
            "Colour the new growth only; draw nothing through the lengths.",
            f"The lengths still hold their colour{_left_words(brief)}.{wished} A second pass adds damage and hardly "
            "any colour: hair is saturated after the first time.",
            ("repeat-dyeing-2024", COMMON_PRACTICE),
        )
    if brief.minutes_refresh == 0:
        return Approach.NEW_GROWTH, Line(
            "Colour the new growth only.",
            f"The lengths are {brief.lengths_look}, but the leaflet allows no refresh of the lengths.",
            _CP,
        )
    return Approach.REFRESH, Line(
        f"New growth first, then refresh the {brief.lengths_look} lengths for the last "
        f"{brief.minutes_refresh} minutes.",
        f"The lengths look {brief.lengths_look}{_left_words(brief)}; they need colour for a short while only. "
        "Not at every visit: look first.",
        (COMMON_PRACTICE, ASSUMPTION),
    )


def colour_left(brief: Brief) -> float | None:
    """Predicted share of the last colour still in the lengths; None when its date is not known."""
    shares = [
        share_left(
            cast(Tone, band.colour.tone), band.colour.washes, band.colour.weeks, cast(Porosity, band.porosity)
        )
        for band in brief.strand.treated
        if band.colour and band.colour.weeks > 0
    ]
    return min(shares, default=None)


def _left_words(brief: Brief) -> str:
    left = colour_left(brief)
    if left is None:
        return ""
    return f" (by weeks and washes about {round(left * 10) * 10} % of the colour should be left; the eye decides)"
