"""What is weighed into each bowl."""

import math
from collections.abc import Iterator

from consult.plan.brief import Brief
from consult.plan.developer import LEGAL_LIMIT, alligate, on_head, strength_words
from consult.plan.quantity import FILLER, bowls
from consult.plan.settings import Settings
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


def plan_mixes(
    brief: Brief, approach: Approach, settings: Settings, *, two_bowls: bool = False
) -> tuple[Mix, ...]:
    """One bowl a stretch; a refresh is fed from the rest of the new growth's bowl.

    Where one bowl would be in use for too long, it is mixed as two halves, the second one later.
    """
    grams = bowls(brief, approach, settings)
    if approach is Approach.REFRESH:
        grams = {"new growth, then lengths": sum(grams.values())}
    if two_bowls:
        grams = dict(_halved(grams))
    return tuple(
        _fill(brief, g, settings) if name == FILLER else _mix(brief, name, g, settings)
        for name, g in grams.items()
    )


def _halved(grams: dict[str, int]) -> Iterator[tuple[str, int]]:
    for name, g in grams.items():
        if name == FILLER or name == "roots":
            yield name, g
        else:
            yield f"{name}, first half of the head", math.ceil(g / 2)
            yield f"{name}, second half, mixed later", g // 2


def _weighed(grams: float, scale_g: float) -> float:
    """Rounded up to the step of the scale."""
    return round(math.ceil(grams / scale_g - 1e-9) * scale_g, 2)


def _mix(brief: Brief, name: str, grams: int, settings: Settings) -> Mix:
    colour = _weighed(grams / (1 + brief.ratio), settings.scale_g)
    developer = _weighed(colour * brief.ratio, settings.scale_g)
    on_the_head = on_head(brief.developer_percent, brief.ratio)
    shades = _shades(brief, colour, settings.scale_g)
    how = " + ".join(f"{g:g} g {shade}" for shade, g in shades)
    return Mix(
        name=name,
        grams=colour + developer,
        colour_g=colour,
        developer_g=developer,
        developer_percent=brief.developer_percent,
        peroxide_on_head=round(on_the_head, 2),
        shades=shades,
        line=Line(
            f"{name.capitalize()}: {how} + {developer:g} g developer {brief.developer_percent:g} % = "
            f"{colour + developer:g} g." + _whole_packs(brief, colour + developer),
            f"Leaflet ratio 1 : {brief.ratio:g}. {strength_words(brief.developer_percent)}. The mix holds "
            f"{on_the_head:.1f} % on the head; the legal limit is {LEGAL_LIMIT:g} %."
            + _base_reason(brief, shades),
            ("eu-1223-annex-iii", "volume-strength", COMMON_PRACTICE),
        ),
    )


def _shades(brief: Brief, colour: float, scale_g: float) -> tuple[tuple[str, float], ...]:
    """The colour share; with a tube on white hair part of it is the natural shade of the same depth."""
    shade = f"shade depth {brief.depth:g} {brief.tone}"
    share = base_share(brief.white_mean)
    if brief.kit or not brief.covers_white or brief.tone in NATURAL_TONES or share == 0:
        return ((shade, colour),)
    natural = min(colour, _weighed(colour * share, scale_g))
    return ((f"depth {brief.depth:g} neutral", natural), (shade, round(colour - natural, 2)))


def _whole_packs(brief: Brief, grams: float) -> str:
    """A kit is mixed by the pack: its parts belong together."""
    if not brief.kit:
        return ""
    packs = math.ceil(grams / brief.pack_ml - 1e-9)
    return f" That is {packs} pack{'s' if packs > 1 else ''}, mixed whole as the leaflet says."


def _base_reason(brief: Brief, shades: tuple[tuple[str, float], ...]) -> str:
    if len(shades) == 1:
        return ""
    return (
        f" {brief.white_mean:.0%} of the hair is white: {base_share(brief.white_mean):.0%} of the colour is "
        "natural shade, so that white hair does not come out bright."
    )


def _fill(brief: Brief, grams: int, settings: Settings) -> Mix:
    depth, tone = fill_shade(brief.goal_depth)
    colour = _weighed(grams / 2, settings.scale_g)
    return Mix(
        name=FILLER,
        grams=2 * colour,
        colour_g=colour,
        developer_g=colour,
        developer_percent=float(PRE_PIGMENT_PERCENT),
        peroxide_on_head=PRE_PIGMENT_PERCENT / 2,
        shades=((f"demi-permanent depth {depth:g} {tone}", colour),),
        line=Line(
            f"Filler: {colour:g} g demi-permanent depth {depth:g} {tone} + {colour:g} g developer "
            f"{PRE_PIGMENT_PERCENT:g} % = {2 * colour:g} g; its own leaflet's ratio comes first.",
            "A warm filler one level lighter than the goal gives back the pigment that lightening took."
            + _diluted(brief, colour),
            _CP,
        ),
    )


def _diluted(brief: Brief, grams: float) -> str:
    """How the filler's weak developer is made from the one at hand, when that is stronger."""
    if brief.developer_percent <= PRE_PIGMENT_PERCENT:
        return ""
    parts = alligate(brief.developer_percent, 0, float(PRE_PIGMENT_PERCENT), grams)
    return (
        f" With only {brief.developer_percent:g} % at hand: {parts.strong_g:.0f} g of it and {parts.weak_g:.0f} g "
        "water, if its leaflet allows thinning."
    )
