"""The compiled conditions of a set of rules: what they share is worked out once for a head.

Each condition has one of four states on a head, in this order:

  FALSE   it does not hold
  OPEN    an unasked answer leaves it open
  DOUBT   an answer "not sure" leaves it open; on the careful reading it holds, whichever way it is put
  TRUE    it holds

So a condition of several is the least of its parts' states, one of alternatives the greatest. `not` is
carried down to the comparisons, where it exchanges TRUE and FALSE and leaves the other two.

All comparisons of one answer, or of one computed fact, stand side by side; their states are a row that is
worked out once for all values that none of them tells apart.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterable
from datetime import date, datetime
from operator import itemgetter
from typing import Any

from msgspec import Struct, field

from consult.answers.base import NOT_SURE
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, questions
from consult.gates.conditions import AllOf, AnyEntry, AnyOf, Comparison, Condition, Not, compare
from consult.gates.facts import FACTS, Fact
from consult.gates.readings import DOUBT as NOT_CERTAIN
from consult.gates.readings import KNOWN, NOT_APPLYING, UNASKED, Place, Reading, Readings

FALSE, OPEN, DOUBT, TRUE = range(4)
MOST_ROWS = 4096
"""Rows remembered for one answer; a list of choices has more combinations than are worth keeping."""

Row = tuple[int, ...]


class Leaf(Struct, eq=False):
    """A comparison, or its contrary; `slot` is where its state stands."""

    test: Comparison
    negated: bool
    slot: int = -1


class EntryLeaf(Struct, eq=False):
    """`AnyEntry`, or its contrary; `where` is asked of each entry."""

    test: AnyEntry
    negated: bool
    where: "Node"
    slot: int = -1


class Branch(Struct, eq=False):
    """All of the parts (`every`), or one of them."""

    every: bool
    parts: tuple["Node", ...]
    slot: int = -1


Node = Leaf | EntryLeaf | Branch


class Subject(Struct):
    """One answer or fact and the comparisons of it, whose states are one row."""

    kind: Kind
    leaves: list[Leaf] = field(default_factory=list)
    bounds: list[float] = field(default_factory=list)
    rows: dict[Any, Row] = field(default_factory=dict)

    def close(self) -> None:
        """All leaves are known: the numbers that tell values apart are put in order."""
        values = (leaf.test.value for leaf in self.leaves)
        numbers = {v for v in values if isinstance(v, int | float) and not isinstance(v, bool)}
        self.bounds = sorted(numbers)

    def row(self, standing: int, value: Any, today: date) -> Row:
        """The states of all comparisons for a reading."""
        key = standing if standing != KNOWN else self._key(value, today)
        found = self.rows.get(key)
        if found is None:
            if len(self.rows) >= MOST_ROWS:
                self.rows.clear()
            found = tuple(_state(leaf, standing, value, today) for leaf in self.leaves)
            self.rows[key] = found
        return found

    def _key(self, value: Any, today: date) -> Any:
        """The same for all values that no comparison tells apart."""
        kind = self.kind
        if kind is Kind.CHOICE or kind is Kind.SEVERAL or isinstance(value, str):
            return value
        if kind is Kind.ENTRIES:
            return len(value) > 0
        if kind is not Kind.NUMBER:
            value = (today - (value.date() if isinstance(value, datetime) else value)).days
        at = bisect_left(self.bounds, value)
        return 2 * at + (at < len(self.bounds) and self.bounds[at] == value)


def _state(leaf: Leaf, standing: int, value: Any, today: date) -> int:
    if standing == KNOWN:
        return TRUE if compare(leaf.test.operator, value, leaf.test.value, today) != leaf.negated else FALSE
    if standing == NOT_CERTAIN and leaf.test.operator == "unknown":
        return FALSE if leaf.negated else TRUE
    return without_value(standing, negated=leaf.negated)


def without_value(standing: int, *, negated: bool) -> int:
    """The state of whatever is asked of an answer that cannot be used."""
    if standing == NOT_APPLYING:
        return TRUE if negated else FALSE
    return OPEN if standing == UNASKED else DOUBT


class FactReader(Struct, frozen=True):
    """Computes one fact out of the readings."""

    fact: Fact
    reads: tuple[tuple[Place, Place | None, bool], ...]
    """Where each answer stands, the list it stands in, and whether the fact takes its "not sure", or its being
    left out."""

    def read(self, readings: Readings, now: datetime) -> tuple[int, Any, list[AnswerPath]]:
        """Standing and value of the fact, and the answers that it rests on or that are missing."""
        values: list[Any] = []
        used: list[AnswerPath] = []
        missing: list[Reading] = []
        for place, list_place, settled in self.reads:
            found: tuple[Reading, ...]
            if list_place is None:
                found = (readings.head[place.position],)
            else:
                its_list = readings.head[list_place.position]
                if its_list.standing != KNOWN:
                    missing.append(its_list)
                    continue
                used.append(its_list.path)
                found = tuple(entry[place.position] for entry in readings.entries[its_list.path])
            for reading in found:
                used.append(reading.path)
                if reading.standing != KNOWN and not (
                    settled and reading.standing in (NOT_CERTAIN, NOT_APPLYING)
                ):
                    missing.append(reading)
            values.append(found[0].value if list_place is None else tuple(r.value for r in found))
        if missing:
            least = min(reading.standing for reading in missing)
            return least, None, [reading.path for reading in missing]
        value = self.fact.compute(now, *values)
        return (NOT_CERTAIN if value == NOT_SURE else KNOWN), value, used


class Layout(Struct):
    """Conditions over one set of readings: subjects, then lists, then branches, each state in its slot."""

    subjects: dict[AnswerPath, Subject] = field(default_factory=dict)
    facts: dict[str, Subject] = field(default_factory=dict)
    lists: dict[AnswerPath, list[EntryLeaf]] = field(default_factory=dict)
    branches: list[Branch] = field(default_factory=list)
    _known: dict[Any, Node] = field(default_factory=dict)

    def add(self, condition: Condition, inner: "dict[AnswerPath, Layout]", negated: bool = False) -> Node:
        """The node of a condition; the same one for conditions that are the same."""
        if isinstance(condition, Not):
            return self.add(condition.part, inner, not negated)
        if isinstance(condition, AllOf | AnyOf):
            parts = tuple(self.add(part, inner, negated) for part in condition.parts)
            every = isinstance(condition, AllOf) != negated
            return parts[0] if len(parts) == 1 else self._branch(every, parts)
        key = (condition, negated)
        if key in self._known:
            return self._known[key]
        if isinstance(condition, AnyEntry):
            self._known[key] = self._entry_leaf(condition, negated, inner)
        else:
            self._known[key] = self._leaf(condition, negated)
        return self._known[key]

    def _branch(self, every: bool, parts: tuple[Node, ...]) -> Node:
        key = (every, tuple(map(id, parts)))
        if key not in self._known:
            branch = Branch(every, parts)
            self.branches.append(branch)
            self._known[key] = branch
        return self._known[key]

    def _leaf(self, test: Comparison, negated: bool) -> Leaf:
        if test.fact:
            kind = Kind.CHOICE if FACTS[test.fact].unit == "yes/no" else Kind.NUMBER
            subject = self.facts.setdefault(test.fact, Subject(kind))
        else:
            question = questions()[test.field or ""]
            subject = self.subjects.setdefault(question.path, Subject(question.kind))
        leaf = Leaf(test, negated)
        subject.leaves.append(leaf)
        return leaf

    def _entry_leaf(self, test: AnyEntry, negated: bool, inner: "dict[AnswerPath, Layout]") -> EntryLeaf:
        path = AnswerPath.parse(test.path)
        layout = inner.setdefault(path, Layout())
        leaf = EntryLeaf(test, negated, layout.add(test.where, {}, negated))
        self.lists.setdefault(path, []).append(leaf)
        return leaf

    def close(self) -> None:
        """Every node gets its slot, in the order in which the states will be worked out."""
        slot = 0
        for subject in (*self.subjects.values(), *self.facts.values()):
            subject.close()
            for leaf in subject.leaves:
                leaf.slot, slot = slot, slot + 1
        entry_leaves = [leaf for leaves in self.lists.values() for leaf in leaves]
        nodes: list[EntryLeaf | Branch] = [*entry_leaves, *self.branches]
        for node in nodes:
            node.slot, slot = slot, slot + 1

    def joins(self) -> "list[tuple[Callable[[Iterable[int]], int], itemgetter[Any]]]":
        """How each branch's state follows from those before it."""
        return [
            (min if branch.every else max, itemgetter(*(part.slot for part in branch.parts)))
            for branch in self.branches
        ]
