"""Back again: from a colour to the depth number and tone word a colourist would give it.

A chart colour is a shade as it looks on hair of its own depth: as light as natural hair of that depth,
and as far towards its tone as dye over pigment lifted two levels takes it. The neutral series is
natural hair itself. So a depth is read from lightness alone and a tone from the rest.
"""

from functools import cache

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats, lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import recipe, strength_for
from consult.colour.fibre import reflectance
from consult.colour.pigment import depth_of, lifted, lightness_of, natural_lab
from consult.colour.prepared import table
from consult.colour.values import Shade
from consult.sources import ASSUMPTION, FROM_MEMORY, Number
from consult.trade import DARKEST, LIGHTEST, TONES, Tone

_CHART_LIFT = Number(2.0, "levels", ASSUMPTION)
_NOTICEABLE = Number(1.0, "colour difference", FROM_MEMORY)
"""Nearer to natural hair than this nobody sees a tone at all."""

_NEUTRAL = TONES.index("neutral")
_CHART = np.linspace(DARKEST, 14.0, 53)  # beyond 10, so that near-white hair is compared with its like


def compute_chart(tone: Tone) -> Floats:
    """CIELAB (53, 3) of a family from the darkest depth up, by quarters of a level."""
    if tone == "neutral":
        return natural_lab(_CHART)
    base = lifted(_CHART, np.full_like(_CHART, float(_CHART_LIFT)))
    shape = recipe(tone)
    strength = strength_for(base, shape, lightness_of(_CHART))
    return lab(reflectance(base + strength[:, None] * shape))


@cache
def _chart(tone: Tone) -> Floats:
    return table(f"chart {tone}", lambda: compute_chart(tone))


def _natural(lightness: Floats) -> Floats:
    """CIELAB (n, 3) of natural hair as light as L* (n,): the chart, and past its end on to white hair."""
    white = lab(reflectance(np.zeros((1, 31))))
    known = np.concatenate([_chart("neutral"), white])
    return np.stack([np.interp(lightness, known[:, 0], known[:, i]) for i in range(3)], axis=-1)


def chart_lab(depth: npt.ArrayLike, tone: Tone) -> Floats:
    """CIELAB (..., 3) of the chart colours of a family at depths (...); held at the ends outside 1..14."""
    known = _chart(tone)
    at = np.asarray(depth, dtype=float)
    return np.stack([np.interp(at, _CHART, known[:, i]) for i in range(3)], axis=-1)


def goal_lab(goal: Shade) -> Floats:
    """CIELAB (3,) of the colour that is wanted."""
    return chart_lab(goal.depth, goal.tone)


def exact_depth(colour: npt.ArrayLike) -> Floats:
    """Depth (...) of CIELAB colours (..., 3) as a running number, clamped to 1..10."""
    return np.asarray(np.clip(depth_of(np.asarray(colour)[..., 0]), DARKEST, LIGHTEST))


def nearest_depth(colour: npt.ArrayLike) -> Floats:
    """Depth (...) to the nearest half: finer than that nobody reads a swatch."""
    return np.asarray(np.round(exact_depth(colour) * 2) / 2)


def nearest_tones(colour: npt.ArrayLike) -> list[Tone]:
    """The tone word of each of the colours (n, 3): the nearest chart colour of the same lightness."""
    values = np.atleast_2d(np.asarray(colour, dtype=float)).copy()
    position = depth_of(values[:, 0])
    charts = np.stack([chart_lab(position, tone) for tone in TONES])
    charts[_NEUTRAL] = _natural(values[:, 0])
    values[:, 0] = charts[..., 0] = 50.0  # lightness has been read as depth; the rest is tone
    apart = ciede2000(charts, values[None])
    nearest = np.where(apart[_NEUTRAL] < _NOTICEABLE, _NEUTRAL, np.argmin(apart, axis=0))
    return [TONES[int(i)] for i in nearest]
