"""Natural depth as lightness, and lift: pigment taken away until the hair is so many levels lighter.

Only natural pigment is ever lifted here; artificial colour is another module's and stays as it is. Two things say
what grew: the depth, which is how light it is, and the warmth, which is how much of its melanin is pheomelanin.
"""

from functools import cache

import numpy as np
import numpy.typing as npt

from consult.colour.apparent import apparent_lightness
from consult.colour.cie import Floats, lab
from consult.colour.fibre import reflectance
from consult.colour.melanin import absorbance, eumelanin, pheomelanin
from consult.colour.prepared import table
from consult.sources import ASSUMPTION, COMMON_PRACTICE, FROM_MEMORY, Number

_BASE_LIFT = Number(1.0, "level", COMMON_PRACTICE)
"""What an alkaline colour with developer takes off natural hair beyond the depth of the shade: makers balance a
shade so that its dye brings that level back."""

_LIGHT_BASE_LIFT = Number(1.5, "levels", "modern-hair-science")
"""The same for light shades: in half as much peroxide again (4.5 per cent on the head for light blonde, 3 for medium
blonde and darker, p. 122) they lift in proportion; that it is in proportion: assumption."""

_LIGHT_SHADES = (6.0, 8.0)  # light blonde is 7 or 8, by the scale

# A lightened level 10 is called "pale yellow": lighter and yellower than natural hair of depth 10, whose
# lightness still needs enough pigment to look tan. So over level 7 each level of lightening is more than one of
# the natural ladder, the more the lighter. The reading of about L* 70 at level 10 is from memory.
_RUNS_AHEAD = Number(0.45, "ladder levels per squared level over 7", FROM_MEMORY)
_RUNS_AHEAD_FROM = Number(7.0, "level", ASSUMPTION)
LADDER_END = 15.0  # beyond it the ladder has practically reached white hair
WHITE_HAIR = np.inf  # where hair without pigment stands: beyond the ladder

_LADDER = np.linspace(-4.0, 20.0, 481)  # depths, a twentieth of a level apart
_WARMTHS = np.arange(-1.0, 5.0)  # ash, neutral, gold, auburn, red, and one beyond
_DEPTHS = np.linspace(-2.0, 13.0, 61)
_LEVELS = np.linspace(0.0, 14.0, 57)
_DOSES = np.concatenate([np.linspace(0.0, 6.0, 241), np.linspace(6.2, 60.0, 120)])
_HALVINGS = 40


def compute_ladder() -> Floats:
    """CIELAB (481, 3) of natural hair of neutral tone along the ladder."""
    eu = eumelanin(_LADDER)
    return lab(reflectance(absorbance(eu, pheomelanin(eu))))


@cache
def _ladder() -> Floats:
    return table("ladder", compute_ladder)


@cache
def _ladder_looks() -> Floats:
    """Apparent lightness (481,) of natural hair along the ladder."""
    return apparent_lightness(_ladder())


def looks_of(depth: npt.ArrayLike) -> Floats:
    """Apparent lightness (...) of neutral natural hair at depths (...)."""
    return np.asarray(np.interp(np.asarray(depth, dtype=float), _LADDER, _ladder_looks()))


def depth_seen(colour: npt.ArrayLike) -> Floats:
    """Depth (...), not clamped to 1..10, that CIELAB colours (..., 3) are read as: natural hair that looks as light."""
    return np.asarray(np.interp(apparent_lightness(colour), _ladder_looks(), _LADDER))


def compute_balance() -> Floats:
    """Logarithm (6, 61) of the eumelanin of every warmth and depth over that of neutral hair that looks as light."""
    wanted = looks_of(_DEPTHS)[None]
    shape = len(_WARMTHS), len(_DEPTHS)
    low, high = np.full(shape, -8.0), np.full(shape, 1.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        eu = eumelanin(_DEPTHS) * np.exp(middle)
        look = lab(reflectance(absorbance(eu, pheomelanin(eu, _WARMTHS[:, None]))))
        lighter = apparent_lightness(look) > wanted
        low, high = np.where(lighter, middle, low), np.where(lighter, high, middle)
    return np.asarray((low + high) / 2)


@cache
def _balance() -> Floats:
    return table("balance", compute_balance)


def cell(at: npt.ArrayLike, grid: Floats) -> tuple[npt.NDArray[np.intp], Floats]:
    """Index (...) of the grid cell that positions (...) lie in, and how far into it; held at the grid's ends."""
    where = (np.asarray(at, dtype=float) - grid[0]) / (grid[1] - grid[0])
    where = np.minimum(
        np.maximum(where, 0.0), len(grid) - 1 - 1e-6
    )  # just short of the end, so that the next cell exists
    index = where.astype(np.intp)
    return index, where - index


def melanins(depth: npt.ArrayLike, warmth: npt.ArrayLike = 0.0) -> tuple[Floats, Floats]:
    """Units (...) of eumelanin and of pheomelanin of natural depths (...) and warmths (...) in -1..4."""
    (k, over), (i, down) = cell(warmth, _WARMTHS), cell(depth, _DEPTHS)
    known = _balance()
    less = (1 - over) * ((1 - down) * known[k, i] + down * known[k, i + 1]) + over * (
        (1 - down) * known[k + 1, i] + down * known[k + 1, i + 1]
    )
    eu = eumelanin(depth) * np.exp(less)
    return np.asarray(eu), pheomelanin(eu, warmth)


def natural_lab(depth: npt.ArrayLike, warmth: npt.ArrayLike = 0.0) -> Floats:
    """CIELAB (..., 3) of natural hair at depths and warmths (...); 10 to 20 runs on towards unpigmented hair."""
    return lab(reflectance(absorbance(*melanins(depth, warmth))))


def _run(level: npt.ArrayLike) -> Floats:
    """How far along (...) lightening has come at levels (...), in steps of the natural ladder."""
    at = np.asarray(level, dtype=float)
    return np.asarray(at + _RUNS_AHEAD * np.maximum(at - _RUNS_AHEAD_FROM, 0.0) ** 2)


def lifted_position(depth: npt.ArrayLike, levels: npt.ArrayLike) -> Floats:
    """Where on the natural ladder (...) hair of natural depth (...) stands after so many levels (...) of lightening."""
    grown = np.asarray(depth, dtype=float)
    level = grown + np.maximum(np.asarray(levels, dtype=float), 0.0)
    # without lift natural hair stays where it is, however light
    return np.asarray(np.maximum(np.minimum(grown + _run(level) - _run(grown), LADDER_END), grown))


def levels_to(depth: npt.ArrayLike, position: npt.ArrayLike) -> Floats:
    """Levels (...) of lightening that take natural depths (...) to a place (...) on the natural ladder; 0 for none."""
    grown = np.asarray(depth, dtype=float)
    run = np.minimum(np.asarray(position, dtype=float), LADDER_END) - grown + _run(grown)
    beyond = np.maximum(run - _RUNS_AHEAD_FROM, 0.0)
    over = (np.sqrt(1 + 4 * _RUNS_AHEAD * beyond) - 1) / (2 * _RUNS_AHEAD)
    return np.asarray(np.maximum(np.minimum(run, _RUNS_AHEAD_FROM) + over - grown, 0.0))


def compute_doses() -> Floats:
    """Bleaching dose (6, 61, 57) for every warmth, depth and number of levels: brightness inverted on a grid."""
    wanted = looks_of(lifted_position(_DEPTHS[:, None], _LEVELS))
    rows = []
    for warmth in _WARMTHS:  # one after the other: all at once would take a quarter of a gigabyte
        eu, pheo = melanins(_DEPTHS, warmth)
        light = apparent_lightness(lab(reflectance(absorbance(eu[:, None], pheo[:, None], _DOSES))))
        light = np.maximum.accumulate(light, axis=-1)
        rows.append([np.interp(goal, row, _DOSES) for goal, row in zip(wanted, light, strict=True)])
    doses = np.array(rows)
    doses[..., 0] = 0.0  # no lift takes nothing, to the last digit
    return doses


@cache
def _doses() -> Floats:
    return table("doses", compute_doses)


def dose(depth: npt.ArrayLike, levels: npt.ArrayLike, warmth: npt.ArrayLike = 0.0) -> Floats:
    """Bleaching dose (...) that makes natural depths (...) so many levels (...) lighter; 0 for no lift."""
    (k, over), (i, down), (j, right) = cell(warmth, _WARMTHS), cell(depth, _DEPTHS), cell(levels, _LEVELS)
    known = _doses()

    def row(k_: npt.NDArray[np.intp], i_: npt.NDArray[np.intp]) -> Floats:
        return np.asarray((1 - right) * known[k_, i_, j] + right * known[k_, i_, j + 1])

    cool = (1 - down) * row(k, i) + down * row(k, i + 1)
    if not np.any(over):
        return np.asarray(cool)
    warm = (1 - down) * row(k + 1, i) + down * row(k + 1, i + 1)
    return np.asarray((1 - over) * cool + over * warm)


def lifted(
    depth: npt.ArrayLike,
    levels: npt.ArrayLike,
    warmth: npt.ArrayLike = 0.0,
    precision: type[np.float32] | type[np.float64] = np.float64,
) -> Floats:
    """Absorbance (..., 31) of the natural pigment left in depths and warmths (...) after levels (...) of lift."""
    eu, pheo = melanins(depth, warmth)
    faded = dose(depth, levels, warmth)
    return absorbance(*(given.astype(precision, copy=False) for given in (eu, pheo, faded)))


def base_lift(shade_depth: npt.ArrayLike) -> Floats:
    """Steps (...) of the natural ladder that shades of depths (...) lift hair of their own depth."""
    return np.asarray(
        np.interp(
            np.asarray(shade_depth, dtype=float), _LIGHT_SHADES, (float(_BASE_LIFT), float(_LIGHT_BASE_LIFT))
        )
    )


def lifted_to(depth: npt.ArrayLike, position: npt.ArrayLike) -> Floats:
    """Absorbance (..., 31) of the pigment left in natural depths (...) lifted to places (...) on the natural ladder."""
    return lifted(depth, levels_to(depth, position))


def expected_lift(position: npt.ArrayLike, shade_depth: npt.ArrayLike, most: npt.ArrayLike) -> Floats:
    """Steps (...) of the natural ladder that a colour lifts hair which now stands at a place (...) of it.

    A colour's levels are counted on its chart, which starts from natural hair; only a lightener's stages run ahead.

    Never more than the developer can give (most), and never more than the shade asks for, which is up to its own
    depth and the level that its dye takes back: a dark shade with a strong developer does not make light hair.
    Source: common practice; educators dispute the fixed "levels per volume" tables, so this is the cautious
    reading of both.
    """
    up = np.maximum(np.asarray(shade_depth, dtype=float) - np.asarray(position, dtype=float), 0.0)
    return np.asarray(np.minimum(np.asarray(most, dtype=float), up + base_lift(shade_depth)))
