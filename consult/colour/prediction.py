"""What a stretch of hair will look like: the entry point of this package.

    predict(stretch, treatment or None, goal) -> Prediction
    lines_between([(one, other)]) -> [Border]

Every colour comes with its spread and with plain words about what the number cannot know.
"""

from collections.abc import Sequence
from typing import Literal

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from consult.colour.cie import Floats, hex_colours, lab, lab_from_xyz, srgb, xyz_from_lab
from consult.colour.difference import VISIBLE_LINE, ciede2000
from consult.colour.hair import Outcome, locks, outcome_of
from consult.colour.ladder import goal_lab, nearest_depth, nearest_tones
from consult.colour.pigment import depth_seen, lifted
from consult.colour.spread import STRONG_LIFT, Uncertainty, in_words, strips
from consult.colour.values import HairState, Prediction, Seen, Shade, Spread, Treatment
from consult.sources import ASSUMPTION, Number
from consult.trade import VIVID

USUAL = Uncertainty()

MEASURED_UP_TO = Number(39.1, "L*", "vrhel-hair")
"""The lightest natural hair that this model was held against."""

SCREEN_SHINE = Number(0.024, "share of light", ASSUMPTION)
"""A meter takes the surface light in with the rest; an eye sees it as shine and the colour below it. A patch on a
screen has no shine, so this much is left out there, or black hair would be shown as slate."""

SCREEN_GAIN = Number(1.8, "times the measured light", ASSUMPTION)
"""A meter sees a tress without highlights, an eye sees hair in light: white hair is shown at 85 per cent."""

_SOME_WHITE = Number(0.1, "share of hairs", ASSUMPTION)

UNMEASURED = (
    "Only natural hair from black to dark blonde has been measured and compared with this forecast; "
    "anything lighter, lightened or dyed is calculated."
)
STRONGLY_LIFTED = (
    "More than three levels of lift, earlier lightening included: "
    "the remaining warmth can be a whole level off."
)
VIVID_ON_WHITE = (
    "A vivid tone on white hairs comes out lighter and brighter than its number; how much is unsure."
)
NO_LIFT_THROUGH_COLOUR = (
    "Artificial colour is not planned to lift; what the developer does underneath it cannot be foretold."
)
OUTSIDE_SCREEN = (
    "The screen cannot show this colour fully; the swatch is less intense than the hair would be."
)


def _seen(colours: Floats) -> list[Seen]:
    """Everything that is said about colours (n, 3), in one pass.

    The numbers are those of a measured tress; only what the screen shows is brightened, all of it alike.
    """
    white = np.ones(3)  # light is scaled against the same white it is compared with, whichever that is
    body = np.maximum(xyz_from_lab(colours, white) - float(SCREEN_SHINE), 0.0)
    lit = lab_from_xyz(body * float(SCREEN_GAIN), white)
    screen, depths, tones = srgb(lit), nearest_depth(colours), nearest_tones(colours)
    hexes = hex_colours(screen.rgb)
    return [
        Seen(
            lab=(float(colour[0]), float(colour[1]), float(colour[2])),
            hex=hexes[i],
            in_gamut=bool(screen.in_gamut[i]),
            depth=float(depths[i]),
            tone=tones[i],
        )
        for i, colour in enumerate(colours)
    ]


def _weaknesses(
    outcome: Outcome, treatment: Treatment | None, seen: Floats, in_gamut: bool
) -> tuple[str, ...]:
    said: list[str] = []
    if seen[0] > MEASURED_UP_TO or outcome.total_lift > 0 or outcome.dye.any():
        said.append(UNMEASURED)
    if outcome.total_lift > STRONG_LIFT:
        said.append(STRONGLY_LIFTED)
    if treatment is not None:
        tones = {shade.tone for shade, _ in treatment.shades}
        if treatment.uptake > 0 and outcome.hair.white_share >= _SOME_WHITE and tones & VIVID:
            said.append(VIVID_ON_WHITE)
        if outcome.hair.holds_back > 0 and treatment.lift_levels > 0:
            said.append(NO_LIFT_THROUGH_COLOUR)
    if not in_gamut:
        said.append(OUTSIDE_SCREEN)
    return tuple(said)


def predict_all(
    cases: Sequence[tuple[HairState, Treatment | None]], goal: Shade, uncertainty: Uncertainty = USUAL
) -> list[Prediction]:
    """The colour of each piece of hair after its treatment (None: as it is now), and how far from the goal.

    All of them in one pass: a whole head costs little more than one band. The arguments are frozen values and
    were checked when they were made.
    """
    if not cases:
        return []
    outcomes = [outcome_of(state, treatment) for state, treatment in cases]
    spectra = locks(
        lifted(
            np.array([o.hair.depth for o in outcomes]),
            np.array([o.lightened for o in outcomes]),
            np.array([o.hair.warmth for o in outcomes]),
        ),
        np.array([o.dye for o in outcomes]),
        np.array([o.on_white for o in outcomes]),
        np.array([o.hair.white_share for o in outcomes]),
    )
    three = lab(np.stack([spectra.pigmented, spectra.white, spectra.seen]))
    widths = strips(outcomes, uncertainty)
    lows, highs = np.array([w.low for w in widths]), np.array([w.high for w in widths])
    count = len(outcomes)
    told = _seen(np.concatenate([three[0], three[1], three[2], lows, highs, goal_lab(goal)[None]]))
    wanted = replace(told[-1], depth=goal.depth, tone=goal.tone)
    to_goal = ciede2000(three[2], np.array(wanted.lab))
    found = []
    for i, (outcome, (_, treatment)) in enumerate(zip(outcomes, cases, strict=True)):
        seen = told[2 * count + i]
        if not outcome.dye.any() and not outcome.on_white.any():
            seen = replace(seen, tone=told[i].tone)  # white hairs among others give no tone of their own
        found.append(
            Prediction(
                pigmented=told[i],
                white=told[count + i],
                seen=seen,
                goal=wanted,
                to_goal=float(to_goal[i]),
                lift=outcome.lift,
                spread=Spread(
                    low=told[3 * count + i],
                    likely=seen,
                    high=told[4 * count + i],
                    levels=widths[i].levels,
                    difference=widths[i].difference,
                    words=in_words(widths[i].levels),
                ),
                weaknesses=_weaknesses(outcome, treatment, three[2, i], seen.in_gamut),
            )
        )
    return found


def predict(
    state: HairState, treatment: Treatment | None, goal: Shade, uncertainty: Uncertainty = USUAL
) -> Prediction:
    """The same for one piece of hair."""
    return predict_all([(state, treatment)], goal, uncertainty)[0]


class Border(Struct, frozen=True):
    """The border between two stretches. difference: CIEDE2000; levels: how far apart in depth."""

    difference: float
    visible: bool
    darker: Literal["first", "second", "neither"]
    levels: float


def lines_between(pairs: Sequence[tuple[Prediction, Prediction]]) -> list[Border]:
    """For each two predicted stretches whether a line shows where they meet, and which of them is darker."""
    if not pairs:
        return []
    colours = np.array([(one.seen.lab, other.seen.lab) for one, other in pairs])
    apart = ciede2000(colours[:, 0], colours[:, 1])
    depths = depth_seen(colours)
    gaps = depths[:, 1] - depths[:, 0]
    return [
        Border(float(d), bool(d >= VISIBLE_LINE), _darker(float(gap)), abs(float(gap)))
        for d, gap in zip(apart, gaps, strict=True)
    ]


def _darker(gap: float) -> Literal["first", "second", "neither"]:
    if abs(gap) <= 1e-9:
        return "neither"
    return "first" if gap > 0 else "second"
