"""Read and change one answer by its path; whether a question applies at all.

Changing gives a new `Answers`; nothing here alters a value in place.
"""

from collections.abc import Iterator
from functools import cache, lru_cache
from typing import Any

from pydantic import ValidationError

from consult.answers import Answers
from consult.answers.base import NOT_SURE, Section
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, Question, inner_questions, question_of, questions
from consult.cleaning import clean_text


class BadAnswer(ValueError):
    """An answer that cannot be taken. `path` says where, the text says what would be right."""

    def __init__(self, path: str, hint: str) -> None:
        super().__init__(f"{path}: {hint}")
        self.path = path
        self.hint = hint


def get(answers: Answers, path: str) -> Any:
    """The answer at a path; None when it was not asked or the list has no such entry."""
    where = AnswerPath.parse(path)
    group = getattr(answers, where.section)
    if where.list is not None:
        found = getattr(group, AnswerPath.parse(where.list).name)
        if not isinstance(found, tuple) or where.entry is None or where.entry >= len(found):
            return None
        group = found[where.entry]
    return getattr(group, where.name)


def as_data(answers: Answers) -> dict[str, Any]:
    """The answers as plain data, without what was not asked."""
    data = answers.model_dump(exclude_none=True)
    return {section: fields for section, fields in data.items() if fields}


def from_data(data: object) -> Answers:
    """Answers from plain data. Raises BadAnswer at the first error; it never echoes the answer."""
    try:
        return Answers.model_validate(data)
    except ValidationError as error:
        raise _bad_answer(error) from None


def _place(error: Any, section: str) -> str:
    """The answer's path in a pydantic location, whose union tags are left out."""
    parts = [section] if section else []
    for part in error["loc"]:
        longer = AnswerPath(".".join([*parts, str(part)]))
        if longer.question in _prefixes():
            parts.append(str(part))
    if error["type"] == "extra_forbidden":
        parts.append(clean_text(str(error["loc"][-1]))[:40])
    return ".".join(parts)


@cache
def _prefixes() -> frozenset[str]:
    """Every question, and every section that questions stand in."""
    return frozenset(questions()) | {question.section for question in questions().values()}


def _bad_answer(error: ValidationError, section: str = "") -> BadAnswer:
    details = error.errors(include_input=False, include_url=False, include_context=False)
    # A union reports every member it tried; the deepest place is the one that went wrong.
    detail = max(details, key=lambda d: _place(d, section).count("."))
    place = AnswerPath(_place(detail, section))
    if detail["type"] == "extra_forbidden":
        return BadAnswer(place, "there is no such question; see 'consult schema' for the names")
    question = questions().get(place.question)
    if question is None or (place.entry is not None and place == place.group):
        return BadAnswer(place or "file", "expected a table of answers here")
    return BadAnswer(place, "expected " + question.expects())


def with_answer(answers: Answers, path: str, value: Any) -> Answers:
    """New answers with `value` at `path`; None takes the answer back to "not asked".

    Raises BadAnswer when the value does not fit the question, KeyError for an unknown path.
    """
    where = AnswerPath.parse(path)
    question_of(where)
    section: Section = getattr(answers, where.section)
    data = place = section.model_dump(exclude_none=True)
    if where.list is not None:
        list_name = AnswerPath.parse(where.list).name
        found = list(data.get(list_name, ()))
        if where.entry is None or where.entry >= len(found):
            raise KeyError(path)
        data[list_name], place = found, found[where.entry]
    if value is None:
        place.pop(where.name, None)
    else:
        place[where.name] = value
    try:
        changed = type(section).model_validate(data)
    except ValidationError as error:
        raise _bad_answer(error, where.section) from None
    return answers.model_copy(update={where.section: changed})


def fitting(question: Question, value: Any) -> Any:
    """What becomes of a value where it stands alone as the answer to a question: its type right, in the inner unit.

    Raises BadAnswer when it does not fit.
    """
    name = question.path.name
    try:
        return getattr(question.model.model_validate({name: value}), name)
    except ValidationError:
        raise BadAnswer(question.path, "expected " + question.expects()) from None


def entries(answers: Answers, path: str) -> tuple[Section, ...]:
    """The entries of a list question; empty when not asked or not sure."""
    value = get(answers, path)
    return value if isinstance(value, tuple) else ()


@lru_cache(maxsize=4096)
def _applies_by(path: str) -> tuple[int, tuple[AnswerPath, tuple[str, ...]] | None]:
    """The version that a question came with; the answer that its applying depends on, and the values that make it
    apply."""
    where = AnswerPath.parse(path)
    question = question_of(where)
    if question.only_if is None:
        return question.since, None
    on, wanted = question.only_if
    return question.since, (where.beside(on.name) if on.list else on, wanted)


def applies(answers: Answers, path: str) -> bool | None:
    """Whether the question at `path` applies: True, False, or None while that is still open.

    A condition answered "not sure" makes the question apply. An optional condition that was left out
    does not, and neither does a question newer than these answers that has no answer.
    """
    since, condition = _applies_by(path)
    # Few questions came later; the version itself is looked up for those only, because that takes longer.
    if since > 1 and since > answers.version and get(answers, path) is None:
        return False
    if condition is None:
        return True
    on, wanted = condition
    above = applies(answers, on)
    if above is not True:
        return above
    value = get(answers, on)
    if value is None:
        return False if question_of(on).optional else None
    if value == NOT_SURE:
        return True
    given = value if isinstance(value, tuple) else (value,)
    return any(item in wanted for item in given)


def waits_for(answers: Answers, path: str) -> AnswerPath:
    """The question to ask before `path` can apply: the unasked one it hangs on, else itself."""
    _, condition = _applies_by(path)
    if condition is None or applies(answers, path) is not None:
        return AnswerPath.parse(path)
    return waits_for(answers, condition[0])


def answer_paths(answers: Answers, section: str | None = None) -> Iterator[AnswerPath]:
    """Paths of every question that applies, list entries expanded, in the order of the consultation."""
    for question in questions().values():
        path = question.path
        if path.list or (section and path.section != section) or not applies(answers, path):
            continue
        yield path
        if question.kind is Kind.ENTRIES:
            for entry in range(len(entries(answers, path))):
                inner = (path.inside(entry, question.path.name) for question in inner_questions(path))
                yield from (path for path in inner if applies(answers, path))
