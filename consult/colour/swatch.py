"""A shade fitted to its maker's own swatch: as much of each dye band as gives the colour that was read there.

A swatch is hair of no pigment, dyed (charts are made on white or bleached hair, common practice). Bands move in
proportion to themselves and are held to the built-in recipe as by an elastic band, so one colour cannot turn a
recipe upside down: what three numbers do not say stays as it is.
"""

import numpy as np
from msgspec import Struct

from consult.colour.cie import Floats, lab
from consult.colour.difference import ciede2000
from consult.colour.fibre import reflectance
from consult.colour.values import Lab
from consult.sources import ASSUMPTION, Number

_PULL = Number(3.0, "units of L*, a*, b* that a band changed e-fold may cost", ASSUMPTION)
_ROUNDS = 25
_TINY = 1e-4


class Fitted(Struct, frozen=True):
    """weights: amounts of the bands (bands,); strength: dye over the built-in dye; difference: CIEDE2000 between the
    built-in shade and the fitted one; left: CIEDE2000 that the swatch is still off."""

    weights: Floats
    strength: float
    difference: float
    left: float


def fit(shapes: Floats, built_in: Floats, swatch: Lab) -> Fitted:
    """Amounts of bands of shapes (bands, 31), near the built-in amounts (bands,), that look like a swatch."""
    wanted = np.array(swatch)
    bent = np.zeros(len(built_in))

    def look(u: Floats) -> Floats:
        return lab(reflectance((built_in * np.exp(u)) @ shapes))

    def cost(u: Floats) -> float:
        return float(((look(u) - wanted) ** 2).sum() + (float(_PULL) * u) @ (float(_PULL) * u))

    for _ in range(_ROUNDS):
        here = look(bent)
        slope = (look(bent + _TINY * np.eye(len(bent))) - here).T / _TINY
        hold = float(_PULL) ** 2
        step = np.linalg.solve(
            slope.T @ slope + hold * np.eye(len(bent)), slope.T @ (wanted - here) - hold * bent
        )
        scale = 1.0
        while scale > 1e-3 and cost(bent + scale * step) > cost(bent):
            scale /= 2
        bent = bent + scale * step
    weights = built_in * np.exp(bent)
    before, after = look(np.zeros(len(bent))), look(bent)
    return Fitted(
        weights,
        float(weights.sum() / built_in.sum()),
        float(ciede2000(before, after)),
        float(ciede2000(after, wanted)),
    )
