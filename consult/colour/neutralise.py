"""Unwanted warmth at the target depth: which family cancels it, how little of it, and when not to.

The amount is found with this package's own colours: the smallest share of the opposite family, mixed
into a neutral shade of the same depth, that takes away most of the warmth any allowed share could.
"""

from dataclasses import dataclass
from functools import cache
from typing import Literal

import numpy as np

from consult.colour.cie import lab
from consult.colour.dyes import load
from consult.colour.fibre import reflectance
from consult.colour.pigment import depth_of, lifted, natural_lab
from consult.colour.undertone import Undertone, undertone
from consult.colour.values import Shade
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import COOL, LIGHTEST, Porosity, Tone

MOST_SHARE = Number(1 / 3, "share of the colour", COMMON_PRACTICE)
"""Sparingly: above this the neutralising tone becomes the tone one sees."""

_GRAIN = Number(1 / 24, "share of the colour", ASSUMPTION)
_ENOUGH = Number(0.8, "share of what the most would take away", ASSUMPTION)
_HARDLY_WARM = Number(1.0, "units of a*, b*", ASSUMPTION)
_YELLOW_FROM = 8.0  # level from which the undertone has no orange left for blue to cancel; common practice

Weight = Literal["reject", "caution"]


@dataclass(frozen=True, slots=True)
class Objection:
    """Why a toner is a bad idea here. instead: the family to use in its place, when there is one."""

    weight: Weight
    words: str
    instead: Tone | None = None


@dataclass(frozen=True, slots=True)
class Neutraliser:
    """What cancels the undertone at a depth. share: of the whole colour, the rest being neutral."""

    undertone: Undertone
    shade: Shade
    share: float
    words: str
    objections: tuple[Objection, ...]


def objections(
    tone: Tone, level: float, existing: Tone | None = None, porosity: Porosity = "normal"
) -> tuple[Objection, ...]:
    """What speaks against a cool tone on hair lightened to a level that now looks like `existing`.

    Raises ValueError outside levels 1..10.
    """
    under = undertone(level)
    said: list[Objection] = []
    already_cool = existing is not None and existing in COOL
    if not already_cool and level >= _YELLOW_FROM and tone == "ash":
        said.append(Objection("reject", "Blue on yellow turns green. Use violet.", under.family))
    if not already_cool and level >= _YELLOW_FROM and tone == "matt":
        said.append(Objection("reject", "Green on yellow stays green. Use violet.", under.family))
    if already_cool and tone in COOL:
        said.append(
            Objection(
                "caution", "Cool on cool turns dull and looks darker. Add a neutral or a gold.", "neutral"
            )
        )
    if porosity == "high" and tone in COOL:
        said.append(Objection("caution", "Porous hair takes cool tones fast and dark. Watch it, dilute it."))
    return tuple(said)


@cache
def _share(depth: float, family: Tone, lift: float) -> float:
    """The smallest share that brings a* and b* most of the possible way to natural hair of that lightness."""
    shares = np.arange(0.0, MOST_SHARE + 1e-9, _GRAIN)
    neutral, opposite = load(Shade(depth, "neutral")), load(Shade(depth, family))
    dye = (1 - shares)[:, None] * neutral + shares[:, None] * opposite
    colours = lab(reflectance(lifted(depth - lift, lift) + dye))
    wanted = natural_lab(depth_of(colours[:, 0]))  # as light as it came out, so that only tone counts
    off = np.hypot(colours[:, 1] - wanted[:, 1], colours[:, 2] - wanted[:, 2])
    good_enough = max(float(_HARDLY_WARM), off[0] - _ENOUGH * (off[0] - off.min()))
    return float(shares[int(np.argmax(off <= good_enough))])


def _part(share: float) -> str:
    if share <= 0:
        return "none is needed"
    for limit, words in (
        (0.09, "a touch, about a twelfth"),
        (0.15, "about an eighth"),
        (0.21, "about a sixth"),
        (0.29, "about a quarter"),
    ):
        if share <= limit:
            return words + " of the colour"
    return "up to a third of the colour, not more"


def neutralise(
    depth: float,
    lift: float,
    existing: Tone | None = None,
    porosity: Porosity = "normal",
    family: Tone | None = None,
) -> Neutraliser:
    """What takes the warmth out at a target depth that natural hair was lifted to by so many levels.

    The neutralising shade sits at the target depth itself: lighter it does nothing, darker it darkens.
    family asks about another family than the opposite one. Raises ValueError outside 1..10 or for a
    negative lift.
    """
    if lift < 0:
        raise ValueError("lift cannot be negative")
    under = undertone(depth)
    tone = family or under.family
    share = _share(min(depth, LIGHTEST), tone, min(lift, depth - 1.0))
    words = f"{under.word} shows at {depth:g}; {under.against} cancels it: {tone}, {_part(share)}"
    return Neutraliser(under, Shade(depth, tone), share, words, objections(tone, depth, existing, porosity))
