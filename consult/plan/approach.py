"""Which way the list of applications is written, and why."""

from collections.abc import Callable

from msgspec import Struct

from consult.colour.fade import share_left
from consult.plan import writing
from consult.plan.application import Applications
from consult.plan.case import Case
from consult.plan.lines import Line, line
from consult.plan.phrasing import other_tone
from consult.plan.rounds import Working
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS, Stretch

LENGTHS_FIRST_FROM = Number(4.0, "cm of hair", ASSUMPTION)
WHOLE_LEVEL = Number(1.0, "levels", COMMON_PRACTICE)
FILL_FROM = THRESHOLDS["filler-advised"]
LENGTHS_ONLY = "lengths only"
NATURE_IS_THE_GOAL = "What has grown is the goal already."
_CORRECTION = ("uk-nos-correction", "ofqual-colour-correction", COMMON_PRACTICE)
_DARKER_ONLY = ("red-seal-f13", COMMON_PRACTICE)


class Approach(Struct, frozen=True):
    """A way of working: its name, why it is chosen, and how it writes the applications."""

    name: str
    because: Line
    write: Callable[[Case, Working], Applications]


def choose_approach(case: Case) -> Approach:
    """The approach for a case, whatever its product: what does not suit is found by the checks."""
    kept = _kept_off_lengths(case)
    if kept:
        return kept
    if case.two_products and case.nature_is_the_goal:
        return Approach(
            LENGTHS_ONLY,
            line("The lengths only, with their own product.", NATURE_IS_THE_GOAL, (COMMON_PRACTICE,)),
            writing.two_products,
        )
    if case.two_products:
        return Approach(
            "new growth and lengths, each with its own",
            line(
                "New growth and lengths, each with its own product.",
                "Two products were named; both are rinsed together, each within its own leaflet.",
                (COMMON_PRACTICE,),
            ),
            writing.two_products,
        )
    if needs_filling(case):
        return Approach(
            "pre-pigment first",
            line(
                "Fill the lightened lengths with warm pigment first, then colour.",
                f"The lightened hair goes {case.darker_by:g} levels darker; without the missing warmth it would turn "
                "dull, greenish or grey and fade at once.",
                _CORRECTION,
                plain="Give the bleached lengths a warm base first, then colour.",
            ),
            writing.fill_then_colour,
        )
    if case.head.coloured:
        return _on_coloured(case)
    if case.lift > 0 and case.head.length_cm > LENGTHS_FIRST_FROM:
        return Approach(
            "lengths first, roots last",
            line(
                "Lengths first, roots last.",
                "On natural hair that is made lighter the warm scalp speeds up the first centimetre; started "
                "together the roots would come out lighter and warmer.",
            ),
            writing.lengths_first,
        )
    return Approach(
        "all over",
        line(
            "From scalp to ends in one go.",
            "The hair carries no colour yet and is made no lighter; nothing runs ahead.",
        ),
        writing.all_over,
    )


def needs_filling(case: Case) -> bool:
    """Lightened hair goes so much darker that its warm pigment has to be put back first."""
    return case.head.lightened and case.darker_by >= FILL_FROM


def change_of_lengths(case: Case) -> str:
    """Why the lengths have to be coloured for good and not only refreshed; empty when they need not."""
    if case.wish.extent == "new growth only":
        return ""
    if case.head.lightened and case.darker_by >= WHOLE_LEVEL:
        return f"The lightened lengths go {case.darker_by:g} level(s) darker."
    darkest_by = case.head.darkest_length - case.wish.depth
    if darkest_by > WHOLE_LEVEL:
        return f"The lengths go {darkest_by:g} levels darker."
    if case.hair.lengths_look == "even" and darkest_by >= WHOLE_LEVEL:
        return "The lengths are even and a level lighter than the goal."
    if other_tone(case.hair.lengths_tone, case.wish.tone):
        return f"The tone of the lengths changes from {case.hair.lengths_tone} to {case.wish.tone}."
    return ""


def _kept_off_lengths(case: Case) -> Approach | None:
    """New growth only, because a finding keeps colour off the lengths."""
    demand = case.limits.leaves(Stretch.LENGTHS)
    if not demand or not case.head.coloured:
        return None
    return Approach(
        "new growth only",
        line(
            "Colour the new growth only; the lengths get none.",
            "A finding keeps colour off the lengths: see the rule.",
            (COMMON_PRACTICE,),
            rules=demand.rules,
        ),
        writing.new_growth,
    )


def _on_coloured(case: Case) -> Approach:
    change = change_of_lengths(case)
    if change and case.nature_is_the_goal:
        return Approach(
            LENGTHS_ONLY,
            line(
                "The lengths only; what has grown is left alone.",
                f"{change} {NATURE_IS_THE_GOAL}",
                _DARKER_ONLY,
            ),
            writing.all_over,
        )
    if change:
        return Approach(
            "all over",
            line(
                "New growth and lengths together.",
                f"{change} Coloured hair can be made darker, warmer or cooler by colour.",
                _DARKER_ONLY,
            ),
            writing.all_over,
        )
    if case.hair.lengths_look == "even" or case.wish.extent == "new growth only":
        wished = (
            " All over was wished for; these lengths need none." if case.wish.extent == "all over" else ""
        )
        return Approach(
            "new growth only",
            line(
                "Colour the new growth only; draw nothing through the lengths.",
                f"The lengths still hold their colour{_left_words(case)}.{wished} A second pass adds damage and hardly "
                "any colour: hair is saturated after the first time.",
                ("repeat-dyeing-2024", COMMON_PRACTICE),
            ),
            writing.new_growth,
        )
    if case.product.leaflet.refresh == 0:
        return Approach(
            "new growth only",
            line(
                "Colour the new growth only.",
                f"The lengths are {case.hair.lengths_look}, but the leaflet allows no refresh of the lengths.",
            ),
            writing.new_growth,
        )
    look, minutes = case.hair.lengths_look, case.product.leaflet.refresh
    if case.nature_is_the_goal:
        return Approach(
            "refresh the lengths",
            line(
                f"Refresh the {look} lengths for {minutes} minutes; what has grown is left alone.",
                f"The lengths look {look}{_left_words(case)}. {NATURE_IS_THE_GOAL}",
                (COMMON_PRACTICE, ASSUMPTION),
                plain=f"Freshen up the {look} lengths for {minutes} minutes; leave the hair that has grown alone.",
            ),
            writing.refresh,
        )
    return Approach(
        "new growth, then refresh the lengths",
        line(
            f"New growth first, then refresh the {look} lengths for the last {minutes} minutes.",
            f"The lengths look {look}{_left_words(case)}; they need colour for a short while only. "
            "Not at every visit: look first.",
            (COMMON_PRACTICE, ASSUMPTION),
            plain=f"The hair that has grown first, then freshen up the {look} lengths for the last {minutes} "
            "minutes.",
        ),
        writing.refresh,
    )


def colour_left(case: Case) -> float | None:
    """Predicted share of the last colour still in the lengths; None when its date is not known."""
    shares = [
        share_left(band.colour.tone, band.colour.washes, band.colour.weeks, band.porosity)
        for band in case.head.treated
        if band.colour and band.colour.weeks > 0
    ]
    return min(shares, default=None)


def _left_words(case: Case) -> str:
    left = colour_left(case)
    if left is None:
        return ""
    return f" (by weeks and washes about {round(left * 10) * 10} % of the colour should be left; the eye decides)"
