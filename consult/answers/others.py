"""Other answers that a question could have had: what is tried out to see on which answers a result rests, and how a
set of them is told."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Any, Final

from consult.answers.access import BadAnswer, fitting
from consult.answers.format import format_answer
from consult.answers.questions import Kind, Question

MOST_STEPS: Final = 24
"""A scale of at most so many steps is tried whole; a longer one at some of its places."""
SHARES: Final = (0.25, 0.5, 0.75, 0.9, 1.1, 1.5, 2.0, 4.0)
STRENGTHS: Final = (1.5, 3.0, 4.0, 6.0, 9.0, 12.0)
"""Percent of hydrogen peroxide that developers are sold with (common practice)."""
DAYS: Final = (1, 2, 3, 7, 14, 28, 60, 120, 240, 480, 960)
MOST_TOLD: Final = 4


def other_answers(question: Question, value: Any, now: datetime) -> list[Any]:
    """Answers other than `value` that fit the question, on a scale in its order; none of a text or a list."""
    match question.kind:
        case Kind.CHOICE:
            tried: list[Any] = list(question.choices)
        case Kind.SEVERAL:
            tried = [(choice,) for choice in question.choices]
        case Kind.NUMBER:
            tried = _numbers(question, value)
        case Kind.DAY | Kind.MOMENT:
            tried = _moments(value, now)
        case _:
            tried = []
    return [other for other in tried if other != value and _fits(question, other)]


def _fits(question: Question, value: Any) -> bool:
    try:
        fitting(question, value)
    except BadAnswer:
        return False
    return True


def _numbers(question: Question, value: Any) -> list[Any]:
    if question.path.name == "developer_percent":
        return list(STRENGTHS)
    low, high = question.low or 0.0, question.high or 0.0
    step = 1.0 if question.whole or question.step is None else question.step
    if (high - low) / step <= MOST_STEPS:
        scale = [low + step * n for n in range(int((high - low) / step) + 1)]
    elif isinstance(value, int | float):
        scale = [max(low, min(high, round(value * share / step) * step)) for share in SHARES]
    else:
        scale = [low + (high - low) * n / MOST_STEPS for n in range(MOST_STEPS + 1)]
    ordered = sorted({float(f"{number:.2g}") for number in scale})
    return [int(number) for number in ordered] if question.whole else ordered


def _moments(value: Any, now: datetime) -> list[Any]:
    """Earlier and later ones, none to come."""
    if not isinstance(value, date):
        return []
    last: date = now if isinstance(value, datetime) else now.date()
    moved = [value + timedelta(days=sign * days) for days in DAYS for sign in (-1, 1)]
    return sorted(moment for moment in moved if moment <= last)


def values_words(question: Question, value: Any, values: Sequence[Any], tried: Sequence[Any]) -> str:
    """Values in words: "4 or darker", "no", "2 to 5"; `value` is the answer, `tried` all that were tried, in order."""
    if question.kind in (Kind.DAY, Kind.MOMENT):
        return _moved_words(value, values)
    if question.kind in (Kind.CHOICE, Kind.SEVERAL):
        if len(values) > MOST_TOLD:
            return "another answer"
        return " or ".join(format_answer(question, value) for value in values)
    places = [tried.index(value) for value in values]
    first, last = format_answer(question, values[0]), format_answer(question, values[-1])
    if places != list(range(places[0], places[-1] + 1)):
        return " or ".join(format_answer(question, value) for value in values[:MOST_TOLD])
    less, more = _directions(question)
    if places[0] == 0 and places[-1] == len(tried) - 1:
        return "another answer"
    if places[0] == 0:
        return f"{last} or {less}"
    if places[-1] == len(tried) - 1:
        return f"{first} or {more}"
    return first if first == last else f"{first} to {last}"


def _directions(question: Question) -> tuple[str, str]:
    """How the way down and the way up its scale are called."""
    if question.path.name.endswith("depth"):
        return "darker", "lighter"
    return "less", "more"


def _moved_words(moment: Any, values: Sequence[Any]) -> str:
    """By how much a day or a moment would have to be another one, at the least."""
    nearest = min(values, key=lambda other: abs(other - moment))
    days = abs((nearest - moment).days)
    return (
        f"{days} {'day' if days == 1 else 'days'} {'earlier' if nearest < moment else 'later'}, at the least"
    )
