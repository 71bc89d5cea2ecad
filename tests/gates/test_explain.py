"""Why not: the smallest sets of answers that would have to be different."""

from consult.answers.base import NOT_SURE
from consult.answers.questions import question_of
from consult.gates.explain import Lift, what_would_lift
from consult.gates.judge import judge
from consult.gates.rules import builtin_rules
from tests.baseline import NOW, baseline


def lifts(**changes: object) -> tuple[Lift, ...]:
    return what_would_lift(
        baseline({k.replace("__", "."): v for k, v in changes.items()}), NOW, builtin_rules()
    )


def test_nothing_holds_a_sound_client() -> None:
    assert lifts() == ()


def test_one_answer_that_can_change() -> None:
    assert lifts(client__gloves="no") == (Lift(("client.gloves",), ()),)


def test_a_past_reaction_can_never_change() -> None:
    for lift in lifts(health__ever_reacted="yes", health__reactions=[{"to": "hair colour"}]):
        assert "health.ever_reacted" in lift.past or "health.reactions" in lift.past


def test_two_reasons_need_both_answers_changed() -> None:
    assert lifts(client__gloves="no", scalp__signs=["sunburn"])[0].paths == ("client.gloves", "scalp.signs")


def test_what_can_change_comes_before_what_cannot() -> None:
    """A restorer in the history, untested: the test can still be made, the history stays."""
    found = lifts(
        history__services=[
            {"kind": "plain henna", "on": NOW.date().replace(year=2025), "stretch": "all over"}
        ]
    )
    assert not found[0].past
    assert "strand_test.done" in found[0].paths


def test_no_set_contains_another() -> None:
    found = lifts(client__gloves="no", client__age=15, goal__areas=["eyelashes", "beard"])
    sets = [set(lift.paths) for lift in found]
    assert not any(a < b for a in sets for b in sets)


def test_a_change_of_the_named_answers_really_lifts_the_hold() -> None:
    broken = baseline({"client.gloves": "no", "scalp.signs": ["sunburn"]})
    mended = baseline({})
    (first, *_) = what_would_lift(broken, NOW, builtin_rules())
    assert judge(broken, NOW).verdict.blocks
    assert {question_of(path).path for path in first.paths} == {"client.gloves", "scalp.signs"}
    assert not judge(mended, NOW).verdict.blocks


def test_what_is_in_doubt_is_what_has_to_be_answered() -> None:
    """The lift is goal less natural depth; only the natural depth is not known."""
    found = lifts(hair__natural_depth=NOT_SURE)
    assert found
    assert not any("goal.depth" in lift.paths and "hair.natural_depth" not in lift.paths for lift in found)


def test_a_doubtful_test_is_a_way_out_and_never_an_empty_one() -> None:
    found = lifts(goal__depth=8, strand_test__done=NOT_SURE, strand_test__hair="sound")
    assert found
    assert all(lift.paths for lift in found)
