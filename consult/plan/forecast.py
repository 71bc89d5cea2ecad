"""What colour it will be: every band of the strand today and after each step of the plan.

This is the one place where strand, plan and colour meet. It needs numpy, so it is loaded only when a
result is shown or written, never while the questions are asked.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import cast

from consult.colour.fade import uptake_after
from consult.colour.neutralise import neutralise, objections
from consult.colour.prediction import line_between, predict
from consult.colour.values import HairState, OldColour, Prediction, Shade, Treatment
from consult.plan.brief import Brief
from consult.plan.clock import full_minutes
from consult.plan.mix import base_share, fill_shade
from consult.plan.suitability import lift_bound
from consult.plan.types import Approach, Line
from consult.plan.words import NEAR, level_words, nearness
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.strand.bands import Band, Zone
from consult.trade import COOL, Porosity, Tone

REFRESH_STRENGTH = Number(0.8, "share of full uptake, emulsified with water", ASSUMPTION)
REFRESH_STRENGTH_POROUS = Number(0.6, "share of full uptake, thinned on damp hair", ASSUMPTION)
FILLER_UPTAKE = Number(0.6, "share of full uptake, demi-permanent for 10 to 15 minutes", ASSUMPTION)
FILLER_SHARE = Number(0.25, "of the colour on filled hair", ASSUMPTION)
TODAY, FILLED, COLOURED = "today", "after the filler", "after colouring"
_MODEL = ("scanavez-2000", ASSUMPTION)


@dataclass(frozen=True)
class Stage:
    """A band's colour at one point of the plan."""

    name: str
    colour: Prediction


@dataclass(frozen=True)
class BandForecast:
    """One band, today and after each step that touches it.

    `natural` while nothing artificial is on it today, `white` when there are white hairs in it.
    """

    start_cm: float
    end_cm: float
    zone: str
    natural: bool
    white: bool
    stages: tuple[Stage, ...]

    @property
    def last(self) -> Prediction:
        return self.stages[-1].colour


@dataclass(frozen=True)
class Forecast:
    """All bands; `only_if` is True when the plan is not to be carried out as things stand.

    `warnings` are lines that must not go unseen: a visible border, a goal that is missed.
    """

    bands: tuple[BandForecast, ...]
    warnings: tuple[Line, ...]
    lines: tuple[Line, ...]
    weaknesses: tuple[str, ...]
    only_if: bool


def forecast(brief: Brief, approach: Approach, *, only_if: bool) -> Forecast:
    """Predict every band under an approach (never HOLD)."""
    goal = Shade(brief.goal_depth, cast(Tone, brief.goal_tone))
    bands = tuple(_band(brief, approach, band, goal) for band in brief.strand.bands)
    said = dict.fromkeys(w for band in bands for stage in band.stages[1:] for w in stage.colour.weaknesses)
    goal_line, missed = _near_goal(bands)
    warnings = (*_borders(bands), *([goal_line] if missed else []))
    lines = (*([] if missed else [goal_line]), *_undertone(brief))
    return Forecast(bands, warnings, lines, tuple(said), only_if)


def stretch_of(band: Band) -> HairState:
    """A band of the strand as the colour model takes it.

    What the eye has read is today's colour, so it has not faded since. Lightened hair that looks lighter
    than nature counts as lightened by the difference.
    """
    lightened, old = 0.0, tuple[OldColour, ...]()
    if band.colour and band.lightened and band.colour.depth >= band.natural_depth:
        lightened = band.colour.depth - band.natural_depth
    elif band.colour:
        weeks, washes = (0.0, 0.0) if band.colour.seen else (band.colour.weeks, band.colour.washes)
        old = (OldColour(band.colour.depth, cast(Tone, band.colour.tone), weeks, washes),)
    return HairState(band.natural_depth, band.white_share, old, lightened, cast(Porosity, band.porosity))


def _band(brief: Brief, approach: Approach, band: Band, goal: Shade) -> BandForecast:
    stretch = stretch_of(band)
    stages = [Stage(TODAY, predict(stretch, None, goal))]
    if approach is Approach.PRE_PIGMENT and band.lightened:
        depth, tone = fill_shade(brief.goal_depth)
        filler = Shade(depth, cast(Tone, tone.split(" and ")[0]))
        stages.append(Stage(FILLED, predict(stretch, Treatment(filler, 0.0, float(FILLER_UPTAKE)), goal)))
        # The filler is a light deposit that joins the shade: modelled as a share of the final mix.
        final = Treatment(Shade(brief.depth, cast(Tone, brief.tone)), 0.0, 1.0, filler, float(FILLER_SHARE))
        stages.append(Stage(COLOURED, predict(stretch, final, goal)))
        return BandForecast(
            band.start_cm, band.end_cm, band.zone.value, band.virgin, band.white_share > 0, tuple(stages)
        )
    uptake = uptake_share(brief, approach, band)
    if uptake > 0:
        stages.append(Stage(COLOURED, predict(stretch, treatment(brief, uptake), goal)))
    return BandForecast(
        band.start_cm, band.end_cm, band.zone.value, band.virgin, band.white_share > 0, tuple(stages)
    )


def treatment(brief: Brief, uptake: float) -> Treatment:
    """The product on the head: its shade, its natural share on white hair, its lift."""
    shade = Shade(brief.depth, cast(Tone, brief.tone))
    lift = 0.0 if brief.colour_class == "demi-permanent" else lift_bound(brief.developer_percent)
    share = base_share(brief.white_mean) if brief.covers_white and not brief.kit else 0.0
    natural = Shade(brief.depth, "neutral") if share and brief.tone != "neutral" else None
    return Treatment(shade, lift, uptake, natural, share if natural else 0.0)


def uptake_share(brief: Brief, approach: Approach, band: Band) -> float:
    """Share of full uptake that a band gets; 0 when the plan leaves it alone."""
    if band.zone is Zone.NEW_GROWTH or approach not in (Approach.NEW_GROWTH, Approach.REFRESH):
        return 1.0
    if approach is Approach.NEW_GROWTH:
        return 0.0
    share = uptake_after(brief.minutes_refresh, max(1, full_minutes(brief)), cast(Porosity, band.porosity))
    return share * float(REFRESH_STRENGTH_POROUS if brief.porous_lengths else REFRESH_STRENGTH)


def _borders(bands: tuple[BandForecast, ...]) -> list[Line]:
    """A visible line between neighbours is told, with the side that is darker."""
    found = []
    for near, far in pairwise(bands):
        border = line_between(near.last, far.last)
        if border.visible:
            darker, lighter = (near, far) if border.darker == "first" else (far, near)
            found.append(
                Line(
                    f"A line will show {near.end_cm:g} cm from the scalp: the {darker.zone} would be darker than "
                    f"the {lighter.zone}, {level_words(border.levels)}.",
                    "Neighbouring bands come out further apart than the eye overlooks.",
                    ("song-luo-2001", ASSUMPTION),
                )
            )
    return found


def _near_goal(bands: tuple[BandForecast, ...]) -> tuple[Line, bool]:
    """The band furthest from the goal, and whether the goal is missed there."""
    worst = max(bands, key=lambda band: band.last.to_goal)
    seen = worst.last.seen
    line = Line(
        f"The band furthest from the goal ({worst.zone}) comes out about depth {seen.depth:g} {seen.tone}: "
        f"{nearness(worst.last.to_goal)}. {worst.last.spread.words.capitalize()}.",
        "Pigment and dye are added up in the fibre and turned into what the eye sees; the inputs' "
        "uncertainty is carried through. The strand test decides.",
        _MODEL,
    )
    return line, worst.last.to_goal >= NEAR


def _undertone(brief: Brief) -> list[Line]:
    """The warmth that lightening will expose at the goal, what cancels it, and what must not be used."""
    lines = []
    wants_cool = brief.goal_tone == "neutral" or brief.goal_tone in COOL
    if brief.lift > 0 and wants_cool and brief.goal_depth > 1:
        found = neutralise(brief.goal_depth, brief.lift)
        lines.append(
            Line(
                f"Undertone: {found.words}.",
                "Lightening exposes warm pigment; its opposite at the same depth cancels it, sparingly. "
                "Charts differ by about a level.",
                (COMMON_PRACTICE,),
            )
        )
    lifted_to = brief.lightest_depth if brief.lightened else brief.goal_depth if brief.lift > 0 else None
    if lifted_to is not None and brief.tone in COOL:
        lengths = next((cast(Tone, band.colour.tone) for band in brief.strand.treated if band.colour), None)
        porosity = cast(Porosity, brief.porosity["lengths"])
        for objection in objections(brief.tone, lifted_to, lengths, porosity):
            lines.append(Line(objection.words, "Tone over tone.", (COMMON_PRACTICE,)))
    return lines
