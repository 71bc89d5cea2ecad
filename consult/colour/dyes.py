"""Artificial colour: every tone family as a recipe of absorption bands, every depth as a strength.

Recipes are ideal tones, nobody's product. Where the bands lie comes from measured indo dyes; how much
of each goes into a family is chosen so that the family looks like its word (the neutral series fitted
to natural hair). Absorbances simply add, so the chemistry between dyes is left out.
"""

from collections.abc import Iterable
from functools import cache, lru_cache
from typing import Final

import numpy as np
import numpy.typing as npt
from msgspec import Struct

from consult.colour.apparent import apparent_lightness
from consult.colour.cie import WEIGHTS, Floats, lab
from consult.colour.cie_tables import WAVELENGTHS
from consult.colour.fibre import reflectance
from consult.colour.pigment import LADDER_END, WHITE_HAIR, base_lift, cell, lifted, lifted_to, looks_of
from consult.colour.prepared import table
from consult.colour.swatch import Fitted, fit
from consult.colour.values import Shade
from consult.sources import ASSUMPTION, Number
from consult.trade import Porosity, Tone

# Centre and half width (one sigma) in nm. Orange, red and violet centres: corbett-1973 (484, 511 and
# 552..554 nm); blue-green: between 653 and 672 nm there. Yellow and blue centres and all widths: from memory.
_BANDS: Final = ((440, 38), (484, 42), (511, 42), (553, 46), (610, 50), (660, 50))
SHAPES = np.array([np.exp(-0.5 * ((WAVELENGTHS - centre) / width) ** 2) for centre, width in _BANDS])

# Weights of the bands yellow, orange, red, violet, blue, blue-green. All of it: assumption.
_RECIPES: dict[Tone, tuple[float, ...]] = {
    "neutral": (1.00, 0.45, 0.16, 0.27, 0.24, 0.15),
    "ash": (0.54, 0.24, 0.08, 0.29, 0.57, 0.55),
    "matt": (0.90, 0.42, 0.05, 0.14, 0.42, 0.52),
    "gold": (1.20, 0.50, 0.14, 0.16, 0.12, 0.06),
    "copper": (1.20, 1.00, 0.35, 0.10, 0.06, 0.03),
    "copper red": (1.20, 1.00, 0.72, 0.22, 0.09, 0.04),
    "red": (1.05, 0.88, 1.05, 0.34, 0.08, 0.03),
    "mahogany": (0.85, 0.52, 0.80, 0.70, 0.30, 0.13),
    "violet": (0.60, 0.24, 0.26, 0.82, 0.64, 0.24),
    "pearl": (0.62, 0.28, 0.20, 0.52, 0.46, 0.24),
}
# What makes a deep red deep makes a pale one pink, so a pale shade of the reds holds more yellow and orange and
# hardly any violet: a light red is a coppery strawberry. That it is so: common practice; how much of each: assumption.
_PALE: dict[Tone, tuple[float, ...]] = {
    "copper red": (1.30, 1.02, 0.70, 0.15, 0.07, 0.03),
    "red": (1.40, 0.92, 1.00, 0.10, 0.05, 0.03),
}
_DEEP_TO = Number(6.0, "depth up to which a red is a deep one", ASSUMPTION)
_PALE_FROM = Number(8.0, "depth from which a red is a pale one", ASSUMPTION)
_UPTAKE: dict[Porosity, Number] = {
    "low": Number(0.85, "share of full uptake", ASSUMPTION),
    "normal": Number(1.0, "share of full uptake", ASSUMPTION),
    "high": Number(1.15, "share of full uptake", ASSUMPTION),
}
_LEAST_ADDED = Number(0.25, "share of full uptake", ASSUMPTION)
"""A full head of dye still exchanges a little with a new one, or a tone could never be changed."""

_GRID = np.linspace(0.0, 14.0, 57)  # depths by quarters; the colourist's halves are grid points
_LIGHTER = np.concatenate([np.arange(0.0, 7.0, 0.5), np.arange(7.0, 15.0), [WHITE_HAIR]])
"""Steps of the ladder that a base is lighter than hair of the shade's depth, once lifted; the last is white hair."""

_HALVINGS = 34


def weights(tone: Tone, depth: npt.ArrayLike) -> Floats:
    """Weights (..., 6) of the bands in shades of a family at depths (...). Raises KeyError for an unknown family."""
    deep = np.array(_RECIPES[tone])
    way = (np.asarray(depth, dtype=float) - float(_DEEP_TO)) / float(_PALE_FROM - _DEEP_TO)
    pale = np.clip(way, 0.0, 1.0)[..., None]
    return np.asarray(deep + pale * (np.array(_PALE.get(tone, deep)) - deep))


def recipe(tone: Tone, depth: npt.ArrayLike) -> Floats:
    """Band shapes (..., 31) of the same at strength 1."""
    return np.asarray(weights(tone, depth) @ SHAPES)


def strength_for(base: Floats, shape: Floats, looks: Floats) -> Floats:
    """Strength (...) of band shapes (..., 31) that darkens base absorbances (..., 31) to apparent lightness (...).

    0 where the base is already that dark. Hair looks darker with every bit of dye, so halving finds it.
    """
    low, high = np.zeros(looks.shape), np.full(looks.shape, 60.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        lighter = apparent_lightness(lab(reflectance(base + middle[..., None] * shape))) > looks
        low, high = np.where(lighter, middle, low), np.where(lighter, high, middle)
    return np.asarray((low + high) / 2)


def compute_strengths(tone: Tone) -> Floats:
    """Strengths (2, 57, 23) of a family for every depth of the grid, on bases lighter than its own by so many steps:
    as they grew, and lifted there by as much as the shade lifts."""
    shape, goal, lift = recipe(tone, _GRID)[:, None], looks_of(_GRID)[:, None], base_lift(_GRID)[:, None]
    places = np.minimum(_GRID[:, None] + lift + _LIGHTER, LADDER_END)
    bases = np.stack([lifted(places, 0.0), lifted_to(places - lift, places)])
    bases[..., -1, :] = 0.0
    found = strength_for(bases, shape, np.broadcast_to(goal, bases.shape[:-1]))
    return np.asarray(np.maximum(np.minimum(found, found[..., -1:]), 1e-6))


@cache
def _strengths(tone: Tone) -> Floats:
    """Logarithms of the same."""
    return np.log(table(f"strengths {tone}", lambda: compute_strengths(tone)))


class Load(Struct, frozen=True):
    """What a shade puts in. dye: absorbance (31,) on white hair, fully developed; depth: where its own depth lies;
    shares: of that dye (2, 23), on hair as many steps lighter than its own: as it grew, and as lifted."""

    dye: Floats
    depth: float
    shares: Floats

    def share(self, position: npt.ArrayLike, natural: npt.ArrayLike) -> Floats:
        """Share (...) of the dye that hair of natural depths (...) takes whose pigment stands at a place (...) on the
        ladder: what was lifted there is warmer than what grew so.

        A shade is balanced by its maker so that one tube gives its number both on white hair and on hair of
        that depth (common practice), though absorbances add up: so the dye that shows falls from white hair to
        hair of its own depth, by as much as leaves the number what it is, and on darker hair no further.
        """
        lift = base_lift(self.depth)
        lighter = np.asarray(position, dtype=float) - self.depth - lift
        grown, once = (np.interp(lighter, _LIGHTER, row) for row in self.shares)
        return np.asarray(grown + np.clip((position - np.asarray(natural)) / lift, 0.0, 1.0) * (once - grown))


@lru_cache(maxsize=512)
def load(shade: Shade, porosity: Porosity = "normal") -> Load:
    """What a shade puts into hair, by its own depth and family.

    Porous hair takes a shade as if it were a darker one, resistant hair as if it were a lighter one, by as much as
    white hair then takes the share of full uptake: so they differ alike on white hair and on the shade's own depth.
    """
    logs, uptake = _strengths(shade.tone), float(_UPTAKE[porosity])
    on_white = logs[0, :, -1]
    full = float(np.interp(shade.depth, _GRID, on_white))
    depth = float(np.interp(-full - np.log(uptake), -on_white, _GRID))  # a darker shade holds more
    i, part = cell(depth, _GRID)
    here = (1 - part) * logs[:, i] + part * logs[:, i + 1]
    dye = np.exp(full) * recipe(shade.tone, depth)
    if (fitted := fitted_to_swatch(shade)) is not None:
        dye = fitted.weights @ SHAPES
    return Load(uptake * dye, depth, np.exp(here - here[0, -1]))


@lru_cache(maxsize=512)
def fitted_to_swatch(shade: Shade) -> Fitted | None:
    """How a shade was fitted to its own swatch; None where it has none."""
    if shade.swatch is None:
        return None
    strength = float(np.exp(np.interp(shade.depth, _GRID, _strengths(shade.tone)[0, :, -1])))
    return fit(SHAPES, strength * weights(shade.tone, shade.depth), shade.swatch)


def mix(
    shades: Iterable[tuple[Shade, float]],
    position: float = WHITE_HAIR,
    natural: float = 0.0,
    porosity: Porosity = "normal",
) -> Floats:
    """Absorbance (31,) of shades mixed, each with its share 0..1, in hair that stands there on the natural ladder
    and grew with a natural depth; as on white hair where neither is given."""
    parts = ((load(shade, porosity), share) for shade, share in shades)
    return np.asarray(
        sum(
            (share * one.share(position, natural) * one.dye for one, share in parts),
            np.zeros(len(WAVELENGTHS)),
        )
    )


def amount(dye: npt.ArrayLike) -> Floats:
    """How much a dye (..., 31) darkens: its absorbance averaged as the eye weighs light."""
    return np.asarray(np.asarray(dye) @ WEIGHTS["2 degree"][:, 1].astype(np.asarray(dye).dtype, copy=False))


def room_for(new: npt.ArrayLike, present: npt.ArrayLike) -> Floats:
    """Share (...) of a new dye amount (...) that hair holding a dye amount (...) still takes.

    The first colouring fills the hair (hair-colour-dyeing-thermal: saturated after the first cycle), so
    colour over the same colour refills what has faded, and a little more with every pass: it builds up.
    """
    fresh, held = np.asarray(new), np.asarray(present)
    free = 1 - held / np.maximum(fresh, 1e-9)
    return np.asarray(np.clip(free, float(_LEAST_ADDED), 1.0))
