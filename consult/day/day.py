"""One day at the machine: its plan, its log, its clock. It knows no screen."""

from collections.abc import Callable
from datetime import datetime

from consult.answers import Answers
from consult.consultation import consult
from consult.day.acts import Act, Did
from consult.day.afterwards import day_log
from consult.day.clock import Reading, read_clock
from consult.day.kept import Kept, acts_ended, keep_day, mark_of
from consult.day.standing import Standing, name_of, standing
from consult.day.work import work_of
from consult.plan.types import Made, Plan
from consult.remedies.day import DayLog
from consult.report import plan_headline
from consult.salon import SalonConfig

Clock = Callable[[], Reading]


class NoDay(ValueError):
    """No plan is made for today, so nothing is put on; `plan` is what came of it."""

    def __init__(self, words: str, plan: Plan) -> None:
        super().__init__(f"no day without a plan: {words}")
        self.plan = plan


class Day:
    """What is asked and told of one day."""

    def __init__(self, plan: Made, answers: Answers, mark: str, kept: Kept, clock: Clock) -> None:
        self.plan = plan
        self.answers = answers
        self.work = work_of(plan)
        self._mark = mark
        self._kept = kept
        self._clock = clock

    @property
    def writes(self) -> bool:
        """Whether this window may do anything; else another one has the day."""
        return self._kept.writes

    @property
    def error(self) -> str:
        """Why the last act is not on the disk; empty when it is."""
        return self._kept.error

    @property
    def kept(self) -> bool:
        """Whether the day is kept at all; a demo client's is not."""
        return self._kept.path is not None

    def open(self) -> None:
        """It is shown from now on: that moment stands in the log, too."""
        if self.writes:
            self.press(Did.OPEN)

    def stands(self) -> Standing:
        """Where it stands now."""
        self._kept.look_again()
        return standing(self.work, self._kept.acts, self._clock())

    def press(self, did: Did, of: str = "", minutes: int = 0) -> None:
        """Take an act; it is on the disk when this returns, or `error` says why not."""
        self._kept.add(Act(did, self._clock(), of, minutes))

    def do(self, found: Standing) -> None:
        """What is asked for has been done."""
        self.press(found.now.did, found.now.of)

    def put_off(self, found: Standing) -> None:
        """What is asked for is to be asked again later."""
        self.press(Did.LATER, name_of(found.now))

    def add(self, found: Standing) -> int:
        """Add minutes to the next rinse, as many as there is room for; how many those are."""
        self.press(Did.ADD, found.rinse, found.addable)
        return found.addable

    def end(self) -> None:
        """Everything is done."""
        if not acts_ended(self._kept.acts):
            self.press(Did.END)

    def log(self, before: DayLog | None) -> DayLog:
        """What the day leaves for the record."""
        return day_log(self.plan, self.answers, self.stands().progress, before)

    def close(self) -> None:
        """Let another window have it. The clock goes on."""
        self._kept.close()


def open_day(
    answers: Answers, salon: SalonConfig | None, now: datetime, *, keep: bool, clock: Clock = read_clock
) -> Day:
    """The day of these answers: the one that is under way, or a new one.

    A new one needs a plan as of now. One whose first hair has been touched goes on by the plan it was begun with.
    Raises NoDay, BadFile where its log cannot be read, CannotSave.
    """
    mark = mark_of(answers, dict(salon.own) if salon else {})
    kept = keep_day(mark, now, clock()) if keep else Kept(now)
    begun = any(act.did is Did.BEGIN for act in kept.acts)
    try:
        if not begun:
            _plan(answers, now, salon)
        return Day(_plan(answers, kept.judged, salon), answers, mark, kept, clock)
    except NoDay:
        kept.close()
        raise


def _plan(answers: Answers, at: datetime, salon: SalonConfig | None) -> Made:
    """Raises NoDay."""
    found = consult(answers, at, salon)
    if not isinstance(found.plan, Made):
        raise NoDay(plan_headline(found), found.plan)
    return found.plan
