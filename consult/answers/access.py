"""Read and change one answer by its path; whether a question applies at all.

Changing gives a new `Answers`; nothing here alters a value in place.
"""

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel, ValidationError

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, Question, question_of, question_path, questions
from consult.cleaning import clean_text


class BadAnswer(ValueError):
    """An answer that cannot be taken. `path` says where, the text says what would be right."""

    def __init__(self, path: str, hint: str) -> None:
        super().__init__(f"{path}: {hint}")
        self.path = path
        self.hint = hint


def get(answers: Answers, path: str) -> Any:
    """The answer at a path; None when it was not asked or the list has no such entry."""
    value: Any = answers
    for part in path.split("."):
        if value is None or value == NOT_SURE:
            return None
        if part.isdigit():
            value = value[int(part)] if int(part) < len(value) else None
        else:
            value = getattr(value, part)
    return value


def as_data(answers: Answers) -> dict[str, Any]:
    """The answers as plain data, without what was not asked."""
    data = answers.model_dump(exclude_none=True)
    return {section: fields for section, fields in data.items() if fields}


def from_data(data: object) -> Answers:
    """Answers from plain data. Raises BadAnswer at the first fault; it never echoes the answer."""
    try:
        return Answers.model_validate(data)
    except ValidationError as fault:
        raise _bad_answer(fault) from None


def _place(error: Any) -> str:
    """The answer's path in a pydantic location, whose union tags are left out."""
    parts: list[str] = []
    for part in error["loc"]:
        known = question_path(".".join([*parts, str(part)]))
        if any(path == known or path.startswith(known + ".") for path in questions()):
            parts.append(str(part))
    if error["type"] == "extra_forbidden":
        parts.append(clean_text(str(error["loc"][-1]))[:40])
    return ".".join(parts)


def _bad_answer(fault: ValidationError) -> BadAnswer:
    errors = fault.errors(include_input=False, include_url=False, include_context=False)
    # A union reports every member it tried; the deepest place is the one that went wrong.
    error = max(errors, key=lambda e: _place(e).count("."))
    place = _place(error)
    if error["type"] == "extra_forbidden":
        return BadAnswer(place, "there is no such question; see 'consult schema' for the names")
    question = questions().get(question_path(place))
    if question is None or place.rpartition(".")[2].isdigit():
        return BadAnswer(place or "file", "expected a table of answers here")
    return BadAnswer(place, "expected " + question.expects())


def with_answer(answers: Answers, path: str, value: Any) -> Answers:
    """New answers with `value` at `path`; None takes the answer back to "not asked".

    Raises BadAnswer when the value does not fit the question, KeyError for an unknown path.
    """
    question_of(path)
    data = answers.model_dump(exclude_none=True)
    *way, last = path.split(".")
    place: Any = data
    for part in way:
        if part.isdigit():
            place = place[int(part)]
        else:
            inner = place.get(part)
            place[part] = place = list(inner) if isinstance(inner, tuple) else inner
    if value is None:
        place.pop(last, None)
    else:
        place[last] = value
    return from_data(data)


def entries(answers: Answers, path: str) -> tuple[BaseModel, ...]:
    """The entries of a list question; empty when not asked or not sure."""
    value = get(answers, path)
    return value if isinstance(value, tuple) else ()


def _hangs_on(path: str) -> tuple[str, tuple[str, ...]] | None:
    """The answer that a question's applying depends on, and its values that make it apply."""
    question = question_of(path)
    if question.only_if is None:
        return None
    on, wanted = question.only_if
    if question.entry_of:
        on = f"{path.rpartition('.')[0]}.{on.rpartition('.')[2]}"
    return on, wanted


def applies(answers: Answers, path: str) -> bool | None:
    """Whether the question at `path` applies: True, False, or None while that is still open.

    A condition answered "not sure" makes the question apply.
    """
    condition = _hangs_on(path)
    if condition is None:
        return True
    on, wanted = condition
    above = applies(answers, on)
    if above is not True:
        return above
    value = get(answers, on)
    if value is None:
        return None
    if value == NOT_SURE:
        return True
    given = value if isinstance(value, tuple) else (value,)
    return any(item in wanted for item in given)


def waits_for(answers: Answers, path: str) -> str:
    """The question to ask before `path` can apply: the unasked one it hangs on, else itself."""
    condition = _hangs_on(path)
    if condition is None or applies(answers, path) is not None:
        return path
    return waits_for(answers, condition[0])


def answer_paths(answers: Answers, section: str | None = None) -> Iterator[str]:
    """Paths of every question that applies, list entries expanded, in the order of the consultation."""
    for question in questions().values():
        if question.entry_of or (section and question.section != section):
            continue
        if not applies(answers, question.path):
            continue
        yield question.path
        if question.kind is Kind.ENTRIES:
            for index in range(len(entries(answers, question.path))):
                for inner in _inner_questions(question):
                    path = f"{question.path}.{index}.{inner.path.rpartition('.')[2]}"
                    if applies(answers, path):
                        yield path


def _inner_questions(question: Question) -> list[Question]:
    return [q for q in questions().values() if q.entry_of == question.path]


def unasked(answers: Answers) -> list[str]:
    """Paths of the questions that apply and have no answer yet; optional ones are left out."""
    return [
        path
        for path in answer_paths(answers)
        if not question_of(path).optional and get(answers, path) is None
    ]
