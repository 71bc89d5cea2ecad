"""Upkeep as a year: dates, tests, packs, cost and exposure of the same hair."""

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from consult.buying.year import HABITS, plan_year
from consult.consultation import consult
from consult.gates.verdict import Verdict
from consult.plan.types import Made
from tests.baseline import NOW, baseline
from tests.demo import load
from tests.plan.heads import head


def test_so_many_visits_as_a_year_holds() -> None:
    year = plan_year(load("ines").answers, NOW)
    assert {habit.weeks: len(habit.visits) for habit in year.habits} == {4: 13, 6: 8, 8: 6}
    for habit in year.habits:
        dates = [visit.on for visit in habit.visits]
        assert dates == [NOW + timedelta(weeks=habit.weeks * n) for n in range(1, len(dates) + 1)]


def test_each_test_is_two_days_before_and_within_the_week() -> None:
    for habit in plan_year(load("ines").answers, NOW).habits:
        for visit in habit.visits:
            before = visit.on.date()
            assert timedelta(days=2) <= before - visit.test.test_until
            assert before - visit.test.test_from <= timedelta(days=7)
            assert visit.test.test_from <= visit.test.test_until


def test_white_shows_by_the_published_growth() -> None:
    # 1.1 cm a month (0.8 to 1.3): 12.9 weeks make 3 months.
    answers = load("jonas").answers
    for habit in plan_year(answers, NOW).habits:
        months = habit.weeks * 7 / 30.4375
        assert abs(habit.visits[0].cm - 1.1 * months) < 0.06
        assert abs(habit.visits[0].cm_most - 1.3 * months) < 0.15


def test_the_cost_is_the_packs_times_the_price_and_unknown_without_one() -> None:
    answers = load("ines").answers
    assert all(habit.cost is None for habit in plan_year(answers, NOW).habits)
    priced = answers.model_copy(update={"product": answers.product.model_copy(update={"price": 7.5})})
    for habit in plan_year(priced, NOW).habits:
        assert habit.cost == round(7.5 * habit.packs, 2)


def test_colour_without_developer_adds_no_pass_and_oxidative_colour_does() -> None:
    assert [habit.added for habit in plan_year(load("sunniva").answers, NOW).habits] == [0, 0, 0]
    worn = plan_year(load("ines").answers, NOW).habits
    assert all(habit.added > 0 for habit in worn)
    assert all(any("developer" in line.say.plain for line in habit.lines) for habit in worn)


def test_a_head_that_the_gates_hold_has_no_year() -> None:
    for name in ("hanna", "lotte", "kofi", "elif", "piet"):
        year = plan_year(load(name).answers, NOW)
        assert year.habits == ()
    reacted = baseline({"health.ever_reacted": "yes", "health.reactions": ()})
    assert plan_year(reacted, NOW).first.verdict is Verdict.STOP


@settings(max_examples=12, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_over_random_heads_every_number_is_in_range_and_passes_never_fall(seed: int) -> None:
    year = plan_year(head(seed), NOW)
    if not isinstance(year.first.plan, Made):
        assert year.habits == ()
        return
    assert [habit.weeks for habit in year.habits] == list(HABITS)
    for habit in year.habits:
        assert habit.held or len(habit.visits) == 365 // (habit.weeks * 7)
        for visit in habit.visits:
            assert 1 <= visit.packs <= 30
            assert 0 < visit.cm <= visit.cm_most < 5
            assert 0 <= visit.passes < 150
            assert visit.left_g >= 0
    assert year.lines


def test_a_visit_is_what_the_program_would_plan_on_that_day() -> None:
    year = plan_year(load("tomas").answers, NOW)
    assert consult(load("tomas").answers, NOW).verdict is Verdict.CLEAR
    assert all(not habit.held for habit in year.habits)
