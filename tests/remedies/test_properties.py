"""Over random heads and random days: nothing unsafe is ever advised."""

from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.answers import Answers
from consult.answers.access import from_data
from consult.consultation import consult
from consult.gates.verdict import Verdict
from consult.plan.ledger import CLEAR_DAMAGE_FROM
from consult.plan.types import Made, Stopped
from consult.remedies.advice import book
from consult.remedies.help import Help
from consult.remedies.remedy import Remedy, remedy
from consult.remedies.words import WHATS
from tests.demo import NOW
from tests.plan.heads import head
from tests.remedies.days import day, easy

SEEDS = st.integers(0, 2**32 - 1)


def mended() -> list[Remedy]:
    """Mends that are offered on a walk over heads, with the faults that can be mended."""
    faults = [fault.what for fault in book().faults if fault.ways]
    tried = [
        remedy(answers, easy(what, lengths_depth=goal, new_growth_depth=goal, ends_depth=goal), NOW)
        for seed in range(60)
        for what in faults[seed % len(faults) :][:2]
        for answers in [head(seed)]
        for goal in [min(10.0, float(answers.goal.depth or 5) + 0.5)]  # type: ignore[arg-type]
    ]
    return [found for found in tried if found.mend]


MENDED = mended()


def test_mends_are_offered_at_all_so_that_the_tests_below_can_fail() -> None:
    assert len(MENDED) >= 15
    assert len({found.day.faults for found in MENDED}) >= 4


@pytest.mark.parametrize("found", MENDED)
def test_a_mend_is_a_plan_that_the_gates_let_pass(found: Remedy) -> None:
    assert found.mend
    again = consult(found.mend.found.answers, found.mend.at)
    assert isinstance(again.plan, Made)
    assert not again.verdict.blocks
    assert found.mend.at >= NOW + timedelta(days=14)


@pytest.mark.parametrize("found", MENDED)
def test_without_the_two_tests_that_come_before_it_only_they_hold_it(found: Remedy) -> None:
    assert found.mend
    now = found.record
    later = found.mend.found.answers.model_copy(
        update={"allergy_test": now.allergy_test, "strand_test": now.strand_test}
    )
    blocking = {f.rule for f in consult(later, found.mend.at).judgement.findings if f.verdict.blocks}
    assert all(rule.startswith(("test-", "strand-", "lift-untested", "cool-on")) for rule in blocking), (
        blocking
    )
    assert blocking, "the test that was used for the day that went wrong must not count again"


@pytest.mark.parametrize("found", MENDED)
def test_a_mend_fits_the_ledger_and_the_ledger_knows_the_day(found: Remedy) -> None:
    assert found.mend
    for account in found.mend.plan.ledger:
        assert account.passes_after == account.passes or account.passes_after < CLEAR_DAMAGE_FROM
    days = [s.on for s in found.record.history.services]  # type: ignore[union-attr]
    assert NOW.date() in days


@settings(max_examples=150, deadline=None)
@given(SEEDS, SEEDS)
def test_whatever_happened_nothing_unsafe_is_advised(seed: int, day_seed: int) -> None:
    answers, log = head(seed), day(day_seed)
    found = remedy(answers, log, NOW)
    if found.day.reacted:
        assert found.mend is None
        assert found.help >= Help.DOCTOR
        assert isinstance(found.recorded.plan, Stopped)
    if found.mend:
        assert found.help <= Help.WAIT
        assert log.skin == "calm"
        assert not found.mend.found.verdict.blocks
        assert isinstance(found.mend.plan, Made)
        levels = [
            p for p in (log.new_growth_depth, log.lengths_depth, log.ends_depth) if isinstance(p, float)
        ]
        depth = answers.goal.depth
        if log.faults[0].startswith("too"):
            assert isinstance(depth, float)
            assert levels
            assert all(abs(level - depth) <= 1 for level in levels)
    if found.help >= Help.COLOURIST:
        assert found.mend is None
    assert found.now
    assert found.never
    # Out of range is refused by the models: what is written can be read again.
    assert from_data(found.record.model_dump(exclude_none=True)).health == found.record.health


@settings(max_examples=60, deadline=None)
@given(SEEDS, st.sampled_from(WHATS))
def test_beside_a_reaction_nothing_is_done_to_the_hair(seed: int, what: str) -> None:
    found = remedy(head(seed), easy(what, signs=["itching"]), NOW)
    said = " ".join(line.say.plain.casefold() for line in (*found.now, *found.then))
    assert found.help >= Help.DOCTOR
    for word in ("clarifying", "mascara", "oil, cream", "the same colour", "strand test"):
        assert word not in said


@settings(max_examples=60, deadline=None)
@given(SEEDS, SEEDS)
def test_knowing_less_never_brings_less_help(seed: int, day_seed: int) -> None:
    answers, log = head(seed), day(day_seed)
    full = remedy(answers, log, NOW)
    less = log.model_copy(update={"lengths_depth": None, "new_growth_depth": None, "ends_depth": None})
    assert remedy(answers, less, NOW).help >= full.help or full.help is Help.COLOURIST
    assert remedy(Answers(), log, NOW).help >= min(full.help, Help.WAIT)
    assert remedy(Answers(), log, NOW).mend is None


def test_a_head_that_the_gates_stop_is_never_mended() -> None:
    answers = head(3)
    for changes in ({"ever_reacted": "yes"}, {"black_henna": "yes, it reacted"}):
        health = answers.health.model_copy(update=changes)
        for fault in book().faults:
            found = remedy(answers.model_copy(update={"health": health}), easy(fault.what), NOW)
            assert found.mend is None
    assert consult(answers.model_copy(update={"health": health}), NOW).verdict is Verdict.STOP
