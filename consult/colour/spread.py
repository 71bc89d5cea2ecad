"""How far the result may lie from the likely one: the inputs' uncertainties and the model's own carried through.

Every uncertainty is a limit, a half width that about nineteen readings of twenty keep within, not a sigma. Each input
is moved alone to both ends and the changes add up as independent errors do, by squares. Width is therefore certain
never to shrink when an uncertainty grows. The two end colours lie on the way along which all inputs move together to
the dark or to the light side.

The colour difference holds two parts more, which hair and swatch share and which therefore move no depth number: how
much surface light this hair sends back, and what the model itself missed on measured hair.
"""

from collections.abc import Sequence
from math import sqrt

import numpy as np
from msgspec import Struct

from consult.colour.cie import Floats, lab
from consult.colour.difference import ciede2000
from consult.colour.fibre import SURFACE_LEAST, SURFACE_MOST, blend
from consult.colour.hair import Outcome
from consult.colour.ladder import exact_depth
from consult.colour.pigment import levels_to, lifted, lifted_position
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

STRONG_LIFT = Number(3.0, "levels", COMMON_PRACTICE)
"""Beyond this one colouring cannot be relied on; the uncertainty of the lift is doubled."""

MODEL = Number(2.7, "colour difference, a limit", "vrhel-hair")
"""What the model itself may miss, beside its inputs. On seven measured tresses, each with its best reading and its
own surface light, it missed by 1.1 in the root mean square, 2.1 at most; 2.45 times that is the limit that one case
in twenty passes (Student's t, six degrees of freedom), rounded up. The tests compute it again."""

_OWN_CASES = 7.0
"""Measured tresses behind MODEL: recorded results weigh against as many."""


class Uncertainty(Struct, frozen=True):
    """How far each input may be off: limits, as half widths. observer is 1 for "another eye may look", 0 for not;
    surface is 1 for "this hair may shine as little or as much as hair was seen to", 0 for not.

    depth and white are what the eye can read off swatches (common practice: half a level, a tenth);
    uptake is a share of itself (assumption), lift is in levels (assumption), model is a colour difference.
    """

    depth: float = 0.5
    white: float = 0.1
    uptake: float = 0.25
    lift: float = 0.5
    observer: float = 1.0
    surface: float = 1.0
    model: float = float(MODEL)

    def times(self, factor: float) -> "Uncertainty":
        """Every uncertainty multiplied by the same factor. Raises ValueError for a negative factor."""
        if factor < 0:
            raise ValueError("an uncertainty cannot be negative")
        return Uncertainty(
            self.depth * factor,
            self.white * factor,
            self.uptake * factor,
            self.lift * factor,
            self.observer * factor,
            self.surface * factor,
            self.model * factor,
        )


def learned(results: Sequence[tuple[float, float]]) -> float:
    """Factor on every uncertainty after results (difference seen, difference stated as the limit) were recorded.

    The limit is two sigmas, so a result that is off by d where w was stated counts (2 d / w) squared, which is 1 on
    average where the limits are right. The measured tresses stand for seven such results: the factor is the root of
    (7 + their sum) / (7 + their number). Raises ValueError where a stated limit is not positive.
    """
    if any(stated <= 0 for _, stated in results):
        raise ValueError("a stated limit is more than none")
    total = sum((2 * seen / stated) ** 2 for seen, stated in results)
    return sqrt((_OWN_CASES + total) / (_OWN_CASES + len(results)))


class Strip(Struct, frozen=True):
    """CIELAB of the darkest and the lightest likely result, their half distance in levels, and the CIEDE2000
    the uncertainties add up to."""

    low: Floats
    high: Floats
    levels: float
    difference: float


_STEPS = np.array([0.5, 1.0])  # parts of the way, so that a change that turns back is not missed
_PATH = np.linspace(0.0, 1.0, 5)
_MOST_DEPTH = Number(1.0, "levels over or under 1..10 for a depth reading", ASSUMPTION)

# Directions to the light side: depth, white share, uptake, lift.
_TO_LIGHT = np.array([1.0, 1.0, -1.0, 1.0])


def _design() -> Floats:
    """Moves (1 + 16 + 10, 4) in units of each input's uncertainty: nothing, each alone, all together."""
    alone = [side * step * _TO_LIGHT * np.eye(4)[i] for i in range(4) for side in (-1, 1) for step in _STEPS]
    together = [side * step * _TO_LIGHT for side in (-1, 1) for step in _PATH]
    return np.array([np.zeros(4), *alone, *together])


_DESIGN = _design()
_SHINES = np.array([SURFACE_LEAST, SURFACE_MOST], dtype=np.float32)[:, None, None]
_ALONE = 1 + 2 * 4 * len(_STEPS)


def strips(outcomes: Sequence[Outcome], uncertainty: Uncertainty) -> list[Strip]:
    """The strip of each outcome. Nothing here is random: the same outcome gives the same strip."""
    total = np.array([o.total_lift for o in outcomes])
    lightened = np.array([o.lightened for o in outcomes])[:, None]
    lift_unit = np.where(total > STRONG_LIFT, 2.0, 1.0) * uncertainty.lift
    lift_unit[total == 0] = 0.0  # untouched pigment has no lift to be unsure of
    units = np.array([[uncertainty.depth, uncertainty.white, uncertainty.uptake, 0.0]] * len(outcomes))
    units[:, 3] = lift_unit
    moves = _DESIGN[None] * units[:, None]  # (outcomes, moves, inputs)
    grown = np.array([o.hair.depth for o in outcomes])[:, None]
    depth = grown + moves[..., 0]
    # Lightening was told in levels of lightening; what a colour lifts today is counted in steps of the ladder.
    moved = np.where(
        np.array([o.lift for o in outcomes])[:, None] > 0,
        levels_to(grown, lifted_position(grown, lightened) + moves[..., 3]),
        np.maximum(lightened + moves[..., 3], 0.0),
    )
    warmth = np.array([o.hair.warmth for o in outcomes])[:, None]
    white = np.array([o.hair.white_share for o in outcomes])[:, None] + moves[..., 1]
    taken = np.maximum(1.0 + moves[..., 2], 0.0)[..., None]
    taken = taken.astype(np.float32)
    pigmented = taken * np.array([o.dye for o in outcomes], dtype=np.float32)[:, None] + lifted(
        np.clip(depth, 1 - _MOST_DEPTH, 10 + _MOST_DEPTH),
        moved,
        warmth,
        np.float32,
    )
    on_white = taken * np.array([o.on_white for o in outcomes], dtype=np.float32)[:, None]
    share = np.clip(white, 0.0, 1.0)
    spectra = blend(pigmented, on_white, share)
    colours = lab(spectra).astype(float)
    likely = colours[:, 0]

    alone = colours[:, 1:_ALONE].reshape(len(outcomes), 4, 2, len(_STEPS), 3)
    other_eye = lab(spectra[:, 0], "10 degree")
    shines = lab(blend(pigmented[:, 0], on_white[:, 0], share[:, 0], _SHINES))
    eye_light = uncertainty.observer * np.abs(other_eye[:, 0] - likely[:, 0])
    others = np.concatenate([other_eye[None], shines, np.moveaxis(colours[:, 1:_ALONE], 1, 0)])
    by_eye, by_shine, by_move = np.split(ciede2000(likely, others), [1, 1 + len(_SHINES)])  # in one pass
    beside = (
        uncertainty.observer * by_eye[0],
        uncertainty.surface * by_shine.max(axis=0),
        np.full(len(outcomes), uncertainty.model),
    )

    def added(parts: Floats, *others: Floats) -> Floats:
        squares = (np.maximum(parts, 0.0) ** 2).sum(axis=1) + sum(other**2 for other in others)
        return np.asarray(np.sqrt(squares))

    # White hair under a shade of its own depth may come out either side of the rest: both ways of each are looked at.
    shift = alone[..., 0] - likely[:, None, None, None, 0]
    darker = added(-shift.min(axis=(2, 3)), eye_light)
    lighter = added(shift.max(axis=(2, 3)), eye_light)
    difference = added(by_move.T.reshape(len(outcomes), 4, -1).max(axis=2), *beside)

    paths = colours[:, _ALONE:].reshape(len(outcomes), 2, len(_PATH), 3)
    low = np.array([_at(p[0, ::-1], x[0] - d) for p, x, d in zip(paths, likely, darker, strict=True)])
    high = np.array([_at(p[1], x[0] + d) for p, x, d in zip(paths, likely, lighter, strict=True)])
    levels = (exact_depth(high) - exact_depth(low)) / 2
    return [
        Strip(low=low[i], high=high[i], levels=float(levels[i]), difference=float(difference[i]))
        for i in range(len(outcomes))
    ]


def _at(path: Floats, lightness: float) -> Floats:
    """The colour (3,) on a path (n, 3) of rising lightness at L*; beyond its ends only L* goes on."""
    light = np.maximum.accumulate(path[:, 0])
    return np.array([lightness, *(np.interp(lightness, light, path[:, i]) for i in (1, 2))])


def in_words(levels: float) -> str:
    """The half width of a strip, in levels, as one says it (limits: assumption)."""
    if levels < 0.35:
        return "less than half a level either way"
    if levels <= 0.75:
        return "about half a level either way"
    if levels <= 1.25:
        return "up to a whole level either way"
    return "more than a level either way"
