"""A habit is one entry; the strand unrolls it into the times it was done."""

from datetime import timedelta
from typing import Any

import pytest

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.consultation import consult
from consult.head.build import build_head
from tests.baseline import NOW, TODAY, baseline

LAST = TODAY - timedelta(weeks=6)
TINT = {
    "kind": "permanent colour",
    "stretch": "new growth",
    "depth": 5.0,
    "tone": "gold",
    "developer_percent": 6.0,
    "by": "at home",
}


def told(services: list[dict[str, Any]]) -> Answers:
    return baseline({"history.services": services})


@pytest.mark.parametrize(("weeks", "times"), [(4, 9), (6, 6), (8, 3), (5, 1)])
@pytest.mark.parametrize("stretch", ["new growth", "all over"])
def test_a_habit_is_judged_as_its_single_times_are(weeks: int, times: int, stretch: str) -> None:
    """The same head, findings and plan as when every time is told as a service of its own."""
    tint = {**TINT, "stretch": stretch}
    first = LAST - timedelta(weeks=weeks * (times - 1))
    habit = told([{**tint, "on": LAST, "regular": "yes", "every_weeks": weeks, "first_on": first}])
    single = told([{**tint, "on": LAST - timedelta(weeks=weeks * number)} for number in range(times)])
    assert build_head(habit, TODAY) == build_head(single, TODAY)
    one, other = consult(habit, NOW), consult(single, NOW)
    assert {f.rule for f in one.findings} == {f.rule for f in other.findings}
    assert one.plan.__class__ is other.plan.__class__


def test_in_doubt_a_habit_lies_on_all_of_the_hair_and_never_on_less() -> None:
    sure = {**TINT, "stretch": "all over", "on": LAST, "regular": "yes"}
    known = told([{**sure, "every_weeks": 8, "first_on": LAST - timedelta(weeks=48)}])
    doubt = told([{**sure, "every_weeks": NOT_SURE, "first_on": NOT_SURE}])
    passes = []
    for answers in (known, doubt):
        head = build_head(answers, TODAY)
        assert head
        passes.append(max(band.passes for band in head.bands))
    assert passes[1] > passes[0]
