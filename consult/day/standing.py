"""Where the day stands: what is on the head and for how long, what is to be done now, and what comes next.

Whatever was pressed, nothing is advised past the longest minutes of a leaflet: when they are reached, rinsing comes
before everything else.
"""

from enum import Enum
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from consult.day.acts import Act, Did
from consult.day.clock import Reading
from consult.day.progress import Progress, progress
from consult.day.work import MINUTE, Batch, Round, Work
from consult.plan.clock import CHECK_EVERY
from consult.plan.rounds import PACE_RANGE
from consult.sources import ASSUMPTION, Number

CHECK_THINNED: Final = Number(2, "min between looks while thinned colour is on", ASSUMPTION)
MIX_BEFORE: Final = Number(5, "min before its round is begun that a bowl is mixed", ASSUMPTION)
LATER: Final = Number(2, "min that `later` puts off", ASSUMPTION)
ADD: Final = Number(5, "min that are added at once, where there is room", ASSUMPTION)


class Phase(Enum):
    """What a section is in."""

    WAITS = "still to come"
    PUT_ON = "being put on"
    ON = "on"
    OFF = "off"
    LEFT_OUT = "left out"


class OnSection(Struct, frozen=True):
    """One section of one round. Seconds: `on` since its first hair was touched, `counted` by the leaflet, None before
    its clock runs, `stays` that it may stay at most, None where no clock runs yet."""

    key: str
    round: int
    name: str
    phase: Phase
    on: float
    counted: float | None
    stays: float | None
    batch: Batch


class What(Enum):
    """What is to be done."""

    TICK = "tick"
    BEGIN = "begin"
    PUT_ON = "put on"
    LOOK = "look"
    TAKE_OFF = "take off"
    MUST_RINSE = "must rinse"
    STOPPED = "stopped"
    END = "end"


class Task(Struct, frozen=True):
    """One thing to do. `left` seconds until it is due, 0 or less when it is; None where no clock is on it. `of` is
    what the act that does it names. What is being put on is due at once, and `left` until it takes longer than usual.
    """

    what: What
    of: str = ""
    left: float | None = None

    @property
    def due(self) -> bool:
        return self.left is None or self.left <= 0 or self.what is What.PUT_ON

    @property
    def overdue(self) -> bool:
        return self.left is not None and self.left <= 0

    @property
    def did(self) -> Did:
        """The act that does it."""
        return {
            What.TICK: Did.STEP,
            What.BEGIN: Did.BEGIN,
            What.PUT_ON: Did.DONE,
            What.LOOK: Did.LOOK,
        }.get(self.what, Did.OFF)


class Standing(Struct, frozen=True):
    """Where the day stands. Seconds throughout.

    now        what is to be done now; where nothing is, what comes next
    then       what comes after it by the clock
    rinse_in   until the next rinse, None where no clock runs
    stays      that what is on the head may stay at most, None where nothing is on or no clock runs
    on_for     since the first hair that is on the head now was touched, None where nothing is on
    put_off    `now` was put off for so long
    """

    progress: Progress
    sections: tuple[OnSection, ...]
    now: Task
    then: tuple[Task, ...]
    rinse_in: float | None
    stays: float | None
    on_for: float | None
    put_off: float = 0.0

    @property
    def addable(self) -> int:
        """Whole minutes that may be added to the next rinse: never past the longest."""
        if self.rinse_in is None or self.stays is None or self.progress.stopped:
            return 0
        return max(0, min(int(ADD), int((self.stays - self.rinse_in) // MINUTE)))

    @property
    def then_in_hand(self) -> str:
        """The second of two sections that are put on at once; empty where there is none."""
        in_hand = self.progress.in_hand()
        return in_hand[1] if self.now.what is What.PUT_ON and len(in_hand) > 1 else ""

    @property
    def rinse(self) -> str:
        """The rinse that minutes are added to: its minute in the plan."""
        return _next_rinse(self.progress)

    @property
    def early(self) -> float:
        """Seconds that the last hair still lacks of the shortest minutes; 0 where it has had them."""
        p = self.progress
        lacks = [batch.shortest - (p.since_last_hair(batch) or 0.0) for batch in p.batches()]
        return max(0.0, *lacks) if lacks else 0.0


def standing(work: Work, acts: tuple[Act, ...], now: Reading) -> Standing:
    """Where the day stands at a moment."""
    p = progress(work, acts, now)
    batches = p.batches()
    rooms = [room for batch in batches if (room := p.room(batch)) < float("inf")]
    rinses = [left for off in _offs(p) if (left := p.rinse_in(off)) is not None]
    tasks = _tasks(p)
    found = Standing(
        p,
        tuple(_section(p, batch, key) for batch in work.batches for key in batch.keys),
        tasks[0],
        tuple(task for task in tasks[1:] if task.left is not None and not task.due),
        min(rinses, default=None),
        min(rooms, default=None),
        max((p.contact(batch) for batch in batches), default=None),
    )
    return replace(found, put_off=_put_off(found))


def _put_off(found: Standing) -> float:
    """Seconds that what is due was put off for; nothing puts off what must be rinsed."""
    later, task = found.progress.later, found.now
    if (
        later is None
        or later[0] != name_of(task)
        or not task.due
        or task.what in (What.MUST_RINSE, What.STOPPED)
    ):
        return 0.0
    left = MINUTE * LATER - found.progress.since(later[1])
    return max(0.0, left if found.stays is None else min(left, found.stays))


def name_of(task: Task) -> str:
    """A task as the log names it when it is put off."""
    return f"{task.what.value} {task.of}".strip()


def _section(p: Progress, batch: Batch, key: str) -> OnSection:
    section = next(s for s in p.work.rounds[batch.round].sections if s.key == key)
    if key in p.off:
        phase = Phase.OFF
    elif key in p.begun:
        phase = Phase.ON if key in p.done else Phase.PUT_ON
    else:
        phase = Phase.LEFT_OUT if batch.round in p.closed else Phase.WAITS
    on_now = phase in (Phase.ON, Phase.PUT_ON)
    until = p.off.get(key, p.now)
    room = p.room(batch) if on_now else float("inf")
    return OnSection(
        key,
        batch.round,
        section.name,
        phase,
        p.lasted(p.begun[key], until) if key in p.begun else 0.0,
        p.counted(batch) if on_now else None,
        room if room < float("inf") else None,
        batch,
    )


def _offs(p: Progress) -> list[int]:
    return sorted({batch.off for batch in p.batches()})


def _next_rinse(p: Progress) -> str:
    lefts = [(left, off) for off in _offs(p) if (left := p.rinse_in(off)) is not None]
    return str(min(lefts)[1]) if lefts else ""


def _keys(p: Progress, batches: list[Batch]) -> str:
    return " ".join(key for batch in batches for key in p.on_head(batch))


def _tasks(p: Progress) -> list[Task]:
    """What is to be done, the first of them now: what is due before what is not, rinsing before all else."""
    batches = list(p.batches())
    if p.stopped:
        return [Task(What.STOPPED, _keys(p, batches))] if batches else [Task(What.END)]
    over = {batch.off for batch in batches if p.room(batch) <= 0}
    if over:
        return [Task(What.MUST_RINSE, _keys(p, [b for b in batches if b.off in over]))]
    timed = [*_rinses(p, batches), *_looks(p, batches)]
    due = [task for task in timed if task.due and task.what is What.TAKE_OFF]
    if due:
        return [*due, *timed]
    in_hand = p.in_hand()
    if in_hand:
        return [*(_put_on(p, key) for key in in_hand), *_soonest(timed)]
    coming = _coming(p, batches)
    if coming and coming[0].due:
        return [coming[0], *_soonest(timed)]
    return _soonest([*coming[:1], *timed]) or _after(p)


def _put_on(p: Progress, key: str) -> Task:
    """Until it has taken longer than the plan's own range: somebody may have forgotten to say that it is done."""
    a_round = next(r for r in p.work.rounds if any(s.key == key for s in r.sections))
    planned = next(s.planned for s in a_round.sections if s.key == key)
    since = p.since(p.begun[a_round.sections[0].key])
    return Task(What.PUT_ON, key, planned * (1 + PACE_RANGE) - since)


def _soonest(tasks: list[Task]) -> list[Task]:
    return sorted(tasks, key=lambda task: task.left or 0.0)


def _rinses(p: Progress, batches: list[Batch]) -> list[Task]:
    return [
        Task(What.TAKE_OFF, _keys(p, [b for b in batches if b.off == off]), left)
        for off in _offs(p)
        if (left := p.rinse_in(off)) is not None
    ]


def _looks(p: Progress, batches: list[Batch]) -> list[Task]:
    """The next look at a strand: so long after the last, or after the last hair has it; not where it is rinsed by
    then."""
    if not batches or p.in_hand():
        return []
    on_by = min((p.since(p.done[key]) for b in batches for key in p.on_head(b)), default=0.0)
    since = min(on_by, p.since(p.looked)) if p.looked else on_by
    thinned = any(p.work.rounds[b.round].at_once for b in batches)
    left = MINUTE * (CHECK_THINNED if thinned else CHECK_EVERY) - since
    rinses = [rinse for off in _offs(p) if (rinse := p.rinse_in(off)) is not None]
    return [] if rinses and min(rinses) <= left else [Task(What.LOOK, left=left)]


def _coming(p: Progress, batches: list[Batch]) -> list[Task]:
    """The next step to tick off and the next round to begin, in their order."""
    for a_round in p.work.rounds:
        if p.begun_round(a_round):
            waiting = [n for n in a_round.during if n not in p.steps]
            if waiting and any(b.round == a_round.number for b in batches):
                return [Task(What.TICK, str(waiting[0]))]
            continue
        if a_round.number in p.closed:
            continue
        return _before(p, a_round, batches)
    return []


def _before(p: Progress, a_round: Round, batches: list[Batch]) -> list[Task]:
    """Its steps, then itself: as long before the rinse as the plan has it, or when what is on the head is off."""
    own = {b.off for b in p.work.batches if b.round == a_round.number}
    left: float | None = None
    for off in _offs(p):
        rinse = p.rinse_in(off)
        if off <= a_round.start:
            return []
        if rinse is not None:
            starts = rinse - MINUTE * (off - a_round.start)
            left = starts if left is None else min(left, starts)
    if batches and left is None and own & {b.off for b in batches}:
        return []
    steps = [n for n in a_round.before if n not in p.steps]
    if steps:
        return [Task(What.TICK, str(steps[0]), None if left is None else left - MINUTE * MIX_BEFORE)]
    return [Task(What.BEGIN, str(a_round.number), left)]


def _after(p: Progress) -> list[Task]:
    waiting = [n for n in p.work.after if n not in p.steps]
    return [Task(What.TICK, str(waiting[0]))] if waiting else [Task(What.END)]
