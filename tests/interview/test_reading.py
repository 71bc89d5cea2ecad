"""What a person types, and the answer that is read in it; the clock stands at Wednesday 2026-11-25, 10:00."""

import time
from datetime import UTC, date, datetime
from typing import Any

import pytest

from consult.answers.access import BadAnswer
from consult.answers.format import format_answer
from consult.answers.questions import question_of
from tests.interview.typist import DAY, MOMENT, NOW, both, read, typed


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
        ("3 weeks ago", date(2026, 11, 4)),
        ("two weeks ago", date(2026, 11, 11)),
        ("the day before yesterday", date(2026, 11, 23)),
        ("yesterday evening", date(2026, 11, 24)),
        ("49 hours ago", date(2026, 11, 23)),
        ("23.11.", date(2026, 11, 23)),
        ("23.11", date(2026, 11, 23)),
        ("03.04.", date(2026, 4, 3)),
        ("03.04.25", date(2025, 4, 3)),
        ("23/11", date(2026, 11, 23)),
        ("11/23", date(2026, 11, 23)),
        ("2026/5/31", date(2026, 5, 31)),
        ("22 Nov", date(2026, 11, 22)),
        ("Nov 22", date(2026, 11, 22)),
        ("nov. 22nd", date(2026, 11, 22)),
        ("22 november 2025", date(2025, 11, 22)),
        ("November 22, 2025", date(2025, 11, 22)),
        ("26 Nov", date(2025, 11, 26)),
        ("29 Feb", date(2024, 2, 29)),
        ("tue", date(2026, 11, 24)),
        ("on Thursday", date(2026, 11, 19)),
        ("Mon, 23 Nov", date(2026, 11, 23)),
        ("31/5/95", date(1995, 5, 31)),
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
        ("2026-11-23T09:30:00Z", datetime(2026, 11, 23, 9, 30, tzinfo=UTC)),
        ("2026-11-23T09:30", datetime(2026, 11, 23, 9, 30, tzinfo=UTC)),
        ("tue 9:00", datetime(2026, 11, 24, 9, 0, tzinfo=UTC)),
        ("9am tuesday", datetime(2026, 11, 24, 9, 0, tzinfo=UTC)),
        ("thu 23:00", datetime(2026, 11, 19, 23, 0, tzinfo=UTC)),
        ("wed 23:00", datetime(2026, 11, 18, 23, 0, tzinfo=UTC)),
        ("yesterday 9 a.m.", datetime(2026, 11, 24, 9, 0, tzinfo=UTC)),
        ("yesterday at noon", datetime(2026, 11, 24, 12, 0, tzinfo=UTC)),
        ("yesterday 12 am", datetime(2026, 11, 24, 0, 0, tzinfo=UTC)),
        ("yesterday evening at 8", datetime(2026, 11, 24, 20, 0, tzinfo=UTC)),
        ("this morning 8:00", datetime(2026, 11, 25, 8, 0, tzinfo=UTC)),
        ("9.30", datetime(2026, 11, 25, 9, 30, tzinfo=UTC)),
        ("23.11. 9.30", datetime(2026, 11, 23, 9, 30, tzinfo=UTC)),
        ("Nov 22 9:30 pm", datetime(2026, 11, 22, 21, 30, tzinfo=UTC)),
        ("9:30 22 Nov 2026", datetime(2026, 11, 22, 9, 30, tzinfo=UTC)),
        ("49h", datetime(2026, 11, 23, 9, 0, tzinfo=UTC)),
        ("2 days and 3 hours ago", datetime(2026, 11, 23, 7, 0, tzinfo=UTC)),
        ("1h30 ago", datetime(2026, 11, 25, 8, 30, tzinfo=UTC)),
        ("45 min ago", datetime(2026, 11, 25, 9, 15, tzinfo=UTC)),
        ("half an hour ago", datetime(2026, 11, 25, 9, 30, tzinfo=UTC)),
        ("1.5 hours ago", datetime(2026, 11, 25, 8, 30, tzinfo=UTC)),
        ("two hours ago", datetime(2026, 11, 25, 8, 0, tzinfo=UTC)),
    ],
)
def test_a_moment(text: str, moment: datetime) -> None:
    assert typed("allergy_test.applied_at", text) == moment


@pytest.mark.parametrize(
    "text",
    [
        *("2026-11-23", "23.11.2026", "23.11.", "yesterday", "today", "2 days ago", "1 week ago"),
        *("yesterday evening", "this morning", "tue", "22 Nov", "3/4"),
    ],
)
def test_a_moment_without_its_time_of_day_is_asked_for_it(text: str) -> None:
    """Midnight, or the hour of typing, would let an allergy alert test pass hours early."""
    with pytest.raises(BadAnswer, match="add the time of day"):
        typed("allergy_test.applied_at", text)
    assert read("history.services.on", text)


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
        "spring 2025",
        "9:30",
        "Tue 23 Nov 2026",
        "2 0 2 6",
        "٢٣.١١.٢٠٢٦",
        "²3.11.",
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
        ("client.age", "47 years", 47),
        ("client.age", "don't know", "not sure"),
        ("client.name", "unknown", "unknown"),
        ("health.reactions.year", "2 years ago", 2024),
        ("history.known_months", "2 years", 24),
        ("product.test_hours", "2 days", 48),
        ("hair.length_cm", "12 in", 30.48),
        ("hair.length_cm", '13"', 33.02),
        ("hair.length_cm", "13 1/2 inches", 34.29),
        ("hair.length_cm", "13½ in", 34.29),
        ("goal.depth", "5½", 5.5),
        ("goal.depth", "level 5", 5.0),
        ("product.ratio", "1:1.5", 1.5),
        ("product.ratio", "1 to 1.5", 1.5),
        ("product.ratio", "1 + 1,5", 1.5),
        ("product.ratio", "1 1/2", 1.5),
        ("product.ratio", "1½", 1.5),
        ("product.ratio", "1:1 1/2", 1.5),
        ("product.developer_percent", "9", 9.0),
        ("product.developer_percent", "vol 20", 6.0),
        ("product.developer_percent", "20 vol.", 6.0),
        ("product.developer_percent", "6%", 6.0),
        ("product.minutes_total", "1 h", 60.0),
        ("product.minutes_total", "1h30", 90.0),
        ("product.minutes_total", "1½ hours", 90.0),
        ("product.minutes_total", "45 min", 45.0),
        ("product.tube_g", "110g", 110.0),
        ("product.tube_g", "4 oz", 113.4),
        ("product.pack_ml", "2 fl oz", 59.15),
        ("product.pack_ml", "1,000 ml", 1000.0),
        ("client.name", "  Ines\u202e ", "Ines"),
    ],
)
def test_numbers_words_and_not_sure(path: str, text: str, answer: Any) -> None:
    assert typed(path, text) == answer
    assert type(typed(path, text)) is type(answer)


@pytest.mark.parametrize("text", ["9/3", "6/4", "8.3", "5-6", "5/6", "1/2", "7/1"])
def test_the_number_of_a_shade_is_no_depth(text: str) -> None:
    for path in ("product.depth", "goal.depth", "hair.natural_depth"):
        with pytest.raises(BadAnswer, match="a number from 1 to 10"):
            read(path, text)


@pytest.mark.parametrize("text", ["20/6", "6 to 9", "6-9", "6 % or 9 %", "20 vol 30", "6 vol %"])
def test_two_strengths_are_no_strength(text: str) -> None:
    with pytest.raises(BadAnswer, match="a number from 1 to 40"):
        read("product.developer_percent", text)


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


@pytest.mark.parametrize(
    ("path", "text", "values"),
    [
        (DAY, "3/4", [date(2026, 4, 3), date(2026, 3, 4)]),
        (DAY, "3-4-2025", [date(2025, 4, 3), date(2025, 3, 4)]),
        (DAY, "11/12", [date(2025, 12, 11), date(2026, 11, 12)]),
        (DAY, "Wednesday", [date(2026, 11, 25), date(2026, 11, 18)]),
        (DAY, "last Tuesday", [date(2026, 11, 24), date(2026, 11, 17)]),
        (DAY, "May 2025", [date(2025, 5, 1), date(2025, 5, 15), date(2025, 5, 31)]),
        (MOMENT, "3/4 9:00", [datetime(2026, 4, 3, 9, tzinfo=UTC), datetime(2026, 3, 4, 9, tzinfo=UTC)]),
        (MOMENT, "yesterday at 9", [datetime(2026, 11, 24, hour, tzinfo=UTC) for hour in (9, 21)]),
        (MOMENT, "9h", [datetime(2026, 11, 25, hour, tzinfo=UTC) for hour in (1, 9)]),
        ("product.ratio", "1/2", [2.0, 0.5]),
        ("product.ratio", "2/1", [0.5, 2.0]),
        (DAY, "26-11-23", [date(2023, 11, 26), date(2026, 11, 23)]),
        ("hair.white_front", "1/2", [0.5, 50.0]),
        ("product.price", "1,250", [1.25, 1250.0]),
        # 20 vol are 6 % (trade); 20 % would be over the legal limit.
        ("product.developer_percent", "20", [6.0, 20.0]),
        ("product.developer_percent", "30,0", [9.0, 30.0]),
        ("history.services.developer_percent", "12", [3.64, 12.0]),
    ],
)
def test_what_can_be_meant_in_two_ways_is_offered_in_both(path: str, text: str, values: list[Any]) -> None:
    assert both(path, text) == values
    assert len({reading.words for reading in read(path, text)}) == len(values)


def test_a_clock_that_may_be_a_date_is_asked_back() -> None:
    with pytest.raises(BadAnswer, match=r"09:11, .*, or Mon 9 November 2026"):
        read(MOMENT, "9.11")
    assert typed(MOMENT, "today 9.11") == datetime(2026, 11, 25, 9, 11, tzinfo=UTC)


@pytest.mark.parametrize(
    ("path", "text", "words"),
    [
        (MOMENT, "mon 18:00", "Mon 23 November 2026, 18:00, 40 hours ago"),
        (MOMENT, "9.30", "Wed 25 November 2026, 09:30, 30 minutes ago"),
        (MOMENT, "23:00", "Wed 25 November 2026, 23:00, still to come"),
        (DAY, "6 weeks ago", "Wed 14 October 2026, 6 weeks ago"),
        (DAY, "tue", "Tue 24 November 2026, yesterday"),
        ("product.ratio", "1+1.5", "1.5 parts developer to 1 part colour"),
        ("product.ratio", "1:1", "1 part developer to 1 part colour"),
        ("product.developer_percent", "20 vol", "20 vol (6 %)"),
        ("product.developer_percent", "6", "6 % (20 vol)"),
        ("product.tube_g", "4 oz", "113.4 g (4 oz)"),
        ("product.tube_g", "110g", "110 g"),
        ("hair.length_cm", '13"', '33.02 cm (13")'),
        ("product.minutes_total", "1h30", "90 min (1h30)"),
        ("client.age", "47 years", "47 years"),
        ("client.age", "?", "not sure"),
    ],
)
def test_a_reading_is_echoed_before_it_counts(path: str, text: str, words: str) -> None:
    assert [reading.words for reading in read(path, text)] == [words]


def test_a_clock_put_back_shows_an_hour_twice_and_one_put_forward_leaves_one_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Directive 2000/84/EC: clocks change at 01:00 UTC on the last Sunday of March and of October."""
    monkeypatch.setenv("TZ", "Europe/Berlin")
    time.tzset()
    hour = [datetime(2026, 10, 25, hour, 30, tzinfo=UTC) for hour in (0, 1)]
    assert both(MOMENT, "25.10. 2:30") == hour
    assert all("(UTC+0" in reading.words for reading in read(MOMENT, "25.10. 2:30"))
    assert typed(MOMENT, "25.10. 3:30") == datetime(2026, 10, 25, 2, 30, tzinfo=UTC)
    with pytest.raises(BadAnswer):
        read(MOMENT, "29.3.2026 2:30")
