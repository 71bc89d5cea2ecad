"""What is worth knowing about this product on this hair; it holds nothing."""

from consult.plan.case import Case
from consult.plan.lines import Line, line
from consult.plan.phrasing import percent
from consult.products.kinds import Direct, Mixed, Permanent
from consult.sources import COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS, VIVID

BRIGHT_FROM_WHITE = Number(0.30, "white share", COMMON_PRACTICE)
SAME_DEPTH = THRESHOLDS["same-depth"]
WHITE_DEVELOPER = THRESHOLDS["white-developer"]


def plan_notes(case: Case) -> tuple[Line, ...]:
    """All notes that apply."""
    found = (
        _bright_on_white(case),
        _two_kinds_of_hair(case),
        _light_shade_on_white(case),
        _wish_for_white(case),
        _developer(case),
    )
    return tuple(note for note in found if note)


def _bright_on_white(case: Case) -> Line | None:
    tone = case.product.shade.tone
    if tone not in VIVID or case.head.white_mean < BRIGHT_FROM_WHITE or case.wish.white == "leave":
        return None
    weighed = not case.product.is_kit and not isinstance(case.product, Direct)
    how = (
        "The mix therefore holds a share of natural shade."
        if weighed
        else "It cannot be mixed with a natural shade: choose one whose pack shows it on white hair."
    )
    return line(
        f"On white hair {tone} comes out brighter and lighter than on the rest. {how}",
        "White hair has no pigment of its own under the tone.",
    )


def _two_kinds_of_hair(case: Case) -> Line | None:
    """White hairs take the shade itself, pigmented ones land between; told when the two will differ.

    Without numbers: what is foreseen of either stands in one place only, the forecast.
    """
    depth, natural = case.product.shade.depth, case.head.natural_depth
    pigmented = (natural + depth) / 2 if depth > natural else depth
    if not case.covers_white or case.head.all_white or abs(pigmented - depth) < SAME_DEPTH:
        return None
    more = (
        " More than two levels from the natural depth shows as two colours: stay within two, or let a colourist "
        "lighten first."
        if abs(case.lift) > THRESHOLDS["lift-at-home"]
        else ""
    )
    return line(
        f"White hairs will come out lighter than the others: this shade is lighter than the hair.{more}",
        "White hair has no pigment to lift and takes the shade's own depth; even cover is easiest at the depth of the "
        "hair that is not white.",
    )


def _light_shade_on_white(case: Case) -> Line | None:
    natural = case.head.natural_depth
    if case.head.white_most < THRESHOLDS["some-white"] / 100 or case.wish.depth < 8 or natural >= 7:
        return None
    return line(
        "Shades of depth 8 and above cover white hair poorly on hair that is not naturally blonde.",
        f"Natural depth {natural:g}, goal {case.wish.depth:g}.",
    )


def _wish_for_white(case: Case) -> Line | None:
    """What the wish for the white hair means with this product."""
    if case.head.white_most == 0:
        return None
    if case.wish.white == "leave":
        return line(
            "White hair is among the hair that gets colour: it will take the shade and cannot be left as it is.",
            "Only strands picked apart from the white ones could spare it.",
        )
    if case.wish.white == "blend" and isinstance(case.product, Permanent):
        return line(
            "A permanent colour covers rather than blends; a demi-permanent one blends softly.",
            "Blending leaves no edge when it grows.",
            ("bccampus-hair-colour",),
        )
    return None


def _developer(case: Case) -> Line | None:
    """The lowest strength that does it; 6 % for white hair (common practice)."""
    product = case.product
    if product.is_kit or not isinstance(product, Mixed):
        return None
    percent_ = product.developer.percent
    if case.covers_white and percent_ != WHITE_DEVELOPER:
        return line(
            f"White hair is usually covered with {WHITE_DEVELOPER:g} % developer, not {percent_:g} %; the leaflet "
            "decides.",
            f"Weaker does not open it enough, stronger leaves less colour in it. Up to "
            f"{percent(case.head.white_most)} is white here.",
        )
    if case.lift <= 0 and percent_ > WHITE_DEVELOPER:
        return line(
            f"No lift is wanted: a weaker developer than {percent_:g} % does it with less wear, if the "
            "leaflet allows one.",
            "The lowest strength that does the work is the right one.",
            ("bccampus-hair-colour", COMMON_PRACTICE),
        )
    return None
