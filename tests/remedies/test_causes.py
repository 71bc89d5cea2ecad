"""Why it went wrong: a planted cause is found, the log weighs, and nothing is claimed where nothing was read."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from consult.answers import Answers
from consult.colour.prediction import predict
from consult.colour.values import Shade
from consult.consultation import consult
from consult.plan.application import reaching
from consult.plan.forecast import state_of, treatment_of
from consult.plan.types import Made
from consult.remedies.causes import LEAST_EXPLAINED, Cause, Weight, cause_line, causes, share_words
from consult.remedies.day import day_from_data
from consult.remedies.remedy import remedy
from consult.trade import Stretch
from tests.baseline import NOW
from tests.demo import load
from tests.plan.heads import head
from tests.remedies.days import day


def log(**told: Any) -> Any:
    return day_from_data({"what": ["too dark"], "done_at": NOW, **told})


def told(answers: Answers, **logged: Any) -> list[Cause]:
    return list(causes(answers, log(**logged), NOW).ranked)


def ids(found: list[Cause]) -> list[str]:
    return [cause.id for cause in found]


def test_what_came_out_as_foreseen_has_no_cause() -> None:
    answers = load("tomas").answers
    plan = consult(answers, NOW).plan
    assert isinstance(plan, Made)
    band = next(
        b
        for b in max(plan.case.head.areas, key=lambda a: len(a.zones)).strand.bands
        if b.stretch is Stretch.ENDS
    )
    seen = predict(state_of(band), None, plan.case.wish.shade).seen
    found = causes(answers, log(ends_depth=seen.depth, ends_tone=seen.tone), NOW)
    assert found.ranked == ()
    assert any("as foreseen" in line.say.plain for line in found.lines)


def test_overlap_that_was_logged_is_found_and_one_that_was_denied_is_not() -> None:
    # Lengths of depth 7, a plan for the new growth only, a shade of depth 4: colour on them makes them dark.
    answers = load("tomas").answers
    hair = answers.hair.model_copy(update={"lengths_depth": 7.0, "ends_depth": 7.0})
    goal = answers.goal.model_copy(update={"extent": "new growth only"})
    answers = answers.model_copy(update={"hair": hair, "goal": goal})
    dark = {"lengths_depth": 5.0, "lengths_tone": "gold"}
    logged = told(answers, **dark, overlap="yes")
    assert logged[0].id == "overlap"
    assert logged[0].weight is Weight.LOGGED
    assert "overlap" not in ids(told(answers, **dark, overlap="no"))
    open_ = next(c for c in told(answers, **dark) if c.id == "overlap")
    assert open_.weight is Weight.POSSIBLE
    assert open_.share == logged[0].share


def test_white_that_still_shows_is_explained_by_the_missing_minutes_as_the_square_root_says() -> None:
    # 18 of 30 minutes: uptake 1 * sqrt(0.6) = 0.77, so 0.23 of the colour is missing; 40 % of the white shows.
    found = told(load("tomas").answers, white_left=40.0, minutes_new_growth=18.0, mixed_g=500.0)
    minutes = next(c for c in found if c.id == "minutes")
    assert minutes.weight is Weight.LOGGED
    assert minutes.share == pytest.approx(0.2254 / 0.4, abs=0.02)
    assert "mix" not in ids(found)
    full = told(load("tomas").answers, white_left=40.0, minutes_new_growth=30.0, mixed_g=500.0)
    assert "minutes" not in ids(full)


def test_half_the_mix_explains_more_white_than_nearly_all_of_it() -> None:
    def share(grams: float) -> float:
        found = told(load("tomas").answers, white_left=60.0, minutes_new_growth=30.0, mixed_g=grams)
        return next((c.share for c in found if c.id == "mix"), 0.0)

    assert share(20.0) > share(30.0) > share(500.0) == 0.0


def test_a_natural_depth_read_a_level_off_is_found() -> None:
    # Never coloured, two levels of lift from 6; what came out is what a head of depth 4 gives, beyond the spread.
    answers = load("jonas").answers
    plan = consult(answers, NOW).plan
    assert isinstance(plan, Made)
    first = plan.case.head.areas[0].strand.bands[0]
    reading = Shade(4.0, "gold")
    application = reaching(plan.applications, first, plan.case.head.areas[0].zones)[-1]
    treatment = treatment_of(plan.case, application, first)
    seen = predict(
        replace(state_of(first), natural_depth=4.0, reading=reading), treatment, plan.case.wish.shade
    ).seen
    found = told(answers, new_growth_depth=seen.depth, new_growth_tone=seen.tone)
    # An untold old colour looks much alike, so both are told.
    assert next(c.share for c in found if c.id == "natural-depth") > 0.25


def test_nothing_read_and_no_plan_say_so() -> None:
    assert "Nobody read" in causes(load("tomas").answers, log(), NOW).lines[0].say.plain
    assert "no plan" in causes(Answers(), log(ends_depth=3.0), NOW).lines[0].say.plain


def test_a_record_that_knows_of_the_day_is_not_read_for_causes() -> None:
    answers = load("tomas").answers
    day_ = log(ends_depth=3.0)
    record = remedy(answers, day_, NOW).record
    assert causes(answers, day_, NOW).ranked
    found = causes(record, day_, NOW)
    assert found.ranked == ()
    assert "already" in found.lines[0].say.plain


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(0, 2**32 - 1))
def test_shares_are_shares_and_never_a_certainty(seed: int, day_seed: int) -> None:
    found = causes(head(seed), day(day_seed), NOW)
    scores = [cause.share * cause.weight for cause in found.ranked]
    assert scores == sorted(scores, reverse=True)
    for cause in found.ranked:
        assert LEAST_EXPLAINED <= cause.share <= 1
        said = cause_line(cause)
        assert " may explain " in said.say.plain
        assert said.sources
        assert said.because.plain


def test_the_words_grow_with_the_share() -> None:
    assert [share_words(s) for s in (0.2, 0.5, 0.9)] == ["a little of it", "about half of it", "most of it"]
