"""What to look for: nothing on a head that the gates hold, and what stands on the card does what it says."""

from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.answers import Answers
from consult.buying.card import make_card
from consult.buying.look import PACKS_ML, Shop, does, empty_handed, look_for
from consult.consultation import consult
from consult.gates.verdict import Verdict
from consult.plan.types import Made
from consult.plan.usual import KINDS, as_if_tested, usual
from consult.salon import default_config
from tests.baseline import NOW, baseline
from tests.demo import load
from tests.plan.heads import head


def shown(answers: Answers) -> str:
    card = make_card(look_for(answers, NOW))
    return " ".join(line.say.plain for part in (card.look, card.avoid, card.photograph) for line in part)


def test_white_hair_to_be_covered_asks_for_permanent_colour_that_claims_it() -> None:
    found = look_for(baseline(), NOW)
    assert found.shades
    assert found.shades.kind == "permanent"
    assert found.strengths == (6.0,)  # 20 volume is what the trade teaches for white hair
    assert '"Blends" is not enough' in shown(baseline())


def test_a_little_white_to_be_blended_asks_for_something_milder() -> None:
    few = {f"hair.white_{zone}": 10.0 for zone in ("front", "temples", "crown", "nape")}
    found = look_for(baseline({**few, "goal.white": "blend"}), NOW)
    assert found.shades
    assert found.shades.kind in ("direct (no developer)", "demi-permanent")


def test_going_lighter_takes_lift_that_milder_kinds_do_not_have() -> None:
    found = look_for(load("jonas").answers, NOW)
    assert found.shades
    assert found.shades.kind == "permanent"
    assert (
        min(low for low, _ in found.shades.by_tone.values()) >= 8
    )  # natural 6, wished 8: nothing darker reaches it


def test_nothing_is_bought_where_nature_is_the_goal() -> None:
    answers = load("jonas").answers
    goal = answers.goal.model_copy(update={"depth": 6.0, "tone": "neutral", "white": "there is none"})
    hair = answers.hair.model_copy(update={"natural_depth": 6.0, "lengths_depth": 6.0, "ends_depth": 6.0})
    found = look_for(answers.model_copy(update={"goal": goal, "hair": hair}), NOW)
    assert found.shades is None
    assert found.nothing_needed
    assert make_card(found).look[0].say.plain.startswith("Buy nothing")


@pytest.mark.parametrize("name", ["lotte", "hanna", "samira", "kofi", "yara", "elif", "carmen", "piet"])
def test_a_head_that_the_gates_hold_gets_a_reason_and_no_pack(name: str) -> None:
    found = look_for(load(name).answers, NOW)
    assert found.shades is None
    assert found.against
    card = make_card(found)
    assert card.avoid == ()
    assert card.photograph == ()
    assert card.look[0].say.plain == "Buy nothing now."


def test_signs_at_an_earlier_test_hold_although_the_pack_is_gone() -> None:
    for changes in (
        {"allergy_test.second_signs": ("itching",)},
        {"allergy_test.first_signs": ("redness",)},
        {"allergy_test.done": "refused"},
    ):
        assert look_for(baseline(changes), NOW).shades is None
    assert look_for(baseline({"allergy_test.done": "no"}), NOW).shades


def test_a_question_that_is_open_is_asked_and_not_guessed() -> None:
    found = look_for(baseline({"hair.natural_depth": None}), NOW)
    assert found.shades is None
    assert "hair.natural_depth" in found.missing
    assert "Natural depth" in shown(baseline({"hair.natural_depth": None}))
    assert look_for(baseline({"health.black_henna": None}), NOW).shades is None
    assert look_for(Answers(), NOW).shades is None


def test_the_product_in_the_answers_is_not_looked_at() -> None:
    with_one = look_for(baseline(), NOW)
    without = look_for(empty_handed(baseline()), NOW)
    assert with_one.shades
    assert without.shades
    assert with_one.shades.found == without.shades.found
    assert with_one.packs == without.packs


def test_smaller_packs_are_never_fewer() -> None:
    for seed in range(12):
        found = look_for(head(seed), NOW)
        if found.shades:
            counts = [count for _, count in found.packs]
            assert [ml for ml, _ in found.packs] == [float(ml) for ml in PACKS_ML]
            assert counts == sorted(counts, reverse=True)
            assert all(1 <= count <= 20 for count in counts)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_what_stands_on_the_card_is_a_plan_that_the_gates_let_pass(seed: int) -> None:
    answers = head(seed)
    found = look_for(answers, NOW)
    bare = consult(empty_handed(answers), NOW).judgement.findings
    if any(f.verdict >= Verdict.SEE_DOCTOR for f in bare):
        assert found.shades is None
    if found.shades is None:
        return
    shop = Shop(empty_handed(answers), NOW, default_config())
    natural = answers.hair.natural_depth
    chart = {"chart_from": natural, "chart_to": natural} if isinstance(natural, float) else {}
    for depth, tone in found.shades.found:
        tried = shop.tried(usual(found.shades.kind, depth, tone, **chart))
        assert isinstance(tried.plan, Made)
        assert not tried.verdict.blocks
        assert 1 <= depth <= 10
    milder = KINDS[: KINDS.index(found.shades.kind)]
    depth, tone = answers.goal.depth, answers.goal.tone
    assert not any(does(shop.tried(usual(kind, depth, tone, **chart))) for kind in milder)  # type: ignore[arg-type]


def test_what_is_not_to_be_bought_is_refused_by_a_rule() -> None:
    card = make_card(look_for(baseline(), NOW))
    rules = {rule for line in card.avoid for rule in line.rules}
    assert {"pack-opened", "professional-product-at-home", "white-not-covered"} <= rules


def test_every_line_of_a_card_has_a_reason_and_a_source() -> None:
    card = make_card(look_for(baseline(), NOW))
    for line in (*card.look, *card.avoid, *card.photograph):
        assert line.because.plain
        assert line.sources


def test_as_if_tested_overwrites_no_sign_and_no_strand_that_broke() -> None:
    late = NOW + timedelta(days=30)
    for changes in ({"allergy_test.second_signs": ("rash",)}, {"allergy_test.first_signs": "not sure"}):
        answers = baseline(changes)
        assert as_if_tested(answers, late).allergy_test == answers.allergy_test
    broke = baseline({"strand_test.done": "yes", "strand_test.hair": "broke"})
    assert as_if_tested(broke, late).strand_test.hair == "broke"
    clear = as_if_tested(baseline({"allergy_test.done": "no"}), late)
    assert consult(clear, late).judgement.verdict <= Verdict.CAUTION
