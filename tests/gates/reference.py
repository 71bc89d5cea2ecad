"""The plain evaluator: slow, obvious, and independent of the compiled one, which is compared with it.

Three-valued evaluation: a condition holds, is false, or is still open.

An unasked answer leaves a test open. "Not sure" is read twice: `strict` leaves the test open,
`cautious` lets it hold whichever way it is put, so that doubt always falls on the stricter side.
A question that does not apply, and an optional one that nobody answered, fulfils no test.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from enum import Enum
from typing import Any

from consult.answers import Answers
from consult.answers.access import applies, get, waits_for
from consult.answers.base import NOT_SURE
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of, questions
from consult.gates.conditions import AllOf, AnyEntry, AnyOf, Comparison, Condition, Not, compare
from consult.gates.facts import FACTS
from consult.gates.rule import Rule
from consult.gates.verdict import Verdict


class Truth(Enum):
    TRUE = "true"
    FALSE = "false"
    OPEN = "open"


@dataclass(frozen=True)
class Outcome:
    """A truth and the answers it rests on: the evidence, or the answers that are missing."""

    truth: Truth
    paths: frozenset[str] = frozenset()


class State(Enum):
    """How far an answer can be used."""

    KNOWN = "known"
    DOUBT = "not sure"
    UNASKED = "unasked"
    NOT_APPLYING = "does not apply"


@dataclass(frozen=True)
class Reading:
    """One answer as read; `path` is the answer, or the unasked question that it waits for."""

    state: State
    path: str
    value: Any = None


_NOBODY: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Head:
    """One head of hair at one moment, as the engine reads it."""

    answers: Answers
    now: datetime
    cautious: bool
    seen: dict[str, Reading] = field(default_factory=dict, compare=False, repr=False)

    def outcome(self, condition: Condition) -> Outcome:
        """Evaluate a condition that belongs to the whole head."""
        return self._outcome(condition, negated=False, entry=None)

    def _outcome(self, condition: Condition, negated: bool, entry: str | None) -> Outcome:
        # Negation is carried down to the tests, so that doubt can fall on the cautious side there.
        if isinstance(condition, Not):
            return self._outcome(condition.part, not negated, entry)
        if isinstance(condition, AllOf | AnyOf):
            parts = [self._outcome(part, negated, entry) for part in condition.parts]
            return _every(parts) if isinstance(condition, AllOf) != negated else _one(parts)
        if isinstance(condition, AnyEntry):
            return self._entries(condition, negated)
        return self._test(condition, negated, entry)

    def _entries(self, condition: AnyEntry, negated: bool) -> Outcome:
        # Entries that were given count even when their question does not apply any more.
        reading = self.read(condition.path)
        if not isinstance(reading.value, tuple):
            return self._without_value([reading], negated)
        found = [
            self._outcome(condition.where, negated, f"{condition.path}.{index}")
            for index in range(len(reading.value))
        ]
        here = _known(negated, [condition.path])
        return _every([here, *found]) if negated else _one([here, *found])

    def _test(self, test: Comparison, negated: bool, entry: str | None) -> Outcome:
        if test.fact:
            return self._fact(test, negated)
        assert test.field
        reading = self.read(f"{entry}.{test.field.rpartition('.')[2]}" if entry else test.field)
        if reading.state is State.DOUBT and test.operator == "unknown":
            return _known(not negated, [reading.path])
        if reading.state is not State.KNOWN:
            return self._without_value([reading], negated)
        holds = compare(test.operator, reading.value, test.value, self.now.date())
        return _known(holds != negated, [reading.path])

    def _fact(self, test: Comparison, negated: bool) -> Outcome:
        assert test.fact
        fact = FACTS[test.fact]
        groups = [self._readings(path) for path in fact.reads]
        readings = [reading for group in groups for reading in group]
        lacking = [
            reading
            for path, group in zip(fact.reads, groups, strict=True)
            for reading in group
            if reading.state is not State.KNOWN
            and not (
                reading.state in (State.DOUBT, State.NOT_APPLYING)
                and path in fact.settles
                and question_of(reading.path).path == path
            )
        ]
        if lacking:
            return self._without_value(lacking, negated)
        value = fact.compute(self.now, *(_input(*both) for both in zip(fact.reads, groups, strict=True)))
        if value == NOT_SURE:
            doubts = [Reading(State.DOUBT, reading.path) for reading in readings]
            return self._without_value(doubts, negated)
        holds = compare(test.operator, value, test.value, self.now.date())
        return _known(holds != negated, [reading.path for reading in readings])

    def moment(self, name: str) -> datetime:
        """The moment that ends a wait; what is missing or in doubt is taken as "not sure"."""
        fact = FACTS[name]
        readings = [self.read(path) for path in fact.reads]
        values = [r.value if r.state is State.KNOWN else NOT_SURE for r in readings]
        moment = fact.compute(self.now, *values)
        assert isinstance(moment, datetime)
        return moment

    def read(self, path: str) -> Reading:
        """One answer, read once for each head."""
        if path not in self.seen:
            self.seen[path] = self._read(path)
        return self.seen[path]

    def _read(self, path: str) -> Reading:
        applying, value = applies(self.answers, path), get(self.answers, path)
        if applying is False or (value is None and question_of(path).optional):
            return Reading(State.NOT_APPLYING, path, value)
        if applying is None:
            return Reading(State.UNASKED, waits_for(self.answers, path), value)
        if value is None:
            return Reading(State.UNASKED, path)
        return Reading(State.DOUBT if value == NOT_SURE else State.KNOWN, path, value)

    def _readings(self, path: str) -> list[Reading]:
        """The reading at a path; for a question inside a list, one for each entry."""
        list_path = question_of(path).entry_of
        if not list_path:
            return [self.read(path)]
        reading = self.read(list_path)
        if reading.state is not State.KNOWN:
            return [reading]
        name = path.rpartition(".")[2]
        inner = [self.read(f"{list_path}.{index}.{name}") for index in range(len(reading.value))]
        # The list itself stands first, so that an empty list has its evidence too.
        return [Reading(State.KNOWN, list_path), *inner]

    def _without_value(self, lacking: list[Reading], negated: bool) -> Outcome:
        if any(reading.state is State.NOT_APPLYING for reading in lacking):
            return _known(negated, [reading.path for reading in lacking])
        doubts = frozenset(reading.path for reading in lacking if reading.state is State.DOUBT)
        unasked = frozenset(reading.path for reading in lacking if reading.state is State.UNASKED)
        if self.cautious and not unasked:
            return Outcome(Truth.TRUE, doubts)
        return Outcome(Truth.OPEN, unasked | doubts)


def _input(path: str, group: list[Reading]) -> Any:
    """What a fact's function gets for one of its `reads`."""
    values = tuple(reading.value for reading in group)
    return values[1:] if question_of(path).entry_of else values[0]


def _known(holds: bool, paths: Iterable[str]) -> Outcome:
    return Outcome(Truth.TRUE if holds else Truth.FALSE, frozenset(paths))


def _join(outcomes: Iterable[Outcome], truth: Truth) -> Outcome:
    return Outcome(truth, _NOBODY.union(*(o.paths for o in outcomes if o.truth is truth)))


def _every(parts: list[Outcome]) -> Outcome:
    for truth in (Truth.FALSE, Truth.OPEN):
        if any(part.truth is truth for part in parts):
            return _join(parts, truth)
    return _join(parts, Truth.TRUE)


def _one(parts: list[Outcome]) -> Outcome:
    for truth in (Truth.TRUE, Truth.OPEN):
        if any(part.truth is truth for part in parts):
            return _join(parts, truth)
    return _join(parts, Truth.FALSE)


@dataclass(frozen=True)
class Fired:
    """What one rule that fired says: (rule id, verdict, evidence, whether it fired in doubt)."""

    rule: str
    verdict: Verdict
    evidence: tuple[str, ...]
    in_doubt: bool


@dataclass(frozen=True)
class Told:
    """The judgement of the plain evaluator."""

    findings: tuple[Fired, ...]
    could_become: Verdict
    ask: tuple[str, ...]


def skipped(rule: Rule, answers: Answers) -> bool:
    """A rule for some classes of product is skipped only when the class is known and is another."""
    given = answers.product.colour_class
    return bool(rule.kinds) and given not in (None, NOT_SURE) and given not in rule.kinds


def plain_judgement(answers: Answers, now: datetime, rules: Iterable[Rule]) -> Told:
    """Each rule by itself, strictly and then cautiously; nothing is shared and nothing is left out."""
    findings: list[Fired] = []
    could_become, ask = Verdict.CLEAR, set[str]()
    for rule in rules:
        if skipped(rule, answers):
            continue
        certain = Head(answers, now, cautious=False).outcome(rule.when)
        if certain.truth is Truth.TRUE:
            findings.append(Fired(rule.id, rule.verdict, tuple(sorted(certain.paths)), False))
        if certain.truth is not Truth.OPEN:
            continue
        doubtful = Head(answers, now, cautious=True).outcome(rule.when)
        if doubtful.truth is Truth.TRUE:
            findings.append(Fired(rule.id, rule.unsure, tuple(sorted(doubtful.paths)), True))
        missing = {path for path in certain.paths if get(answers, path) is None}
        if missing:
            could_become = max(could_become, rule.verdict, rule.unsure)
            ask |= missing
    findings.sort(key=lambda f: (-f.verdict, f.in_doubt))
    order = list(questions())
    asked_in_order = sorted(ask, key=lambda path: (order.index(AnswerPath.parse(path).question), path))
    return Told(tuple(findings), could_become, tuple(asked_in_order))
