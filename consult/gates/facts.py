"""Facts computed from answers, for rules to test: hours since a test, levels of lift, mixed strength.

A fact reads named answers; a path inside a list reads that answer of every entry. While one of them
is unasked the fact is open, when one is "not sure" the fact is in doubt, and when one does not
apply neither does the fact. A path marked "?" is one whose "not sure", or being left out, the fact itself
settles on the cautious side. A fact that finds its answers too vague is in doubt too: it says "not sure".

A fact whose unit is "moment" ends a wait. It is computed for the worst case, so each of its answers
may be "not sure".
"""

import calendar
from collections.abc import Callable
from datetime import date, datetime, timedelta
from typing import Any

from msgspec import Struct

from consult.answers.base import NOT_SURE
from consult.answers.hair import ALL_WHITE
from consult.answers.history import Service, each_time
from consult.growth import last_mark, leaves_a_mark, own, published, reaches_scalp
from consult.sources import COMMON_PRACTICE, Number
from consult.trade import COLOURS, LIGHTENED, OXIDATIVE, TEXTURE

TEST_HOURS = Number(48, "h", "fda-hair-dye-qa")
TEST_HOURS_RAISED_RISK = Number(96, "h", "dermatologist-2014-ppd")
HIGHEST_LEAFLET_AGE = Number(18, "years, the highest age that leaflets name", COMMON_PRACTICE)
PREGNANCY_WAIT = Number(12, "weeks", "nhs-pregnancy-hair-dye")


class Fact(Struct, frozen=True):
    """A computed value: `compute(now, *answers)` in the order of `reads`.

    `settles` are the reads whose "not sure" the function takes.
    """

    name: str
    unit: str
    reads: tuple[str, ...]
    settles: frozenset[str]
    compute: Callable[..., Any]


FACTS: dict[str, Fact] = {}


def _fact(unit: str, *reads: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    def register(compute: Callable[..., Any]) -> Callable[..., Any]:
        paths = tuple(path.rstrip("?") for path in reads)
        settles = frozenset(path.rstrip("?") for path in reads if path.endswith("?"))
        FACTS[compute.__name__] = Fact(compute.__name__, unit, paths, settles, compute)
        return compute

    return register


def _hours(span: timedelta) -> float:
    return span.total_seconds() / 3600


def add_months(start: datetime, months: int) -> datetime:
    """The same day some calendar months later, or the last day of a shorter month."""
    month = start.month - 1 + months
    year, month = start.year + month // 12, month % 12 + 1
    day = min(start.day, calendar.monthrange(year, month)[1])
    return start.replace(year=year, month=month, day=day)


@_fact("yes/no", "client.age", "product.age_limit?")
def under_leaflet_age(now: datetime, age: int | str, limit: int | str) -> str:
    """ "yes" under the leaflet's age; "16 or over" leaves a higher limit in doubt, and a limit that is not known
    matters only to the young."""
    if isinstance(limit, str):
        return "no" if isinstance(age, int) and age >= HIGHEST_LEAFLET_AGE else NOT_SURE
    if isinstance(age, str):
        return "no" if limit <= 16 else NOT_SURE
    return "yes" if age < limit else "no"


def test_hours_needed(leaflet: int | str, henna: str) -> float:
    """Hours from test to colour: never under 48, the leaflet's if longer, 96 at raised risk.

    A leaflet that is "not sure" counts as raised risk, and so does a "black henna" tattoo that is not
    ruled out, whether it reacted or not.
    """
    if isinstance(leaflet, str):
        return TEST_HOURS_RAISED_RISK
    return max(TEST_HOURS if henna == "never" else TEST_HOURS_RAISED_RISK, float(leaflet))


@_fact("moment", "product.test_hours", "health.black_henna")
def new_test_ready_at(now: datetime, leaflet: int | str, henna: str) -> datetime:
    """When colour could follow a test put on now."""
    return now + timedelta(hours=test_hours_needed(leaflet, henna))


@_fact("moment", "product.test_hours", "health.black_henna", "allergy_test.applied_at")
def test_ready_at(now: datetime, leaflet: int | str, henna: str, applied: datetime | str) -> datetime:
    """When the test that was put on may be read for the last time and colour may follow."""
    start = now if isinstance(applied, str) else applied
    return start + timedelta(hours=test_hours_needed(leaflet, henna))


@_fact("h", "product.test_hours?", "health.black_henna?", "allergy_test.applied_at")
def test_hours_left(now: datetime, leaflet: int | str, henna: str, applied: datetime) -> float:
    """Hours until the test is old enough; 0 or less once it is."""
    return _hours(test_ready_at(now, leaflet, henna, applied) - now)


@_fact(
    "h",
    "product.test_hours?",
    "health.black_henna?",
    "allergy_test.applied_at",
    "allergy_test.second_read_at",
)
def last_reading_early_by(
    now: datetime, leaflet: int | str, henna: str, applied: datetime, read: datetime
) -> float:
    """Hours by which the last reading came too early; 0 or less when it was late enough."""
    return _hours(test_ready_at(now, leaflet, henna, applied) - read)


@_fact("min", "allergy_test.applied_at", "allergy_test.first_read_at")
def first_reading_after(now: datetime, applied: datetime, read: datetime) -> float:
    """Minutes from putting the test on to the first look."""
    return _hours(read - applied) * 60


@_fact("days", "allergy_test.applied_at")
def test_age(now: datetime, applied: datetime) -> float:
    """Days since the test was put on."""
    return _hours(now - applied) / 24


@_fact("yes/no", "allergy_test.applied_at", "allergy_test.first_read_at", "allergy_test.second_read_at")
def test_times_possible(now: datetime, applied: datetime, first: datetime, last: datetime) -> str:
    """ "no" when a reading lies before the one it follows, or in the future."""
    return "yes" if applied <= first <= last <= now else "no"


@_fact("moment", "health.pregnancy_week")
def twelve_weeks_at(now: datetime, week: int | str) -> datetime:
    """When 12 full weeks of pregnancy are over."""
    full = 0 if isinstance(week, str) else week
    return now + timedelta(weeks=max(0, PREGNANCY_WAIT - full))


@_fact("months", "health.chemotherapy_ended")
def months_since_chemotherapy(now: datetime, ended: date) -> int:
    """Full calendar months since the last chemotherapy."""
    start = datetime.combine(ended, datetime.min.time(), now.tzinfo)
    months = (now.year - ended.year) * 12 + now.month - ended.month
    return months if add_months(start, months) <= now else months - 1


@_fact("yes/no", "history.services.kind", "history.services.on", "allergy_test.applied_at")
def coloured_since_test(
    now: datetime, kinds: tuple[str, ...], days: tuple[date, ...], applied: datetime
) -> str:
    """ "yes" when hair was coloured after the test was put on: that test is used up. On the very day it is not
    certain which came first."""
    on = [day for kind, day in zip(kinds, days, strict=True) if kind in (*COLOURS, *LIGHTENED)]
    if any(day > applied.date() for day in on):
        return "yes"
    return NOT_SURE if applied.date() in on else "no"


@_fact("levels", "goal.depth", "hair.natural_depth")
def lift(now: datetime, goal: float, natural: float | str) -> float:
    """Levels from the natural depth up to the goal; negative when the goal is darker. White hair has nothing
    to lift and is no step darker."""
    return 0.0 if isinstance(natural, str) else goal - natural


@_fact("levels", "goal.depth", "hair.lengths_depth", "hair.ends_depth")
def lengths_lighter_by(now: datetime, goal: float, lengths: float, ends: float) -> float:
    """Levels the darker of lengths and ends would have to become lighter; negative when darker."""
    return goal - min(lengths, ends)


@_fact("levels", "goal.depth", "hair.lengths_depth", "hair.ends_depth")
def lengths_darker_by(now: datetime, goal: float, lengths: float, ends: float) -> float:
    """Levels the lighter of lengths and ends would have to become darker; negative when lighter."""
    return max(lengths, ends) - goal


@_fact("levels", "history.services.kind", "hair.lengths_depth?", "hair.ends_depth?", "hair.natural_depth?")
def unexplained_lightness(
    now: datetime, kinds: tuple[str, ...], lengths: float | str, ends: float | str, natural: float | str
) -> float | str:
    """Levels by which the lighter of lengths and ends is above the natural depth, with nothing told that
    changes the depth: no colour, lightener or remover, no henna, no unknown product. Else 0."""
    if any(kind not in TEXTURE for kind in kinds) or natural == ALL_WHITE:
        return 0
    if isinstance(lengths, str) or isinstance(ends, str) or isinstance(natural, str):
        return NOT_SURE
    return max(lengths, ends) - natural


@_fact("%", "hair.white_front", "hair.white_temples", "hair.white_crown", "hair.white_nape")
def white_share(now: datetime, *zones: float) -> float:
    """White share of the whole head: the plain mean of the four zones (assumption)."""
    return sum(zones) / len(zones)


@_fact("passes", "history.services.kind", "history.services.stretch", "history.services")
def oxidative_passes(
    now: datetime, kinds: tuple[str, ...], stretches: tuple[str, ...], services: tuple[Service, ...]
) -> int:
    """Oxidative services that went over the lengths; for salon rules, the plan's ledger tells it by itself."""
    told = zip(kinds, stretches, services, strict=True)
    return sum(
        len(each_time(service))
        for kind, stretch, service in told
        if kind in OXIDATIVE and stretch != "new growth"
    )


@_fact(
    "months",
    "hair.length_cm",
    "history.known_months",
    "hair.new_growth_cm",
    "hair.curl?",
    "history.services.kind?",
    "history.services.stretch?",
    "history.services.on?",
)
def months_unknown(
    now: datetime,
    length: float,
    told: int | str,
    new_growth: float,
    curl: str | None,
    kinds: tuple[str, ...],
    stretches: tuple[str, ...],
    days: tuple[date | str, ...],
) -> float | str:
    """Months of this hair's life that the history does not tell, at this person's own growth where it can be
    seen, else at the published mean."""
    if isinstance(told, str):
        return 0.0  # all of it
    told_of = tuple(zip(kinds, stretches, days, strict=True))
    if any(isinstance(on, str) and leaves_a_mark(kind) and reaches_scalp(at) for kind, at, on in told_of):
        return NOT_SURE
    certain = (one for one in told_of if NOT_SURE not in one[:2])
    rates = []
    # A service that is not certain may be the one the new growth is measured from, or not: the slower counts.
    for last in (last_mark(told_of), last_mark(certain)):
        measured = own(new_growth, last, now.date()) if last else None
        rates.append((measured or published(curl)).rate)
    return length / min(rates) - told


def _on_head(path: str, name: str) -> None:
    def compute(now: datetime, in_tube: float, ratio: float) -> float:
        return round(in_tube / (1 + ratio), 6)

    compute.__name__ = name
    compute.__doc__ = f"Percent of the ready mix for {path}."
    _fact("%", path, "product.ratio")(compute)


_on_head("product.ppd_percent", "ppd_on_head")
_on_head("product.toluenediamine_percent", "toluenediamine_on_head")
_on_head("product.resorcinol_percent", "resorcinol_on_head")
_on_head("product.ammonia_percent", "ammonia_on_head")


@_fact("steps", "hair.porosity_root", "hair.porosity_lengths", "hair.porosity_ends")
def porosity_spread(now: datetime, *zones: str) -> int:
    """Steps between the least and the most porous zone."""
    steps = [("low", "normal", "high").index(zone) for zone in zones]
    return max(steps) - min(steps)
