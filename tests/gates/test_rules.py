"""Every shipped rule: it fires where it should, just misses where it should, and doubt is not mild."""

from datetime import timedelta

import pytest

from consult.answers.access import answer_paths, with_answer
from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, question_of
from consult.gates.judge import Finding, judge
from consult.gates.rules import TABLES, Rule, builtin_rules
from consult.gates.verdict import Verdict
from consult.sources import UNPUBLISHED, is_source, sources
from tests.baseline import NOW, baseline
from tests.gates.cases import CASES, Case, cases

RULES = {rule.id: rule for rule in builtin_rules()}
ALL_CASES = cases()
each_case = pytest.mark.parametrize("case", ALL_CASES, ids=str)


def _found(case: Case, changes: dict[str, object]) -> Finding | None:
    findings = judge(baseline(changes), NOW, [RULES[case.rule]]).findings
    return findings[0] if findings else None


def test_nothing_fires_on_the_sound_client() -> None:
    judgement = judge(baseline(), NOW)
    assert judgement.findings == ()
    assert (judgement.verdict, judgement.settled, judgement.ask) == (Verdict.CLEAR, True, ())


def test_every_rule_has_a_case_and_every_case_a_rule() -> None:
    assert {case.rule for case in ALL_CASES} == set(RULES)
    assert {path.stem for path in CASES.glob("*.toml")} == set(TABLES)


@each_case
def test_fires(case: Case) -> None:
    finding = _found(case, case.firing())
    assert finding is not None
    assert (finding.verdict.word, finding.in_doubt) == (case.verdict, False)
    assert finding.evidence
    if finding.verdict is Verdict.WAIT:
        assert finding.until is not None
        assert finding.until >= NOW
        assert finding.until_words


@pytest.mark.parametrize("case", [case for case in ALL_CASES if case.others()], ids=str)
def test_fires_on_the_other_answers_too(case: Case) -> None:
    for changes in case.others():
        finding = _found(case, changes)
        assert finding is not None, changes
        assert not finding.in_doubt, changes


@each_case
def test_each_change_is_needed(case: Case) -> None:
    for changes in case.without_one():
        finding = _found(case, changes)
        assert finding is None or finding.in_doubt, changes


@each_case
def test_just_misses(case: Case) -> None:
    assert set(case.fires) & set(case.just_misses), "a near miss changes something that matters"
    assert _found(case, case.near()) is None


@each_case
def test_a_boundary_names_what_it_rests_on(case: Case) -> None:
    assert not case.name or is_source(case.source)


# Many kits do not print it; nobody can look it up, so it is told as unknown and holds nothing up.
KITS_DO_NOT_PRINT = {"product.developer_percent"}


@each_case
def test_not_sure_is_never_milder_than_the_rule_says(case: Case) -> None:
    answers = baseline(case.firing())
    finding = _found(case, case.firing())
    assert finding is not None
    for path in finding.evidence:
        judgement = judge(with_answer(answers, path, NOT_SURE), NOW)
        assert judgement.verdict > Verdict.CLEAR, path
        if path not in KITS_DO_NOT_PRINT:
            assert judgement.verdict >= RULES[case.rule].unsure, path


@each_case
def test_an_unasked_answer_keeps_the_rule_in_play(case: Case) -> None:
    answers = baseline(case.firing())
    finding = _found(case, case.firing())
    assert finding is not None
    for path in finding.evidence:
        if question_of(path).optional:
            continue
        judgement = judge(with_answer(answers, path, None), NOW)
        if case.rule not in {f.rule for f in judgement.findings}:
            assert path in judgement.ask
            assert judgement.could_become >= RULES[case.rule].verdict
            assert not judgement.settled or judgement.verdict >= RULES[case.rule].verdict


AT_HOME = [case for case in ALL_CASES if case.rule.endswith("-at-home")]


@pytest.mark.parametrize("case", AT_HOME, ids=str)
def test_a_rule_for_home_speaks_to_everyone_at_home_and_to_no_professional(case: Case) -> None:
    for who, fires in {
        "myself at home": True,
        "a friend or relative at home": True,
        "a licensed colourist": False,
        "a trainee under supervision": False,
    }.items():
        assert (_found(case, {**case.firing(), "client.applied_by": who}) is not None) is fires, who


UNTIL_TESTED = [
    case
    for case in ALL_CASES
    if (case.rule.endswith("-untested") and case.rule not in ("metallic-untested", "sheen-untested"))
    or case.rule
    in ("metallic-cleared", "history-incomplete", "cool-on-lightened", "lengths-lighter-than-nature")
]


@pytest.mark.parametrize("case", UNTIL_TESTED, ids=str)
def test_test_first_ends_with_a_strand_that_held_and_with_no_other(case: Case) -> None:
    held = {"strand_test.done": "yes", "strand_test.hair": "sound", "strand_test.colour": "as wanted"}
    assert _found(case, {**case.firing(), **held}) is None
    failed = {"strand_test.hair": "broke", "strand_test.colour": "too dark"}
    for worse in (failed, {"strand_test.done": NOT_SURE, **failed}):
        assert _found(case, {**case.firing(), **held, **worse}) is not None


SOFTER_IN_DOUBT = {
    "reaction-to-colour": "see_doctor",
    "reaction-severe": "see_doctor",
    "black-henna-reacted": "see_doctor",
    "allergy-to-dye": "see_doctor",
    "test-refused": "wait",
    "test-positive": "wait",
    "test-positive-severe": "wait",
    "scalp-blisters": "wait",
    "scalp-infection": "wait",
    "scalp-wound": "wait",
    "metallic-positive": "test_first",
    "metallic-silent": "test_first",
    "hydroxide-lift-at-home": "see_colourist",
    "hair-breaks": "test_first",
    "hair-breaks-at-home": "test_first",
    "hair-stays-stretched": "test_first",
    "strand-failed": "test_first",
    "lift-over-3": "test_first",
    "sheen-silent": "test_first",
    "test-used-up": "caution",
    "not-named-together": "look_up",
    "professional-product-at-home": "look_up",
    "ppd-over-limit": "caution",
    "toluenediamine-over-limit": "caution",
    "resorcinol-over-limit": "caution",
    "ammonia-over-limit": "caution",
}


def test_doubt_speaks_as_loud_as_certainty_but_for_these_rules() -> None:
    softer = {rule.id: rule.unsure.word for rule in builtin_rules() if rule.unsure is not rule.verdict}
    assert softer == SOFTER_IN_DOUBT
    assert all(rule.unsure < rule.verdict for rule in builtin_rules() if rule.id in softer)


ENDS = ["black-henna-recent", "chemotherapy-recent", "chemical-service-recent", "test-too-young"]


@pytest.mark.parametrize("case", [c for c in ALL_CASES if c.rule in ENDS], ids=str)
def test_a_wait_ends_at_the_moment_it_says(case: Case) -> None:
    answers = baseline(case.firing())
    finding = _found(case, case.firing())
    assert finding is not None
    assert finding.until is not None
    before = judge(answers, finding.until - timedelta(seconds=1)).findings
    after = judge(answers, finding.until).findings
    assert case.rule in {f.rule for f in before}
    assert case.rule not in {f.rule for f in after}


def test_a_pregnancy_waits_until_twelve_full_weeks() -> None:
    judgement = judge(baseline({"health.pregnancy": "pregnant", "health.pregnancy_week": 9}), NOW)
    assert judgement.until == NOW + timedelta(weeks=3)
    doubtful = baseline({"health.pregnancy": "pregnant", "health.pregnancy_week": NOT_SURE})
    assert judge(doubtful, NOW).until == NOW + timedelta(weeks=12)


def test_a_test_not_done_gives_the_first_possible_moment() -> None:
    judgement = judge(baseline({"allergy_test.done": "no"}), NOW)
    assert judgement.until == NOW + timedelta(hours=48)
    for tattoo in ("yes, no reaction", "yes, not sure whether it reacted", NOT_SURE):
        changes = {"health.black_henna": tattoo, "health.black_henna_on": NOW.date().replace(year=2019)}
        raised = judge(baseline({"allergy_test.done": "no", **changes}), NOW)
        assert raised.until == NOW + timedelta(hours=96), tattoo


@pytest.mark.parametrize("rule", builtin_rules(), ids=lambda rule: rule.id)
def test_texts_can_be_read_by_both_readers(rule: Rule) -> None:
    for text in (rule.trade, rule.plain, rule.remedy):
        assert 20 <= len(text) <= 320
        assert text.lstrip('"')[0].isupper()
        assert text.endswith((".", "?", "!"))
        assert "[" not in text, "a text reaches widgets and must not look like markup"
    assert rule.trade != rule.plain


def test_published_sources_are_complete_and_used_ones_exist() -> None:
    for name, entry in sources().items():
        assert set(entry) == {"title", "by", "where", "status"}, name
    cited = {name for rule in builtin_rules() for name in rule.sources}
    assert cited - set(UNPUBLISHED) <= set(sources())


DOUBT_SOFTER_THAN_THE_WORST_ANSWER = {
    # A doctor decides where a past reaction is possible; only a certain one stops for good.
    "health.ever_reacted": "see_doctor",
    "health.black_henna": "see_doctor",
    "health.allergies": "see_doctor",
    # What can be looked at again, or tested again, is.
    "scalp.signs": "wait",
    "allergy_test.done": "wait",
    "allergy_test.first_signs": "wait",
    "allergy_test.second_signs": "wait",
    "hair.wet_stretch": "test_first",
    "incompatibility_test.result": "test_first",
    # The pack tells: it is looked up, and nothing is mixed before.
    "product.named_together": "look_up",
    "product.professional_only": "look_up",
}


def test_doubt_is_softer_than_the_worst_answer_in_these_questions_only_and_never_clear() -> None:
    softer: dict[str, str] = {}
    for path in answer_paths(baseline()):
        question = question_of(path)
        if question.kind not in (Kind.CHOICE, Kind.SEVERAL):
            continue
        given = [choice if question.kind is Kind.CHOICE else [choice] for choice in question.choices]
        worst = max(judge(with_answer(baseline(), path, value), NOW).verdict for value in given)
        doubt = judge(with_answer(baseline(), path, NOT_SURE), NOW).verdict
        assert doubt.blocks or not worst.blocks, path
        assert doubt is not Verdict.CLEAR or worst is Verdict.CLEAR, path
        if doubt < worst:
            softer[path] = doubt.word
    assert softer == DOUBT_SOFTER_THAN_THE_WORST_ANSWER
