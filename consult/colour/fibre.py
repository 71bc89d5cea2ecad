"""From what one fibre absorbs to what a thick lock reflects, white hairs mixed in layer by layer.

A lock is a pile of fibres. Each layer sends back a little light from its surface, uncoloured, and a
little from its back, coloured by two crossings; the rest goes on to the next layer. Adding up the
endless to and fro gives the reflectance of the pile (stokes-1862, with fibres for plates). At weak
absorption it becomes the textile law, K/S in proportion to A / (surface + back); at strong absorption the
surface light stays, as it must: black hair is never blacker than its shine.
"""

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats
from consult.colour.cie_tables import WAVELENGTHS
from consult.sources import ASSUMPTION, Number

SURFACE = Number(0.0268, "share of light", "scanavez-2000")
"""Fitted, together with the pigment of depth 3, for the smallest largest miss over eleven published rows of
three tresses. It hangs on the instrument and on the shine of the tress: see its ends."""

SURFACE_LEAST = Number(0.008, "share of light", "vrhel-hair")
SURFACE_MOST = Number(0.038, "share of light", ASSUMPTION)
"""Between these the surface light of single samples lies: black hair that sends back 0.9 to 2 per cent in all
cannot shine with more than the least, and instruments that take in the mirror-like part see the most."""

BACK = Number(0.045, "share of light", ASSUMPTION)
"""Near the back-surface reflection of keratin with index 1.55; the fit is flat between 0.03 and 0.09."""

# What a fibre without pigment takes: an even part, lost on the way through the lock, and a part at the short
# waves only, which makes white hair slightly yellow and not red. Free: no measured white hair was found.
_KERATIN_EVEN = Number(0.014, "nepers per fibre", ASSUMPTION)
_KERATIN_YELLOW = Number(0.012, "nepers per fibre at 500 nm", ASSUMPTION)
_KERATIN_FALL = Number(60.0, "nm for the yellow part to fall to a third", ASSUMPTION)

KERATIN: npt.NDArray[np.float64] = np.asarray(
    _KERATIN_EVEN + _KERATIN_YELLOW * np.exp(-(WAVELENGTHS - 500.0) / float(_KERATIN_FALL))
)
"""Absorbance (31,) of a fibre without pigment: slightly yellow, as undyed white hair is."""

_SURFACE, _BACK = float(SURFACE), float(BACK)  # plain floats, so that single precision stays single


def pile(mean_transmission: Floats, mean_square: Floats, surface: float | Floats = _SURFACE) -> Floats:
    """Reflectance (..., 31) of an endless pile from each layer's mean transmission T and mean T squared.

    surface: one share of light or several, which broadcast.
    """
    back = surface + _BACK * mean_square
    through = (1 - surface - _BACK) * mean_transmission
    half = (1 + back * back - through * through) / 2
    return np.asarray(back / (half + np.sqrt(half * half - back * back)))


def reflectance(absorbed: npt.ArrayLike, surface: float = _SURFACE) -> Floats:
    """Reflectance (..., 31) of a lock of equal fibres absorbing (..., 31) nepers each besides keratin."""
    passed = np.exp(-(np.asarray(absorbed) + KERATIN))
    return pile(passed, passed * passed, surface)


def blend(
    pigmented: npt.ArrayLike,
    white: npt.ArrayLike,
    white_share: npt.ArrayLike,
    surface: float | Floats = _SURFACE,
) -> Floats:
    """Reflectance (..., 31) of a lock that mixes two kinds of fibre within every layer.

    pigmented, white: absorbance (..., 31) of each kind; white_share (...) in 0..1. There is no free
    constant. Real white hairs also lie in groups, which looks lighter: show the two kinds beside it.
    """
    share = np.asarray(white_share)[..., None]
    keratin = KERATIN.astype(np.result_type(pigmented, np.float32), copy=False)
    one = np.exp(-(np.asarray(pigmented) + keratin))
    other = np.exp(-(np.asarray(white) + keratin))
    share = share.astype(keratin.dtype, copy=False)
    mean, square = one + share * (other - one), one * one + share * (other * other - one * one)
    return pile(mean, square, surface)
