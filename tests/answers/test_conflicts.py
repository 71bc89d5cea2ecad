"""Answers that cannot be true together are told, wherever the second of them is given."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest

from consult.answers import Answers
from consult.answers.conflicts import conflicts, new_conflict
from tests.baseline import NOW, baseline

LATER = timedelta(hours=1)


def paths(answers: Answers, now: datetime = NOW) -> list[str]:
    return [conflict.path for conflict in conflicts(answers, now)]


def test_a_sound_client_contradicts_herself_nowhere() -> None:
    assert paths(baseline()) == []
    assert paths(Answers()) == []


@pytest.mark.parametrize(
    ("changes", "where"),
    [
        ({"history.services": [{"kind": "perm", "on": date(2026, 11, 26)}]}, "history.services.0.on"),
        ({"history.services": [{"kind": "perm", "on": date(1949, 12, 31)}]}, "history.services.0.on"),
        ({"allergy_test.second_read_at": NOW + LATER}, "allergy_test.second_read_at"),
        ({"allergy_test.first_read_at": NOW - timedelta(hours=49)}, "allergy_test.first_read_at"),
        (
            {"allergy_test.second_read_at": NOW - timedelta(hours=47, minutes=45)},
            "allergy_test.second_read_at",
        ),
        ({"product.chart_from": 8.0}, "product.chart_to"),
        ({"product.minutes_refresh": 36.0}, "product.minutes_max"),
        ({"hair.new_growth_cm": 34.5}, "hair.length_cm"),
    ],
)
def test_what_cannot_be_true_is_named(changes: dict[str, Any], where: str) -> None:
    assert paths(baseline(changes)) == [where]


@pytest.mark.parametrize(
    "changes",
    [
        {"history.services": [{"kind": "perm", "on": date(2026, 11, 25)}]},
        {"history.services": [{"kind": "perm", "on": date(1950, 1, 1)}]},
        {"allergy_test.second_read_at": NOW + timedelta(minutes=5)},
        {"product.minutes_min": 30.0},
        {"hair.new_growth_cm": 34.0},
        {"hair.new_growth_cm": "not sure"},
        {"hair.length_cm": None, "hair.new_growth_cm": 50.0},
    ],
)
def test_what_just_can_be_true_is_taken(changes: dict[str, Any]) -> None:
    assert paths(baseline(changes)) == []


def test_a_moment_before_living_memory_is_a_slip_of_the_pen() -> None:
    long_ago = datetime(1, 1, 2, tzinfo=NOW.tzinfo)
    assert "allergy_test.applied_at" in paths(baseline({"allergy_test.applied_at": long_ago}))


def test_an_earlier_answer_may_not_contradict_a_later_one_either() -> None:
    conflict = new_conflict(baseline(), baseline({"hair.new_growth_cm": 50.0}), NOW)
    assert conflict is not None
    assert conflict.path == "hair.length_cm"
    assert "new growth" in conflict.hint


def test_a_conflict_that_stood_before_blocks_no_other_answer() -> None:
    before = baseline({"product.minutes_min": 40.0})
    assert new_conflict(before, baseline({"product.minutes_min": 40.0, "client.age": 50}), NOW) is None


def test_a_conflict_tells_both_lengths_but_no_time_of_a_test_on_somebodys_skin() -> None:
    (hair,) = conflicts(baseline({"hair.new_growth_cm": 1.5, "hair.length_cm": 1.0}), NOW)
    assert hair.hint == "1 cm is shorter than new growth (1.5 cm); correct one of them"
    test_first = conflicts(baseline({"allergy_test.first_read_at": NOW - timedelta(days=300)}), NOW)
    assert [conflict.hint for conflict in test_first] == [
        "this is earlier than applied at; correct one of them"
    ]
