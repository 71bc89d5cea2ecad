"""One stretch of hair put together: what absorbs in its pigmented and in its white hairs, before and after.

The only place that knows how natural pigment, old colour and new colour meet:
* natural pigment is lifted, artificial colour never;
* a stretch that carries artificial colour is not planned to lift at all, whatever the developer could do
  on bare hair (common practice: what it does under old colour cannot be predicted). Its natural pigment
  counts as lifted once, by the colouring that put the old colour there;
* new colour fills what room old colour has left.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from consult.colour.cie import Floats
from consult.colour.dyes import amount, load, mix, room_for, uptake_of
from consult.colour.fade import share_left
from consult.colour.fibre import blend, reflectance
from consult.colour.pigment import BASE_LIFT, expected_lift, lifted
from consult.colour.values import HairState, OldColour, Shade, Treatment


@dataclass(frozen=True)
class Hair:
    """A stretch in numbers. old: absorbance (31,) of the artificial colour still in it."""

    depth: float
    lifted_before: float
    white_share: float
    old: Floats
    coloured: bool
    uptake: float

    @property
    def level(self) -> float:
        """Where its natural pigment stands now, on the depth scale."""
        return self.depth + self.lifted_before


def old_colour(stretch: HairState) -> Floats:
    """Absorbance (31,) of all earlier artificial colour that is still there.

    Told again in the order it happened: each colouring went into what room the earlier ones, faded up to
    that day, had left; since then every one of them has faded on.
    """
    taken: list[tuple[OldColour, Floats]] = []

    def left_at(weeks: float, washes: float) -> Floats:
        held = np.zeros(31)
        for colour, dye in taken:
            since = max(colour.washes - washes, 0.0), max(colour.weeks - weeks, 0.0)
            held = held + share_left(colour.tone, *since, stretch.porosity) * dye
        return held

    for colour in sorted(stretch.old_colours, key=lambda c: (c.weeks, c.washes), reverse=True):
        fresh = uptake_of(stretch.porosity) * load(Shade(colour.depth, colour.tone))
        room = room_for(amount(fresh), amount(left_at(colour.weeks, colour.washes)))
        taken.append((colour, room * fresh))
    return left_at(0.0, 0.0)


def hair_of(stretch: HairState) -> Hair:
    """The stretch as it is before anything is done today."""
    coloured = bool(stretch.old_colours)
    before = stretch.lightened_levels
    return Hair(
        depth=stretch.natural_depth,
        lifted_before=max(before, float(BASE_LIFT)) if coloured else before,
        white_share=stretch.white_share,
        old=old_colour(stretch),
        coloured=coloured,
        uptake=uptake_of(stretch.porosity),
    )


def lift_of(hair: Hair, depth: npt.ArrayLike, most: npt.ArrayLike) -> Floats:
    """Levels (...) today's colour of depths (...) with a developer giving at most (...) lifts this hair."""
    if hair.coloured:
        return np.zeros(np.broadcast_shapes(np.shape(depth), np.shape(most)))
    return expected_lift(hair.level, depth, most)


def new_colour(hair: Hair, dye: Floats, share: npt.ArrayLike) -> Floats:
    """Absorbance (..., 31) that a dye (..., 31) adds at a share (...) of full uptake."""
    offered = hair.uptake * np.asarray(share)[..., None] * dye
    room = room_for(amount(offered), amount(hair.old))
    return np.asarray(room[..., None] * offered)


@dataclass(frozen=True)
class Outcome:
    """What absorbs after today. lift: levels gained today; dye: old and new artificial colour (31,)."""

    hair: Hair
    lift: float
    dye: Floats

    @property
    def total_lift(self) -> float:
        """Levels the natural pigment has lost altogether."""
        return self.hair.lifted_before + self.lift


def outcome_of(stretch: HairState, treatment: Treatment | None) -> Outcome:
    """The stretch after a treatment, or as it is when nothing is put on it."""
    hair = hair_of(stretch)
    if treatment is None:
        return Outcome(hair, 0.0, hair.old)
    lift = float(lift_of(hair, treatment.depth, treatment.lift_levels))
    dye = mix(treatment.shades)
    return Outcome(hair, lift, hair.old + new_colour(hair, dye, treatment.uptake))


@dataclass(frozen=True)
class Locks:
    """Reflectance (..., 31) of the pigmented hairs, the white hairs and the lock as seen."""

    pigmented: Floats
    white: Floats
    seen: Floats


def locks(depth: npt.ArrayLike, lift: npt.ArrayLike, white_share: npt.ArrayLike, dye: Floats) -> Locks:
    """Reflectances for natural depths, total lift and white share (...) under artificial colour (..., 31)."""
    pigmented = lifted(depth, lift) + dye
    white = np.broadcast_to(dye, pigmented.shape)
    return Locks(reflectance(pigmented), reflectance(white), blend(pigmented, white, white_share))
