"""What is weighed into each bowl."""

import math

from consult.plan.brief import Brief
from consult.plan.quantity import stretch_grams
from consult.plan.types import Approach, Line, Mix
from consult.sources import COMMON_PRACTICE, Number

# White share of the head -> share of natural shade in the colour (upper end of what is taught).
BASE_SHARE = ((0.30, 0.0), (0.50, 1 / 2), (0.75, 2 / 3), (1.01, 3 / 4))
NATURAL_TONES = ("neutral",)
PRE_PIGMENT_PERCENT = Number(3, "% developer", COMMON_PRACTICE)
_FILL_TONE = {10: "gold", 9: "gold", 8: "gold", 7: "gold and copper", 6: "copper", 5: "copper red", 4: "red"}
_CP = (COMMON_PRACTICE,)


def base_share(white: float) -> float:
    """Share of natural shade for a white share of 0 to 1 (common practice)."""
    return next(share for limit, share in BASE_SHARE if white < limit)


def fill_shade(goal_depth: float) -> tuple[float, str]:
    """Depth and warm tone that fill lightened hair before it goes to `goal_depth`."""
    return min(goal_depth + 1, 10), _FILL_TONE.get(int(goal_depth), "red")


def plan_mixes(brief: Brief, approach: Approach) -> tuple[Mix, ...]:
    """One bowl a stretch; a refresh is fed from the rest of the first bowl, mixed together with it."""
    grams = stretch_grams(brief, approach)
    if approach is Approach.REFRESH:
        return (_mix(brief, "new growth, then lengths", sum(math.ceil(g) for g in grams.values())),)
    return tuple(
        _fill(brief, math.ceil(g)) if name == "pre-pigment" else _mix(brief, name, math.ceil(g))
        for name, g in grams.items()
        if g > 0
    )


def _mix(brief: Brief, name: str, grams: int) -> Mix:
    colour = math.ceil(grams / (1 + brief.ratio))
    developer = math.ceil(colour * brief.ratio)
    on_head = brief.developer_percent * brief.ratio / (1 + brief.ratio)
    shades = _shades(brief, colour)
    how = " + ".join(f"{g} g {shade}" for shade, g in shades)
    return Mix(
        name=name,
        grams=colour + developer,
        colour_g=colour,
        developer_g=developer,
        developer_percent=brief.developer_percent,
        peroxide_on_head=round(on_head, 2),
        shades=shades,
        line=Line(
            f"{how} + {developer} g developer {brief.developer_percent:g} % = {colour + developer} g.",
            f"Leaflet ratio 1 : {brief.ratio:g}; {on_head:.1f} % peroxide in the mix."
            + _base_reason(brief, shades),
            ("eu-1223-annex-iii", COMMON_PRACTICE),
        ),
    )


def _shades(brief: Brief, colour: int) -> tuple[tuple[str, int], ...]:
    """The colour share; with a tube on white hair part of it is the natural shade of the same depth."""
    shade = f"shade depth {brief.depth:g} {brief.tone}"
    share = base_share(brief.white_mean)
    if brief.kit or not brief.covers_white or brief.tone in NATURAL_TONES or share == 0:
        return ((shade, colour),)
    natural = math.ceil(colour * share)
    return ((f"depth {brief.depth:g} neutral", natural), (shade, colour - natural))


def _base_reason(brief: Brief, shades: tuple[tuple[str, int], ...]) -> str:
    if len(shades) == 1:
        return ""
    return (
        f" {brief.white_mean:.0%} of the hair is white: {base_share(brief.white_mean):.0%} of the colour is "
        "natural shade, so that white hair does not come out bright."
    )


def _fill(brief: Brief, grams: int) -> Mix:
    depth, tone = fill_shade(brief.goal_depth)
    colour = math.ceil(grams / 2)
    return Mix(
        name="pre-pigment",
        grams=2 * colour,
        colour_g=colour,
        developer_g=colour,
        developer_percent=float(PRE_PIGMENT_PERCENT),
        peroxide_on_head=PRE_PIGMENT_PERCENT / 2,
        shades=((f"demi-permanent depth {depth:g} {tone}", colour),),
        line=Line(
            f"{colour} g demi-permanent depth {depth:g} {tone} + {colour} g developer "
            f"{PRE_PIGMENT_PERCENT:g} % = {2 * colour} g; its own leaflet's ratio comes first.",
            "A warm filler one level lighter than the goal gives back the pigment that lightening took.",
            _CP,
        ),
    )
