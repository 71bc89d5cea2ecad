"""No question is left out that could have changed verdict or plan."""

import pytest

from consult.answers.access import with_answer
from consult.gates.rules import builtin_rules
from consult.interview.pages import interview
from tests.interview.walker import _truth, as_asked, differences, judged


@pytest.mark.parametrize("first", range(0, 60, 20))
def test_whoever_answers_what_is_asked_is_judged_as_whoever_is_asked_everything(first: int) -> None:
    for seed in range(first, first + 20):
        assert differences(seed)[1] == []


def test_the_walk_would_see_a_question_that_matters_left_out() -> None:
    """Hair that breaks when it is wet and stretched matters on every head (trade fact)."""
    seen = 0
    for seed in range(20):
        answers = as_asked(_truth(seed)).answers
        seen += judged(with_answer(answers, "hair.wet_stretch", "breaks")) != judged(answers)
    assert seen == 20


def test_a_doctors_word_is_asked_for_wherever_a_rule_would_hear_it() -> None:
    """Each rule that a doctor's word lifts rests on an answer that brings the question."""
    about = set(interview().told["health.doctor_allows"])  # type: ignore[index]
    lifted = [rule for rule in builtin_rules() if "health.doctor_allows" in rule.paths]
    assert len(lifted) >= 9
    for rule in lifted:
        rests_on = {path for path in rule.paths if not path.startswith("health.doctor_allows")}
        assert rule.id == "doctor-allowed" or rests_on & about, rule.id
