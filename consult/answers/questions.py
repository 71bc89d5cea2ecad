"""The questions as a list, read off the answer models, each under its path without a number."""

import types
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from enum import Enum
from functools import cache
from typing import Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin

from msgspec import Struct
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from consult.answers import Answers
from consult.answers.base import ALL, NOT_SURE
from consult.answers.paths import AnswerPath
from consult.answers.typed_colour import COLOUR_UNIT, COLOUR_WORDS

LONGEST_LIST = 120


class Kind(Enum):
    """How a question is answered."""

    CHOICE = "choice"
    SEVERAL = "several"
    NUMBER = "number"
    TEXT = "text"
    DAY = "day"
    MOMENT = "moment"
    ENTRIES = "entries"


class Question(Struct, frozen=True):
    """One question in both voices.

    literals  fixed texts a number may have instead
    step      the step of a number that is not continuous
    most      the most entries a list may have
    same_as   the same question about the first product, when this one is about the second
    model     the group of answers that it stands in
    """

    path: AnswerPath
    kind: Kind
    trade: str
    plain: str
    short: str
    how_to_tell: str
    unit: str
    choices: tuple[str, ...]
    literals: tuple[str, ...]
    hints: dict[str, str]
    only_if: tuple[AnswerPath, tuple[str, ...]] | None
    past: bool
    sensitive: bool
    optional: bool
    since: int
    clear: tuple[str, ...] | str
    whole: bool
    step: float | None
    low: float | None
    high: float | None
    most: int | None
    same_as: AnswerPath | None
    model: type[BaseModel]

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
            wanted = "one of: " + self._choices_words()
        elif self.kind is Kind.SEVERAL:
            wanted = "a list from: " + self._choices_words()
        elif self.kind is Kind.ENTRIES:
            wanted = f"a list of at most {self.most} entries, each under [[{self.path}]]"
        elif self.kind is Kind.DAY:
            wanted = "a date such as 2026-05-31"
        elif self.kind is Kind.MOMENT:
            wanted = "a date and time such as 2026-05-31 14:30"
        elif self.kind is Kind.TEXT:
            wanted = COLOUR_WORDS if self.unit == COLOUR_UNIT else "a text of 1 to 120 characters"
        else:
            wanted = self._number_words()
        return f"{wanted}; or {NOT_SURE!r}"

    def _choices_words(self) -> str:
        """The choices; of a long list as many as one line of an error bears."""
        shown = list(self.choices)
        while len(", ".join(shown)) > LONGEST_LIST:
            shown.pop()
        more = len(self.choices) - len(shown)
        return ", ".join(shown) + (f" and {more} more, see 'consult schema'" if more else "")

    def _number_words(self) -> str:
        low = "0" if self.low is None else f"{self.low:g}"
        what = "a whole number" if self.whole else "a number"
        words = "".join(f', or "{word}"' for word in self.literals)
        unit = f" {self.unit}" if self.unit else ""
        halves = ", halves allowed" if self.step == 0.5 else ""
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


class _Bounds(NamedTuple):
    low: float | None = None
    high: float | None = None
    step: float | None = None
    most: int | None = None


def _bounds(notes: tuple[Any, ...]) -> _Bounds:
    found = _Bounds()
    for note in notes:
        for part in note.metadata if isinstance(note, FieldInfo) else (note,):
            found = _Bounds(
                getattr(part, "ge", getattr(part, "gt", found.low)),
                getattr(part, "le", found.high),
                getattr(part, "multiple_of", found.step),
                getattr(part, "max_length", found.most),
            )
    return found


def _condition(
    path: AnswerPath, only_if: tuple[str, Iterable[str]] | None
) -> tuple[AnswerPath, tuple[str, ...]] | None:
    if not only_if:
        return None
    on, wanted = only_if
    return AnswerPath.parse(on) if "." in on else path.beside(on), tuple(wanted)


def _question(
    path: AnswerPath, info: FieldInfo, model: type[BaseModel], section: FieldInfo | None
) -> tuple[Question, type[BaseModel] | None]:
    kind, entry = Kind.TEXT, None
    choices: tuple[str, ...] = ()
    literals: tuple[str, ...] = ()
    whole, bounds = False, _Bounds()
    for member, notes in _members(info.annotation):
        if get_origin(member) is Literal:
            texts = tuple(a for a in get_args(member) if a != NOT_SURE)
            if kind is Kind.NUMBER:
                literals += texts
            elif texts:
                kind, choices = Kind.CHOICE, texts
        elif get_origin(member) is tuple:
            inner = get_args(member)[0]
            if isinstance(inner, type) and issubclass(inner, BaseModel):
                kind, entry = Kind.ENTRIES, inner
                bounds = _bounds(notes)
            else:
                kind, choices = Kind.SEVERAL, get_args(inner)
        elif member in (int, float):
            kind, whole = Kind.NUMBER, member is int
            bounds = _bounds((*notes, *info.metadata))
        elif member is datetime:
            kind = Kind.MOMENT
        elif member is date:
            kind = Kind.DAY
    extra: dict[str, Any] = info.json_schema_extra  # type: ignore[assignment]
    of_section: Any = (section.json_schema_extra if section else None) or {}
    question = Question(
        path=path,
        kind=kind,
        trade=info.description or "",
        plain=extra["plain"],
        short=extra["short"],
        how_to_tell=extra["how_to_tell"],
        unit=extra["unit"],
        choices=choices,
        literals=literals,
        hints=extra["hints"],
        # What has a condition of its own hangs on the section's through the question it hangs on.
        only_if=_condition(path, extra["only_if"] or of_section.get("only_if")),
        past=extra["past"],
        sensitive=extra["sensitive"],
        optional=extra["optional"],
        since=extra["since"],
        clear=extra["clear"] if extra["clear"] == ALL else tuple(extra["clear"]),
        whole=whole,
        step=bounds.step,
        low=bounds.low,
        high=bounds.high,
        most=bounds.most,
        same_as=_first_of(path, section) if section else None,
        model=model,
    )
    return question, entry


def _first_of(path: AnswerPath, section: FieldInfo) -> AnswerPath | None:
    """The same question in the first section of the same model, if this is a later one."""
    models = {name: info.annotation for name, info in Answers.model_fields.items()}
    first = next(name for name, model in models.items() if model is section.annotation)
    return None if first == path.section else AnswerPath.parse(f"{first}.{path.name}")


@cache
def questions() -> dict[str, Question]:
    """Every question by its path, in the order it is asked. List entries follow their list."""
    found: dict[str, Question] = {}
    for name, info in Answers.model_fields.items():
        assert isinstance(info.annotation, type)
        assert issubclass(info.annotation, BaseModel)
        found |= questions_in(name, info.annotation, info)
    return found


def questions_in(
    section: str, model: type[BaseModel], section_info: FieldInfo | None = None
) -> dict[str, Question]:
    """The questions that a model declares, by their paths in `section`.

    section_info  what the answers say of the section, where it is one of theirs
    """
    found: dict[str, Question] = {}
    for name, info in model.model_fields.items():
        question, entry = _question(AnswerPath.parse(f"{section}.{name}"), info, model, section_info)
        found[question.path] = question
        if entry:
            for field, field_info in entry.model_fields.items():
                path = AnswerPath.parse(f"{question.path}.{field}")
                found[path], _ = _question(path, field_info, entry, section_info)
    return found


@cache
def inner_questions(path: str) -> tuple[Question, ...]:
    """The questions of one entry of a list question."""
    return tuple(question for question in questions().values() if question.path.list == path)


def question_of(path: str) -> Question:
    """The question of an answer's path. Raises KeyError for a path that does not exist."""
    return questions()[AnswerPath.parse(path).question]
