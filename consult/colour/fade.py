"""How much artificial colour is left after washes and weeks, and how much goes in within a time.

Two publications disagree widely: browns and a vivid warm shade lost a colour difference of 6 to 7 in
twelve washes on hair with copper in it (fade-copper-2021, an upper estimate), while over 90 per cent of
the colour stayed for thirty washes on undamaged hair (fade-30-washes-2008). The pools below lie between:
a loose part that leaves with the first washes (large in vivid tones, which is what the first source
shows) and a firm part that leaves slowly.
"""

from math import exp, sqrt

from consult.sources import ASSUMPTION, Number
from consult.trade import VIVID, Porosity, Tone

_LOOSE_VIVID = Number(0.20, "share of the dye", ASSUMPTION)
_LOOSE_MUTED = Number(0.07, "share of the dye", ASSUMPTION)
_LOOSE_WASHES = Number(1.0, "washes to a third", ASSUMPTION)
_FIRM_WASHES_VIVID = Number(120.0, "washes to a third", ASSUMPTION)
_FIRM_WASHES_MUTED = Number(90.0, "washes to a third", ASSUMPTION)
_DAYLIGHT_VIVID = Number(0.015, "share lost a week", ASSUMPTION)
_DAYLIGHT_MUTED = Number(0.008, "share lost a week", ASSUMPTION)
"""Light counts as much as washing (fade-light-2005: 3.6 after four shampoos, about 10 with light as well)."""

_LOSS: dict[Porosity, Number] = {
    "low": Number(0.8, "times the normal loss", ASSUMPTION),
    "normal": Number(1.0, "times the normal loss", ASSUMPTION),
    "high": Number(1.5, "times the normal loss", ASSUMPTION),
}
"""Damaged hair loses colour faster (modern-hair-science, p. 354, without a number)."""

_SPEED: dict[Porosity, Number] = {
    "low": Number(0.8, "times the normal uptake", ASSUMPTION),
    "normal": Number(1.0, "times the normal uptake", "hair-damage-1993"),
    "high": Number(1.65, "times the normal uptake", "hair-damage-1993"),
}
"""Square root of the ratio of diffusion coefficients: hair once treated with peroxide against untreated."""


def share_left(tone: Tone, washes: float, weeks: float, porosity: Porosity = "normal") -> float:
    """Share 0..1 of a full colour that is still in the hair. Raises ValueError for a negative count."""
    if washes < 0 or weeks < 0:
        raise ValueError("washes and weeks cannot be negative")
    vivid = tone in VIVID
    loose = float(_LOOSE_VIVID if vivid else _LOOSE_MUTED)
    firm_washes = float(_FIRM_WASHES_VIVID if vivid else _FIRM_WASHES_MUTED)
    daylight = float(_DAYLIGHT_VIVID if vivid else _DAYLIGHT_MUTED)
    pace = float(_LOSS[porosity])
    washed = loose * exp(-pace * washes / _LOOSE_WASHES) + (1 - loose) * exp(-pace * washes / firm_washes)
    return washed * exp(-pace * daylight * weeks)


def uptake_after(minutes: float, full_minutes: float, porosity: Porosity = "normal") -> float:
    """Share 0..1 of full uptake after so many minutes of the full time the leaflet gives.

    Uptake follows the square root of time (dye-uptake-1967) and is full at the full time at the latest
    for normal hair; porous hair is there sooner, resistant hair not quite. Raises ValueError.
    """
    if minutes < 0 or full_minutes <= 0:
        raise ValueError("minutes cannot be negative, and the full time must be more than none")
    return min(1.0, float(_SPEED[porosity]) * sqrt(minutes / full_minutes))
