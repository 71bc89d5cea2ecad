"""The questions as a list, read off the answer models, each under its path without a number."""

import types
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from consult.answers import Answers
from consult.answers.base import ALL, NOT_SURE
from consult.answers.paths import AnswerPath


class Kind(Enum):
    """How a question is answered."""

    CHOICE = "choice"
    SEVERAL = "several"
    NUMBER = "number"
    TEXT = "text"
    DAY = "day"
    MOMENT = "moment"
    ENTRIES = "entries"


@dataclass(frozen=True)
class Question:
    """One question in both voices. `words` are fixed texts a number may have instead."""

    path: AnswerPath
    kind: Kind
    trade: str
    plain: str
    short: str
    tell: str
    unit: str
    choices: tuple[str, ...]
    words: tuple[str, ...]
    hints: dict[str, str]
    only_if: tuple[AnswerPath, tuple[str, ...]] | None
    past: bool
    sensitive: bool
    optional: bool
    clear: tuple[str, ...] | str
    whole: bool
    low: float | None
    high: float | None

    @property
    def section(self) -> str:
        return self.path.section

    @property
    def entry_of(self) -> str | None:
        """The list question this one stands in, or None."""
        return self.path.list

    def is_clear(self, choice: str) -> bool:
        """True when the models mark this choice as needing no rule."""
        return self.clear == ALL or choice in self.clear

    def expects(self) -> str:
        """What a valid answer looks like, without naming the one given."""
        if self.kind is Kind.CHOICE:
            wanted = "one of: " + ", ".join(self.choices)
        elif self.kind is Kind.SEVERAL:
            wanted = "a list from: " + ", ".join(self.choices)
        elif self.kind is Kind.ENTRIES:
            wanted = f"a list of entries, each under [[{self.path}]]"
        elif self.kind is Kind.DAY:
            wanted = "a date such as 2026-05-31"
        elif self.kind is Kind.MOMENT:
            wanted = "a date and time such as 2026-05-31 14:30"
        elif self.kind is Kind.TEXT:
            wanted = "a text of 1 to 120 characters"
        else:
            wanted = self._number_words()
        return f"{wanted}; or {NOT_SURE!r}"

    def _number_words(self) -> str:
        low = "0" if self.low is None else f"{self.low:g}"
        what = "a whole number" if self.whole else "a number"
        words = "".join(f', or "{word}"' for word in self.words)
        unit = f" {self.unit}" if self.unit else ""
        halves = ", halves allowed" if self.path.endswith("depth") or "chart_" in self.path else ""
        return f"{what} from {low} to {self.high:g}{unit}{halves}{words}"


def _members(annotation: Any) -> Iterator[tuple[Any, tuple[Any, ...]]]:
    """The plain members of a union of possibly annotated types, each with its annotations."""
    if get_origin(annotation) in (Union, types.UnionType):
        for arg in get_args(annotation):
            yield from _members(arg)
    elif get_origin(annotation) is Annotated:
        inner, *notes = get_args(annotation)
        for member, more in _members(inner):
            yield member, (*more, *notes)
    else:
        yield annotation, ()


def _bounds(notes: tuple[Any, ...]) -> tuple[float | None, float | None]:
    low = high = None
    for note in notes:
        for part in note.metadata if isinstance(note, FieldInfo) else (note,):
            low = getattr(part, "ge", getattr(part, "gt", low))
            high = getattr(part, "le", high)
    return low, high


def _question(path: AnswerPath, info: FieldInfo) -> tuple[Question, type[BaseModel] | None]:
    kind, entry = Kind.TEXT, None
    choices: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    whole, low, high = False, None, None
    for member, notes in _members(info.annotation):
        if get_origin(member) is Literal:
            literals = tuple(a for a in get_args(member) if a != NOT_SURE)
            if kind is Kind.NUMBER:
                words += literals
            elif literals:
                kind, choices = Kind.CHOICE, literals
        elif get_origin(member) is tuple:
            inner = get_args(member)[0]
            if isinstance(inner, type) and issubclass(inner, BaseModel):
                kind, entry = Kind.ENTRIES, inner
            else:
                kind, choices = Kind.SEVERAL, get_args(inner)
        elif member in (int, float):
            kind, whole = Kind.NUMBER, member is int
            low, high = _bounds((*notes, *info.metadata))
        elif member is datetime:
            kind = Kind.MOMENT
        elif member is date:
            kind = Kind.DAY
    extra: dict[str, Any] = info.json_schema_extra  # type: ignore[assignment]
    only_if = extra["only_if"]
    if only_if:
        on = path.beside(only_if[0]) if "." not in only_if[0] else AnswerPath.parse(only_if[0])
        only_if = on, tuple(only_if[1])
    question = Question(
        path=path,
        kind=kind,
        trade=info.description or "",
        plain=extra["plain"],
        short=extra["short"],
        tell=extra["tell"],
        unit=extra["unit"],
        choices=choices,
        words=words,
        hints=extra["hints"],
        only_if=only_if,
        past=extra["past"],
        sensitive=extra["sensitive"],
        optional=extra["optional"],
        clear=extra["clear"] if extra["clear"] == ALL else tuple(extra["clear"]),
        whole=whole,
        low=low,
        high=high,
    )
    return question, entry


@cache
def questions() -> dict[str, Question]:
    """Every question by its path, in the order it is asked. List entries follow their list."""
    found: dict[str, Question] = {}
    for section, section_info in Answers.model_fields.items():
        model = section_info.annotation
        assert isinstance(model, type)
        assert issubclass(model, BaseModel)
        for name, info in model.model_fields.items():
            question, entry = _question(AnswerPath.parse(f"{section}.{name}"), info)
            found[question.path] = question
            if entry:
                for field, field_info in entry.model_fields.items():
                    inner, _ = _question(AnswerPath.parse(f"{question.path}.{field}"), field_info)
                    found[inner.path] = inner
    return found


@cache
def inner_questions(path: str) -> tuple[Question, ...]:
    """The questions of one entry of a list question."""
    return tuple(question for question in questions().values() if question.path.list == path)


@cache
def section_titles() -> dict[str, str]:
    """Section name -> its title, in the order of the consultation."""
    return {name: info.title or name for name, info in Answers.model_fields.items()}


def question_of(path: str) -> Question:
    """The question of an answer's path. Raises KeyError for a path that does not exist."""
    return questions()[AnswerPath.parse(path).question]
