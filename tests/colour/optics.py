"""What the tests of colour measure with: hue and chroma, pure mix-tones made of the model's own dye bands."""

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats
from consult.colour.dyes import SHAPES, load
from consult.colour.ladder import nearest_tones
from consult.colour.melanin import absorbance
from consult.colour.pigment import melanins
from consult.colour.values import Shade
from consult.trade import Tone

CORRECTORS: dict[str, tuple[float, ...]] = {  # mix-tones without depth of their own; assumption
    "yellow": (1.0, 0.1, 0.0, 0.0, 0.0, 0.0),
    "orange": (0.4, 1.0, 0.2, 0.0, 0.0, 0.0),
    "red": (0.1, 0.5, 1.0, 0.2, 0.0, 0.0),
    "violet": (0.0, 0.0, 0.0, 1.0, 0.3, 0.0),
    "blue": (0.0, 0.0, 0.0, 0.0, 1.0, 0.5),
    "green": (0.4, 0.0, 0.0, 0.0, 0.6, 1.0),
}


def lch(colour: npt.ArrayLike) -> Floats:
    """L*, chroma and hue angle in degrees 0..360, of CIELAB colours (..., 3)."""
    values = np.asarray(colour, dtype=float)
    hue = np.degrees(np.arctan2(values[..., 2], values[..., 1])) % 360
    return np.stack([values[..., 0], np.hypot(values[..., 1], values[..., 2]), hue], axis=-1)


def corrector(colour: str, amount: npt.ArrayLike) -> Floats:
    """Absorbance (..., 31) of a pure mix-tone, amount (...) in nepers per fibre at its main band."""
    return np.asarray(np.asarray(amount, dtype=float)[..., None] * (np.array(CORRECTORS[colour]) @ SHAPES))


def nearest_tone(colour: npt.ArrayLike) -> Tone:
    """The tone word of one colour (3,)."""
    return nearest_tones(colour)[0]


def on_white(shade: Shade) -> Floats:
    """Absorbance (31,) of a shade fully developed in white hair."""
    return load(shade).dye


def born(depth: npt.ArrayLike, warmth: float = 0.0) -> Floats:
    """Absorbance (..., 31) of the pigment of natural hair of depths (...)."""
    return absorbance(*melanins(depth, warmth))
