"""How different two colours look: CIEDE2000, for arrays. Source: sharma-2005 (formula and test pairs)."""

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats
from consult.sources import Number

VISIBLE_LINE = Number(2.5, "colour difference", "song-luo-2001")
"""From here on a border between two stretches is called visible. The source found 2.5 (CIELAB, mean
over printed pictures) to be seen; no threshold for hair was found, and CIEDE2000 counts vivid colours
lower, so this is the lenient side."""


_DEGREE = np.pi / 180  # the formula is written in degrees
_ROUND = 2 * np.pi


def _bend(chroma: Floats) -> Floats:
    """sqrt(C^7 / (C^7 + 25^7)), the formula's switch between weak and strong chroma."""
    seventh = chroma**7
    return np.asarray(np.sqrt(seventh / (seventh + 25.0**7)))


def ciede2000(first: npt.ArrayLike, second: npt.ArrayLike) -> Floats:
    """CIEDE2000 (...) between CIELAB colours (..., 3); the two arrays broadcast. Parametric factors are 1."""
    one, two = (
        np.asarray(first),
        np.asarray(second),
    )  # not spread out: a goal is one colour for a million mixes
    light1, a1, b1 = one[..., 0], one[..., 1], one[..., 2]
    light2, a2, b2 = two[..., 0], two[..., 1], two[..., 2]

    stretch = 1.5 - 0.5 * _bend((np.hypot(a1, b1) + np.hypot(a2, b2)) / 2)
    a1, a2 = a1 * stretch, a2 * stretch
    chroma1, chroma2 = np.hypot(a1, b1), np.hypot(a2, b2)
    hue1, hue2 = np.arctan2(b1, a1) % _ROUND, np.arctan2(b2, a2) % _ROUND

    turn = hue2 - hue1
    turn = turn - _ROUND * np.round(turn / _ROUND)  # the shorter way; half a round stays as it is
    grey = chroma1 * chroma2 == 0  # a grey has no hue, so the hue part must vanish
    turn = np.where(grey, 0, turn)
    d_light, d_chroma = light2 - light1, chroma2 - chroma1
    d_hue = 2 * np.sqrt(chroma1 * chroma2) * np.sin(turn / 2)

    light, chroma = (light1 + light2) / 2, (chroma1 + chroma2) / 2
    hue = np.where(grey, hue1 + hue2, (hue1 + turn / 2) % _ROUND)

    t = (
        1
        - 0.17 * np.cos(hue - 30 * _DEGREE)
        + 0.24 * np.cos(2 * hue)
        + 0.32 * np.cos(3 * hue + 6 * _DEGREE)
        - 0.20 * np.cos(4 * hue - 63 * _DEGREE)
    )
    bow = (light - 50) ** 2
    s_light = 1 + 0.015 * bow / np.sqrt(20 + bow)
    s_chroma = 1 + 0.045 * chroma
    s_hue = 1 + 0.015 * chroma * t
    blue = np.exp(-(((hue - 275 * _DEGREE) / (25 * _DEGREE)) ** 2))
    rotation = -2 * np.sin(60 * _DEGREE * blue) * _bend(chroma)

    light_part, chroma_part, hue_part = d_light / s_light, d_chroma / s_chroma, d_hue / s_hue
    square = light_part**2 + chroma_part**2 + hue_part**2 + rotation * chroma_part * hue_part
    return np.asarray(np.sqrt(np.maximum(square, 0)))  # rounding may leave -1e-17 for equal colours
