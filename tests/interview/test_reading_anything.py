"""Whatever is typed: written by the standard library, put together at random, or meant to hurt."""

import re
import time
from calendar import day_abbr, day_name, month_abbr, month_name
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.answers import Answers
from consult.answers.access import get, with_answer
from consult.answers.format import format_answer
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, question_of
from tests.interview.typist import DAY, MOMENT, NOW, TYPED, both, read_or_refused, typed

STYLES = ["%Y-%m-%d", "%d.%m.%Y", "%Y/%m/%d", "%d %B %Y", "%d %b %Y", "%B %d, %Y", "%b %d %Y", "%A, %d %B %Y"]
CLOCKS = ["%H:%M", "at %H:%M", "%I:%M %p", "%I.%M%p", "%H:%M:%S"]


@given(st.dates(date(1950, 1, 1), NOW.date()), st.sampled_from(STYLES))
def test_a_day_written_by_the_standard_library_is_read_as_that_day(day: date, style: str) -> None:
    assert typed(DAY, day.strftime(style)) == day


@given(
    st.datetimes(datetime(1950, 1, 1), NOW.replace(tzinfo=None)),
    st.sampled_from(STYLES),
    st.sampled_from(CLOCKS),
    st.booleans(),
)
def test_a_moment_written_by_the_standard_library_is_read_as_that_moment(
    at: datetime, style: str, clock: str, clock_first: bool
) -> None:
    parts = [at.strftime(style), at.strftime(clock)]
    found = typed(MOMENT, " ".join(reversed(parts) if clock_first else parts))
    assert found == at.replace(second=0, microsecond=0, tzinfo=UTC)


@given(st.dates(date(1950, 1, 1), NOW.date()))
def test_strokes_are_read_both_ways_where_both_are_days(day: date) -> None:
    ways = {day} | ({day.replace(day=day.month, month=day.day)} if day.day <= 12 else set())
    assert set(both(DAY, f"{day.day}/{day.month}/{day.year}")) == ways


@given(st.dates(NOW.date() - timedelta(days=364), NOW.date()))
def test_without_its_year_a_day_is_the_last_such_one(day: date) -> None:
    for text in (
        f"{day.day}.{day.month}.",
        f"{day.day} {month_abbr[day.month]}",
        f"{month_name[day.month]} {day.day}",
    ):
        assert typed(DAY, text) == day


WORDS = st.sampled_from(
    [
        *(
            "9",
            "20",
            "3/4",
            "1/2",
            "1½",
            "9.30",
            "9:30",
            "23.11.",
            "2026",
            "2026-11-23",
            "6",
            "12",
            "49",
            "1,000",
        ),
        *(
            "am",
            "pm",
            "h",
            "ago",
            "at",
            "noon",
            "morning",
            "evening",
            "o'clock",
            "today",
            "yesterday",
            "last",
        ),
        *(
            "days",
            "weeks",
            "months",
            "hours",
            "min",
            "in",
            "cm",
            "vol",
            "%",
            "oz",
            "g",
            ":",
            "+",
            "to",
            "ml",
            "?",
        ),
        *day_name,
        *day_abbr,
        *month_name[1:],
        *month_abbr[1:],
    ]
)


@settings(max_examples=400)
@given(st.sampled_from(TYPED), st.lists(WORDS, min_size=1, max_size=5), st.sampled_from(["", " "]))
def test_whatever_is_read_fits_and_is_echoed_as_it_is_stored(path: str, words: list[str], gap: str) -> None:
    question = question_of(path)
    found = read_or_refused(path, gap.join(words))
    assert len({reading.value for reading in found}) == len(found)
    for reading in found:
        assert _stored(path, reading.value) == reading.value
        if reading.value == "not sure":
            continue
        again = both(path, format_answer(question, reading.value, unit=False))
        assert reading.value in again
        if question.kind is Kind.DAY:
            echo = datetime.strptime(reading.words[: reading.words.index(",")], "%a %d %B %Y").date()
            assert echo == reading.value
        if question.kind is Kind.MOMENT:
            echo_at = datetime.strptime(", ".join(reading.words.split(", ")[:2]), "%a %d %B %Y, %H:%M")
            assert echo_at.replace(tzinfo=UTC) == reading.value
            assert re.search(
                r"\d[:.h]\d|\dh|\d ?(am|pm|min|h)|at ?\d|o'clock|noon|(morn|even)ing", gap.join(words)
            )


def _stored(path: str, value: Any) -> Any:
    where = AnswerPath.parse(path)
    if where.list is None:
        return get(with_answer(Answers(), path, value), path)
    answers = with_answer(Answers(), where.list, [{}])
    inside = AnswerPath.parse(where.list).inside(0, where.name)
    return get(with_answer(answers, inside, value), inside)


HOSTILE = [
    *("9" * 10_000, " " * 10_000 + "9", "a" * 10_000, "9 " * 5_000, "1/" * 5_000, "1:" * 5_000, "½" * 10_000),
    *(
        "\x1b[31m9\x07",
        "\u202e9",
        "\ud800",
        "9\x00",
        "٣",
        "９",
        "Ⅻ",
        "²",
        "9" * 300 + ".",
        "1e9999",
        "inf",
        "nan",
    ),
    *(
        "-1",
        "0/0",
        "1/0",
        "1:0",
        "0:1",
        "9999-99-99",
        "1.1.0000",
        "99999999999999 hours ago",
        "9999 years ago",
    ),
    *("0001-01-01 0:00", "9999-12-31 23:59", "2026-11-23 09:30+99:99", "0001-01-01 00:00+14:00", "at " * 40),
]


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_is_refused_or_read_at_once(text: str) -> None:
    for path in TYPED:
        before = time.process_time()
        found = read_or_refused(path, text)
        assert time.process_time() - before < 0.1
        assert all(_stored(path, reading.value) == reading.value for reading in found)


@settings(max_examples=300)
@given(st.sampled_from(TYPED), st.text(max_size=40))
def test_no_text_raises_anything_but_a_bad_answer(path: str, text: str) -> None:
    for reading in read_or_refused(path, text):
        assert _stored(path, reading.value) == reading.value
