"""One stretch of hair put together: what absorbs in its pigmented and in its white hairs, before and after.

The only place that knows how natural pigment, old colour and new colour meet:
* natural pigment is lifted, artificial colour never;
* a stretch that carries artificial colour is not planned to lift, whatever the developer could do on bare
  hair (common practice: what it does under old colour cannot be predicted); a trace that no eye could read
  holds back only as much as it is;
* today's reading is a constraint: pigment and dye are worked out so that they give it (`reading`); history
  only fills what was not read;
* new colour fills what room old colour has left.
"""

from functools import lru_cache
from math import log

import numpy as np
import numpy.typing as npt
from msgspec import Struct

from consult.colour.cie import Floats
from consult.colour.dyes import amount, load, mix, room_for
from consult.colour.fade import share_left
from consult.colour.fibre import SURFACE, blend, reflectance
from consult.colour.melanin import STEP
from consult.colour.pigment import WHITE_HAIR, base_lift, expected_lift, levels_to, lifted, lifted_position
from consult.colour.reading import Found, found
from consult.colour.values import HairState, OldColour, Shade, Treatment
from consult.sources import ASSUMPTION, Number
from consult.trade import NATURAL_TONES, Porosity

_READABLE = Number(0.5, "levels", ASSUMPTION)
"""Dye that darkens hair by less than the eye reads off a swatch is a trace; a reading is good to half a level."""

_AMPLY = Number(1.5, "times the pigment that was lifted", ASSUMPTION)
"""So much dye has to be left before the whole lift under it is counted: red dye darkens less than it weighs."""

_BARE = np.zeros(31)


class Hair(Struct, frozen=True):
    """A stretch in numbers. warmth: natural tones from neutral; old, old_white: absorbance (31,) of the
    artificial colour still in its pigmented and in its white hairs; holds_back: how far that keeps natural
    pigment from being lifted, 0 not at all, 1 altogether."""

    depth: float
    warmth: float
    lifted_before: float
    white_share: float
    old: Floats
    old_white: Floats
    holds_back: float
    porosity: Porosity

    @property
    def level(self) -> float:
        """The level of lightening its natural pigment has reached."""
        return self.depth + self.lifted_before

    @property
    def stands(self) -> float:
        """Where on the natural ladder its natural pigment stands now."""
        return float(lifted_position(self.depth, self.lifted_before))


def warmth_of(stretch: HairState) -> float:
    """Natural tone as a number: -1 ash, 0 neutral, up to 3 red."""
    return float(NATURAL_TONES.index(stretch.natural_tone) - NATURAL_TONES.index("neutral"))


def _told(stretch: HairState) -> Found:
    """What history alone would have left: every earlier colour faded, and the lift that went with it.

    Told again in the order it happened: each colouring went into what room the earlier ones, faded up to
    that day, had left; since then every one of them has faded on.
    """
    warmth, before = warmth_of(stretch), stretch.lightened_levels
    colours = sorted(stretch.old_colours, key=lambda c: (c.weeks, c.washes), reverse=True)
    at_most = max(before, _once(stretch.natural_depth)) if colours else before
    stands = float(lifted_position(stretch.natural_depth, at_most))
    dye = _left(colours, stands, stretch.natural_depth, stretch.porosity)
    return Found(
        depth=stretch.natural_depth,
        warmth=warmth,
        lift=max(before, _lift_under(dye, stretch.natural_depth, warmth)),
        dye=dye,
        on_white=_left(colours, WHITE_HAIR, 0.0, stretch.porosity),
    )


def _once(depth: float) -> float:
    """Levels that one colouring lifts natural hair of a depth."""
    return float(levels_to(depth, depth + base_lift(depth)))


def _lift_under(dye: Floats, depth: float, warmth: float) -> float:
    """Levels that a colouring lifted natural hair under a dye (31,): the usual one, but no more than that dye makes up
    for. So worn colour never leaves hair lighter than it grew; whether it did is for the eye to say."""
    usual = _once(depth)
    grown, once = (float(left) for left in amount(lifted(depth, np.array([0.0, usual]), warmth)))
    made_up = min(float(amount(dye)) / (float(_AMPLY) * (grown - once)), 1.0)
    return usual * log(1 - made_up * (1 - once / grown)) / log(once / grown)


def _readable(dye: Floats, pigment: float) -> float:
    """How far a dye (31,) over so much natural pigment can be read off a swatch: 0 not at all, 1 by half a level."""
    trace = pigment * (float(STEP) ** float(_READABLE) - 1)
    return float(min(float(amount(dye)) / max(trace, 1e-9), 1.0))


def _left(colours: list[OldColour], position: float, natural: float, porosity: Porosity) -> Floats:
    """Absorbance (31,) of colours, oldest first, that is still in hair whose pigment stands there on the ladder,
    and that grew with a natural depth."""
    taken: list[tuple[OldColour, Floats]] = []

    def at(weeks: float, washes: float) -> Floats:
        held = _BARE
        for colour, dye in taken:
            since = max(colour.washes - washes, 0.0), max(colour.weeks - weeks, 0.0)
            held = held + share_left(colour.tone, *since, porosity) * dye
        return held

    for colour in colours:
        one = load(Shade(colour.depth, colour.tone), porosity)
        fresh = one.share(position, natural) * one.dye
        room = room_for(amount(fresh), amount(at(colour.weeks, colour.washes)))
        taken.append((colour, room * fresh))
    return at(0.0, 0.0)


@lru_cache(maxsize=1024)
def hair_of(stretch: HairState) -> Hair:
    """The stretch as it is before anything is done today."""
    if stretch.reading is None:
        state = _told(stretch)
    else:
        state = found(
            stretch.reading,
            stretch.natural_depth,
            warmth_of(stretch),
            stretch.white_share,
            untouched=stretch.untouched,
        )
    pigment = float(amount(lifted(state.depth, state.lift, state.warmth)))
    return Hair(
        depth=state.depth,
        warmth=state.warmth,
        lifted_before=state.lift,
        white_share=stretch.white_share,
        old=state.dye,
        old_white=state.on_white,
        holds_back=_readable(state.dye, pigment),
        porosity=stretch.porosity,
    )


def lift_of(hair: Hair, depth: npt.ArrayLike, most: npt.ArrayLike) -> Floats:
    """Steps (...) of the natural ladder that today's colour of depths (...) with a developer giving at most (...)
    lifts this hair."""
    return np.asarray((1 - hair.holds_back) * expected_lift(hair.stands, depth, most))


def levels_after(hair: Hair, lift: npt.ArrayLike) -> Floats:
    """Levels (...) of lightening that this hair has had altogether, once it was lifted by so many steps (...) today."""
    return np.maximum(levels_to(hair.depth, hair.stands + np.asarray(lift)), hair.lifted_before)


def new_colour(old: Floats, full: Floats, uptake: float) -> Floats:
    """Absorbance (31,) that a share of full uptake adds of a dye (31,) to hair that holds old colour (31,)."""
    return np.asarray(uptake * float(room_for(amount(full), amount(old))) * full)


class Outcome(Struct, frozen=True):
    """What absorbs after today. lift: levels gained today, as a chart counts them; lightened: levels of lightening
    the natural pigment has had altogether; dye, on_white: old and new artificial colour (31,) in the pigmented and
    in the white hairs."""

    hair: Hair
    lift: float
    lightened: float
    dye: Floats
    on_white: Floats

    @property
    def total_lift(self) -> float:
        """Levels that colouring and lightening were counted to lift it altogether."""
        return self.hair.lifted_before + self.lift


@lru_cache(maxsize=4096)
def outcome_of(stretch: HairState, treatment: Treatment | None) -> Outcome:
    """The stretch after a treatment, or as it is when nothing is put on it."""
    hair = hair_of(stretch)
    if treatment is None:
        return Outcome(hair, 0.0, hair.lifted_before, hair.old, hair.old_white)
    lift = float(lift_of(hair, treatment.depth, treatment.lift_levels))
    full = mix(treatment.shades, hair.stands + lift, hair.depth, hair.porosity)
    on_white = mix(treatment.shades, porosity=hair.porosity)
    return Outcome(
        hair,
        lift,
        float(levels_after(hair, lift)),
        hair.old + new_colour(hair.old, full, treatment.uptake),
        hair.old_white + new_colour(hair.old_white, on_white, treatment.uptake),
    )


class Locks(Struct, frozen=True):
    """Reflectance (..., 31) of the pigmented hairs, the white hairs and the lock as seen."""

    pigmented: Floats
    white: Floats
    seen: Floats


def locks(
    pigment: Floats,
    dye: Floats,
    on_white: Floats,
    white_share: npt.ArrayLike,
    surface: float = float(SURFACE),
) -> Locks:
    """Reflectances of natural pigment (..., 31) under artificial colour, with so much white (...) between."""
    pigmented = pigment + dye
    return Locks(
        reflectance(pigmented, surface),
        reflectance(on_white, surface),
        blend(pigmented, on_white, white_share, surface),
    )
