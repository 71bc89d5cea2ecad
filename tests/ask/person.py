"""Somebody who answers line by line with the answers of a demo client, and the same person at the wizard."""

import io
from collections.abc import Iterator
from typing import Any

from consult.answers import Answers
from consult.answers.access import entries, get
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, question_of
from consult.interview import intake as steps
from consult.interview.intake import REVIEW, Intake
from consult.interview.order import together
from consult.interview.pages import interview, page_of
from consult.interview.rows import Row, rows_of
from consult.session import Session


class Person(io.StringIO):
    """What stands behind the prompt: reads where the session is and types what that client would."""

    def __init__(self, wanted: Answers, session: Session) -> None:
        super().__init__()
        self.typed: list[str] = []
        self._wanted = wanted
        self._session = session
        self._lines = self._answers()

    def readline(self, size: int = -1, /) -> str:  # type: ignore[override]
        line = next(self._lines, None)
        if line is None:
            return ""
        self.typed.append(line)
        return line + "\n"

    def _answers(self) -> Iterator[str]:
        while True:
            intake = self._session.intake
            if intake.position == REVIEW:
                path = left_out(intake, self._wanted)
                if path is None:
                    return
                yield f"go {intake.order.index(path) + 1}"
                continue
            paths = together(intake.order, intake.position, self._session.voice)
            rows = rows_of(intake.answers, paths, self._session.voice)
            if page_of(intake.position).ticks:
                yield from self._signs(rows)
            else:
                yield from self._one(rows[paths.index(intake.position)])

    def _signs(self, rows: list[Row]) -> Iterator[str]:
        keys = []
        for row in rows:
            value = get(self._wanted, row.path)
            if value == NOT_SURE:
                keys.append(f"?{row.options[0].key}")
            given = value if isinstance(value, tuple) else (value,)
            keys += [option.key for option in row.options if option.value in given]
        if keys:
            yield " ".join(keys)
        yield "0"

    def _one(self, row: Row) -> Iterator[str]:
        value = get(self._wanted, row.path)
        if value is None:
            yield "skip"
        elif value == NOT_SURE:
            yield "?"
        elif row.kind is Kind.ENTRIES:
            yield "1" if len(row.value or ()) < len(value) else "0"
        elif row.kind is Kind.SEVERAL:
            yield from [" ".join(o.key for o in row.options if o.value in value), ""] if value else ["0"]
        elif row.kind is Kind.CHOICE:
            yield next(option.key for option in row.options if option.value == value)
        else:
            yield format_answer(row.question, value, unit=False)


def left_out(intake: Intake, wanted: Answers) -> AnswerPath | None:
    """The first answer of the client that the questions in their usual order did not come to."""
    return next(
        (p for p in intake.order if get(wanted, p) is not None and get(intake.answers, p) is None), None
    )


def at_the_wizard(wanted: Answers, session: Session) -> Answers:
    """The answers that the state machine arrives at, driven as the wizard drives it."""
    intake = steps.start()
    while True:
        here = intake.position
        if here == REVIEW:
            path = left_out(intake, wanted)
            if path is None:
                return intake.answers
            intake = steps.jump(steps.answer(steps.jump(intake, path), get(wanted, path)), REVIEW)
        elif page_of(here).ticks:
            paths = together(intake.order, here, session.voice)
            none = interview().none
            for path in paths:
                value = get(wanted, path)
                if value is not None and value != none[path.question]:
                    intake = steps.answer(steps.jump(intake, path), value)
            intake = steps.forward(steps.jump(steps.none_of_these(intake, paths), paths[-1]))
        elif question_of(here).kind is Kind.ENTRIES:
            value, given = get(wanted, here), entries(intake.answers, here)
            more = isinstance(value, tuple) and len(given) < len(value)
            intake = (
                steps.add_entry(intake)
                if more
                else _answered(intake, given if isinstance(value, tuple) else value)
            )
        else:
            intake = _answered(intake, get(wanted, here))


def _answered(intake: Intake, value: Any) -> Intake:
    return steps.leave_open(intake) if value is None else steps.forward(steps.answer(intake, value))
