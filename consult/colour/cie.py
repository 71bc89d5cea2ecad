"""Reflectance -> XYZ -> CIELAB -> sRGB, for arrays of any leading shape.

Spectra have 31 samples on the last axis (400..700 nm by 10 nm); colours have 3. Every result is for
illuminant D65. White is the table's own perfect diffuser, so a reflectance of 1 gives exactly L* 100.
Summing 10 nm from 400 to 700 nm in place of 1 nm over the whole visible range costs well under half a
unit of colour difference for spectra as smooth as hair's (the tests measure it).
"""

from typing import Literal

import numpy as np
import numpy.typing as npt
from msgspec import Struct

from consult.colour.cie_tables import DAYLIGHT, OBSERVER_2, OBSERVER_10
from consult.sources import Number

Floats = npt.NDArray[np.floating]
Bools = npt.NDArray[np.bool_]
Observer = Literal["2 degree", "10 degree"]

# The two constants that join the cube root to its straight foot, in the exact form of the standard.
_EPSILON = Number(216 / 24389, "1", "cie-15")
_KAPPA = Number(24389 / 27, "1", "cie-15")

# sRGB: white point D65 and the XYZ -> linear RGB matrix that follows from its primaries.
_SRGB_WHITE = np.array([0.95047, 1.0, 1.08883])  # iec-61966-2-1
_XYZ_TO_RGB = np.array(  # iec-61966-2-1, seven digits from the primaries
    [
        (3.2404542, -1.5371385, -0.4985314),
        (-0.9692660, 1.8760108, 0.0415560),
        (0.0556434, -0.2040259, 1.0572252),
    ]
)
_ROUNDING = 1e-4  # linear light: less than a 25th of the smallest 8-bit step; not "outside" for a viewer


def _weights(observer: Observer) -> npt.NDArray[np.float64]:
    table = OBSERVER_2 if observer == "2 degree" else OBSERVER_10
    weighted = table * DAYLIGHT[:, None]
    return np.asarray(weighted / weighted[:, 1].sum())


WEIGHTS: dict[Observer, npt.NDArray[np.float64]] = {
    "2 degree": _weights("2 degree"),
    "10 degree": _weights("10 degree"),
}
"""Reflectance (31) times these (31, 3) gives XYZ with Y = 1 for the perfect diffuser."""

WHITE: dict[Observer, npt.NDArray[np.float64]] = {name: w.sum(axis=0) for name, w in WEIGHTS.items()}


def xyz(reflectance: npt.ArrayLike, observer: Observer = "2 degree") -> Floats:
    """Tristimulus values (..., 3), Y = 1 for the perfect diffuser, of reflectances (..., 31) in 0..1.

    Raises ValueError when the last axis is false the 31 samples.
    """
    spectra = np.asarray(reflectance)
    if spectra.shape[-1:] != (31,):
        raise ValueError("a spectrum needs 31 samples, 400 to 700 nm by 10 nm")
    return np.asarray(spectra @ WEIGHTS[observer].astype(spectra.dtype, copy=False))


def lab_from_xyz(values: npt.ArrayLike, white: npt.ArrayLike) -> Floats:
    """CIELAB (..., 3) of tristimulus values (..., 3) against a white (3,)."""
    ratio = np.asarray(values) / np.asarray(white, dtype=np.asarray(values).dtype)
    curve = np.where(ratio > float(_EPSILON), np.cbrt(ratio), (float(_KAPPA) * ratio + 16) / 116)
    x, y, z = curve[..., 0], curve[..., 1], curve[..., 2]
    found = np.empty_like(curve)
    found[..., 0], found[..., 1], found[..., 2] = 116 * y - 16, 500 * (x - y), 200 * (y - z)
    return np.asarray(found)


def xyz_from_lab(colour: npt.ArrayLike, white: npt.ArrayLike) -> Floats:
    """The inverse of `lab_from_xyz`."""
    lab_ = np.asarray(colour, dtype=float)
    y = (lab_[..., 0] + 16) / 116
    curve = np.stack([y + lab_[..., 1] / 500, y, y - lab_[..., 2] / 200], axis=-1)
    ratio = np.where(curve**3 > float(_EPSILON), curve**3, (116 * curve - 16) / float(_KAPPA))
    return np.asarray(ratio * np.asarray(white))


def lab(reflectance: npt.ArrayLike, observer: Observer = "2 degree") -> Floats:
    """CIELAB (..., 3) under D65 of reflectances (..., 31)."""
    return lab_from_xyz(xyz(reflectance, observer), WHITE[observer])


def _linear_rgb(colour: Floats) -> Floats:
    return np.asarray(xyz_from_lab(colour, _SRGB_WHITE) @ _XYZ_TO_RGB.T)


def _shows(linear: Floats) -> Bools:
    return np.asarray(((linear >= -_ROUNDING) & (linear <= 1 + _ROUNDING)).all(axis=-1))


class ScreenColour(Struct, frozen=True):
    """sRGB (..., 3) in 0..1, and (...) whether the screen can show the colour that was asked for."""

    rgb: Floats
    in_gamut: Bools


def srgb(colour: npt.ArrayLike) -> ScreenColour:
    """sRGB of CIELAB colours (..., 3).

    A colour outside the screen's gamut is never clipped channel by channel, which would shift its hue
    and so its tone word: it keeps lightness and hue, gives up chroma until it fits, and is flagged.
    """
    wanted = np.asarray(colour, dtype=float)
    inside = _shows(_linear_rgb(wanted))
    grey = np.zeros_like(wanted)
    grey[..., 0] = np.clip(wanted[..., 0], 0, 100)  # on the grey axis every lightness can be shown
    keep = np.where(inside, 1.0, 0.0)
    if not inside.all():
        low, high = np.zeros(inside.shape), np.ones(inside.shape)
        for _ in range(20):  # halving twenty times places the edge to a millionth of the chroma
            middle = (low + high) / 2
            fits = _shows(_linear_rgb(grey + middle[..., None] * (wanted - grey)))
            low, high = np.where(fits, middle, low), np.where(fits, high, middle)
        keep = np.where(inside, 1.0, low)
    linear = np.clip(_linear_rgb(grey + keep[..., None] * (wanted - grey)), 0, 1)
    foot = 12.92 * linear
    rgb = np.where(linear <= 0.0031308, foot, 1.055 * np.power(linear, 1 / 2.4) - 0.055)  # iec-61966-2-1
    return ScreenColour(rgb=np.asarray(rgb), in_gamut=inside)


def hex_colours(rgb: npt.ArrayLike) -> list[str]:
    """'#rrggbb' of sRGB colours (n, 3) in 0..1. Raises ValueError for anything else: nothing is clipped."""
    values = np.asarray(rgb, dtype=float)
    if values.ndim != 2 or values.shape[1] != 3 or not ((values >= 0) & (values <= 1)).all():
        raise ValueError("sRGB colours with channels between 0 and 1 are needed")
    return [
        f"#{red:02x}{green:02x}{blue:02x}" for red, green, blue in np.rint(values * 255).astype(int).tolist()
    ]
