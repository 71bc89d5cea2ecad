"""Which questions are asked of one head, in which order, and which stand on the page in hand."""

from collections.abc import Iterator, Sequence
from typing import Any

from consult.answers import Answers
from consult.answers.access import applies, entries, get, with_answer
from consult.answers.base import NOT_SURE
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, question_of
from consult.interview.pages import Follows, interview, page_of
from consult.trade import Voice


def asked(answers: Answers, *, implied: bool = False) -> Iterator[AnswerPath]:
    """The questions in the order in which they are asked, list entries spread out; what follows from other answers
    is not among them, unless `implied` is wanted too."""
    left_out = set() if implied else {rule.question for rule in interview().follows if _holds(rule, answers)}
    for page in interview().pages:
        if page.each is not None:
            continue
        for path in page.questions:
            if path in left_out or not applies(answers, path) or not _worth_asking(answers, path):
                continue
            yield path
            if question_of(path).kind is Kind.ENTRIES:
                for entry in range(len(entries(answers, path))):
                    yield from _of_entry(answers, path, entry)


def _of_entry(answers: Answers, path: AnswerPath, entry: int) -> Iterator[AnswerPath]:
    each = next(page for page in interview().pages if page.each == path)
    for question in each.questions:
        inside = path.inside(entry, question.name)
        if applies(answers, inside):
            yield inside


def _worth_asking(answers: Answers, path: AnswerPath) -> bool:
    about = interview().told.get(path)
    return about is None or get(answers, path) is not None or any(is_told(answers, one) for one in about)


def is_told(answers: Answers, path: AnswerPath) -> bool:
    """Whether a sign was told: ticked, or a choice other than "none of these"; a doubt is one too."""
    value = get(answers, path)
    return value is not None and value != interview().none.get(path, ())


def stops(order: Sequence[AnswerPath]) -> list[AnswerPath]:
    """Where going on halts: what is needed, what is asked in passing, and once on each page at leisure."""
    found: list[AnswerPath] = []
    once: set[str] = set()
    for path in order:
        needed = not question_of(path).optional or path.question in interview().in_passing
        page = page_of(path)
        if needed or path in interview().told or (page.at_leisure and page.id not in once):
            found.append(path)
            once.add(page.id)
    return found


def together(order: Sequence[AnswerPath], position: AnswerPath, voice: Voice) -> tuple[AnswerPath, ...]:
    """The questions that stand on the screen with the one in hand: its page, or at home its card."""
    page = page_of(position)
    shown = page.card_of(position.question) if voice is Voice.HOME else page.questions
    on_page = (path for path in order if path.question in shown)
    if page.each is not None:
        return tuple(path for path in on_page if path.same_entry(position))
    return tuple(on_page)


def with_what_follows(before: Answers, after: Answers) -> Answers:
    """The changed answers with those that follow from others written down; what followed from an answer that was
    changed is open again."""
    for rule in interview().follows:
        if _holds(rule, after):
            if get(after, rule.question) != rule.answer:
                after = with_answer(after, rule.question, rule.answer)
        elif _holds(rule, before) and get(after, rule.question) == rule.answer:
            after = with_answer(after, rule.question, None)
    return after


def follows_from(answers: Answers, path: str) -> AnswerPath | None:
    """The question to go to instead of one whose answer follows from it; None where it is asked."""
    for rule in interview().follows:
        if rule.question == path and _holds(rule, answers):
            return rule.where[0][0]
    return None


def _holds(rule: Follows, answers: Answers) -> bool:
    return all(_same(get(answers, path), wanted) for path, wanted in rule.where)


def _same(given: Any, wanted: Any) -> bool:
    return bool(given is not None and given != NOT_SURE and given == wanted)
