"""How far the work has come: what was put on and taken off, and when, by the acts that stand."""

from msgspec import Struct, field

from consult.day.acts import Act, Did, standing_acts
from consult.day.clock import Point, Reading, elapsed, points
from consult.day.work import MINUTE, Batch, Round, Work


class _Hand(Struct):
    """What is gathered from the log, act by act."""

    begun: dict[str, Point] = field(default_factory=dict)
    done: dict[str, Point] = field(default_factory=dict)
    off: dict[str, Point] = field(default_factory=dict)
    steps: set[int] = field(default_factory=set)
    closed: set[int] = field(default_factory=set)
    added: dict[int, float] = field(default_factory=dict)
    looked: Point | None = None
    later: tuple[str, Point] | None = None
    stopped: Point | None = None


class Progress(Struct, frozen=True):
    """Sections by their keys with the moment at which each was begun, done and taken off; `closed` are rounds of
    which nothing more is put on; `added` seconds by the minute of a rinse in the plan; `now` the moment of asking."""

    work: Work
    now: Point
    first: Point
    begun: dict[str, Point]
    done: dict[str, Point]
    off: dict[str, Point]
    steps: frozenset[int]
    closed: frozenset[int]
    added: dict[int, float]
    looked: Point | None
    later: tuple[str, Point] | None
    stopped: Point | None

    def since(self, point: Point) -> float:
        """Seconds from a moment until now."""
        return elapsed(point, self.now)

    @staticmethod
    def lasted(since: Point, until: Point) -> float:
        """Seconds from one moment to another."""
        return elapsed(since, until)

    def begun_round(self, a_round: Round) -> bool:
        """Whether its first section was begun."""
        return a_round.sections[0].key in self.begun

    def in_hand(self) -> tuple[str, ...]:
        """Sections that are being put on, in the order in which they were begun."""
        return tuple(key for key in self.begun if key not in self.done and key not in self.off)

    def on_head(self, batch: Batch) -> tuple[str, ...]:
        """Sections of a batch that have it on."""
        return tuple(key for key in batch.keys if key in self.begun and key not in self.off)

    def batches(self) -> tuple[Batch, ...]:
        """The batches that are on the head."""
        return tuple(batch for batch in self.work.batches if self.on_head(batch))

    def contact(self, batch: Batch) -> float:
        """Seconds that its first hair has had it on."""
        return max(self.since(self.begun[key]) for key in self.on_head(batch))

    def all_on(self, batch: Batch) -> bool:
        """Whether nothing more of it is put on: every section that was begun is done, and the others are or never
        will be."""
        keys = [key for key in batch.keys if key not in self.off]
        begun = [key for key in keys if key in self.begun]
        whole = len(begun) == len(keys) or batch.round in self.closed
        return whole and all(key in self.done for key in begun)

    def since_last_hair(self, batch: Batch) -> float | None:
        """Seconds since its last hair has it; None while it is being put on."""
        if not self.all_on(batch):
            return None
        return min(self.since(self.done[key]) for key in self.on_head(batch))

    def counted(self, batch: Batch) -> float | None:
        """Seconds as its leaflet counts them; None before its clock has begun."""
        return self.contact(batch) if batch.from_touch else self.since_last_hair(batch)

    def room(self, batch: Batch) -> float:
        """Seconds that it may stay at most; 0 or less when it has to come off. Infinite before any clock runs."""
        counted = self.counted(batch)
        by_clock = float("inf") if counted is None else batch.longest - counted
        return by_clock if batch.total is None else min(by_clock, batch.total - self.contact(batch))

    def aim(self, batch: Batch) -> float | None:
        """Seconds until it has had the plan's minutes, and its last hair the leaflet's shortest; None while it is
        being put on."""
        counted, last = self.counted(batch), self.since_last_hair(batch)
        if counted is None or last is None:
            return None
        return max(batch.aim - counted, batch.shortest - last) + self.added.get(batch.off, 0.0)

    def rinse_in(self, off: int) -> float | None:
        """Seconds until what the plan takes off at that minute is taken off; never more than there is room for."""
        own = [batch for batch in self.batches() if batch.off == off]
        if not own:
            return None
        room = min(self.room(batch) for batch in own)
        aims = [self.aim(batch) for batch in own]
        if any(aim is None for aim in aims):
            return room if room < float("inf") else None
        return min(room, max(aim for aim in aims if aim is not None))


def progress(work: Work, acts: tuple[Act, ...], now: Reading) -> Progress:
    """Where the work stands. An act that does not fit what came before it changes nothing."""
    seen = points([*(act.at for act in acts), now])
    hand = _Hand()
    for place, act in standing_acts(acts):
        _take(hand, work, act, seen[place])
    return Progress(
        work,
        seen[-1],
        min(hand.begun.values(), key=lambda point: point.lasted, default=seen[-1]),
        hand.begun,
        hand.done,
        hand.off,
        frozenset(hand.steps),
        frozenset(hand.closed),
        hand.added,
        hand.looked,
        hand.later,
        hand.stopped,
    )


def _take(hand: _Hand, work: Work, act: Act, at: Point) -> None:
    match act.did:
        case Did.STEP if act.of.isdecimal():
            hand.steps.add(int(act.of))
        case Did.BEGIN:
            _begin(hand, work, act.of, at)
        case Did.DONE if act.of in hand.begun and act.of not in hand.done:
            hand.done[act.of] = at
            _next_section(hand, work.rounds[_round_of(act.of)], at)
        case Did.OFF:
            _take_off(hand, work, act.of.split(), at)
        case Did.LOOK:
            hand.looked = at
        case Did.LATER:
            hand.later = (act.of, at)
        case Did.ADD if act.of.isdecimal():
            off = int(act.of)
            hand.added[off] = hand.added.get(off, 0.0) + MINUTE * max(0, act.minutes)
        case Did.STOP:
            hand.stopped = at
            hand.closed.update(a_round.number for a_round in work.rounds)


def _round_of(key: str) -> int:
    return int(key.partition(".")[0])


def _begin(hand: _Hand, work: Work, number: str, at: Point) -> None:
    """A round is begun: each hand takes a section."""
    a_round = next((r for r in work.rounds if str(r.number) == number), None)
    if a_round is None or a_round.number in hand.closed or a_round.sections[0].key in hand.begun:
        return
    for section in a_round.sections[: work.hands]:
        hand.begun[section.key] = at
        if a_round.at_once:
            hand.done[section.key] = at


def _next_section(hand: _Hand, a_round: Round, at: Point) -> None:
    """The hand that is free takes the next section."""
    waiting = [section.key for section in a_round.sections if section.key not in hand.begun]
    if waiting and a_round.number not in hand.closed:
        hand.begun[waiting[0]] = at


def _take_off(hand: _Hand, work: Work, keys: list[str], at: Point) -> None:
    """Where something is taken off, no more is put on of what would have come off with it."""
    taken = [key for key in keys if key in hand.begun and key not in hand.off]
    hand.off.update((key, at) for key in taken)
    gone = {batch.off for batch in work.batches if set(batch.keys) & set(taken)}
    rounds = {_round_of(key) for key in taken}
    hand.closed |= rounds | {batch.round for batch in work.batches if batch.off in gone}
