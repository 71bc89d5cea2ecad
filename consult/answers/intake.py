"""The intake as one immutable value: the answers, where the person stands, and how to go back.

Every transition is a pure function from one intake to the next, so that it needs no screen.
"""

from dataclasses import dataclass, replace
from typing import Any, Final

from consult.answers import Answers
from consult.answers.access import answer_paths, entries, get, with_answer
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, question_of, section_titles

REVIEW: Final = AnswerPath.parse("review")
"""The place behind the last question."""
LONGEST_UNDO = 100


@dataclass(frozen=True)
class Intake:
    """`position` is the path of the question in hand, or REVIEW; `past` are earlier answers."""

    answers: Answers
    position: AnswerPath
    past: tuple[tuple[Answers, AnswerPath], ...] = ()

    @property
    def section(self) -> str:
        return self.position.section

    @property
    def order(self) -> list[AnswerPath]:
        return list(answer_paths(self.answers))


@dataclass(frozen=True)
class Progress:
    """Questions of a section that count: how many are answered, of how many."""

    answered: int
    of: int

    @property
    def complete(self) -> bool:
        return self.answered >= self.of


def start(answers: Answers | None = None, position: str | None = None) -> Intake:
    """A new intake, or one that goes on at `position` if that is a question which applies."""
    answers = answers or Answers()
    order = list(answer_paths(answers))
    known = position is not None and (position == REVIEW or position in order)
    return Intake(answers, AnswerPath.parse(position) if known and position else order[0])


def answer(intake: Intake, value: Any) -> Intake:
    """Answer the question in hand and stay there. Raises BadAnswer, leaving the intake as it was."""
    changed = with_answer(intake.answers, intake.position, value)
    if changed == intake.answers:
        return intake
    return _changed(intake, changed, intake.position)


def _changed(intake: Intake, answers: Answers, position: AnswerPath) -> Intake:
    past = (*intake.past, (intake.answers, intake.position))[-LONGEST_UNDO:]
    return Intake(answers, position, past)


def forward(intake: Intake) -> Intake:
    """To the next question. The last question of a list entry leads back to its list."""
    if intake.position == REVIEW:
        return intake
    order, here = intake.order, intake.position
    rest = order[_index(order, here) + 1 :]
    if question_of(here).kind is Kind.ENTRIES:
        rest = [path for path in rest if path.list != here]
    if here.list and not (rest and rest[0].same_entry(here)):
        return replace(intake, position=AnswerPath.parse(here.list))
    return replace(intake, position=rest[0] if rest else REVIEW)


def back(intake: Intake) -> Intake:
    """To the question before; at the first one it stays."""
    order = intake.order
    if intake.position == REVIEW:
        return replace(intake, position=order[-1])
    return replace(intake, position=order[max(0, _index(order, intake.position) - 1)])


def jump(intake: Intake, path: str) -> Intake:
    """To any question that applies, or to the review. An unknown place leaves the intake as it is."""
    known = path == REVIEW or path in intake.order
    return replace(intake, position=AnswerPath.parse(path)) if known else intake


def undo(intake: Intake) -> Intake:
    """Take the last change of an answer back and stand where it was made."""
    if not intake.past:
        return intake
    answers, position = intake.past[-1]
    return Intake(answers, position, intake.past[:-1])


def add_entry(intake: Intake) -> Intake:
    """Add an empty entry to the list in hand and go to its first question."""
    path = intake.position
    found = entries(intake.answers, path)
    data = [item.model_dump(exclude_none=True) for item in found]
    changed = _changed(intake, with_answer(intake.answers, path, [*data, {}]), path)
    return into_entry(changed, len(found))


def into_entry(intake: Intake, entry: int) -> Intake:
    """To the first question of one entry of the list in hand."""
    inside = (path for path in intake.order if path.list == intake.position and path.entry == entry)
    return replace(intake, position=next(inside, intake.position))


def remove_entry(intake: Intake, index: int) -> Intake:
    """Take one entry out of the list in hand."""
    path = intake.position
    data = [item.model_dump(exclude_none=True) for item in entries(intake.answers, path)]
    return _changed(intake, with_answer(intake.answers, path, data[:index] + data[index + 1 :]), path)


def _index(order: list[AnswerPath], path: AnswerPath) -> int:
    return order.index(path) if path in order else 0


def progress(answers: Answers) -> dict[str, Progress]:
    """Section -> progress, for every section that applies; optional questions do not count."""
    found = {}
    for section in section_titles():
        asked = list(answer_paths(answers, section))
        paths = [path for path in asked if not question_of(path).optional]
        if asked:
            found[section] = Progress(sum(get(answers, path) is not None for path in paths), len(paths))
    return found
