"""What colour it will be: every band of the head today and after each application that reaches it.

This is the one place where head, applications and colour meet. It needs numpy, so it is loaded only when a
result is shown or written, never while the questions are asked.
"""

from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from consult.colour.difference import ciede2000
from consult.colour.dyes import fitted_to_swatch
from consult.colour.fade import uptake_after
from consult.colour.neutralise import Objection, neutralise, objections
from consult.colour.prediction import lines_between, predict_all
from consult.colour.spread import Uncertainty, learned
from consult.colour.values import HairState, OldColour, Prediction, Shade, Treatment
from consult.head.bands import Area, Band
from consult.plan.application import Application, Applications, areas_under, reaching
from consult.plan.case import Case
from consult.plan.clock import full_minutes
from consult.plan.lines import Line, line
from consult.plan.phrasing import NEAR, SAME, level_words, nearness
from consult.plan.results import Result
from consult.plan.targets import part_of
from consult.products.kinds import Auxiliary, Filler
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import COOL, Porosity, Stretch, Tone, Zone

THINNED = Number(0.8, "share of full uptake, emulsified with water", ASSUMPTION)
THINNED_ON_POROUS = Number(0.6, "share of full uptake, thinned on damp hair", ASSUMPTION)
HOT_ROOTS = Number(1.25, "times the lift where the scalp warms what goes on all over at once", ASSUMPTION)
"""That roots run ahead is common practice; how far was never measured."""
UNDERLAY_SHARE = Number(0.25, "of the colour where something was deposited before", ASSUMPTION)
TODAY = "today"
TWO_SHADES = Number(
    1.5, "levels between white and other hair, from which they are told as two shades", ASSUMPTION
)
MIXED_FROM = Number(0.1, "share of white hair, and of other, from which both are seen", ASSUMPTION)
WARM: tuple[Tone, ...] = ("gold", "copper", "copper red", "red")
_MODEL = ("scanavez-2000", ASSUMPTION)


class Stage(Struct, frozen=True):
    """A band's colour at one point of the plan."""

    name: str
    colour: Prediction


class BandForecast(Struct, frozen=True):
    """One band of some zones, today and after each application that reaches it.

    `natural` while nothing artificial is on it today; white share 0 to 1.
    """

    zones: tuple[Zone, ...]
    start_cm: float
    end_cm: float
    stretch: Stretch
    natural_depth: float
    natural: bool
    white_share: float
    stages: tuple[Stage, ...]

    @property
    def last(self) -> Prediction:
        return self.stages[-1].colour

    @property
    def two_shades(self) -> bool:
        """Whether white and other hair end so far apart that they are no even colour, wherever their mean lies.

        Coloured hair that is read as one today stays so, unless the two part further.
        """
        mixed = MIXED_FROM <= self.white_share <= 1 - MIXED_FROM and len(self.stages) > 1
        today, apart = self.stages[0].colour, abs(self.last.white.depth - self.last.pigmented.depth)
        parts = self.natural or apart > abs(today.white.depth - today.pigmented.depth)
        return mixed and parts and apart >= TWO_SHADES

    @property
    def how_near(self) -> str:
        """How near the goal it comes, in words."""
        near, two = nearness(self.last.to_goal), "two shades side by side, white and other hair"
        if not self.two_shades:
            return near
        return f"{two}, {near}" if self.last.to_goal >= NEAR else two


class Forecast(Struct, frozen=True):
    """All bands, area after area; `only_if` is True when the plan is not to be carried out as things stand.

    `warnings` are lines that must not go unseen: a visible border, a goal that is missed.
    """

    bands: tuple[BandForecast, ...]
    warnings: tuple[Line, ...]
    lines: tuple[Line, ...]
    weaknesses: tuple[str, ...]
    only_if: bool


def forecast(
    case: Case, applications: Applications, *, only_if: bool, results: tuple[Result, ...] = ()
) -> Forecast:
    """Predict every band under a list of applications, all in one pass; recorded results say how sure that is."""
    factor = learned([(float(ciede2000(one.predicted, one.seen)), one.band) for one in results])
    ways = [
        (area, band, _way(case, applications, area, band))
        for area in areas_under(case.head, applications)
        for band in area.strand.bands
    ]
    cases = [(state_of(band), treatment) for _, band, way in ways for _, treatment in way]
    colours = iter(predict_all(cases, case.wish.shade, Uncertainty().times(factor)))
    bands = tuple(
        BandForecast(
            area.zones,
            band.start_cm,
            band.end_cm,
            band.stretch,
            band.natural_depth,
            band.virgin,
            band.white_share,
            tuple(Stage(name, _named(next(colours), name, band, case.wish.shade)) for name, _ in way),
        )
        for area, band, way in ways
    )
    said = dict.fromkeys(w for band in bands for stage in band.stages[1:] for w in stage.colour.weaknesses)
    goal_line, missed = _near_goal(bands)
    warnings = (*_borders(bands), *([goal_line] if missed else []))
    lines = (
        *([] if missed else [goal_line]),
        *_swatch(case),
        *_recorded(results, factor),
        *_undertone(case, bands, only_if=only_if),
    )
    return Forecast(bands, warnings, lines, tuple(said), only_if)


def state_of(band: Band) -> HairState:
    """A band of the head as the colour model takes it.

    What the eye has read is today's colour, so it has not faded since, and the model starts from it. Lightened hair
    that looks lighter than nature counts as lightened by the difference.
    """
    lightened, old = 0.0, tuple[OldColour, ...]()
    if band.colour and band.lightened and band.colour.depth >= band.natural_depth:
        lightened = band.colour.depth - band.natural_depth
    elif band.colour:
        weeks, washes = (0.0, 0.0) if band.colour.seen else (band.colour.weeks, band.colour.washes)
        old = (OldColour(band.colour.depth, band.colour.tone, weeks, washes),)
    return HairState(
        band.natural_depth, band.white_share, old, lightened, band.porosity, band.natural_tone, band.reading
    )


def _way(
    case: Case, applications: Applications, area: Area, band: Band
) -> list[tuple[str, Treatment | None]]:
    """(stage, what has been put on so far): today, then after each application that colours this band."""
    way: list[tuple[str, Treatment | None]] = [(TODAY, None)]
    before: Treatment | None = None
    for application in reaching(applications, band, area.zones):
        treatment = treatment_of(case, application, band, before)
        if treatment is not None:
            way.append((_stage_name(application), treatment))
            before = treatment
    return way


def _stage_name(application: Application) -> str:
    return "after the filler" if isinstance(application.bowl.product, Filler) else "after colouring"


def treatment_of(
    case: Case, application: Application, band: Band, before: Treatment | None = None
) -> Treatment | None:
    """What an application does to a band: the shades of its bowl, its lift, its share of full uptake.

    None where nothing is deposited. What was deposited just before joins the colour as a share of it.
    """
    product = application.bowl.product
    if isinstance(product, Auxiliary):
        return None
    *others, (shade, _) = application.bowl.shades
    under = float(UNDERLAY_SHARE) if before else 0.0
    mixed_in = tuple((other, share * (1 - under)) for other, share in others)
    if before:
        mixed_in = (*mixed_in, (before.shade, under))
    at_once = {Stretch.SCALP, Stretch.LENGTHS} <= set(application.target.stretches)
    warm = float(HOT_ROOTS) if at_once and band.stretch is Stretch.SCALP else 1.0
    return Treatment(shade, product.lifts * warm, uptake_of(case, application, band.porosity), mixed_in)


def uptake_of(case: Case, application: Application, porosity: Porosity) -> float:
    """Share of full uptake: the product's own, less for a shorter time and for water in it."""
    product = application.bowl.product
    assert not isinstance(product, Auxiliary)
    full = max(1, product.leaflet.longest if isinstance(product, Filler) else full_minutes(case, product))
    share = 1.0 if application.minutes >= full else uptake_after(application.minutes, full, porosity)
    thinned = THINNED_ON_POROUS if case.head.porous_lengths else THINNED
    return product.deposit * share * (float(thinned) if application.water else 1.0)


def _borders(bands: tuple[BandForecast, ...]) -> list[Line]:
    """A visible line between neighbours is told once, with the side that is darker; where zones differ, how much in
    which of them."""
    places: dict[str, dict[str, list[Zone]]] = {}
    meet = [(near, far) for near, far in pairwise(bands) if near.zones == far.zones]
    borders = lines_between([(near.last, far.last) for near, far in meet])
    for (near, far), border in zip(meet, borders, strict=True):
        if border.visible:
            darker, lighter = (near, far) if border.darker == "first" else (far, near)
            place = (
                f"A line will show {near.end_cm:g} cm from the scalp: the {part_of(darker.stretch)} would be darker "
                f"than the {part_of(lighter.stretch)}"
            )
            places.setdefault(place, {}).setdefault(level_words(border.levels), []).extend(near.zones)
    because = "Neighbouring bands come out further apart than the eye overlooks."
    return [
        line(f"{place}, {_by_zone(apart)}.", because, ("song-luo-2001", ASSUMPTION))
        for place, apart in places.items()
    ]


def _by_zone(apart: dict[str, list[Zone]]) -> str:
    """How far apart two sides are; the zones only where it is not the same in all."""
    if len(apart) == 1:
        return next(iter(apart))
    return ", ".join(f"{words} ({', '.join(zone.value for zone in zones)})" for words, zones in apart.items())


def _named(colour: Prediction, stage: str, band: Band, goal: Shade) -> Prediction:
    """The colour by the name that a reader knows it by: what the eye read on it today, and the goal's tone where it
    cannot be told from the goal. Of dark hair many tones look alike, and the model names another of them."""
    if stage == TODAY and band.colour and band.colour.seen and isinstance(band.reading, Shade):
        read = band.reading
        return replace(colour, seen=replace(colour.seen, depth=read.depth, tone=read.tone))
    if colour.to_goal < SAME:
        return replace(colour, seen=replace(colour.seen, tone=goal.tone))
    return colour


def _near_goal(bands: tuple[BandForecast, ...]) -> tuple[Line, bool]:
    """The band furthest from the goal, and whether the goal is missed there."""
    worst = max(bands, key=lambda band: (band.last.to_goal >= NEAR, band.two_shades, band.last.to_goal))
    seen = worst.last.seen
    told = line(
        f"The band furthest from the goal ({part_of(worst.stretch)}) comes out about depth {seen.depth:g} {seen.tone}: "
        f"{worst.how_near}. {worst.last.spread.words.capitalize()}.",
        "Pigment and dye are added up in the fibre and turned into what the eye sees; the inputs' "
        "uncertainty is carried through. The strand test decides.",
        _MODEL,
    )
    return told, worst.last.to_goal >= NEAR


def _recorded(results: tuple[Result, ...], factor: float) -> list[Line]:
    """What recorded results do to the strip."""
    if not results:
        return []
    wider = "wider" if factor > 1 else "narrower"
    return [
        line(
            f"After {len(results)} recorded results the strip is drawn {wider}: {factor:.1f} times the usual.",
            "Each result counts by the square of how far it lay off over the half of what had been stated, beside "
            "the seven measured tresses.",
            (ASSUMPTION,),
        )
    ]


def _swatch(case: Case) -> list[Line]:
    """How far the shade's own swatch changed what is computed with; nothing where none was given."""
    found = fitted_to_swatch(case.product.shade)
    if found is None:
        return []
    told = (
        f"The shade is computed from its own swatch: {found.strength:.1f} times the usual dye, "
        f"{'hardly another colour' if found.difference < SAME else 'another colour than usual'} on white hair."
    )
    left = "The swatch is met" if found.left < 1 else "The swatch is met as far as dye on hair can"
    return [line(told, f"{left}; what it does not say is as in the built-in recipe.", (ASSUMPTION,))]


def _undertone(case: Case, bands: tuple[BandForecast, ...], *, only_if: bool) -> list[Line]:
    """The warmth that lightening will leave where none is wanted, and what would cancel it; what speaks against a
    cool tone. A plan that is carried out all the same has a strand test that showed what is refused here."""
    lines = []
    goal = case.wish
    wants_cool = goal.tone == "neutral" or goal.tone in COOL
    warm = any(band.last.seen.tone in WARM for band in bands if len(band.stages) > 1)
    if case.lift > 0 and wants_cool and goal.depth > 1 and warm:
        grown = state_of(min(case.head.bands, key=lambda band: (band.colour is not None, band.natural_depth)))
        found = neutralise(grown, Treatment(Shade(goal.depth, "neutral"), case.product.lifts))
        lines.append(
            line(
                "This mix does not cancel all the warmth that lightening leaves. "
                f"{found.words[0].upper()}{found.words[1:]}; mixed in, it needs an allergy alert test of its own.",
                "Lightening exposes warm pigment; its opposite at the same depth cancels it, sparingly. "
                "Charts differ by about a level.",
                (COMMON_PRACTICE,),
            )
        )
    said = (objection for objection in cool_objections(case) if only_if or objection.weight == "caution")
    lines += [line(objection.words, "Tone over tone.", (COMMON_PRACTICE,)) for objection in said]
    return lines


def cool_objections(case: Case) -> tuple[Objection, ...]:
    """What speaks against a cool shade on hair that is, or will be, lightened; empty for any other."""
    tone = case.product.shade.tone
    lifted_to = (
        case.head.lightest_length if case.head.lightened else case.wish.depth if case.lift > 0 else None
    )
    if lifted_to is None or tone not in COOL:
        return ()
    lengths: Tone | None = next((band.colour.tone for band in case.head.treated if band.colour), None)
    porosity: Porosity = next((b.porosity for b in case.head.treated), "normal")
    return objections(tone, lifted_to, lengths, porosity)
