"""Back from what the eye or a meter read to what lies in the hair: the lift that is left and the dye on it.

A reading has a lightness and a tone; a stretch has pigment, which a lift takes away evenly, and dye of the family
that was read. For every lift there is one strength of dye that gives the lightness; the lift whose tone comes
nearest is the one. What tone then still misses is made up by a little yellow, red or blue. Hair that was never
coloured nor lightened has no dye: there the reading says what grew.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from consult.colour.cie import Floats, lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import SHAPES, recipe
from consult.colour.fibre import blend
from consult.colour.ladder import chart_lab, nearest_tones
from consult.colour.pigment import LADDER_END, depth_seen, lifted, natural_lab
from consult.colour.values import Lab, Shade
from consult.trade import DARKEST, LIGHTEST, Tone

_WARMTHS = np.linspace(-1.0, 4.0, 51)
_GROWN: dict[Tone, float] = {
    "ash": -1.0, "matt": -1.0, "pearl": -1.0, "violet": -1.0, "gold": 1.0, "copper": 2.0, "mahogany": 2.0,
    "copper red": 3.0, "red": 3.0,
}  # fmt: skip
"""Warmth of natural hair that is called by a tone word; where it is called neutral, what was said of its growth."""

_TRIED = 31  # lifts, over the whole ladder
_HALVINGS = 10
_MADE_UP_COUNTS, _LIFT_COUNTS = 0.1, 0.02  # against a unit of colour difference
_MAKE_UP = SHAPES[[0, 2, 4]]  # yellow, red, blue
_STEPS = 8
_TINY = 1e-4
_RIDGE = 1e-6  # black hair has no slope


@dataclass(frozen=True)
class Found:
    """What lies in the hair: natural depth and warmth, levels lifted, absorbance (31,) of artificial colour in the
    pigmented and in the white hairs."""

    depth: float
    warmth: float
    lift: float
    dye: Floats
    on_white: Floats


@lru_cache(maxsize=1024)
def found(reading: Shade | Lab, depth: float, warmth: float, white_share: float, *, untouched: bool) -> Found:
    """Pigment and dye that give a reading, on hair that grew with a depth, a warmth and a share of white."""
    if isinstance(reading, Shade):
        colour, tone = chart_lab(reading.depth, reading.tone), reading.tone
        natural = reading.depth
    else:
        colour = np.array(reading)
        tone = nearest_tones(colour)[0]
        natural = float(depth_seen(colour))
    if untouched:
        return _grown(colour, tone, natural, warmth, measured=not isinstance(reading, Shade))
    return _worked_out(colour, recipe(tone, natural), depth, warmth, white_share)


def _grown(colour: Floats, tone: Tone, natural: float, warmth: float, *, measured: bool) -> Found:
    """Natural hair that looks as read: another depth than at the scalp, and where a tone was read, another warmth.

    On hair without dye a tone word is a natural tone. White hairs among it are not part of the reading, which is
    taken from the others.
    """
    at = float(np.clip(natural, DARKEST, LIGHTEST))
    if measured:
        warmth = float(_WARMTHS[int(ciede2000(natural_lab(at, _WARMTHS), colour).argmin())])
    else:
        warmth = _GROWN.get(tone, warmth)
    return Found(at, warmth, 0.0, np.zeros(31), np.zeros(31))


def _worked_out(colour: Floats, shape: Floats, depth: float, warmth: float, white_share: float) -> Found:
    lifts = np.linspace(0.0, max(LADDER_END - depth, 1.0), _TRIED)
    pigment = lifted(depth, lifts, warmth)
    strength = _strengths(pigment, shape, white_share, float(colour[0]))
    dye = np.asarray(strength[:, None] * shape)
    dyes, plain, apart = _made_up(pigment, dye, white_share, colour)
    # Where little has to be made up the family that was read explains most, and less lift is likelier than more.
    best = int((apart + _MADE_UP_COUNTS * plain + _LIFT_COUNTS * lifts).argmin())
    return Found(depth, warmth, float(lifts[best]), dyes[best], dyes[best])


def _look(pigment: Floats, dye: Floats, white_share: float) -> Floats:
    return lab(blend(pigment + dye, dye, np.full(dye.shape[:-1], white_share)))


def _strengths(pigment: Floats, shape: Floats, white_share: float, lightness: float) -> Floats:
    """Strength (n,) of a dye over pigment (n, 31) that gives L*; 0 where the hair is that dark without it."""
    low, high = np.zeros(len(pigment)), np.full(len(pigment), 12.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        lighter = _look(pigment, middle[:, None] * shape, white_share)[:, 0] > lightness
        low, high = np.where(lighter, middle, low), np.where(lighter, high, middle)
    return np.where(low == 0.0, 0.0, (low + high) / 2)


def _made_up(
    pigment: Floats, dye: Floats, white_share: float, colour: Floats
) -> tuple[Floats, Floats, Floats]:
    """Dyes (n, 31) with as much yellow, red and blue more or less as the colour (3,) still wants (Newton's way).

    And the colour difference (n,) that was there before, and what is left of it.
    """
    best, plain = dye, np.full(len(dye), np.inf)
    least = plain
    for step in range(_STEPS + 1):
        trial = np.concatenate([dye[None], dye + _TINY * _MAKE_UP[:, None]])
        looks = _look(np.broadcast_to(pigment, trial.shape), trial, white_share)
        apart = ciede2000(looks[0], colour)
        best, least = np.where((apart < least)[:, None], dye, best), np.minimum(apart, least)
        plain = plain if step else apart
        slope = np.moveaxis(looks[1:] - looks[0], 0, -1) / _TINY + _RIDGE * np.eye(3)
        more = np.linalg.solve(slope, (colour - looks[0])[..., None])[..., 0]
        dye = np.maximum(dye + np.clip(more, -0.3, 0.3) @ _MAKE_UP, 0.0)
    return best, plain, least
