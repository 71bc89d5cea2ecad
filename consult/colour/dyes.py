"""Artificial colour: every tone family as a recipe of absorption bands, every depth as a strength.

Recipes are ideal tones, nobody's product. Where the bands lie comes from measured indo dyes; how much
of each goes into a family is chosen so that the family looks like its word (the neutral series fitted
to natural hair). Absorbances simply add, so the chemistry between dyes is left out.
"""

from collections.abc import Iterable
from functools import cache
from typing import Final

import numpy as np
import numpy.typing as npt

from consult.colour.cie import WEIGHTS, Floats, lab
from consult.colour.cie_tables import WAVELENGTHS
from consult.colour.fibre import reflectance
from consult.colour.pigment import lifted, lightness_of
from consult.colour.prepared import table
from consult.colour.values import Shade
from consult.sources import ASSUMPTION, Number
from consult.trade import Porosity, Tone

# Centre and half width (one sigma) in nm. Orange, red and violet centres: corbett-1973 (484, 511 and
# 552..554 nm); blue-green: between 653 and 672 nm there. Yellow and blue centres and all widths: from memory.
_BANDS: Final = ((440, 38), (484, 42), (511, 42), (553, 46), (610, 50), (660, 50))
SHAPES = np.array([np.exp(-0.5 * ((WAVELENGTHS - centre) / width) ** 2) for centre, width in _BANDS])

# Weights of the bands yellow, orange, red, violet, blue, blue-green; then the cover: 0 = strong enough on
# the hair's own pigment only, 1 = strong enough on white hair too. All of it: assumption.
_RECIPES: dict[Tone, tuple[tuple[float, ...], float]] = {
    "neutral": ((1.00, 0.45, 0.16, 0.27, 0.24, 0.15), 0.6),
    "ash": ((0.70, 0.36, 0.16, 0.38, 0.52, 0.34), 0.5),
    "matt": ((0.85, 0.45, 0.08, 0.18, 0.50, 0.50), 0.5),
    "gold": ((1.20, 0.50, 0.14, 0.16, 0.12, 0.06), 0.4),
    "copper": ((1.05, 1.00, 0.35, 0.10, 0.06, 0.03), 0.3),
    "copper red": ((0.85, 1.00, 0.75, 0.22, 0.06, 0.02), 0.3),
    "red": ((0.60, 0.66, 1.10, 0.50, 0.08, 0.02), 0.3),
    "mahogany": ((0.50, 0.45, 0.80, 0.85, 0.25, 0.10), 0.4),
    "violet": ((0.30, 0.15, 0.50, 1.10, 0.45, 0.10), 0.4),
    "pearl": ((0.55, 0.28, 0.25, 0.55, 0.42, 0.22), 0.5),
}
_UPTAKE: dict[Porosity, Number] = {
    "low": Number(0.85, "share of full uptake", ASSUMPTION),
    "normal": Number(1.0, "share of full uptake", ASSUMPTION),
    "high": Number(1.15, "share of full uptake", ASSUMPTION),
}
_LEAST_ADDED = Number(0.25, "share of full uptake", ASSUMPTION)
"""A full head of dye still exchanges a little with a new one, or a tone could never be changed."""

_GRID = np.linspace(1.0, 14.0, 53)  # depths by quarters; the colourist's halves are grid points
_HALVINGS = 34


def recipe(tone: Tone) -> Floats:
    """Band shape (31,) of a tone family at strength 1. Raises KeyError for an unknown family."""
    return np.asarray(np.array(_RECIPES[tone][0]) @ SHAPES)


def strength_for(base: Floats, shape: Floats, lightness: Floats) -> Floats:
    """Strength (...) of a band shape (31,) that darkens base absorbances (..., 31) to L* (...).

    0 where the base is already that dark. L* falls with every bit of dye, so halving finds it.
    """
    low, high = np.zeros(lightness.shape), np.full(lightness.shape, 60.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        lighter = lab(reflectance(base + middle[..., None] * shape))[..., 0] > lightness
        low, high = np.where(lighter, middle, low), np.where(lighter, high, middle)
    return np.asarray((low + high) / 2)


def compute_strengths(tone: Tone) -> Floats:
    """Strength (53,) of a family for every depth of the grid, between the two demands its cover weighs."""
    shape, cover = recipe(tone), _RECIPES[tone][1]
    goal = lightness_of(_GRID)
    on_own = strength_for(lifted(_GRID, np.ones_like(_GRID)), shape, goal)
    on_white = strength_for(np.zeros((len(_GRID), 31)), shape, goal)
    return np.asarray((1 - cover) * on_own + cover * on_white)


@cache
def _strengths(tone: Tone) -> Floats:
    return table(f"strengths {tone}", lambda: compute_strengths(tone))


def load(shade: Shade) -> Floats:
    """Absorbance (31,) of a shade fully developed on hair of normal porosity.

    "Fully developed" lies between two demands that no single strength can meet at once: on its own
    depth lifted one level it falls back to that depth, and on white hair it reaches that depth.
    """
    depths = np.log(_strengths(shade.tone))
    return np.asarray(np.exp(np.interp(shade.depth, _GRID, depths)) * recipe(shade.tone))


def mix(shades: Iterable[tuple[Shade, float]]) -> Floats:
    """Absorbance (31,) of shades mixed, each with its share 0..1."""
    return np.asarray(sum((share * load(shade) for shade, share in shades), np.zeros(len(WAVELENGTHS))))


def amount(dye: npt.ArrayLike) -> Floats:
    """How much a dye (..., 31) darkens: its absorbance averaged as the eye weighs light."""
    return np.asarray(np.asarray(dye) @ WEIGHTS["2 degree"][:, 1].astype(np.asarray(dye).dtype, copy=False))


def uptake_of(porosity: Porosity) -> float:
    """Full uptake of a porosity class against normal hair."""
    return float(_UPTAKE[porosity])


def room_for(new: npt.ArrayLike, present: npt.ArrayLike) -> Floats:
    """Share (...) of a new dye amount (...) that hair holding a dye amount (...) still takes.

    The first colouring fills the hair (hair-colour-dyeing-thermal: saturated after the first cycle), so
    colour over the same colour only refills what has faded.
    """
    fresh, held = np.asarray(new), np.asarray(present)
    free = 1 - held / np.maximum(fresh, 1e-9)
    return np.asarray(np.clip(free, float(_LEAST_ADDED), 1.0))
