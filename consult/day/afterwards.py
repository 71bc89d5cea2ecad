"""What the day leaves for the record and for this person's next plan: when, where, for how long, and how long putting
it on took."""

from datetime import datetime

from consult.answers import Answers
from consult.answers.base import known
from consult.answers.history import ServiceStretch
from consult.day.clock import elapsed
from consult.day.progress import Progress
from consult.day.work import MINUTE, Round
from consult.plan.application import Application
from consult.plan.rounds import HEAD_ARC_CM, MEASURED_ON_CM, parting_seconds, slower
from consult.plan.types import Made
from consult.products.kinds import Auxiliary, Filler
from consult.remedies.after import service_kind
from consult.remedies.day import DayLog
from consult.sources import ASSUMPTION, Number
from consult.trade import AT_THE_SCALP, BEYOND, Stretch

LONGEST = Number(240, "min that a log takes", ASSUMPTION)
_AT_SCALP = set(AT_THE_SCALP)
_BEYOND = set(BEYOND)


def day_log(plan: Made, answers: Answers, found: Progress, before: DayLog | None = None) -> DayLog:
    """The log of the day as it stands in a record; what somebody wrote there before about that day stays."""
    put_on = [(a, r) for a, r in _rounds(plan, found) if not isinstance(a.bowl.product, Auxiliary | Filler)]
    if not put_on:
        return before or DayLog()
    began = datetime.fromtimestamp(found.first.utc).astimezone().replace(second=0, microsecond=0)
    same = before is not None and (told := known(before.done_at)) is not None and told.date() == began.date()
    reached = {stretch for a, _ in put_on for stretch in a.target.stretches}
    pace = timed(plan, found)
    return (before if before is not None and same else DayLog()).model_copy(
        update={
            "done_at": began,
            "kind": service_kind(answers),
            "stretch": _stretch(reached),
            "minutes_new_growth": _minutes(found, put_on, _AT_SCALP),
            "minutes_lengths": _minutes(found, put_on, _BEYOND) if reached & _BEYOND else 0.0,
            "minutes_putting_on": _within(pace),
        }
    )


def timed(plan: Made, found: Progress) -> float | None:
    """Minutes that these hands take for the new growth of a head, by the rounds that were painted whole today; None
    where none was. It stands to the planned as what was measured stands to what was planned."""
    painted = [
        r for _, r in _rounds(plan, found) if not r.at_once and all(s.key in found.done for s in r.sections)
    ]
    planned = sum(r.planned for r in painted)
    if not planned:
        return None
    measured = sum(_putting_on(found, r) for r in painted)
    case, settings = plan.case, plan.working.settings
    trained = HEAD_ARC_CM * parting_seconds(float(MEASURED_ON_CM)) / MINUTE
    return measured / planned * slower(case, settings) * trained / case.work.hands


def _rounds(plan: Made, found: Progress) -> list[tuple[Application, Round]]:
    """The rounds that were begun, each with its application."""
    pairs = zip(plan.applications, found.work.rounds, strict=True)
    return [(a, a_round) for a, a_round in pairs if found.begun_round(a_round)]


def _stretch(reached: set[Stretch]) -> ServiceStretch:
    """Which stretches had colour, as the history of a head names it."""
    if not reached & _AT_SCALP:
        return "lengths" if Stretch.LENGTHS in reached else "ends"
    return "new growth and lengths" if reached & _BEYOND else "new growth"


def _minutes(found: Progress, put_on: list[tuple[Application, Round]], where: set[Stretch]) -> float | None:
    """Minutes from the end of application to the rinse on those stretches, as the plan counts a round; None where
    that was not written down."""
    mine = [a_round for a, a_round in put_on if where & set(a.target.stretches)]
    spans = []
    for a_round in mine:
        keys = [s.key for s in a_round.sections if s.key in found.done and s.key in found.off]
        if keys:
            on_by = max((found.done[key] for key in keys), key=lambda point: point.lasted)
            spans.append(max(elapsed(on_by, found.off[key]) for key in keys))
    return _within(float(round(max(spans) / MINUTE))) if spans else None


def _within(minutes: float | None) -> float | None:
    """Minutes as a log takes them; None for more than any colouring takes: somebody forgot to press."""
    return round(minutes, 1) if minutes is not None and minutes <= LONGEST else None


def _putting_on(found: Progress, a_round: Round) -> float:
    """Seconds from its first touch to its last parting."""
    since = found.begun[a_round.sections[0].key]
    return max(elapsed(since, found.done[s.key]) for s in a_round.sections)
