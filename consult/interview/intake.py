"""The intake as one immutable value: the answers, where the person stands, and how to go back.

Every transition is a pure function from one intake to the next, so that it needs no screen.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from functools import cached_property
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.access import BadAnswer, entries, get, with_answer
from consult.answers.conflicts import new_conflict
from consult.answers.paths import AnswerPath
from consult.answers.preliminary_tests import AllergyTest, StrandTest
from consult.answers.product import Product
from consult.answers.questions import Kind, question_of
from consult.interview.order import asked, stops, with_what_follows
from consult.interview.pages import chapters, interview, page_of

REVIEW: Final = AnswerPath.parse("review")
"""The place behind the last question."""
OF_A_PRODUCT: Final = (
    "product.",
    "lengths_product.",
    "goal.lengths_product",
    "allergy_test.",
    "strand_test.",
)
"""How the questions begin that nobody can answer before a product is bought."""
LONGEST_UNDO = 100


class Intake(Struct, frozen=True, dict=True):
    """`position` is the path of the question in hand, or REVIEW; `past` are earlier answers; questions that begin as in
    `passed_over` are not asked."""

    answers: Answers
    position: AnswerPath
    past: tuple[tuple[Answers, AnswerPath], ...] = ()
    passed_over: tuple[str, ...] = ()

    @property
    def section(self) -> str:
        return self.position.section

    @cached_property
    def order(self) -> list[AnswerPath]:
        """Every question that is asked as things stand."""
        return list(self.asked())

    def asked(self, *, implied: bool = False) -> Iterator[AnswerPath]:
        """The same; `implied`: with what follows from other answers."""
        return (
            path for path in asked(self.answers, implied=implied) if not path.startswith(self.passed_over)
        )

    @cached_property
    def _numbers(self) -> dict[AnswerPath, int]:
        """Path -> its number in the order."""
        return {path: number for number, path in enumerate(self.order)}

    def number_of(self, path: AnswerPath) -> int:
        """Which one in the order a question is; the first for one that is not asked."""
        return self._numbers.get(path, 0)

    @cached_property
    def stops(self) -> list[AnswerPath]:
        """Those of them at which going on halts."""
        return stops(self.order)

    @property
    def place(self) -> tuple[int, int]:
        """Which question is in hand, of how many as things stand: (47, 90)."""
        here = self.number_of(self.position)
        passed = [path for path in self.stops if self.number_of(path) < here]
        return min(len(passed) + 1, len(self.stops)), len(self.stops)


def _at(intake: Intake, position: AnswerPath) -> Intake:
    """Another question in hand; what follows from the answers alone stays as it was worked out."""
    moved = replace(intake, position=position)
    vars(moved).update(vars(intake))
    return moved


class Progress(Struct, frozen=True):
    """Questions of a chapter that count: how many are answered, of how many."""

    answered: int
    of: int

    @property
    def complete(self) -> bool:
        return self.answered >= self.of


def start(answers: Answers | None = None, position: str | None = None) -> Intake:
    """A new intake, or one that goes on at `position` if that is a question which applies."""
    intake = Intake(answers or Answers(), REVIEW)
    known = position is not None and (position == REVIEW or position in intake.order)
    return _at(intake, AnswerPath.parse(position) if known and position else intake.order[0])


def passing_over(intake: Intake, beginnings: tuple[str, ...]) -> Intake:
    """The same without the questions that begin so; from one of those, to the next that is needed."""
    over = replace(intake, passed_over=beginnings)
    if over.position == REVIEW or over.position in over.order:
        return over
    here = intake.number_of(intake.position)
    rest = (
        path for path in _needed(over) if intake.number_of(path) > here and get(over.answers, path) is None
    )
    return _at(over, next(rest, REVIEW))


def answer(intake: Intake, value: Any) -> Intake:
    """Answer the question in hand and stay there. Raises BadAnswer, leaving the intake as it was."""
    return answer_several(intake, {intake.position: value})


def answer_several(intake: Intake, values: dict[AnswerPath, Any]) -> Intake:
    """Answer questions at once and stay where one is. Raises BadAnswer, leaving the intake as it was."""
    changed = intake.answers
    for path, value in values.items():
        changed = with_answer(changed, path, value)
    return _changed(intake, changed, intake.position)


def answer_fitting(intake: Intake, values: dict[AnswerPath, Any], now: datetime) -> Intake:
    """The same, unless an answer contradicts another one. Raises BadAnswer, whose hint names the other question."""
    changed = answer_several(intake, values)
    conflict = new_conflict(intake.answers, changed.answers, now)
    if conflict:
        other = "" if conflict.path in values else f"{question_of(conflict.path).short}: "
        raise BadAnswer(conflict.path, other + conflict.hint)
    return changed


def none_of_these(intake: Intake, paths: tuple[AnswerPath, ...]) -> Intake:
    """Answer what is still open of a page of signs: nothing of it was found."""
    none = interview().none
    return answer_several(
        intake, {path: none[path] for path in paths if path in none and get(intake.answers, path) is None}
    )


def take_product(intake: Intake, product: Product, section: str) -> Intake:
    """Write a product that is known into a section and go to what is still open; the state of the pack in hand is
    asked anew."""
    product = product.model_copy(update={"pack": None})
    changed = _changed(intake, intake.answers.model_copy(update={section: product}), intake.position)
    here = changed.number_of(intake.position)
    rest = (path for path in _needed(changed) if changed.number_of(path) > here)
    return jump(changed, next((path for path in rest if get(changed.answers, path) is None), REVIEW))


def _changed(intake: Intake, answers: Answers, position: AnswerPath) -> Intake:
    answers = with_what_follows(intake.answers, answers)
    if answers == intake.answers:
        return intake
    past = (*intake.past, (intake.answers, intake.position))[-LONGEST_UNDO:]
    return replace(intake, answers=answers, position=position, past=past)


def forward(intake: Intake) -> Intake:
    """To the next question that is needed; from an answered one that is not, to whatever stands next on its page.

    The last question of a list entry leads back to its list.
    """
    here = intake.position
    given = here != REVIEW and question_of(here).optional and get(intake.answers, here) is not None
    return _ahead(intake, every=given)


def leave_open(intake: Intake) -> Intake:
    """To whatever stands next on the page, needed or not, else to the next question that is needed."""
    return _ahead(intake, every=True)


def _ahead(intake: Intake, *, every: bool) -> Intake:
    """The way on; `every` stops at what is not needed too, as long as it stands on the page in hand."""
    here = intake.position
    if here == REVIEW:
        return intake
    order = intake.order
    rest = order[intake.number_of(here) + 1 :]
    if question_of(here).kind is Kind.ENTRIES:
        rest = [path for path in rest if path.list != here]
    ahead = rest[:1] if every and rest and page_of(rest[0]) is page_of(here) else []
    halts = set(intake.stops)
    ahead = ahead or [path for path in rest if path in halts and not _known(intake, path)]
    if here.list and not (ahead and ahead[0].same_entry(here)):
        return _at(intake, AnswerPath.parse(here.list))
    return _at(intake, ahead[0] if ahead else REVIEW)


def _known(intake: Intake, path: AnswerPath) -> bool:
    """Whether all that is needed of a page is known, so that it need not be gone through."""
    page = page_of(path)
    if not page.known_once or page is page_of(intake.position):
        return False
    return all(get(intake.answers, one) is not None for one in _needed(intake) if page_of(one) is page)


def _needed(intake: Intake) -> list[AnswerPath]:
    return [path for path in intake.order if not question_of(path).optional]


def back(intake: Intake) -> Intake:
    """To the question before at which going on halts; at the first one it stays."""
    if intake.position == REVIEW:
        return _at(intake, intake.stops[-1])
    here = intake.number_of(intake.position)
    before = [path for path in intake.stops if intake.number_of(path) < here]
    return _at(intake, before[-1] if before else intake.order[0])


def jump(intake: Intake, path: str) -> Intake:
    """To any question that is asked, or to the review. An unknown place leaves the intake as it is."""
    known = path == REVIEW or path in intake.order
    return _at(intake, AnswerPath.parse(path)) if known else intake


def with_new_product(intake: Intake) -> Intake:
    """For a pack that is in hand now: nothing is known of it and nothing was tested with it; to what is open first.

    What went wrong in an earlier test stays: it is of the person or of the hair.
    """
    answers = intake.answers
    update: dict[str, Any] = {"product": Product(), "lengths_product": Product()}
    update["goal"] = answers.goal.model_copy(update={"lengths_product": None})
    skin, strand = answers.allergy_test, answers.strand_test
    signs = (*_told(skin.first_signs), *_told(skin.second_signs))
    update["allergy_test"] = skin.model_copy(update={"same_product": None}) if signs else AllergyTest()
    if strand.hair in (None, "sound"):
        update["strand_test"] = StrandTest()
    changed = _changed(intake, answers.model_copy(update=update), intake.position)
    rest = (path for path in _needed(changed) if get(changed.answers, path) is None)
    return _at(changed, next(rest, REVIEW))


def _told(signs: object) -> tuple[object, ...]:
    """Signs that were told; not sure is one."""
    return signs if isinstance(signs, tuple) else (signs,) if signs is not None else ()


def undo(intake: Intake) -> Intake:
    """Take the last change of an answer back and stand where it was made."""
    if not intake.past:
        return intake
    answers, position = intake.past[-1]
    return replace(intake, answers=answers, position=position, past=intake.past[:-1])


def add_entry(intake: Intake, like: int | None = None, *, habit: bool = False) -> Intake:
    """Add an entry to the list in hand and go to its first question: an empty one, a copy of entry `like`, or one
    that stands for a habit.

    Raises BadAnswer when the list is full.
    """
    path = intake.position
    found = entries(intake.answers, path)
    data = [item.model_dump(exclude_none=True) for item in found]
    new = {} if like is None or like >= len(found) else data[like]
    if habit:
        new = {interview().habit[path]: "yes"}
    changed = _changed(intake, with_answer(intake.answers, path, [*data, new]), path)
    return into_entry(changed, len(found))


def into_entry(intake: Intake, entry: int) -> Intake:
    """To the first question of one entry of the list in hand."""
    inside = (path for path in intake.order if path.list == intake.position and path.entry == entry)
    return _at(intake, next(inside, intake.position))


def remove_entry(intake: Intake, index: int) -> Intake:
    """Take one entry out of the list in hand."""
    path = intake.position
    data = [item.model_dump(exclude_none=True) for item in entries(intake.answers, path)]
    return _changed(intake, with_answer(intake.answers, path, data[:index] + data[index + 1 :]), path)


def progress(intake: Intake) -> dict[str, Progress]:
    """Chapter -> progress, for every chapter that is asked; optional questions do not count."""
    of, answered = Counter[str](), Counter[str]()
    for path in intake.order:
        chapter, needed = page_of(path).chapter, not question_of(path).optional
        of[chapter] += needed
        answered[chapter] += needed and get(intake.answers, path) is not None
    return {chapter: Progress(answered[chapter], of[chapter]) for chapter in chapters() if chapter in of}
