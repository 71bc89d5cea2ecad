"""What the rules read off the answers: each question once for a head, in the order of the consultation."""

from collections.abc import Iterable
from functools import lru_cache
from typing import Any, NamedTuple

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of, questions

KNOWN, DOUBT, UNASKED, NOT_APPLYING = 0, -1, -2, -3
"""How far an answer can be used. An optional question that nobody answered does not apply."""


class Reading(NamedTuple):
    """One answer; `path` is the answer, or the unasked question that it waits for."""

    standing: int
    path: AnswerPath
    value: Any


class Place(NamedTuple):
    """Where a reading is found: its position, in the head itself or in every entry of a list."""

    list: AnswerPath | None
    position: int


class Readings(NamedTuple):
    """The readings of a head, and for each list those of its entries."""

    head: list[Reading]
    entries: dict[AnswerPath, list[list[Reading]]]

    def at(self, place: Place) -> list[Reading]:
        """The reading at a place; in a list, that of each entry."""
        if place.list is None:
            return [self.head[place.position]]
        return [entry[place.position] for entry in self.entries.get(place.list, ())]


class _Question(NamedTuple):
    """What is needed to read one question: its place, and what its applying hangs on."""

    path: AnswerPath
    section: str
    name: str
    hangs_on: int | None
    in_entry: bool
    wanted: tuple[str, ...]
    optional: bool
    since: int


class Reader:
    """Reads some questions, and those on which their applying hangs."""

    def __init__(self, wanted: Iterable[str]) -> None:
        needed: set[AnswerPath] = set()
        for path in wanted:
            _with_what_it_hangs_on(question_of(path).path, needed)
        self._places: dict[str, Place] = {}
        self._head: list[_Question] = []
        self._entries: dict[AnswerPath, list[_Question]] = {}
        for path in questions():
            if path in needed:
                self._add(AnswerPath.parse(path))
        self._names = {path: tuple(one.name for one in inner) for path, inner in self._entries.items()}

    def _add(self, path: AnswerPath) -> None:
        question = question_of(path)
        list_path = AnswerPath.parse(path.list) if path.list else None
        group = self._head if list_path is None else self._entries.setdefault(list_path, [])
        on, wanted = question.only_if or (None, ())
        group.append(
            _Question(
                path=path,
                section=path.section,
                name=path.name,
                hangs_on=self._places[on].position if on else None,
                in_entry=on is not None and on.list is not None,
                wanted=wanted,
                optional=question.optional,
                since=question.since,
            )
        )
        self._places[path] = Place(list_path, len(group) - 1)

    def place(self, path: str) -> Place:
        """Where the reading of a question is found. Raises KeyError for one that is not read."""
        return self._places[path]

    def read(self, answers: Answers) -> Readings:
        """Read the head and the entries of its lists."""
        version = answers.version
        head: list[Reading] = []
        for question in self._head:
            above = None if question.hangs_on is None else head[question.hangs_on]
            value = getattr(getattr(answers, question.section), question.name)
            head.append(_reading(question, question.path, value, above, version))
        entries: dict[AnswerPath, list[list[Reading]]] = {}
        for path, inner in self._entries.items():
            given = head[self._places[path].position].value
            if not isinstance(given, tuple):
                continue
            found = entries[path] = []
            for number, entry in enumerate(given):
                group: list[Reading] = []
                for question, own in zip(inner, _own_paths(path, number, self._names[path]), strict=True):
                    source = group if question.in_entry else head
                    above = None if question.hangs_on is None else source[question.hangs_on]
                    group.append(_reading(question, own, getattr(entry, question.name), above, version))
                found.append(group)
        return Readings(head, entries)


def _with_what_it_hangs_on(path: AnswerPath, into: set[AnswerPath]) -> None:
    if path in into:
        return
    into.add(path)
    only_if = question_of(path).only_if
    if only_if:
        _with_what_it_hangs_on(only_if[0], into)
    if path.list:
        _with_what_it_hangs_on(question_of(path.list).path, into)


@lru_cache(maxsize=1024)
def _own_paths(path: AnswerPath, number: int, names: tuple[str, ...]) -> tuple[AnswerPath, ...]:
    return tuple(path.inside(number, name) for name in names)


def _reading(
    question: _Question, path: AnswerPath, value: Any, above: Reading | None, version: int
) -> Reading:
    """One reading, given that of the question its applying hangs on."""
    if value is None and (question.optional or question.since > version):
        return Reading(NOT_APPLYING, path, None)
    if above is not None and above.standing != DOUBT:
        if above.standing == NOT_APPLYING:
            return Reading(NOT_APPLYING, path, value)
        if above.standing == UNASKED:
            return Reading(UNASKED, above.path, value)
        given = above.value if isinstance(above.value, tuple) else (above.value,)
        if not any(item in question.wanted for item in given):
            return Reading(NOT_APPLYING, path, value)
    if value is None:
        return Reading(UNASKED, path, None)
    return Reading(DOUBT if value == NOT_SURE else KNOWN, path, value)
