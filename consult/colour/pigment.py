"""Natural depth as lightness, and lift: pigment taken away until the hair is so many levels lighter.

Only natural pigment is ever lifted here; artificial colour is another module's and stays as it is.
"""

from functools import cache

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats, lab
from consult.colour.fibre import reflectance
from consult.colour.melanin import absorbance
from consult.colour.prepared import table
from consult.sources import ASSUMPTION, COMMON_PRACTICE, FROM_MEMORY, Number

BASE_LIFT = Number(1.0, "level", COMMON_PRACTICE)
"""What an alkaline colour with developer takes off natural hair even when its own depth asks for none."""

# A lightened level 10 is called "pale yellow": lighter and yellower than natural hair of depth 10, whose
# lightness still needs enough pigment to look tan. So from level 8 up lifted hair runs ahead of the
# natural ladder, fully after three levels of lift. The reading of about L* 67 at level 10 is from memory.
_RUNS_AHEAD = Number(0.6, "ladder levels per squared level over 8", FROM_MEMORY)
_RUNS_AHEAD_FROM = Number(8.0, "level", ASSUMPTION)
_FULLY_LIFTED = Number(3.0, "levels", ASSUMPTION)
_LADDER_END = 14.0  # beyond it the ladder has practically reached white hair

_LADDER = np.linspace(-4.0, 20.0, 481)  # depths, a twentieth of a level apart
_DEPTHS = np.linspace(-2.0, 13.0, 61)
_LEVELS = np.linspace(0.0, 14.0, 57)
_DOSES = np.concatenate([np.linspace(0.0, 6.0, 241), np.linspace(6.2, 60.0, 120)])


def compute_ladder() -> Floats:
    """CIELAB (481, 3) of natural hair along the ladder."""
    return lab(reflectance(absorbance(_LADDER)))


@cache
def _ladder() -> Floats:
    return table("ladder", compute_ladder)


def natural_lab(depth: npt.ArrayLike) -> Floats:
    """CIELAB (..., 3) of natural hair at depths (...); 10 to 20 runs on towards unpigmented hair."""
    return lab(reflectance(absorbance(depth)))


def lightness_of(depth: npt.ArrayLike) -> Floats:
    """L* (...) of natural depths (...)."""
    return np.asarray(np.interp(np.asarray(depth, dtype=float), _LADDER, _ladder()[:, 0]))


def depth_of(lightness: npt.ArrayLike) -> Floats:
    """Natural depth (...), not clamped to 1..10, that is as light as L* (...)."""
    return np.asarray(np.interp(np.asarray(lightness, dtype=float), _ladder()[:, 0], _LADDER))


def lifted_position(depth: npt.ArrayLike, levels: npt.ArrayLike) -> Floats:
    """Where on the natural ladder (...) hair of natural depth (...) stands after so many levels (...)."""
    lift = np.maximum(np.asarray(levels, dtype=float), 0.0)
    level = np.asarray(depth, dtype=float) + lift
    over = np.maximum(level - _RUNS_AHEAD_FROM, 0.0)
    ahead = _RUNS_AHEAD * over**2 * np.minimum(lift / _FULLY_LIFTED, 1.0)
    # without lift natural hair stays where it is, however light
    return np.asarray(np.maximum(np.minimum(level + ahead, _LADDER_END), np.asarray(depth, dtype=float)))


def compute_doses() -> Floats:
    """Bleaching dose (61, 57) for every depth (rows) and number of levels (columns): brightness inverted on a grid."""
    light = lab(reflectance(absorbance(_DEPTHS[:, None], _DOSES)))[..., 0]
    wanted = lightness_of(lifted_position(_DEPTHS[:, None], _LEVELS))
    rows = [np.interp(goal, row, _DOSES) for goal, row in zip(wanted, light, strict=True)]
    return np.array(rows)


@cache
def _doses() -> Floats:
    return table("doses", compute_doses)


def dose(depth: npt.ArrayLike, levels: npt.ArrayLike) -> Floats:
    """Bleaching dose (...) that makes natural depths (...) so many levels (...) lighter; 0 for no lift."""
    row = (np.asarray(depth, dtype=float) - _DEPTHS[0]) / (_DEPTHS[1] - _DEPTHS[0])
    column = np.asarray(levels, dtype=float) / _LEVELS[1]
    row = np.clip(row, 0, len(_DEPTHS) - 1 - 1e-6)  # just short of the end, so that i + 1 exists
    column = np.clip(column, 0, len(_LEVELS) - 1 - 1e-6)
    row, column = np.broadcast_arrays(row, column)
    i, j = row.astype(int), column.astype(int)
    down, right = row - i, column - j
    known = _doses()
    upper = (1 - right) * known[i, j] + right * known[i, j + 1]
    lower = (1 - right) * known[i + 1, j] + right * known[i + 1, j + 1]
    return np.asarray((1 - down) * upper + down * lower)


def lifted(depth: npt.ArrayLike, levels: npt.ArrayLike) -> Floats:
    """Absorbance (..., 31) of the natural pigment left in depths (...) after levels (...) of lift."""
    return absorbance(depth, dose(depth, levels))


def expected_lift(level: npt.ArrayLike, shade_depth: npt.ArrayLike, most: npt.ArrayLike) -> Floats:
    """Levels (...) a colour lifts hair that now stands at a level (...).

    Never more than the developer can give (most), and never more than the shade asks for: a dark shade
    with a strong developer does not make light hair. Source: common practice; educators dispute the
    fixed "levels per volume" tables, so this is the cautious reading of both.
    """
    asked = np.maximum(np.asarray(shade_depth, dtype=float) - np.asarray(level, dtype=float), BASE_LIFT)
    return np.asarray(np.minimum(np.asarray(most, dtype=float), asked))
