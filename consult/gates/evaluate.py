"""Ask compiled conditions of one head, and tell what their states rest on."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime
from typing import Any

from msgspec import Struct

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.answers.paths import AnswerPath
from consult.gates.conditions import Condition
from consult.gates.facts import FACTS
from consult.gates.program import (
    DOUBT,
    FALSE,
    OPEN,
    TRUE,
    Branch,
    EntryLeaf,
    FactReader,
    Layout,
    Node,
    Subject,
    without_value,
)
from consult.gates.readings import KNOWN, Reader, Reading, Readings

States = list[int]


class Program:
    """The conditions of some rules, compiled once and asked of any head.

    `also` are questions and facts that the rules read beside their conditions.
    """

    def __init__(
        self, conditions: Sequence[Condition], also: Iterable[str] = (), facts: Iterable[str] = ()
    ) -> None:
        inner: dict[AnswerPath, Layout] = {}
        layout = Layout()
        self.roots = tuple(layout.add(condition, inner) for condition in conditions)
        layout.close()
        for entry_layout in inner.values():
            entry_layout.close()
        computed = {*layout.facts, *facts}
        self.reader = Reader(
            [
                *layout.subjects,
                *layout.lists,
                *(path for entry_layout in inner.values() for path in entry_layout.subjects),
                *(path for name in computed for path in FACTS[name].reads),
                *also,
            ]
        )
        self._subjects = self._placed(layout)
        self._facts = [(name, subject, self._fact(name)) for name, subject in layout.facts.items()]
        self._lists = [
            (path, self._placed(inner[path]), inner[path].joins(), leaves)
            for path, leaves in layout.lists.items()
        ]
        self._joins = layout.joins()
        self._slots = [root.slot for root in self.roots]

    def _placed(self, layout: Layout) -> list[tuple[int, Subject]]:
        return [(self.reader.place(path).position, subject) for path, subject in layout.subjects.items()]

    def _fact(self, name: str) -> FactReader:
        reads = []
        for path in FACTS[name].reads:
            place = self.reader.place(path)
            its_list = self.reader.place(place.list) if place.list else None
            reads.append((place, its_list, path in FACTS[name].settles))
        return FactReader(FACTS[name], tuple(reads))

    def ask(self, answers: Answers, now: datetime) -> "Trace":
        """The states of all conditions on a head at a moment (an aware time)."""
        readings = self.reader.read(answers)
        today = now.date()
        states: States = []
        _rows(states, self._subjects, readings.head, today)
        used: dict[str, list[AnswerPath]] = {}
        for name, subject, fact in self._facts:
            standing, value, used[name] = fact.read(readings, now)
            states += subject.row(standing, value, today)
        in_entries: dict[AnswerPath, list[States]] = {}
        for path, subjects, joins, leaves in self._lists:
            of_list = in_entries[path] = []
            for group in readings.entries.get(path, ()):
                own: States = []
                _rows(own, subjects, group, today)
                for join, parts in joins:
                    own.append(join(parts(own)))
                of_list.append(own)
            reading = readings.head[self.reader.place(path).position]
            states += [_state(leaf, reading, of_list) for leaf in leaves]
        for join, parts in self._joins:
            states.append(join(parts(states)))
        return Trace(self, now, readings, states, used, in_entries)

    def states(self, states: States) -> list[int]:
        """The states of the conditions themselves, in their order."""
        return [states[slot] for slot in self._slots]


def _rows(states: States, subjects: list[tuple[int, Subject]], group: list[Reading], today: date) -> None:
    for position, subject in subjects:
        reading = group[position]
        states += subject.row(reading.standing, reading.value, today)


def _state(leaf: EntryLeaf, reading: Reading, of_list: list[States]) -> int:
    """Entries that were given count even when their question does not apply any more."""
    if isinstance(reading.value, tuple):
        slot = leaf.where.slot
        if leaf.negated:
            return min((states[slot] for states in of_list), default=TRUE)
        return max((states[slot] for states in of_list), default=FALSE)
    return without_value(reading.standing, negated=leaf.negated)


class Trace(Struct, frozen=True):
    """What one head says to all conditions of a program."""

    program: Program
    now: datetime
    readings: Readings
    all_states: States
    used: dict[str, list[AnswerPath]]
    in_entries: dict[AnswerPath, list[States]]

    @property
    def states(self) -> list[int]:
        """The state of each condition, in the order they were compiled."""
        return self.program.states(self.all_states)

    def evidence(self, number: int, *, careful: bool) -> set[AnswerPath]:
        """The answers on which a condition rests that holds; `careful` takes those in doubt along."""
        found: set[AnswerPath] = set()
        self._gather(self.program.roots[number], (DOUBT, TRUE) if careful else (TRUE,), None, found)
        return found

    def undecided(self, number: int) -> set[AnswerPath]:
        """The answers, unasked or in doubt, that leave a condition open."""
        found: set[AnswerPath] = set()
        self._gather(self.program.roots[number], (OPEN, DOUBT), None, found)
        return found

    def holds(self, node: Node) -> bool:
        """True when a part of a condition holds on the careful reading."""
        return self.all_states[node.slot] >= DOUBT

    def moment(self, name: str) -> datetime:
        """The moment that ends a wait; what is missing or in doubt is taken as "not sure"."""
        read = (self.reading(path) for path in FACTS[name].reads)
        values = [reading.value if reading.standing == KNOWN else NOT_SURE for reading in read]
        moment = FACTS[name].compute(self.now, *values)
        assert isinstance(moment, datetime)
        return moment

    def reading(self, path: str) -> Reading:
        """The reading of a question of the head itself."""
        return self.readings.head[self.program.reader.place(path).position]

    def _gather(
        self,
        node: Node,
        wanted: tuple[int, ...],
        entry: tuple[AnswerPath, int] | None,
        found: set[AnswerPath],
    ) -> None:
        """The answers behind every part of a condition whose state is wanted."""
        if isinstance(node, Branch):
            states = self._states(entry)
            for part in node.parts:
                if states[part.slot] in wanted:
                    self._gather(part, wanted, entry, found)
        elif isinstance(node, EntryLeaf):
            path = AnswerPath.parse(node.test.path)
            # That no entry is such a one rests on the list itself too.
            if (node.negated and OPEN not in wanted) or not isinstance(self.reading(path).value, tuple):
                found.add(self.reading(path).path)
            for number, states in enumerate(self.in_entries[path]):
                if states[node.where.slot] in wanted:
                    self._gather(node.where, wanted, (path, number), found)
        else:
            found.update(self._read_by(node.test, entry))

    def _states(self, entry: tuple[AnswerPath, int] | None) -> States:
        return self.all_states if entry is None else self.in_entries[entry[0]][entry[1]]

    def _read_by(self, test: Any, entry: tuple[AnswerPath, int] | None) -> list[AnswerPath]:
        """The answers that a comparison rests on."""
        if test.fact:
            return self.used[test.fact]
        position = self.program.reader.place(test.field).position
        group = self.readings.head if entry is None else self.readings.entries[entry[0]][entry[1]]
        return [group[position].path]
