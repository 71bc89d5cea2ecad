"""Upkeep as a year: the same head coloured again and again by a habit, each visit put through the whole program.

Each visit starts from the record of the one before it: what grew since is the new growth, what was put on is in the
history, and what has faded asks for a refresh. So plan, packs and ledger of a visit are those that the program would
make on that day, its tests taken as clear.
"""

from datetime import datetime, timedelta
from typing import Final

from msgspec import Struct

from consult.answers import Answers
from consult.answers.base import known
from consult.answers.history import Service
from consult.answers.scalp import Scalp
from consult.buying.look import look_for
from consult.consultation import Consultation, consult
from consult.dates import day_name
from consult.gates.judge import Finding
from consult.plan.aftercare import Visit, plan_visit, weeks_to_refresh
from consult.plan.ledger import CLEAR_DAMAGE_FROM
from consult.plan.lines import Line, line
from consult.plan.types import Made
from consult.plan.usual import as_if_tested
from consult.products.kinds import Kit, Tube
from consult.salon import SalonConfig, default_config
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import AT_HOME, ServiceKind, Stretch

HABITS: Final = (4, 6, 8)
YEAR_DAYS: Final = 365
BLEND_BELOW = Number(30, "% white up to which a blend without an edge is the better way", COMMON_PRACTICE)
STOP_FROM = Number(80, "% white from which growing out shows less than covering", ASSUMPTION)
_CALM = Scalp(signs=(), scratched="no", washed="no")
_KINDS: Final[dict[str, ServiceKind]] = {
    "permanent": "permanent colour",
    "high-lift": "permanent colour",
    "demi-permanent": "demi-permanent colour",
    "direct (no developer)": "semi-permanent colour",
}


class YearVisit(Struct, frozen=True):
    """One visit of a habit. cm: white or own colour that shows before it, likely and at the fast end.

    refresh  the lengths get colour too
    passes   the most oxidative passes that one stretch has had after it
    """

    on: datetime
    test: Visit
    cm: float
    cm_most: float
    refresh: bool
    packs: int
    used_g: int
    left_g: int
    cost: float | None
    passes: int


class Habit(Struct, frozen=True):
    """A year of visits every so many weeks; `held` is what the program holds a visit by, from which on it ends.

    added  oxidative passes that the most coloured stretch gets in the year
    """

    weeks: int
    visits: tuple[YearVisit, ...]
    held: Finding | None
    added: int
    lines: tuple[Line, ...]

    @property
    def packs(self) -> int:
        return sum(visit.packs for visit in self.visits)

    @property
    def cost(self) -> float | None:
        """None where the price of a pack is not known."""
        costs = [visit.cost for visit in self.visits]
        return None if None in costs else round(sum(c for c in costs if c is not None), 2)


class Year(Struct, frozen=True):
    """Habits side by side; none where the first colouring is not to be made, by `first`."""

    first: Consultation
    habits: tuple[Habit, ...]
    lines: tuple[Line, ...]


def plan_year(answers: Answers, now: datetime, salon: SalonConfig | None = None) -> Year:
    """A year from now on in each habit. Nothing here reads a clock."""
    salon = salon or default_config()
    first = consult(as_if_tested(answers, now), now, salon)
    if not isinstance(first.plan, Made):
        return Year(first, (), ())
    habits = tuple(_habit(first, weeks) for weeks in HABITS)
    return Year(first, habits, (_better(first, habits), *_part_pack(first.plan)))


def year_before_buying(answers: Answers, now: datetime, salon: SalonConfig | None = None) -> Year:
    """A year with the product in the answers, or where there is none with the best that the card names."""
    if answers.product.colour_class is None and (shades := look_for(answers, now, salon).shades):
        answers = shades.plan.answers
    return plan_year(answers, now, salon)


def _habit(first: Consultation, weeks: int) -> Habit:
    found, since_refresh, visits = first, 0, list[YearVisit]()
    held: Finding | None = None
    for number in range(1, YEAR_DAYS // (weeks * 7) + 1):
        assert isinstance(found.plan, Made)
        since_refresh = weeks + (0 if _refreshes(found.plan) else since_refresh)
        at = first.now + timedelta(weeks=weeks * number)
        faded = since_refresh >= weeks_to_refresh(found.plan.case)
        found = consult(as_if_tested(_next(found, weeks, faded=faded), at), at, first.salon)
        if not isinstance(found.plan, Made):
            held = next((f for f in found.findings if f.verdict.blocks), None)
            break
        visits.append(_visit(found, found.plan, weeks))
    added = max((v.passes for v in visits), default=0) - _passes(first)
    return Habit(weeks, tuple(visits), held, max(0, added), _habit_lines(weeks, visits, held))


def _refreshes(plan: Made) -> bool:
    return any(Stretch.LENGTHS in a.target.stretches for a in plan.applications)


def _next(found: Consultation, weeks: int, *, faded: bool) -> Answers:
    """The head at the next visit: this one in its history, new growth, lengths at the goal or faded."""
    answers, plan = found.answers, found.plan
    assert isinstance(plan, Made)
    product = answers.product
    reached = _refreshes(plan)
    service = Service(
        kind=_KINDS.get(str(product.colour_class), "permanent colour"),
        on=found.now.date(),
        stretch="new growth and lengths" if reached else "new growth",
        depth=known(answers.goal.depth),
        tone=known(answers.goal.tone),
        developer_percent=known(product.developer_percent),
        by="at home" if answers.client.applied_by in AT_HOME else "a salon",
    )
    told = answers.history.services if isinstance(answers.history.services, tuple) else ()
    length = known(answers.hair.length_cm) or plan.case.head.length_cm
    new = min(round(plan.case.head.growth.cm(weeks * 7), 1), length)
    hair = {
        "new_growth_cm": new,
        "lengths_depth": answers.goal.depth,
        "ends_depth": answers.goal.depth,
        "lengths_tone": answers.goal.tone,
        "ends_tone": answers.goal.tone,
        "lengths_look": "faded" if faded else "even",
        "lengths_measured": None,
    }
    return answers.model_copy(
        update={
            "history": answers.history.model_copy(update={"services": (service, *told)}),
            "hair": answers.hair.model_copy(update=hair),
            "scalp": _CALM,
        }
    )


def _passes(found: Consultation) -> int:
    assert isinstance(found.plan, Made)
    return max(account.passes_after for account in found.plan.ledger)


def _visit(found: Consultation, plan: Made, weeks: int) -> YearVisit:
    growth = plan.case.head.growth
    eve = (found.now - timedelta(days=1)).date()
    before = plan_visit(plan.case, plan.applications, plan.ledger, eve)
    days = (before.colour_on - found.now.date()).days
    test = Visit(
        found.now.date(),
        before.test_from - timedelta(days=days),
        before.test_until - timedelta(days=days),
        (),
    )
    used = sum(purchase.expected_g for purchase in plan.purchases)
    bought = sum(purchase.packs * _makes(plan) for purchase in plan.purchases)
    costs = [purchase.cost for purchase in plan.purchases]
    return YearVisit(
        found.now,
        test,
        round(growth.cm(weeks * 7), 1),
        round(growth.high / growth.rate * growth.cm(weeks * 7), 1),
        _refreshes(plan),
        sum(purchase.packs for purchase in plan.purchases),
        used,
        max(0, round(bought - used)),
        None if None in costs else sum(c for c in costs if c is not None),
        _passes(found),
    )


def _makes(plan: Made) -> float:
    """Ready mix of one pack, in grams; a millilitre is taken as a gram (assumption)."""
    package = plan.case.product.package
    if isinstance(package, Kit):
        return package.pack_ml
    return package.grams * plan.case.product.parts if isinstance(package, Tube) else 0.0


def _habit_lines(weeks: int, visits: list[YearVisit], held: Finding | None) -> tuple[Line, ...]:
    """From when something else would be the better way, as this habit shows it."""
    found = []
    worn = next((v for v in visits if v.refresh and v.passes >= CLEAR_DAMAGE_FROM), None)
    if worn:
        found.append(
            line(
                f"From {day_name(worn.on)} on the lengths are refreshed without developer, or not at all.",
                f"Every {weeks} weeks some of the hair has then had {worn.passes} oxidative passes; from the third "
                "on damage becomes clear.",
                ("repeat-dyeing-2024", COMMON_PRACTICE),
            )
        )
    if held:
        found.append(
            line(
                f"The habit ends there: {held.trade}",
                held.remedy,
                held.sources,
                plain=f"The habit ends there: {held.plain}",
            )
        )
    return tuple(found)


def _better(first: Consultation, habits: tuple[Habit, ...]) -> Line:
    """Whether a blend, a demi-permanent colour or stopping is the better way, and from when."""
    plan = first.plan
    assert isinstance(plan, Made)
    case = plan.case
    white = round(case.head.white_mean * 100)
    shown = f"every 4 weeks {_cm(habits, 4)} cm of it show, every 8 weeks {_cm(habits, 8)} cm"
    if case.covers_white and white <= BLEND_BELOW and plan.ways.blend():
        return line(
            f"Now already a demi-permanent blend is the better way: {white} % is white.",
            f"It fades without an edge in 6 to 8 weeks and lifts nothing; {shown}.",
        )
    if case.covers_white and white >= STOP_FROM:
        return line(
            f"Now already stopping is worth a thought: {white} % is white, and the natural head shows less new growth.",
            f"Against the cover {shown}; a licensed colourist can blend the way out.",
            (COMMON_PRACTICE, ASSUMPTION),
        )
    if not case.covers_white:
        return line(
            "A demi-permanent colour or a longer habit is the better way as soon as the edge does not bother.",
            f"No white is covered, so nothing but contrast asks for the next visit; {shown}.",
        )
    return line(
        f"Covering is the right way for now ({white} % white). From about {STOP_FROM:g} % white, or when a refresh is "
        "wanted at every visit, look at a blend or at stopping.",
        f"Up to {BLEND_BELOW:g} % a blend would do; {shown}.",
        (COMMON_PRACTICE, ASSUMPTION),
    )


def _cm(habits: tuple[Habit, ...], weeks: int) -> str:
    visits = next(h.visits for h in habits if h.weeks == weeks)
    return f"{visits[0].cm:g}" if visits else "?"


def _part_pack(plan: Made) -> tuple[Line, ...]:
    """What an opened pack can and cannot be kept for."""
    mixed = plan.case.product.is_kit or plan.case.product.parts != 1
    lines = [
        line(
            "What is mixed is thrown away: it cannot be kept, not even closed, and a closed bottle of it may burst.",
            "Colour and developer go on working and give off gas.",
        )
    ]
    if isinstance(plan.case.product.package, Tube):
        lines.append(
            line(
                "An opened tube that never met developer is kept closed by a professional, as long as its jar mark or "
                "leaflet says; at home the program asks for an unopened one.",
                "Air works on it; how long it stays good is the maker's to say.",
            )
        )
    elif mixed:
        lines.append(
            line(
                "A kit is used whole: what is left of its parts is not kept for the next touch-up. Smaller packs "
                "waste less.",
                "Its parts are measured for one mix, and the program holds an opened pack.",
            )
        )
    lines.append(
        line(
            "A drop may be taken for the alert test and the strand test two days before only if the leaflet says "
            "how; the rest then has to be used within the time it names.",
            "Some leaflets allow it, others ask for a second pack.",
        )
    )
    return tuple(lines)
