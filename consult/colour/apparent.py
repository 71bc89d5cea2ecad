"""How light a colour looks: vivid colours look lighter than grey ones that reflect as much light.

Source: fairchild-1991, the correction of CIELAB lightness for the Helmholtz-Kohlrausch effect. A colourist reads
depth by eye against natural swatches, so a red is called by the depth of the natural hair that looks as light.
"""

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats
from consult.sources import Number

_FULL = Number(2.5, "1", "fairchild-1991")
_WITH_LIGHTNESS = Number(0.025, "1 per L*", "fairchild-1991")
_HUE = Number(0.116, "1", "fairchild-1991")
_EVERY_HUE = Number(0.085, "1", "fairchild-1991")
_YELLOW = Number(90.0, "degrees", "fairchild-1991")


def apparent_lightness(colour: npt.ArrayLike) -> Floats:
    """L** (...) of CIELAB colours (..., 3): L* and a part of the chroma, least for yellow, more for red and blue."""
    values = np.asarray(colour)
    light, a, b = values[..., 0], values[..., 1], values[..., 2]
    hue = np.degrees(np.arctan2(b, a))
    strength = float(_HUE) * np.abs(np.sin(np.radians((hue - float(_YELLOW)) / 2))) + float(_EVERY_HUE)
    return np.asarray(light + (float(_FULL) - float(_WITH_LIGHTNESS) * light) * strength * np.hypot(a, b))
