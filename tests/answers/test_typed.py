"""What a person types into a field, read at one known moment: Wednesday 2026-11-25, 10:00."""

import re
from datetime import UTC, date, datetime
from typing import Any

import pytest

from consult.answers.access import BadAnswer
from consult.answers.format import format_answer
from consult.answers.questions import question_of
from consult.interview.reading import read_typed

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)


def typed(path: str, text: str) -> Any:
    return read_typed(question_of(path), text, NOW)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-05-31", date(2026, 5, 31)),
        ("2026-5-31", date(2026, 5, 31)),
        ("31.5.2026", date(2026, 5, 31)),
        (" 31.05.2026 ", date(2026, 5, 31)),
        ("today", date(2026, 11, 25)),
        ("Yesterday", date(2026, 11, 24)),
        ("6 weeks ago", date(2026, 10, 14)),
        ("6 weeks", date(2026, 10, 14)),
        ("6w", date(2026, 10, 14)),
        ("1 day ago", date(2026, 11, 24)),
        ("3 months ago", date(2026, 8, 25)),
        ("11 months ago", date(2025, 12, 25)),
        ("2 years ago", date(2024, 11, 25)),
    ],
)
def test_a_day(text: str, day: date) -> None:
    assert typed("history.services.on", text) == day


@pytest.mark.parametrize(
    ("text", "moment"),
    [
        ("2026-11-23 9:30", datetime(2026, 11, 23, 9, 30, tzinfo=UTC)),
        ("2026-11-23 09:30", datetime(2026, 11, 23, 9, 30, tzinfo=UTC)),
        ("23.11.2026 9:30", datetime(2026, 11, 23, 9, 30, tzinfo=UTC)),
        ("today 9:15", datetime(2026, 11, 25, 9, 15, tzinfo=UTC)),
        ("yesterday, 21:05", datetime(2026, 11, 24, 21, 5, tzinfo=UTC)),
        ("49 hours ago", datetime(2026, 11, 23, 9, 0, tzinfo=UTC)),
        ("2 days ago 8:00", datetime(2026, 11, 23, 8, 0, tzinfo=UTC)),
        ("now", NOW),
        ("2026-11-23 09:30+02:00", datetime(2026, 11, 23, 7, 30, tzinfo=UTC)),
    ],
)
def test_a_moment(text: str, moment: datetime) -> None:
    assert typed("allergy_test.applied_at", text) == moment


@pytest.mark.parametrize(
    "text", ["2026-11-23", "23.11.2026", "yesterday", "today", "2 days ago", "1 week ago"]
)
def test_a_moment_without_its_time_of_day_is_asked_for_it(text: str) -> None:
    """Midnight, or the hour of typing, would let an allergy alert test pass hours early."""
    with pytest.raises(BadAnswer, match="add the time of day"):
        typed("allergy_test.applied_at", text)
    assert typed("history.services.on", text)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("20", "is it 20 vol (6 %) or 20 %?"),
        ("10", "is it 10 vol (3 %) or 10 %?"),
        ("12", "is it 12 vol (3.64 %) or 12 %?"),
        ("30,0", "is it 30 vol (9 %) or 30 %?"),
    ],
)
def test_a_bare_strength_that_may_be_volumes_is_asked_back(text: str, asked: str) -> None:
    """20 vol are 6 % (trade); 20 % would be over the legal limit."""
    with pytest.raises(BadAnswer, match=re.escape(asked)):
        typed("product.developer_percent", text)
    assert typed("product.developer_percent", "9") == 9


@pytest.mark.parametrize(
    "text",
    [
        "2026-02-30",
        "30.2.2026",
        "31.13.2026",
        "today 25:00",
        "today 9:75",
        "some time ago",
        "6 fortnights ago",
        "0000-01-01",
        "99999 years ago",
        "9" * 5000 + " days ago",
        "-3 days ago",
    ],
)
def test_an_impossible_date_is_refused_with_the_shape_of_a_right_one(text: str) -> None:
    with pytest.raises(BadAnswer, match="a date such as 2026-05-31") as refused:
        typed("history.services.on", text)
    assert text not in str(refused.value)


@pytest.mark.parametrize(
    ("path", "text", "answer"),
    [
        ("client.age", "41", 41),
        ("client.age", "16 OR over", "16 or over"),
        ("client.age", "?", "not sure"),
        ("client.age", "Not Sure", "not sure"),
        ("client.age", "", None),
        ("client.age", "  \x1b ", None),
        ("hair.natural_depth", "5,5", 5.5),
        ("hair.natural_depth", "5.5", 5.5),
        ("hair.length_cm", "12 in", "12 in"),
        ("client.name", "  Ines\u202e ", "Ines"),
    ],
)
def test_numbers_words_and_not_sure(path: str, text: str, answer: Any) -> None:
    assert typed(path, text) == answer
    assert type(typed(path, text)) is type(answer)


@pytest.mark.parametrize("text", ["5.5", "forty", "-4", "4 1", "9" * 5000, "²"])
def test_a_whole_number_must_be_one(text: str) -> None:
    with pytest.raises(BadAnswer, match="a whole number from 0 to 120 years") as refused:
        typed("client.age", text)
    assert text not in refused.value.hint


@pytest.mark.parametrize(
    ("path", "value", "words"),
    [
        ("hair.length_cm", 34.0, "34 cm"),
        ("hair.length_cm", 30.48, "30.48 cm"),
        ("product.ratio", 1.5, "1:1.5"),
        ("client.age", None, ""),
        ("client.age", "not sure", "not sure"),
        ("scalp.signs", (), "none"),
        ("scalp.signs", ("redness", "sunburn"), "redness, sunburn"),
        ("history.services", (), "none"),
        ("allergy_test.applied_at", datetime(2026, 11, 23, 9, 5, tzinfo=UTC), "2026-11-23 09:05"),
        ("history.services.on", date(2026, 10, 14), "2026-10-14"),
    ],
)
def test_an_answer_as_it_is_shown(path: str, value: Any, words: str) -> None:
    assert format_answer(question_of(path), value) == words


@pytest.mark.parametrize("path", ["history.services.on", "allergy_test.applied_at", "hair.length_cm"])
def test_what_is_shown_can_be_typed_again(path: str) -> None:
    value = {"on": date(2026, 10, 14), "applied_at": NOW, "length_cm": 30.48}[path.rpartition(".")[2]]
    assert typed(path, format_answer(question_of(path), value, unit=False)) == value
