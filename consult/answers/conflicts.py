"""Answers that cannot be true together or at all: dates to come, readings before the test."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from functools import cache
from typing import Any

from consult.answers import Answers
from consult.answers.access import BadAnswer, applies, entries, get
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.hair import ALL_WHITE
from consult.answers.paths import AnswerPath
from consult.answers.product import Product
from consult.answers.questions import Kind, question_of, questions
from consult.dates import day_name

_PRODUCT_IN_ORDER = (
    ("chart_from", "chart_to"),
    ("minutes_min", "minutes_max"),
    ("minutes_min", "minutes_new_growth"),
    ("minutes_min", "minutes_white"),
    ("minutes_new_growth", "minutes_max"),
    ("minutes_white", "minutes_max"),
    ("minutes_refresh", "minutes_max"),
)
_IN_ORDER = (
    ("allergy_test.applied_at", "allergy_test.first_read_at"),
    ("allergy_test.first_read_at", "allergy_test.second_read_at"),
    ("allergy_test.applied_at", "allergy_test.second_read_at"),
    ("hair.new_growth_cm", "hair.length_cm"),
)
EARLIEST_YEAR = 1950
# A clock set a little differently on another machine is no conflict.
_CLOCK_SLACK = timedelta(minutes=5)


def conflicts(answers: Answers, now: datetime) -> list[BadAnswer]:
    """Every conflict, each naming the answer to correct; dates after `now` are impossible."""
    return [
        *_to_come(answers, now),
        *_out_of_order(answers),
        *product_conflicts(answers.product, "product"),
        *product_conflicts(answers.lengths_product, "lengths_product"),
        *_white_denied(answers),
    ]


def new_conflict(before: Answers, after: Answers, now: datetime) -> BadAnswer | None:
    """The first conflict that a change brings about, whichever of its two answers was changed."""
    known = {str(conflict) for conflict in conflicts(before, now)}
    return next((conflict for conflict in conflicts(after, now) if str(conflict) not in known), None)


def _to_come(answers: Answers, now: datetime) -> list[BadAnswer]:
    found = []
    for path in _dated(answers):
        value = get(answers, path)
        if not isinstance(value, date):
            continue
        late = value > now + _CLOCK_SLACK if isinstance(value, datetime) else value > now.date()
        if late or value.year < EARLIEST_YEAR:
            when = f"lies after {day_name(now)}, {now:%H:%M}" if late else f"lies before {EARLIEST_YEAR}"
            found.append(BadAnswer(path, f"this date {when}; check day, month and year"))
    return found


@cache
def _dates() -> tuple[AnswerPath, ...]:
    """The questions for a day or a moment."""
    return tuple(q.path for q in questions().values() if q.kind in (Kind.DAY, Kind.MOMENT))


def _dated(answers: Answers) -> Iterator[AnswerPath]:
    """Where these answers have a date, if one was given."""
    for path in _dates():
        if path.list:
            listed = AnswerPath.parse(path.list)
            places = [listed.inside(entry, path.name) for entry in range(len(entries(answers, listed)))]
        else:
            places = [path]
        yield from (place for place in places if applies(answers, place))


def _value(answers: Answers, path: str) -> Any:
    value = get(answers, path)
    return None if value == NOT_SURE else value


def _out_of_order(answers: Answers) -> list[BadAnswer]:
    return [
        _less_than(then, then, _value(answers, then), first, _value(answers, first))
        for first, then in _IN_ORDER
        if _less(_value(answers, then), _value(answers, first))
    ]


def product_conflicts(product: Product, place: str) -> list[BadAnswer]:
    """The same for the leaflet of one product; `place` is the path of that product."""
    return [
        _less_than(
            f"{place}.{then}",
            f"product.{then}",
            getattr(product, then),
            f"product.{first}",
            getattr(product, first),
        )
        for first, then in _PRODUCT_IN_ORDER
        if _less(getattr(product, then), getattr(product, first))
    ]


def _less(then: Any, first: Any) -> bool:
    known = then not in (None, NOT_SURE) and first not in (None, NOT_SURE)
    return bool(known and then < first)


def _less_than(place: str, then: str, value: Any, first: str, other: Any) -> BadAnswer:
    """At `place`; both answers are told of hair and leaflet, never of a test on somebody's skin."""
    question, before = question_of(then), question_of(first)
    if question.section == "allergy_test":
        return BadAnswer(place, f"this is earlier than {before.short.lower()}; correct one of them")
    word = "shorter" if question.unit.startswith("cm") else "less"
    return BadAnswer(
        place,
        f"{format_answer(question, value)} is {word} than {before.short.lower()} ({format_answer(before, other)}); "
        "correct one of them",
    )


def _white_denied(answers: Answers) -> list[BadAnswer]:
    zones = [_value(answers, f"hair.white_{zone}") for zone in ("front", "temples", "crown", "nape")]
    if answers.goal.white == "there is none" and any(zones):
        return [
            BadAnswer(
                "goal.white", "white hair was found; say what should happen to it, or correct the shares"
            )
        ]
    if answers.hair.natural_depth == ALL_WHITE and any(z is not None and z < 100 for z in zones):
        return [
            BadAnswer("hair.natural_depth", "some hair is not white: read its depth, or correct the shares")
        ]
    return []
