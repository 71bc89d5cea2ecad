"""Random heads for the property tests: any valid answers, many of them near what rules look at."""

import random
from datetime import timedelta
from math import ceil
from typing import Any

from hypothesis import strategies as st

from consult.answers import Answers
from consult.answers.access import answer_paths, applies, from_data, get, with_answer
from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, Question, question_of, questions
from tests.baseline import BASELINE, NOW, TODAY

_SPANS = (-2, 0, 1, 6, 13, 14, 20, 21, 27, 28, 60, 180, 190, 400)


def _values(question: Question) -> st.SearchStrategy[Any]:
    """Known answers to a question."""
    if question.kind is Kind.CHOICE:
        return st.sampled_from(question.choices)
    if question.kind is Kind.SEVERAL:
        return st.lists(st.sampled_from(question.choices), max_size=2, unique=True)
    if question.kind is Kind.DAY:
        return st.sampled_from([TODAY - timedelta(days=days) for days in _SPANS])
    if question.kind is Kind.MOMENT:
        hours = (-1, 0, 24, 47.5, 48, 50, 95.5, 96, 100, 200)
        return st.sampled_from([NOW - timedelta(hours=span) for span in hours])
    if question.kind is Kind.TEXT:
        return st.just("41 12 20")
    if question.kind is Kind.ENTRIES:
        inner = {
            q.path.rpartition(".")[2]: answers_to(q)
            for q in questions().values()
            if q.entry_of == question.path
        }
        return st.lists(st.fixed_dictionaries({}, optional=inner), max_size=3)
    return _numbers(question)


def _numbers(question: Question) -> st.SearchStrategy[Any]:
    low, high = question.low or 0, question.high or 100
    if question.whole:
        return st.integers(int(low), int(high)) | st.sampled_from(question.literals or (int(high),))
    first = max(2, ceil(low * 2))
    halves = st.integers(first, max(first, min(20, int(high * 2)))).map(lambda n: n / 2)
    return halves if high <= 10 else halves | st.floats(low + 0.5, high)


def answers_to(question: Question) -> st.SearchStrategy[Any]:
    return _values(question) | st.just(NOT_SURE)


def _whole_head() -> st.SearchStrategy[dict[str, Any]]:
    paths = [q for q in questions().values() if not q.entry_of]
    return st.fixed_dictionaries({}, optional={q.path: answers_to(q) for q in paths})


def _answers(changes: dict[str, Any]) -> Answers:
    data = {section: dict(fields) for section, fields in BASELINE.items()}
    for path, value in changes.items():
        section, name = path.split(".")
        data.setdefault(section, {})[name] = value
    return from_data(data)


def _few_changes() -> st.SearchStrategy[dict[str, Any]]:
    top = [q for q in questions().values() if not q.entry_of]
    one = st.sampled_from(top).flatmap(lambda q: st.tuples(st.just(q.path), answers_to(q)))
    return st.lists(one, max_size=4).map(dict)


def heads() -> st.SearchStrategy[Answers]:
    """The sound client with a few answers changed, or with as many as there are."""
    return (_few_changes() | _whole_head()).map(_answers)


def given_paths(answers: Answers, *, required: bool = False) -> list[str]:
    """The answered questions that apply; without the optional ones if only `required` are wanted."""
    return [
        path
        for path in answer_paths(answers)
        if get(answers, path) is not None and not (required and question_of(path).optional)
    ]


def random_head(seed: int) -> Answers:
    """A complete head of any answers whatever, one in ten of them "not sure"; rules fire by the dozen."""
    rng = random.Random(seed)
    answers = Answers()
    for question in questions().values():
        if question.entry_of or not applies(answers, question.path) or rng.random() < 0.3 * question.optional:
            continue
        answers = with_answer(answers, question.path, _random_answer(question, rng))
    return answers


def _random_answer(question: Question, rng: random.Random) -> Any:
    if rng.random() < 0.1:
        return NOT_SURE
    if question.kind is Kind.CHOICE:
        return rng.choice(question.choices)
    if question.kind is Kind.SEVERAL:
        return rng.sample(question.choices, rng.randint(0, min(3, len(question.choices))))
    if question.kind is Kind.DAY:
        return TODAY - timedelta(days=rng.choice(_SPANS))
    if question.kind is Kind.MOMENT:
        return NOW - timedelta(hours=rng.uniform(0, 120))
    if question.kind is Kind.TEXT:
        return "41 12 20"
    if question.kind is Kind.ENTRIES:
        inner = [q for q in questions().values() if q.entry_of == question.path]
        return [{q.path.name: _random_answer(q, rng) for q in inner} for _ in range(rng.randint(0, 4))]
    low, high = question.low or 0, question.high or 100
    if question.whole:
        return rng.randint(int(low), int(high))
    return max(low or 0.5, round(rng.uniform(low, high) * 2) / 2)
