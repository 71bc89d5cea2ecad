"""Natural pigment: how strongly the two melanins absorb, and how much of each a natural depth holds."""

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats
from consult.colour.cie_tables import WAVELENGTHS
from consult.sources import ASSUMPTION, Number

# (nm, extinction in 1/cm per mg/ml) of dissolved melanin between 382 and 712 nm.
_EUMELANIN = (  # omlc-melanin
    (382.42, 16.523),
    (407.07, 13.878),
    (431.74, 11.938),
    (458.67, 10.173),
    (483.36, 8.937),
    (523.76, 6.995),
    (550.70, 5.758),
    (588.87, 4.520),
    (615.82, 3.988),
    (642.77, 3.280),
    (680.96, 2.746),
    (712.41, 2.214),
)
_PHEOMELANIN = (  # omlc-melanin; the small bump at 601 nm is in the data
    (387.50, 12.952),
    (403.20, 11.890),
    (418.85, 10.478),
    (430.04, 9.594),
    (443.45, 8.359),
    (459.17, 7.472),
    (481.61, 6.054),
    (501.83, 4.988),
    (524.32, 3.919),
    (549.09, 3.024),
    (591.91, 1.589),
    (600.98, 1.756),
    (625.84, 1.385),
    (652.98, 1.187),
    (675.59, 0.993),
    (700.47, 0.797),
)
_EUMELANIN_GREEN = Number(0.697, "1/fibre radius per unit eumelanin", "pbrt-hair")
_PHEOMELANIN_GREEN = Number(0.400, "1/fibre radius per unit pheomelanin", "pbrt-hair")
_GREEN = 550.0  # nm: where the two scales above are tied to the extinction tables

_CHORD = Number(1.851, "fibre radii", ASSUMPTION)
"""Mean way of light through a cylinder of refractive index 1.55: calculated, and it only scales depths."""

_DEPTH_3 = Number(0.88, "units of eumelanin", "scanavez-2000")
"""Fitted: depth 3, dark brown, is the measured dark brown tress (see the surface light in `fibre`)."""

STEP = Number(1.585, "eumelanin of one depth over the next lighter", "rayrender-hair")
"""Black 8, brown 1.3, blond 0.3 in the source: the fourth root of 8/1.3 and the cube root of 1.3/0.3 are
both near 1.6."""

_PHEO_SHARE = Number(0.14, "units of pheomelanin per unit of eumelanin", "pcmr-12673")
"""Middle of the 11 to 17 per cent found in black to brown hair."""

TONE_STEP = Number(4.0, "pheomelanin to eumelanin of one natural tone over the next", ASSUMPTION)
"""Ash, neutral, gold, auburn, red: five words over a ratio that runs from a trace to mostly pheomelanin. Even steps
of the ratio look about even; the measured red sample is a check and was not used to choose them."""

_PHEO_TRACE = Number(0.01, "units of pheomelanin", ASSUMPTION)

# Bleaching. Long waves go first, so what stays looks redder and yellower; pheomelanin holds out longer.
_BLEACH_SLOPE = Number(1.5, "power of the wavelength", ASSUMPTION)
_PHEO_RESISTANCE = Number(4.0, "bleaching rate of eumelanin over that of pheomelanin", ASSUMPTION)


def _scaled(table: tuple[tuple[float, float], ...], green: float) -> npt.NDArray[np.float64]:
    nm, extinction = np.array(table).T
    return np.asarray(
        green * _CHORD * np.interp(WAVELENGTHS, nm, extinction) / np.interp(_GREEN, nm, extinction)
    )


_EU = _scaled(_EUMELANIN, _EUMELANIN_GREEN)
_PHEO = _scaled(_PHEOMELANIN, _PHEOMELANIN_GREEN)
_RATE = (WAVELENGTHS / _GREEN) ** float(_BLEACH_SLOPE)


def eumelanin(depth: npt.ArrayLike) -> Floats:
    """Units of eumelanin at natural depths (...) of neutral tone: one factor a level, also beyond 1..10."""
    return np.asarray(_DEPTH_3 * np.power(float(STEP), 3.0 - np.asarray(depth, dtype=float)))


def pheomelanin(eu: npt.ArrayLike, warmth: npt.ArrayLike = 0.0) -> Floats:
    """Units of pheomelanin beside so many of eumelanin (...); warmth in natural tones from neutral: -1 ash .. 3 red."""
    return np.asarray(
        _PHEO_SHARE * np.power(float(TONE_STEP), np.asarray(warmth, dtype=float)) * eu + _PHEO_TRACE
    )


def absorbance(eu: npt.ArrayLike, pheo: npt.ArrayLike, dose: npt.ArrayLike = 0.0) -> Floats:
    """Absorbance (..., 31), nepers per crossing of one fibre, of units of melanin (...) after a bleaching dose (...).

    The dose has no unit of its own: `pigment.lifted` finds the one that gives the levels asked for.
    """
    eu_, pheo_, dose_ = (np.asarray(given)[..., None] for given in (eu, pheo, dose))
    kind = np.result_type(eu_, np.float32)  # single precision stays single
    faded = dose_ * _RATE.astype(kind, copy=False)
    dark = eu_ * _EU.astype(kind, copy=False) * np.exp(-faded)
    red = pheo_ * _PHEO.astype(kind, copy=False) * np.exp(faded * (-1 / float(_PHEO_RESISTANCE)))
    return np.asarray(dark + red)
