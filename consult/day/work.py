"""The work of a day, read off the plan: its steps and rounds in their order, and what is taken off together.

A round is one application as the hand goes over it, section by section. A batch is what is taken off together, a whole
round or one of its sections, with the minutes that its leaflet allows. Batches of one rinse have the same minute in
the plan. Minutes are kept in seconds.
"""

from msgspec import Struct

from consult.plan.application import Act, Application, Ending
from consult.plan.contact import MOST_APART, clock_starts
from consult.plan.counting import from_first_touch
from consult.plan.steps import Part, Step
from consult.plan.targets import name_of
from consult.plan.types import Made
from consult.products.kinds import Auxiliary, Filler
from consult.trade import Phrase

MINUTE = 60.0


class Section(Struct, frozen=True):
    """A section of a round: its key, its name, and the seconds that the plan gives it to be put on."""

    key: str
    name: str
    planned: float


class Round(Struct, frozen=True):
    """One application. `start` is its minute in the plan; `at_once`: drawn through, its beginning is its end.

    before  steps to be done before it, by their number in the plan
    during  steps to be done as soon as it is on
    """

    number: int
    name: str
    say: Phrase
    sections: tuple[Section, ...]
    start: int
    at_once: bool
    before: tuple[int, ...]
    during: tuple[int, ...]

    @property
    def planned(self) -> float:
        """Seconds that the plan gives it to be put on."""
        return max(section.planned for section in self.sections)


class Batch(Struct, frozen=True):
    """What is taken off together. Seconds, as its leaflet counts them; `off` is its minute in the plan.

    aim         that the plan gives it
    shortest    that its last hair gets at least; 0 for a refresh, which is short on purpose
    longest     that no hair may pass; the aim, where a finding asks for the shortest time
    total       from the first touch to the rinse at most, where there is such a limit
    from_touch  counted from the first touch, else from the end of application
    """

    round: int
    keys: tuple[str, ...]
    off: int
    ending: Ending
    aim: float
    shortest: float
    longest: float
    total: float | None
    from_touch: bool


class Work(Struct, frozen=True):
    """All of it. `after` are the steps behind the last rinse, `rinses` the steps that say how each rinse is done."""

    steps: tuple[Step, ...]
    rounds: tuple[Round, ...]
    batches: tuple[Batch, ...]
    hands: int
    after: tuple[int, ...]
    rinses: tuple[Phrase, ...]


def work_of(plan: Made) -> Work:
    """The work of a plan."""
    made = from_first_touch(plan)
    before, during, after = _places(made.steps, len(made.applications))
    puts_on = [step.say for step in made.steps if step.part is Part.PUT_ON]
    rounds = tuple(
        Round(
            n,
            _name(a),
            puts_on[n],
            tuple(
                Section(f"{n}.{i}", touch.section, MINUTE * (touch.end - a.start))
                for i, touch in enumerate(a.touches)
            ),
            a.start,
            a.on_by == a.start,
            before[n],
            during[n],
        )
        for n, a in enumerate(made.applications)
    )
    shortest = made.case.limits.time is not None and made.case.limits.time.value == "shortest"
    batches = tuple(b for n, a in enumerate(made.applications) for b in _batches(n, a, shortest))
    rinses = tuple(step.say for step in made.steps if step.part is Part.TAKE_OFF)
    return Work(made.steps, rounds, batches, made.working.hands, after, rinses)


def _places(
    steps: tuple[Step, ...], rounds: int
) -> tuple[list[tuple[int, ...]], list[tuple[int, ...]], tuple[int, ...]]:
    """The numbers of the steps to tick off: before each round, as soon as each is on, after the last rinse."""
    before: list[list[int]] = [[] for _ in range(rounds + 1)]
    during: list[list[int]] = [[] for _ in range(rounds)]
    begun = 0
    for number, step in enumerate(steps):
        if step.part is Part.PUT_ON:
            begun += 1
        elif step.part is Part.WATCH:
            during[begun - 1].append(number)
        elif step.part in (Part.PREPARE, Part.MIX, Part.AFTER):
            before[begun].append(number)
    return [tuple(b) for b in before[:-1]], [tuple(d) for d in during], tuple(before[-1])


def _name(application: Application) -> str:
    product, name = application.bowl.product, name_of(application.target)
    if isinstance(product, Auxiliary):
        return f"{product.label} on {name}"
    return f"filler on {name}" if isinstance(product, Filler) else name


def _batches(number: int, application: Application, shortest_asked: bool) -> tuple[Batch, ...]:
    keys = tuple(f"{number}.{i}" for i in range(len(application.touches)))
    if all(touch.off is None for touch in application.touches):
        together = [(keys, application.touches)]
    else:
        together = [((key,), (touch,)) for key, touch in zip(keys, application.touches, strict=True)]
    product = application.bowl.product
    found = []
    for own, touches in together:
        off = max(application.off(touch) for touch in touches)
        aim = MINUTE * max(application.off(touch) - clock_starts(application, touch) for touch in touches)
        if isinstance(product, Auxiliary):
            found.append(Batch(number, own, off, application.ending, aim, 0.0, aim, None, False))
            continue
        leaflet = product.leaflet
        short = application.act is Act.COMB_THROUGH
        longest = (
            aim if short or (shortest_asked and not isinstance(product, Filler)) else MINUTE * leaflet.longest
        )
        total = None if leaflet.total is None else MINUTE * leaflet.total
        if leaflet.counted_from == "it does not say":
            # First and last hair are kept close together, as the plan does.
            together_until = MINUTE * (leaflet.longest + MOST_APART)
            total = together_until if total is None else min(total, together_until)
        found.append(
            Batch(
                number,
                own,
                off,
                application.ending,
                aim,
                0.0 if short else MINUTE * leaflet.shortest,
                min(longest, MINUTE * leaflet.longest),
                total,
                leaflet.counted_from == "the first touch",
            )
        )
    return tuple(found)
