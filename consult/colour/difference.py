"""How different two colours look: CIEDE2000, for arrays. Source: sharma-2005 (formula and test pairs)."""

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats
from consult.sources import Number

VISIBLE_LINE = Number(2.5, "colour difference", "song-luo-2001")
"""From here on a border between two stretches is called visible. The source found 2.5 (CIELAB, mean
over printed pictures) to be seen; no threshold for hair was found, and CIEDE2000 counts vivid colours
lower, so this is the lenient side."""


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
    hue1, hue2 = np.degrees(np.arctan2(b1, a1)) % 360, np.degrees(np.arctan2(b2, a2)) % 360

    turn = hue2 - hue1
    turn = np.where(turn > 180, turn - 360, np.where(turn < -180, turn + 360, turn))
    grey = chroma1 * chroma2 == 0  # a grey has no hue, so the hue part must vanish
    turn = np.where(grey, 0, turn)
    d_light, d_chroma = light2 - light1, chroma2 - chroma1
    d_hue = 2 * np.sqrt(chroma1 * chroma2) * np.sin(np.radians(turn / 2))

    light, chroma = (light1 + light2) / 2, (chroma1 + chroma2) / 2
    total = hue1 + hue2
    around = np.where(np.abs(hue1 - hue2) <= 180, 0, np.where(total < 360, 180, -180))
    hue = np.where(grey, total, total / 2 + around)

    t = (
        1
        - 0.17 * np.cos(np.radians(hue - 30))
        + 0.24 * np.cos(np.radians(2 * hue))
        + 0.32 * np.cos(np.radians(3 * hue + 6))
        - 0.20 * np.cos(np.radians(4 * hue - 63))
    )
    bow = (light - 50) ** 2
    s_light = 1 + 0.015 * bow / np.sqrt(20 + bow)
    s_chroma = 1 + 0.045 * chroma
    s_hue = 1 + 0.015 * chroma * t
    rotation = -np.sin(np.radians(60 * np.exp(-(((hue - 275) / 25) ** 2)))) * 2 * _bend(chroma)

    light_part, chroma_part, hue_part = d_light / s_light, d_chroma / s_chroma, d_hue / s_hue
    square = light_part**2 + chroma_part**2 + hue_part**2 + rotation * chroma_part * hue_part
    return np.asarray(np.sqrt(np.maximum(square, 0)))  # rounding may leave -1e-17 for equal colours
