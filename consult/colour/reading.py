"""Back from what the eye or a meter read to what lies in the hair: the lift that is left and the dye on it.

A reading has a lightness and a tone; a stretch has pigment, which a lift takes away evenly, and dye of the family
that was read. For every lift there is one strength of dye that gives the lightness; the lift whose tone comes
nearest is the one. What tone then still misses is made up by a little yellow, red or blue. Hair that was never
coloured nor lightened has no dye: there the reading says what grew.
"""

from functools import lru_cache

import numpy as np
import numpy.typing as npt
from msgspec import Struct

from consult.colour.cie import WEIGHTS, Floats, lab, xyz_from_lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import SHAPES, recipe
from consult.colour.fibre import KERATIN, pile
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
_NUDGES = _TINY * _MAKE_UP[:, None]
_MET = 1e-3  # colour difference
_RIDGE = 1e-6 * np.eye(3)  # black hair has no slope
_ONE = np.ones(3)
_ALL = slice(None)
_BRIGHTNESS = WEIGHTS["2 degree"][:, 1]


class Found(Struct, frozen=True):
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
    lock = _Lock.of(lifted(depth, lifts, warmth), white_share)
    dye = np.asarray(_strengths(lock, shape, float(xyz_from_lab(colour, _ONE)[1]))[:, None] * shape)
    best, made_up = _made_up(lock, dye, colour, lifts)
    return Found(depth, warmth, float(lifts[best]), made_up, made_up)


class _Lock(Struct, frozen=True):
    """White and pigmented hairs that are looked at with many dyes. mean, square: what passes their natural pigment, and
    the square of it, (n, 31) each, as a mean over both kinds: as in `fibre.blend`, but for the dye."""

    mean: Floats
    square: Floats

    @classmethod
    def of(cls, pigment: Floats, white_share: float) -> "_Lock":
        passed = np.exp(-pigment)
        return cls(passed + white_share * (1 - passed), passed**2 + white_share * (1 - passed**2))

    def sends_back(self, dye: Floats, of: slice | npt.NDArray[np.intp] = _ALL) -> Floats:
        """Reflectance (..., m, 31) of m of the n pigments with dyes (..., m, 31)."""
        passed = np.exp(-(dye + KERATIN))
        return pile(passed * self.mean[of], passed * passed * self.square[of])


def _strengths(lock: _Lock, shape: Floats, luminance: float) -> Floats:
    """Strength (n,) of a dye over each natural pigment that gives Y; 0 where the hair is that dark without it."""
    low, high = np.zeros(len(lock.mean)), np.full(len(lock.mean), 12.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        lighter = lock.sends_back(middle[:, None] * shape) @ _BRIGHTNESS > luminance
        low, high = np.where(lighter, middle, low), np.where(lighter, high, middle)
    return np.where(low == 0.0, 0.0, (low + high) / 2)


def _made_up(lock: _Lock, dye: Floats, colour: Floats, lifts: Floats) -> tuple[int, Floats]:
    """Which of the lifts (n,) explains a colour (3,) best, and its dye (31,), with as much yellow, red and blue more or
    less than the dyes given (n, 31) as the colour still wants (Newton's way).

    Where little has to be made up the family that was read explains most, and less lift is likelier than more. So
    much speaks against a lift whatever is made up: what that alone rules out is followed no further, and once all
    others are met the best of them is found.
    """
    best, least = dye.copy(), np.full(len(dye), np.inf)
    against = np.zeros(len(dye))
    live = np.arange(len(dye))
    for step in range(_STEPS + 1):
        looks = lab(lock.sends_back(np.concatenate([dye[None], dye + _NUDGES]), live))
        apart = ciede2000(looks[0], colour)
        nearer = apart < least[live]
        best[live[nearer]], least[live[nearer]] = dye[nearer], apart[nearer]
        if not step:
            against = _MADE_UP_COUNTS * apart + _LIFT_COUNTS * lifts
        kept = against[live] < np.min(least + against)
        live, looks = live[kept], looks[:, kept]
        if not np.any(least[live] > _MET):
            break
        slope = np.moveaxis(looks[1:] - looks[0], 0, -1) / _TINY + _RIDGE
        more = np.linalg.solve(slope, (colour - looks[0])[..., None])[..., 0]
        dye = np.maximum(dye[kept] + np.clip(more, -0.3, 0.3) @ _MAKE_UP, 0.0)
    found = int((least + against).argmin())
    return found, best[found]
