"""Unwanted warmth at the target depth: which family cancels it, how little of it, and when not to.

Nothing here has colours of its own: the share is the one that the search finds nearest to the goal, and a family is
refused where the prediction turns green.
"""

from functools import cache, lru_cache
from typing import Literal

import numpy as np
from msgspec import Struct

from consult.colour.hair import hair_of, lift_of
from consult.colour.ladder import exact_depth
from consult.colour.pigment import natural_lab
from consult.colour.prediction import predict
from consult.colour.search import SEEN_APART, Candidates, search
from consult.colour.undertone import Undertone, undertone
from consult.colour.values import HairState, Shade, Treatment
from consult.sources import ASSUMPTION, COMMON_PRACTICE, FROM_MEMORY, Number
from consult.trade import COOL, DARKEST, LIGHTEST, Porosity, Tone

MOST_SHARE = Number(1 / 2, "share of the colour", COMMON_PRACTICE)
"""Half and half at most: above this the neutralising shade becomes the shade one uses."""

_TRIED = 65  # shares: finer than anybody weighs
_WORTH_IT = Number(0.5, "colour difference", FROM_MEMORY)
"""What gains less than this nobody sees."""

_GREEN = Number(5.0, "degrees of hue past natural hair as light", ASSUMPTION)
_USUAL_LIFT = Number(4.0, "levels that hair toned at a level was lightened by", ASSUMPTION)

Weight = Literal["reject", "caution"]


class Objection(Struct, frozen=True):
    """Why a toner is a bad idea here. instead: the family to use in its place, when there is one."""

    weight: Weight
    words: str
    instead: Tone | None = None


class Neutraliser(Struct, frozen=True):
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
    if not already_cool and tone in ("ash", "matt") and under.hue == "yellow" and turns_green(tone, level):
        words = "Blue on yellow turns green." if tone == "ash" else "Green on yellow stays green."
        said.append(Objection("reject", f"{words} Use violet.", under.family))
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
def turns_green(tone: Tone, level: float) -> bool:
    """A shade of the family, put on hair lightened to a level of its own depth, is predicted past natural hair."""
    base = max(DARKEST, level - float(_USUAL_LIFT))
    shade = Shade(level, tone)
    seen = predict(HairState(base, lightened_levels=level - base), Treatment(shade, 0.0), shade).seen
    natural = natural_lab(seen.depth)
    hues = np.degrees(np.arctan2([seen.lab[2], natural[2]], [seen.lab[1], natural[1]]))
    return bool(hues[0] - hues[1] >= _GREEN)


def best_share(state: HairState, treatment: Treatment, family: Tone, goal: Shade) -> tuple[float, float]:
    """Share of a family, at the shade's own depth, that brings a treatment nearest to a goal's tone; half at most.
    And the colour difference from that tone which it leaves."""
    shares = np.linspace(0.0, float(MOST_SHARE), _TRIED)
    index = np.zeros(_TRIED, dtype=np.intp)
    mixes = Candidates(
        shades=(treatment.shade, Shade(treatment.shade.depth, family)),
        first=index,
        second=index + 1,
        share=shares,
        lift=np.full(_TRIED, treatment.lift_levels),
        uptake=np.full(_TRIED, treatment.uptake),
    )
    comes_out = exact_depth(predict(state, treatment, goal).seen.lab)
    off = search(
        mixes, [state], Shade(float(comes_out), goal.tone)
    ).worst  # as light as it is, so that tone counts
    best = int(off.argmin())
    best = best if off[0] - off[best] >= _WORTH_IT else 0
    return float(shares[best]), float(off[best])


def _part(share: float, left: float) -> str:
    """A share in words. left: the colour difference that stays."""
    if share <= 0:
        return "none is needed"
    for limit, words in (
        (0.09, "a touch, about a twelfth"),
        (0.15, "about an eighth"),
        (0.21, "about a sixth"),
        (0.29, "about a quarter"),
        (0.42, "about a third"),
    ):
        if share <= limit:
            return words + " of the colour"
    stays = share >= MOST_SHARE and left >= SEEN_APART
    return "half of the colour, not more" + (", and some warmth stays" if stays else "")


@lru_cache(maxsize=256)
def neutralise(state: HairState, treatment: Treatment, family: Tone | None = None) -> Neutraliser:
    """What takes the warmth out of the hair that a treatment lifts; the goal is the treatment's own shade.

    The neutralising shade sits at the shade's depth itself: lighter it does nothing, darker it darkens. family asks
    about another family than the opposite one.
    """
    hair, depth = hair_of(state), treatment.shade.depth
    reached = hair.level + float(lift_of(hair, treatment.depth, treatment.lift_levels))
    under = undertone(float(np.clip(min(reached, depth), DARKEST, LIGHTEST)))
    tone = family or under.family
    share, left = best_share(state, treatment, tone, treatment.shade)
    words = f"{under.word} shows at {depth:g}; {under.against} cancels it: {tone}, {_part(share, left)}"
    said = objections(tone, depth, porosity=state.porosity)
    return Neutraliser(under, Shade(depth, tone), share, words, said)
