"""Back again: from a colour to the depth number and tone word a colourist would give it.

A chart colour is a shade as it looks on hair of its own depth: as light as natural hair of that depth, and as
far towards its tone as its dye takes pigment that the shade itself has lifted. The neutral series is natural
hair itself. So a depth is read from lightness alone, and a tone is a direction away from natural hair as light.
On white hair the same dye goes further, and a little round the corner, so each family is known by two points.
"""

from functools import cache

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats, lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import recipe, strength_for
from consult.colour.fibre import reflectance
from consult.colour.pigment import base_lift, cell, depth_seen, lifted_to, looks_of, natural_lab
from consult.colour.prepared import table
from consult.colour.values import Shade
from consult.sources import ASSUMPTION, FROM_MEMORY, Number
from consult.trade import DARKEST, LIGHTEST, TONES, Tone

_NOTICEABLE = Number(1.0, "colour difference", FROM_MEMORY)
"""Nearer to natural hair than this nobody sees a tone at all."""

_CALLED = Number(0.5, "share of what a shade of the family does on its own depth", ASSUMPTION)
"""Hair that leans to a tone by less than this is not called by it."""

_FAMILIES: tuple[Tone, ...] = tuple(tone for tone in TONES if tone != "neutral")
_CHART = np.linspace(DARKEST, 20.0, 77)  # beyond 10, so that near-white hair is compared with its like


def compute_chart(tone: Tone) -> Floats:
    """CIELAB (2, 77, 3) of a family from the darkest depth up, by quarters of a level: on its own depth, on white."""
    if tone == "neutral":
        known = natural_lab(_CHART)
        known[-1] = lab(reflectance(np.zeros(31)))  # the ladder's end is white hair
        return np.stack([known, known])
    shape, looks = recipe(tone, _CHART), looks_of(_CHART)
    own = lifted_to(_CHART, _CHART + base_lift(_CHART))
    bases = np.stack([own, np.zeros_like(own)])
    strength = strength_for(bases, shape, np.stack([looks, looks]))
    return lab(reflectance(bases + strength[..., None] * shape))


@cache
def _chart(tone: Tone) -> Floats:
    return table(f"chart {tone}", lambda: compute_chart(tone))


def _on_chart(depth: Floats, known: Floats) -> Floats:
    """Rows (..., 3) of a chart (77, 3) at depths (...); held at the ends."""
    (i, part) = cell(depth, _CHART)
    part = part[..., None]
    return np.asarray((1 - part) * known[i] + part * known[i + 1])


def chart_lab(depth: npt.ArrayLike, tone: Tone) -> Floats:
    """CIELAB (..., 3) of the chart colours of a family at depths (...); held at the ends outside 1..20."""
    return _on_chart(np.asarray(depth, dtype=float), _chart(tone)[0])


def goal_lab(goal: Shade) -> Floats:
    """CIELAB (3,) of the colour that is wanted."""
    return chart_lab(goal.depth, goal.tone)


def exact_depth(colour: npt.ArrayLike) -> Floats:
    """Depth (...) of CIELAB colours (..., 3) as a running number, clamped to 1..10."""
    return np.asarray(np.clip(depth_seen(colour), DARKEST, LIGHTEST))


def nearest_depth(colour: npt.ArrayLike) -> Floats:
    """Depth (...) to the nearest half: finer than that nobody reads a swatch."""
    return np.asarray(np.round(exact_depth(colour) * 2) / 2)


@cache
def _families() -> Floats:
    """The two chart colours of every family but neutral, a row (families * 2 * 3) a depth: (77, 54)."""
    charts = np.stack([_chart(tone) for tone in _FAMILIES])
    return np.moveaxis(charts, 2, 0).reshape(len(_CHART), -1)


def nearest_tones(colour: npt.ArrayLike) -> list[Tone]:
    """The tone word of each of the colours (n, 3): the family that leads away from natural hair the same way."""
    values = np.atleast_2d(np.asarray(colour, dtype=float))
    position = depth_seen(values)
    natural = _on_chart(position, _chart("neutral")[0])
    away, way = _polar(values - natural)
    ways = _on_chart(position, _families()).reshape(len(values), -1, 2, 3)
    far, angle = _polar(ways - natural[:, None, None])
    near, beyond = far[..., 0], np.maximum(far[..., 1], far[..., 0] + 1e-6)
    round_the_corner = np.clip((away[:, None] - near) / (beyond - near), 0.0, 1.0)
    turn = np.angle(np.exp(1j * (angle[..., 1] - angle[..., 0])))
    off = np.abs(np.angle(np.exp(1j * (way[:, None] - angle[..., 0] - round_the_corner * turn))))
    nearest = off.argmin(axis=1)
    faint = away < _CALLED * near[np.arange(len(values)), nearest]
    natural[:, 0] = values[:, 0]  # lightness has been read as depth; the rest is tone
    unseen = ciede2000(values, natural) < _NOTICEABLE
    return [
        "neutral" if faint[i] or unseen[i] else _FAMILIES[int(family)] for i, family in enumerate(nearest)
    ]


def _polar(apart: Floats) -> tuple[Floats, Floats]:
    """Length and angle (...) of differences (..., 3) in the plane of a* and b*."""
    return np.hypot(apart[..., 1], apart[..., 2]), np.arctan2(apart[..., 2], apart[..., 1])
