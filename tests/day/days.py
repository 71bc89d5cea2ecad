"""Days as the tests play them: a plan, a hand that presses, and a clock that goes as it is told."""

from dataclasses import dataclass, field

from consult.day.acts import Act, Did
from consult.day.clock import Reading
from consult.day.standing import Standing, What, standing
from consult.day.work import MINUTE, Work, work_of
from consult.plan.types import Made
from tests.plan.plans import made


@dataclass
class Played:
    """One day. `utc` and `up` are the two clocks, which `wait` moves together."""

    work: Work
    acts: list[Act] = field(default_factory=list)
    utc: float = 1_790_000_000.0
    up: float = 5_000.0
    boot: str = "first"

    @classmethod
    def of(cls, name: str, **changes: object) -> "Played":
        return cls(work_of(made(name, **changes)))

    @classmethod
    def plan(cls, plan: Made) -> "Played":
        return cls(work_of(plan))

    @property
    def reading(self) -> Reading:
        return Reading(self.utc, self.up, self.boot)

    @property
    def stands(self) -> Standing:
        return standing(self.work, tuple(self.acts), self.reading)

    def wait(self, minutes: float) -> "Played":
        self.utc += MINUTE * minutes
        self.up += MINUTE * minutes
        return self

    def does(self, did: Did, of: str = "", minutes: int = 0) -> "Played":
        self.acts.append(Act(did, self.reading, of, minutes))
        return self

    def done(self) -> "Played":
        """Do what is asked for now."""
        task = self.stands.now
        assert task.what is not What.END
        return self.does(task.did, task.of)

    def ready(self) -> "Played":
        """All steps ticked up to the next round's first touch."""
        while self.stands.now.what is What.TICK and self.stands.now.due:
            self.done()
        return self

    def put_on(self, *minutes: float) -> "Played":
        """The next round: first touch, then so many minutes for each section."""
        self.ready().does(Did.BEGIN, self.stands.now.of)
        for each in minutes:
            self.wait(each).done()
        return self

    def begin(self) -> "Played":
        self.ready()
        assert self.stands.now.what is What.BEGIN, self.stands.now
        return self.done()

    @property
    def left(self) -> float | None:
        """Minutes until the next rinse."""
        left = self.stands.rinse_in
        return None if left is None else round(left / MINUTE, 2)

    @property
    def stays(self) -> float | None:
        """Minutes that what is on the head may stay at most."""
        stays = self.stands.stays
        return None if stays is None else round(stays / MINUTE, 2)
