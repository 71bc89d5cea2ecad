"""Why it went wrong: plan, log and what came out side by side, each possible cause put through the forecast.

A cause is one input of the forecast moved as far as that input may be off, or as far as the log says. What it explains
is how much nearer the forecast then comes to what was seen. That is never proof: two causes may look alike, and what
nobody logged can only be possible. Needs numpy; loaded only when causes are asked for.
"""

from collections.abc import Iterator
from datetime import datetime
from enum import IntEnum
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.base import known
from consult.colour.difference import ciede2000
from consult.colour.fade import uptake_after
from consult.colour.ladder import goal_lab
from consult.colour.prediction import predict
from consult.colour.spread import Uncertainty
from consult.colour.values import HairState, OldColour, Prediction, Shade, Treatment
from consult.consultation import consult
from consult.head.bands import Area, Band
from consult.plan.application import Application, Applications, reaching
from consult.plan.case import Case
from consult.plan.clock import full_minutes
from consult.plan.forecast import HOT_ROOTS, state_of, treatment_of
from consult.plan.lines import Line, line
from consult.plan.types import Held, Made
from consult.plan.usual import as_if_tested
from consult.products.kinds import Auxiliary
from consult.remedies.day import DayLog
from consult.salon import SalonConfig, default_config
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import AT_THE_SCALP, BEYOND, DARKEST, LIGHTEST, Stretch, Tone

USUAL: Final = Uncertainty()
LEAST_EXPLAINED = Number(0.15, "of the miss, below which a cause is not told", ASSUMPTION)
SHORT_OF_TIME = Number(0.5, "of the planned minutes, where nobody logged them", ASSUMPTION)
SHORT_OF_MIX = Number(0.6, "of the mix that was needed, where nobody logged it", ASSUMPTION)
OLD_WEEKS, OLD_WASHES = Number(12, "weeks", ASSUMPTION), Number(36, "washes", ASSUMPTION)
OLD_DARKER = Number(2, "levels that an old colour nobody told of lies below nature", ASSUMPTION)
_MODEL = ("scanavez-2000", ASSUMPTION)


class Weight(IntEnum):
    """What speaks for a cause beside the colour."""

    POSSIBLE = 1
    LOGGED = 2


class Cause(Struct, frozen=True):
    """One possible cause at one place. share: of the miss that it would explain, 0 to 1."""

    id: str
    where: Stretch
    share: float
    weight: Weight
    line: Line


class Causes(Struct, frozen=True):
    """Causes, the likeliest first; `lines` say where nothing is off, and what was ruled out by the log."""

    ranked: tuple[Cause, ...]
    lines: tuple[Line, ...]


class _Place(Struct, frozen=True):
    """One stretch that was read: its band, what went on it by plan, what was foreseen and what was seen."""

    stretch: Stretch
    band: Band
    application: Application | None
    treatment: Treatment | None
    foreseen: Prediction
    seen: Shade

    @property
    def miss(self) -> float:
        return _apart(self.foreseen, self.seen)


def causes(answers: Answers, day: DayLog, now: datetime, salon: SalonConfig | None = None) -> Causes:
    """Why a day went wrong. `answers` are those it was planned from; nothing here reads a clock."""
    salon = salon or default_config()
    at = known(day.done_at) or now
    services = answers.history.services
    if isinstance(services, tuple) and any(service.on == at.date() for service in services):
        return Causes((), (_ALREADY,))
    plan = consult(as_if_tested(answers, at), at, salon).plan
    if not isinstance(plan, Made | Held) or plan.case is None or not plan.applications:
        return Causes((), (_NO_PLAN,))
    places = list(_places(plan.case, plan.applications, day))
    left = (known(day.white_left) or 0.0) / 100
    if not places and not left:
        return Causes((), (_NOTHING_READ,))
    needed = sum(p.expected_g for p in plan.purchases) if isinstance(plan, Made) else 0.0
    found: list[Cause] = []
    lines: list[Line] = []
    missed = False
    for place in places:
        if place.miss <= place.foreseen.spread.difference:
            lines.append(_as_foreseen(place))
            continue
        missed = True
        found += _tried(place, plan.case, day, needed)
    if left:
        missed = True
        found += _white_left(plan.case, plan.applications, day, needed, left)
    found = [c for c in found if c.share >= LEAST_EXPLAINED]
    ranked = sorted(found, key=lambda c: (-c.share * c.weight, c.id))
    return Causes(
        tuple(ranked), (*lines, *_ruled_out(day, needed), *([_UNEXPLAINED] if missed and not ranked else []))
    )


def _places(case: Case, applications: Applications, day: DayLog) -> Iterator[_Place]:
    """The stretches that were read, each at the part of the head that most zones share."""
    area = max(case.head.areas, key=lambda one: len(one.zones))
    grown = Stretch.NEW_GROWTH if area.strand.on(Stretch.NEW_GROWTH) else Stretch.SCALP
    for stretch, depth, tone in (
        (grown, day.new_growth_depth, day.new_growth_tone),
        (Stretch.LENGTHS, day.lengths_depth, day.lengths_tone),
        (Stretch.ENDS, day.ends_depth, day.ends_tone),
    ):
        bands, read = area.strand.on(stretch), known(depth)
        its_tone: Tone | None = known(tone)
        if bands and read is not None:
            yield _place(case, applications, area, bands[-1], Shade(read, its_tone or case.wish.tone))


def _place(case: Case, applications: Applications, area: Area, band: Band, seen: Shade) -> _Place:
    mine = [a for a in reaching(applications, band, area.zones) if not isinstance(a.bowl.product, Auxiliary)]
    application = mine[-1] if mine else None
    treatment = treatment_of(case, application, band) if application else None
    foreseen = predict(state_of(band), treatment, case.wish.shade)
    return _Place(band.stretch, band, application, treatment, foreseen, seen)


def _apart(foreseen: Prediction, seen: Shade) -> float:
    """Colour difference between a forecast and a shade that the eye has named."""
    return float(ciede2000(foreseen.seen.lab, goal_lab(seen)))


def _tried(place: _Place, case: Case, day: DayLog, needed: float) -> Iterator[Cause]:
    """Each cause at one place, with what it would explain there."""
    state, treatment = state_of(place.band), place.treatment
    yield _cause(place, "natural-depth", Weight.POSSIBLE, _BY_DEPTH, _depths(state, treatment))
    if state.white_share > 0 or treatment:
        yield _cause(place, "white-share", Weight.POSSIBLE, _BY_WHITE, _whites(state, treatment))
    yield _cause(place, "old-service", Weight.POSSIBLE, _BY_OLD, _olds(state, treatment))
    if state.porosity != "high" and treatment:
        porous = replace(state, porosity="high")
        full = replace(treatment, uptake=min(1.0, treatment.uptake * (1 + USUAL.uptake)))
        yield _cause(place, "porous", Weight.POSSIBLE, _BY_POROUS, [(porous, full)])
    yield from _by_minutes(place, case, day)
    yield from _by_overlap(place, case, day)
    yield from _by_mix(place, day, needed)
    if treatment and treatment.lift_levels > 0 and place.stretch in AT_THE_SCALP:
        hot = replace(treatment, lift_levels=min(LIGHTEST, treatment.lift_levels * HOT_ROOTS + USUAL.lift))
        yield _cause(place, "warm-scalp", Weight.POSSIBLE, _BY_HEAT, [(state, hot)])


_Try = tuple[HairState, Treatment | None]


def _cause(place: _Place, id_: str, weight: Weight, told: Line, ways: list[_Try]) -> Cause:
    """The share of the miss that the best of these ways would explain."""
    left = min((_apart(predict(s, t, place.seen), place.seen) for s, t in ways), default=place.miss)
    share = max(0.0, min(1.0, 1 - left / place.miss))
    return Cause(id_, place.stretch, share, weight, told)


def _depths(state: HairState, treatment: Treatment | None) -> list[_Try]:
    """The depth that was there before read half a level off, or a whole one; what the eye read moves along."""
    return [(_moved(state, side * step * USUAL.depth), treatment) for side in (-1, 1) for step in (1, 2)]


def _moved(state: HairState, levels: float) -> HairState:
    def within(depth: float) -> float:
        return min(LIGHTEST, max(DARKEST, depth + levels))

    reading = state.reading
    if isinstance(reading, Shade):
        reading = replace(reading, depth=within(reading.depth))
    return replace(state, natural_depth=within(state.natural_depth), reading=reading)


def _whites(state: HairState, treatment: Treatment | None) -> list[_Try]:
    moved = [state.white_share + side * step * USUAL.white for side in (-1, 1) for step in (1, 2)]
    return [(replace(state, white_share=min(1.0, max(0.0, w))), treatment) for w in moved]


def _olds(state: HairState, treatment: Treatment | None) -> list[_Try]:
    """An old dark colour, or an old lightening, that nobody told of."""
    darker = max(DARKEST, state.natural_depth - OLD_DARKER)
    old = OldColour(darker, "neutral", float(OLD_WEEKS), float(OLD_WASHES))
    return [
        (replace(state, old_colours=(*state.old_colours, old), reading=None), treatment),
        (
            replace(state, lightened_levels=state.lightened_levels + 1, porosity="high", reading=None),
            treatment,
        ),
    ]


def _by_minutes(place: _Place, case: Case, day: DayLog) -> Iterator[Cause]:
    """Another time than planned: as logged, or half of it where nobody logged any."""
    if place.application is None or place.treatment is None:
        return
    product = place.application.bowl.product
    assert not isinstance(product, Auxiliary)
    on_lengths = place.stretch in BEYOND
    logged = known(day.minutes_lengths if on_lengths else day.minutes_new_growth)
    planned, full = place.application.minutes, max(1, full_minutes(case, product))
    minutes = planned * SHORT_OF_TIME if logged is None else logged
    if logged is not None and abs(logged - planned) < 1:
        return
    uptake = min(1.0, product.deposit * uptake_after(min(minutes, full), full, place.band.porosity))
    told = _minutes_line(place.stretch, planned, logged)
    weight = Weight.POSSIBLE if logged is None else Weight.LOGGED
    changed = replace(place.treatment, uptake=uptake)
    yield _cause(place, "minutes", weight, told, [(state_of(place.band), changed)])


def _by_overlap(place: _Place, case: Case, day: DayLog) -> Iterator[Cause]:
    """Colour drawn onto hair that was coloured before: full uptake where the plan had none, or less."""
    if place.stretch not in BEYOND or day.overlap == "no":
        return
    full = Treatment(case.product.shade, case.product.lifts, min(1.0, case.product.deposit))
    weight = Weight.LOGGED if day.overlap == "yes" else Weight.POSSIBLE
    yield _cause(place, "overlap", weight, _BY_OVERLAP, [(state_of(place.band), full)])


def _by_mix(place: _Place, day: DayLog, needed: float) -> Iterator[Cause]:
    """Less mix than the plan expected."""
    used = known(day.mixed_g)
    if place.treatment is None or needed <= 0 or (used is not None and used >= needed):
        return
    part = float(SHORT_OF_MIX) if used is None else used / needed
    less = replace(place.treatment, uptake=place.treatment.uptake * part)
    weight = Weight.POSSIBLE if used is None else Weight.LOGGED
    yield _cause(place, "mix", weight, _mix_line(used, needed), [(state_of(place.band), less)])


def _white_left(
    case: Case, applications: Applications, day: DayLog, needed: float, left: float
) -> Iterator[Cause]:
    """Why white still shows: each cause by the colour that it would have left out, against the share left (0 to 1)."""
    mine = [a for a in applications if Stretch.SCALP in a.target.stretches]
    mine = [a for a in mine if not isinstance(a.bowl.product, Auxiliary)]
    if not mine:
        return
    application = mine[-1]
    full = max(1, full_minutes(case, application.bowl.product))  # type: ignore[arg-type]
    logged = known(day.minutes_new_growth)
    minutes = application.minutes * SHORT_OF_TIME if logged is None else logged
    if logged is None or logged < application.minutes:
        weight = Weight.POSSIBLE if logged is None else Weight.LOGGED
        told = _minutes_line(Stretch.NEW_GROWTH, application.minutes, logged)
        yield _of_white("minutes", weight, told, 1 - uptake_after(min(minutes, full), full), left)
    used = known(day.mixed_g)
    if needed > 0 and (used is None or used < needed):
        part = float(SHORT_OF_MIX) if used is None else used / needed
        weight = Weight.POSSIBLE if used is None else Weight.LOGGED
        yield _of_white("mix", weight, _mix_line(used, needed), 1 - part, left)
    resisted = 1 - uptake_after(min(minutes, full), full, "low")
    yield _of_white("white-resists", Weight.POSSIBLE, _BY_RESISTANCE, resisted, left)


def _of_white(id_: str, weight: Weight, told: Line, missing: float, left: float) -> Cause:
    return Cause(id_, Stretch.NEW_GROWTH, max(0.0, min(1.0, missing / left)), weight, told)


# --- in words --------------------------------------------------------------------------------------


def share_words(share: float) -> str:
    """How much of a miss a cause would explain, in words."""
    for limit, words in ((0.35, "a little of it"), (0.65, "about half of it")):
        if share < limit:
            return words
    return "most of it"


def cause_line(cause: Cause) -> Line:
    """A cause with where it is, how much it would explain, and what speaks for it."""
    evidence = "the log says so" if cause.weight is Weight.LOGGED else "nobody logged it"
    tail = f" It may explain {share_words(cause.share)} ({cause.where.value}; {evidence})."
    told = cause.line
    say = replace(told.say, trade=told.say.trade + tail, plain=told.say.plain + tail)
    return replace(told, say=say)


_BY_DEPTH = line(
    "The depth before was read wrong, by half a level or a whole one: the natural one, or that of the lengths.",
    "The forecast from another depth comes nearer to what was seen. Read it again by daylight.",
    _MODEL,
)
_BY_WHITE = line(
    "Another share of white hair than was read.",
    "White and pigmented hair come out differently under one mix; more or less of it moves the whole.",
    _MODEL,
)
_BY_OLD = line(
    "An old service that nobody told of: a dark colour, or a lightening.",
    "What lies in the hair adds to what goes on; lightened hair takes colour fast, dark and cool.",
    _MODEL,
)
_BY_POROUS = line(
    "The hair is more porous there than was felt.",
    "Porous hair takes colour fast and deep, and loses it fast.",
    (COMMON_PRACTICE, ASSUMPTION),
)
_BY_RESISTANCE = line(
    "White hair that resists: smooth and dense, it takes colour slowly.",
    "Resistant hair does not quite reach full uptake in the leaflet's time.",
    ("dye-uptake-1967", ASSUMPTION),
)
_BY_HEAT = line(
    "The scalp's warmth lifted the first centimetre further.",
    "Warm hair lifts faster; how far was never measured.",
    (COMMON_PRACTICE, ASSUMPTION),
)
_BY_OVERLAP = line(
    "Overlap: colour lay on hair that had been coloured before.",
    "Colour on colour comes out deeper, and wears the hair.",
    (COMMON_PRACTICE, ASSUMPTION),
)
_NO_PLAN = line(
    "There is no plan to compare with: nobody can say why.",
    "Causes are read off the difference between plan, log and what came out.",
)
_ALREADY = line(
    "This record knows of the day already: why it went wrong is read from the record that it was planned from.",
    "Here its new growth is gone and its colour lies on the hair.",
)
_NOTHING_READ = line(
    "Nobody read how dark it came out, so nobody can say why.",
    "A cause is what brings the forecast nearer to what was seen.",
)
_UNEXPLAINED = line(
    "None of the causes that can be computed would explain it.",
    "The forecast has its own error; what was seen may also be read by lamp light.",
    _MODEL,
)


def _minutes_line(stretch: Stretch, planned: int, logged: float | None) -> Line:
    told = (
        f"{logged:g} minutes instead of the planned {planned}"
        if logged is not None
        else f"less than {planned} minutes"
    )
    return line(
        f"Time on the {stretch.value}: {told}.",
        "Uptake goes with the square root of time, up to the full time of the leaflet.",
        ("dye-uptake-1967", ASSUMPTION),
    )


def _mix_line(used: float | None, needed: float) -> Line:
    told = (
        f"{used:g} g used, about {needed:.0f} g expected"
        if used is not None
        else f"less than about {needed:.0f} g"
    )
    return line(
        f"Too little mix: {told}.",
        "Hair that is not wetted through takes less colour, in patches.",
        (COMMON_PRACTICE, ASSUMPTION),
    )


def _as_foreseen(place: _Place) -> Line:
    return line(
        f"{place.stretch.value.capitalize()}: it came out as foreseen, within the forecast's own spread.",
        f"Foreseen about {place.foreseen.seen.depth:g} {place.foreseen.seen.tone}, {place.foreseen.spread.words}.",
        _MODEL,
    )


def _ruled_out(day: DayLog, needed: float) -> list[Line]:
    """What the log speaks against."""
    used = known(day.mixed_g)
    said = ["overlap"] if day.overlap == "no" else []
    said += ["too little mix"] if used is not None and 0 < needed <= used else []
    if not said:
        return []
    return [line(f"Ruled out by the log: {', '.join(said)}.", "What was written down that day counts.")]
