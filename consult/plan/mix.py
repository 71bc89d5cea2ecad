"""What is weighed into each bowl."""

import math

from consult.plan.brief import Brief
from consult.plan.developer import LEGAL_LIMIT, on_head, strength_words
from consult.plan.quantity import FILLER, MIX_DENSITY, Need, stretch_needs, total_need
from consult.plan.settings import Settings
from consult.plan.timeline import Timeline
from consult.plan.types import Approach, Line, Mix
from consult.plan.words import percent
from consult.sources import COMMON_PRACTICE, Number

# White share of the head -> share of natural shade in the colour, within what is taught: up to a quarter,
# a third to a half, a half to two thirds, two thirds to all.
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


def plan_mixes(brief: Brief, approach: Approach, settings: Settings, timeline: Timeline) -> tuple[Mix, ...]:
    """The bowls in the order they are mixed.

    A kit is mixed by whole or half packs, a tube by weight. A bowl that would be in use for too long is
    divided; what is needed later is mixed later.
    """
    needs = stretch_needs(brief, approach)
    fillers = tuple(
        _fill(brief, math.ceil(need.quantile(settings.run_out_chance)), settings)
        for name, need in needs.items()
        if name == FILLER
    )
    if brief.kit:
        return (*fillers, *_packs(brief, needs, settings, timeline))
    grams = {n: math.ceil(need.quantile(settings.run_out_chance)) for n, need in needs.items() if n != FILLER}
    divided = [
        (name if parts == 1 else f"{name} (bowl {part + 1} of {parts})", g / parts)
        for name, g in grams.items()
        for parts in [1 if later(name, approach) else timeline.bowls]
        for part in range(parts)
    ]
    return (*fillers, *(_mix(brief, name, g, settings) for name, g in divided))


def later(stretch: str, approach: Approach) -> bool:
    """Coloured in one go from a bowl of its own, mixed when its turn comes."""
    return stretch == "roots" or (approach is Approach.REFRESH and stretch == "lengths")


def _packs(brief: Brief, needs: dict[str, Need], settings: Settings, timeline: Timeline) -> tuple[Mix, ...]:
    """A kit's packs dealt out over the bowls by halves, the first bowls getting what is left over."""
    total = total_need(needs)
    stretches = ", then ".join(name for name in needs if name != FILLER)
    halves = max(2 * total.packs(brief.pack_ml * MIX_DENSITY, settings.run_out_chance), timeline.bowls)
    halves += halves % 2
    bowls = timeline.bowls
    dealt = [halves // bowls + (1 if n < halves % bowls else 0) for n in range(bowls)]
    mixes = []
    for n, share in enumerate(dealt, 1):
        name = stretches if bowls == 1 else f"{stretches} (bowl {n} of {bowls})"
        mixes.append(_kit_mix(brief, name, share / 2))
    return tuple(mixes)


def _kit_mix(brief: Brief, name: str, packs: float) -> Mix:
    grams = packs * brief.pack_ml * MIX_DENSITY
    colour = round(grams / (1 + brief.ratio), 1)
    held = on_head(brief.developer_percent, brief.ratio)
    shade = f"shade depth {brief.depth:g} {brief.tone}"
    how_many = "half a pack" if packs == 0.5 else f"{packs:g} pack{'s' if packs > 1 else ''}"
    whole = "" if packs == int(packs) else " Weigh both parts, so that the ratio stays."
    return Mix(
        name=name,
        packs=packs,
        grams=round(grams, 1),
        colour_g=colour,
        developer_g=round(grams - colour, 1),
        developer_percent=brief.developer_percent,
        peroxide_on_head=round(held, 2),
        shades=((shade, colour),),
        line=Line(
            f"{name.capitalize()}: {how_many}, mixed as the leaflet says ({grams:.0f} g).{whole}",
            _strength_reason(brief, held),
            ("eu-1223-annex-iii", "volume-strength", COMMON_PRACTICE),
        ),
    )


def _strength_reason(brief: Brief, held: float) -> str:
    return (
        f"Leaflet ratio 1 : {brief.ratio:g}. {strength_words(brief.developer_percent)}. The mix holds "
        f"{held:.1f} % on the head; the legal limit is {LEGAL_LIMIT:g} %."
    )


def _weighed(grams: float, scale_g: float) -> float:
    """Rounded up to the step of the scale."""
    return round(math.ceil(grams / scale_g - 1e-9) * scale_g, 2)


def _mix(brief: Brief, name: str, grams: float, settings: Settings) -> Mix:
    colour = _weighed(grams / (1 + brief.ratio), settings.scale_g)
    developer = _weighed(colour * brief.ratio, settings.scale_g)
    held = on_head(brief.developer_percent, brief.ratio)
    shades = _shades(brief, colour, settings.scale_g)
    how = " + ".join(f"{g:g} g {shade}" for shade, g in shades)
    return Mix(
        name=name,
        packs=(colour + developer) / brief.pack_ml,
        grams=round(colour + developer, 2),
        colour_g=colour,
        developer_g=developer,
        developer_percent=brief.developer_percent,
        peroxide_on_head=round(held, 2),
        shades=shades,
        line=Line(
            f"{name.capitalize()}: {how} + {developer:g} g developer {brief.developer_percent:g} % = "
            f"{colour + developer:g} g.",
            _strength_reason(brief, held) + _base_reason(brief, shades),
            ("eu-1223-annex-iii", "volume-strength", COMMON_PRACTICE),
        ),
    )


def _shades(brief: Brief, colour: float, scale_g: float) -> tuple[tuple[str, float], ...]:
    """The colour share; with a tube on white hair part of it is the natural shade of the same depth."""
    shade = f"shade depth {brief.depth:g} {brief.tone}"
    share = base_share(brief.white_mean)
    if brief.kit or brief.goal_white not in ("cover", "blend") or brief.tone in NATURAL_TONES or share == 0:
        return ((shade, colour),)
    natural = min(colour, _weighed(colour * share, scale_g))
    return ((f"depth {brief.depth:g} neutral", natural), (shade, round(colour - natural, 2)))


def _base_reason(brief: Brief, shades: tuple[tuple[str, float], ...]) -> str:
    if len(shades) == 1:
        return ""
    return (
        f" {percent(brief.white_mean)} of the hair is white: {percent(base_share(brief.white_mean))} of the colour is "
        "natural shade, so that white hair does not come out bright."
    )


def _fill(brief: Brief, grams: int, settings: Settings) -> Mix:
    depth, tone = fill_shade(brief.goal_depth)
    colour = _weighed(grams / 2, settings.scale_g)
    return Mix(
        name=FILLER,
        packs=0.0,
        grams=2 * colour,
        colour_g=colour,
        developer_g=colour,
        developer_percent=float(PRE_PIGMENT_PERCENT),
        peroxide_on_head=PRE_PIGMENT_PERCENT / 2,
        shades=((f"demi-permanent depth {depth:g} {tone}", colour),),
        line=Line(
            f"Filler: {colour:g} g demi-permanent depth {depth:g} {tone} + {colour:g} g developer "
            f"{PRE_PIGMENT_PERCENT:g} % = {2 * colour:g} g; its own leaflet's ratio comes first.",
            "A warm filler one level lighter than the goal gives back the pigment that lightening took.",
            _CP,
        ),
    )
