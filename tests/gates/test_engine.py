"""The engine: three values, doubt on the cautious side, salon rules, refused tables, speed."""

import timeit
from datetime import timedelta

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from consult.answers import Answers
from consult.answers.access import with_answer
from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, question_of
from consult.files import BadFile, parse_toml
from consult.gates.conditions import BadRule, read_condition
from consult.gates.evaluate import Program
from consult.gates.judge import judge
from consult.gates.program import DOUBT, FALSE, TRUE
from consult.gates.rule import Rule
from consult.gates.rules import RuleSet, builtin_rules, shared_names, with_salon_rules
from consult.gates.tables import read_table
from consult.gates.verdict import Verdict
from consult.trade import TEXTURE
from tests.baseline import NOW, baseline
from tests.gates.heads import given_paths, heads
from tests.gates.reference import Outcome, Truth, plain_judgement

# On the sound client gloves are ready; on this one it is also not known whether there is asthma.
HALF = baseline({"health.asthma": None})
HOLDS = '{ field = "client.gloves", is = "yes" }'
FAILS = '{ field = "client.gloves", is = "no" }'
OPEN = '{ field = "health.asthma", is = "yes" }'
BY_TRUTH = {Truth.TRUE: HOLDS, Truth.FALSE: FAILS, Truth.OPEN: OPEN}
YES, NO, UNDECIDED = Truth.TRUE, Truth.FALSE, Truth.OPEN
in_fixed_order = settings(derandomize=True, deadline=None, phases=[Phase.generate])


def outcome(condition: str, answers: Answers, *, cautious: bool = False) -> Outcome:
    """What the engine makes of a condition: on the strict reading, or on the careful one."""
    trace = Program([rule(condition).when]).ask(answers, NOW)
    (state,) = trace.states
    if state == FALSE:
        return Outcome(Truth.FALSE)
    if state == TRUE or (cautious and state == DOUBT):
        return Outcome(Truth.TRUE, frozenset(trace.evidence(0, careful=cautious)))
    return Outcome(Truth.OPEN, frozenset(trace.undecided(0)))


def rule(condition: str, more: str = 'verdict = "caution"') -> Rule:
    return rules_in(table(condition, more))[0]


def rules_in(text: str) -> list[Rule]:
    return read_table(parse_toml(text, "here.toml"), "here.toml", shared_names()).rules


def table(condition: str, more: str = 'verdict = "caution"', id_: str = "mine") -> str:
    return (
        f'[[rule]]\nid = "{id_}"\nwhen = {condition}\n{more}\n'
        'trade = "Trade."\nplain = "Plain."\nremedy = "Remedy."\nsources = ["assumption"]\n'
    )


# Kleene's tables


@pytest.mark.parametrize(
    ("left", "right", "both", "either"),
    [
        (YES, YES, YES, YES),
        (YES, NO, NO, YES),
        (YES, UNDECIDED, UNDECIDED, YES),
        (NO, NO, NO, NO),
        (NO, UNDECIDED, NO, UNDECIDED),
        (UNDECIDED, UNDECIDED, UNDECIDED, UNDECIDED),
    ],
)
def test_all_and_any(left: Truth, right: Truth, both: Truth, either: Truth) -> None:
    for one, other in ((left, right), (right, left)):
        parts = f"[{BY_TRUTH[one]}, {BY_TRUTH[other]}]"
        assert outcome(f"{{ all = {parts} }}", HALF).truth is both
        assert outcome(f"{{ any = {parts} }}", HALF).truth is either
        turned = {YES: NO, NO: YES, UNDECIDED: UNDECIDED}
        assert outcome(f"{{ not = {{ all = {parts} }} }}", HALF).truth is turned[both]
        assert outcome(f"{{ not = {{ any = {parts} }} }}", HALF).truth is turned[either]


def test_evidence_is_what_a_truth_rests_on() -> None:
    found = outcome(f"{{ any = [{FAILS}, {HOLDS}, {OPEN}] }}", HALF)
    assert found.paths == {"client.gloves"}
    assert outcome(f"{{ all = [{HOLDS}, {OPEN}] }}", HALF).paths == {"health.asthma"}


# Doubt


@pytest.mark.parametrize("condition", [OPEN, f"{{ not = {OPEN} }}", f"{{ not = {{ not = {OPEN} }} }}"])
def test_doubt_holds_on_the_cautious_side_whichever_way_it_is_put(condition: str) -> None:
    doubtful = baseline({"health.asthma": NOT_SURE})
    assert outcome(condition, doubtful).truth is Truth.OPEN
    assert outcome(condition, doubtful, cautious=True) == Outcome(YES, frozenset({"health.asthma"}))


def test_doubt_does_not_outweigh_what_is_known_to_fail() -> None:
    doubtful = baseline({"health.asthma": NOT_SURE})
    assert outcome(f"{{ all = [{OPEN}, {FAILS}] }}", doubtful, cautious=True).truth is Truth.FALSE


def test_an_unasked_answer_stays_open_on_the_cautious_side() -> None:
    assert outcome(OPEN, HALF, cautious=True).truth is Truth.OPEN


def test_unknown_asks_for_the_answer_not_sure_itself() -> None:
    condition = '{ field = "health.asthma", unknown = true }'
    assert outcome(condition, baseline({"health.asthma": NOT_SURE})).truth is Truth.TRUE
    assert outcome(condition, baseline()).truth is Truth.FALSE
    assert outcome(condition, HALF).truth is Truth.OPEN


def test_one_doubtful_entry_of_a_list_is_a_doubt() -> None:
    condition = '{ entries = "history.services", where = { field = "kind", is = "perm" } }'
    doubtful = baseline({"history.services": [{"kind": "plain henna"}, {"kind": NOT_SURE}]})
    assert outcome(condition, doubtful).truth is Truth.OPEN
    assert outcome(condition, doubtful, cautious=True).paths == {"history.services.1.kind"}
    certain = baseline({"history.services": [{"kind": NOT_SURE}, {"kind": "perm"}]})
    assert outcome(condition, certain).paths == {"history.services.1.kind"}


def test_a_fact_is_open_while_an_entry_it_counts_is_unasked() -> None:
    condition = '{ fact = "oxidative_passes", at_least = 2 }'
    empty = baseline({"history.services": [{"kind": "permanent colour"}]})
    assert outcome(condition, empty) == Outcome(UNDECIDED, frozenset({"history.services.0.stretch"}))
    assert outcome(condition, baseline({"history.services": []})).truth is Truth.FALSE


@pytest.mark.parametrize("kind", question_of("history.services.kind").choices)
def test_only_texture_services_leave_light_lengths_unexplained(kind: str) -> None:
    condition = '{ fact = "unexplained_lightness", at_least = 2 }'
    light = {"history.services": [{"kind": kind}], "hair.lengths_depth": 7.0}
    expected = Truth.TRUE if kind in TEXTURE else Truth.FALSE
    assert outcome(condition, baseline(light)).truth is expected


@pytest.mark.parametrize("path", ["hair.lengths_depth", "hair.ends_depth", "hair.natural_depth"])
def test_a_depth_in_doubt_leaves_it_in_doubt_whether_lengths_are_too_light(path: str) -> None:
    condition = '{ fact = "unexplained_lightness", at_least = 2 }'
    never = baseline({"history.services": [], path: NOT_SURE})
    assert outcome(condition, never).truth is Truth.OPEN
    assert outcome(condition, never, cautious=True).truth is Truth.TRUE
    coloured = baseline({path: NOT_SURE})
    assert outcome(condition, coloured, cautious=True).truth is Truth.FALSE
    untold = baseline({"history.services": NOT_SURE, path: 4.0})
    assert outcome(condition, untold, cautious=True).truth is Truth.TRUE


def test_the_fixed_word_for_age_leaves_a_higher_leaflet_limit_in_doubt() -> None:
    judgement = judge(baseline({"client.age": "16 or over", "product.age_limit": 18}), NOW)
    finding = judgement.findings[0]
    assert (finding.rule, finding.verdict, finding.in_doubt) == (
        "client-under-leaflet-age",
        Verdict.STOP,
        True,
    )
    assert judge(baseline({"client.age": "16 or over", "product.age_limit": 16}), NOW).findings == ()


# Questions that do not apply, optional ones, and what must be asked first


def test_a_question_that_does_not_apply_fulfils_nothing() -> None:
    condition = '{ field = "health.pregnancy_week", under = 12 }'
    assert outcome(condition, baseline()).truth is Truth.FALSE
    assert outcome(f"{{ not = {condition} }}", baseline()).truth is Truth.TRUE


def test_an_optional_question_that_nobody_answered_holds_nothing_up() -> None:
    condition = '{ fact = "ppd_on_head", over = 2 }'
    assert outcome(condition, baseline()).truth is Truth.FALSE
    assert outcome(condition, baseline({"product.ppd_percent": 5.0})).truth is Truth.TRUE


def test_what_hangs_on_an_unasked_question_asks_for_that_one() -> None:
    answers = baseline({"health.pregnancy": None, "health.pregnancy_week": 3})
    assert outcome('{ field = "health.pregnancy_week", under = 12 }', answers).paths == {"health.pregnancy"}
    assert "allergy_test.applied_at" not in judge(Answers(), NOW).ask


def test_questions_are_asked_in_the_order_of_the_consultation() -> None:
    ask = judge(Answers(), NOW).ask
    assert ask.index("client.age") < ask.index("scalp.signs") < ask.index("product.age_limit")


# The judgement as a whole


def test_the_strongest_finding_is_the_verdict_and_the_others_are_kept() -> None:
    judgement = judge(
        baseline({"client.gloves": "no", "health.asthma": "yes", "scalp.signs": ["redness"]}), NOW
    )
    assert [f.rule for f in judgement.findings] == ["client-no-gloves", "scalp-irritated", "asthma"]
    assert judgement.verdict is Verdict.STOP


def test_certain_findings_stand_before_doubtful_ones_of_the_same_verdict() -> None:
    unsure = {"product.age_limit": NOT_SURE, "client.age": 17, "client.gloves": "no"}
    found = judge(baseline(unsure), NOW).findings
    assert [(f.rule, f.in_doubt) for f in found] == [
        ("client-no-gloves", False),
        ("client-under-leaflet-age", True),
    ]


def test_a_leaflet_age_that_nobody_knows_matters_to_the_young_only() -> None:
    """18 is the highest age that leaflets name (common practice)."""
    for age, stops in ((17, True), (18, False), (41, False), ("16 or over", True)):
        found = judge(baseline({"product.age_limit": NOT_SURE, "client.age": age}), NOW)
        assert (found.verdict is Verdict.STOP) is stops, age


def test_a_wait_whose_time_is_over_ends_now() -> None:
    """The test is old enough, but nobody knows what was seen: it can be looked at right away."""
    applied = NOW - timedelta(hours=60)
    judgement = judge(
        baseline({"allergy_test.applied_at": applied, "allergy_test.second_signs": NOT_SURE}), NOW
    )
    found = next(f for f in judgement.findings if f.rule == "test-last-reading-missing")
    assert found.until == NOW


def test_the_longest_wait_is_the_end() -> None:
    perm = {"kind": "perm", "on": NOW.date(), "stretch": "all over", "by": "a salon"}
    judgement = judge(baseline({"history.services": [perm], "allergy_test.done": "no"}), NOW)
    assert judgement.until is not None
    assert (judgement.until.date() - NOW.date()).days == 14


def test_of_several_recent_services_the_latest_ends_the_wait() -> None:
    services = [{"kind": "perm", "on": NOW.date().replace(day=day), "by": "a salon"} for day in (20, 24, 12)]
    wait = next(
        f
        for f in judge(baseline({"history.services": services}), NOW).findings
        if f.rule == "chemical-service-recent"
    )
    assert wait.until is not None
    assert (wait.until.month, wait.until.day) == (12, 8)


def test_an_empty_head_is_clear_so_far_but_not_settled() -> None:
    judgement = judge(Answers(), NOW)
    assert (judgement.verdict, judgement.settled, judgement.could_become) == (
        Verdict.CLEAR,
        False,
        Verdict.STOP,
    )


# Properties


@given(st.data())
@settings(in_fixed_order, max_examples=100)
def test_more_answers_never_add_a_stronger_verdict_to_a_settled_judgement(data: st.DataObject) -> None:
    full = data.draw(heads())
    asked_later = data.draw(
        st.lists(st.sampled_from(given_paths(full, required=True)), max_size=4, unique=True)
    )
    partial = full
    for path in sorted(asked_later, key=len, reverse=True):  # an entry's answer before its list
        partial = with_answer(partial, path, None)
    before, after = judge(partial, NOW), judge(full, NOW)
    if before.settled:
        assert after.verdict <= before.verdict
    # What has fired stays, at least as strong, and a rule that appears was announced.
    later = {f.rule: f.verdict for f in after.findings}
    for finding in before.findings:
        assert later.get(finding.rule, Verdict.CLEAR) >= finding.verdict or finding.in_doubt
    assert after.verdict <= max(before.verdict, before.could_become)


def test_a_partial_head_can_be_settled_or_not() -> None:
    """The property above looks at both kinds."""
    assert judge(baseline({"hair.density": None}), NOW).settled
    assert not judge(baseline({"goal.areas": None}), NOW).settled
    assert judge(baseline({"goal.areas": None, "client.gloves": "no"}), NOW).settled


@pytest.mark.parametrize("path", ["health.asthma", "goal.upkeep"])
def test_an_unasked_question_that_may_bring_a_caution_is_not_read_as_no(path: str) -> None:
    judgement = judge(baseline({path: None}), NOW)
    assert (judgement.verdict, judgement.could_become) == (Verdict.CLEAR, Verdict.CAUTION)
    assert judgement.ask == (path,)
    assert not judgement.settled
    assert judge(baseline({path: None, "scalp.scratched": "yes"}), NOW).settled, "a caution already stands"


@given(st.data())
@settings(in_fixed_order, max_examples=80)
def test_not_sure_is_never_milder_than_the_mildest_known_answer(data: st.DataObject) -> None:
    answers = data.draw(heads())
    one_choice = [p for p in given_paths(answers) if question_of(p).kind is Kind.CHOICE]
    path = data.draw(st.sampled_from(one_choice))
    known = [judge(with_answer(answers, path, choice), NOW).verdict for choice in question_of(path).choices]
    assert judge(with_answer(answers, path, NOT_SURE), NOW).verdict >= min(known)


# Salon rules


def salon(text: str) -> RuleSet:
    return with_salon_rules(parse_toml(text, "salon.toml"), "salon.toml")


def test_a_salon_rule_is_added() -> None:
    rules = salon(table('{ field = "client.age", under = 18 }', 'verdict = "stop"', "salon-18"))
    assert {r.id for r in rules} == {r.id for r in builtin_rules()} | {"salon-18"}
    assert judge(baseline({"client.age": 17}), NOW, rules).verdict is Verdict.STOP
    assert judge(baseline({"client.age": 17}), NOW).verdict is Verdict.CLEAR


def test_a_salon_rule_raises_a_verdict() -> None:
    rules = salon('[[raise]]\nid = "asthma"\nverdict = "see_doctor"')
    for answer in ("yes", NOT_SURE):
        assert judge(baseline({"health.asthma": answer}), NOW, rules).verdict is Verdict.SEE_DOCTOR


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('[[raise]]\nid = "client-under-16"\nverdict = "caution"', "may only raise"),
        ('[[raise]]\nid = "scalp-broken"\nverdict = "clear"', "may only raise"),
        ('[[raise]]\nid = "asthma"\nverdict = "wait"', "cannot be a wait"),
        ('[[raise]]\nid = "no-such-rule"\nverdict = "stop"', "no rule 'no-such-rule'"),
        ('[[raise]]\nid = "asthma"', "names the id of a rule and its new verdict"),
        (
            "[[raise]]\nid = 'asthma'\nverdict = 'stop'\nwhen = {}",
            "names the id of a rule and its new verdict",
        ),
        (table('{ field = "client.age", over = 90 }', id_="client-under-16"), "stands twice"),
    ],
)
def test_a_salon_rule_cannot_lower_replace_or_remove(text: str, says: str) -> None:
    with pytest.raises(BadRule, match=says):
        salon(text)


# Tables that do not load; each names its place


@pytest.mark.parametrize(
    ("condition", "says"),
    [
        ('{ field = "scalp.colour", is = "red" }', "no question 'scalp.colour'"),
        ('{ field = "client.gloves", is = "maybe" }', "no choice"),
        ('{ field = "client.gloves", is = ["yes"] }', "takes one choice"),
        ('{ field = "client.gloves", in = "yes" }', "no|take a list of choices"),
        ('{ field = "client.gloves", in = [] }', "no choice"),
        ('{ field = "client.gloves", has = ["yes"] }', "compared by is, in, unknown"),
        ('{ field = "scalp.signs", is = "redness" }', "compared by has, unknown"),
        ('{ field = "client.age", over = "12 years" }', "a bare number in years"),
        ('{ field = "hair.length_cm", over = "12 in" }', "a bare number in cm"),
        ('{ field = "client.age", over = true }', "a bare number"),
        ('{ field = "product.developer_percent", over = 90 }', "lies beyond 90"),
        ('{ field = "client.gloves", unknown = false }', "takes true"),
        ('{ field = "client.gloves" }', "one comparison"),
        ('{ field = "client.age", over = 1, under = 9 }', "one comparison"),
        ('{ field = "client.age", fact = "lift", over = 1 }', "one field or fact"),
        ('{ fact = "luck", over = 1 }', "no fact 'luck'"),
        ('{ fact = "lift", is = "yes" }', "is a number"),
        ('{ fact = "test_times_possible", over = 1 }', "is yes or no"),
        ('{ fact = "test_ready_at", over = 1 }', "is a moment"),
        ('{ field = "history.services.kind", is = "perm" }', "stands in a list"),
        ('{ entries = "scalp.signs", where = { field = "kind", is = "perm" } }', "not a list of entries"),
        ('{ entries = "history.services" }', "goes with 'where'"),
        ('{ entries = "history.services", where = { field = "colour", is = "perm" } }', "no question"),
        ("{ all = [] }", "holds a list"),
        ('{ not = { field = "client.gloves", is = "no" }, is = "yes" }', "'not' stands alone"),
        ('{ all = [{ field = "client.gloves", is = "no" }], any = [] }', "stands alone"),
        ('"always"', "a condition is a table"),
    ],
)
def test_a_bad_condition_is_refused(condition: str, says: str) -> None:
    with pytest.raises(BadRule, match=says) as refusal:
        rule(condition)
    assert str(refusal.value).startswith("here.toml, rule 1 (mine)")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ('verdict = "perhaps"', "no such verdict"),
        ('verdict = "wait"', "says 'until'"),
        ('verdict = "stop"\nunsure = "wait"', "says 'until'"),
        ('verdict = "stop"\nuntil = { days = 7, words = "later" }', "says 'until'"),
        ('verdict = "wait"\nuntil = { words = "later" }', "a date can be computed"),
        ('verdict = "wait"\nuntil = { days = 7 }', "a table of words"),
        ('verdict = "wait"\nuntil = { days = "7", words = "later" }', "a table of words"),
        ('verdict = "wait"\nuntil = { fact = "lift", words = "later" }', "a fact that is a moment"),
        ('verdict = "wait"\nuntil = { field = "client.age", days = 1, words = "later" }', "is not a date"),
        ('verdict = "caution"\ncolour = "red"', "no key 'colour'"),
    ],
)
def test_a_bad_rule_is_refused(more: str, says: str) -> None:
    with pytest.raises(BadRule, match=says):
        rule(HOLDS, more)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (('sources = ["assumption"]', "sources = []"), "at least one source"),
        (('sources = ["assumption"]', 'sources = ["a blog"]'), "no source 'a blog'"),
        (('sources = ["assumption"]', ""), "missing"),
        (('remedy = "Remedy."', 'remedy = ""'), "'remedy' is a text"),
        (('plain = "Plain."', "plain = 3"), "'plain' is a text"),
        (("[[rule]]", "[[rules]]"), "only"),
        (("[[rule]]", "[rule]"), "written as"),
        (("[[rule]]", "[settings]\n[[rule]]"), "only"),
        (("[[rule]]", "[[rule]"), "here.toml"),
    ],
)
def test_a_bad_table_is_refused(change: tuple[str, str], says: str) -> None:
    with pytest.raises((BadRule, BadFile), match=says):
        rules_in(table(HOLDS).replace(*change))


def test_texts_of_a_salon_rule_are_cleaned() -> None:
    text = table(HOLDS).replace("Trade.", "\\u001b[31mTrade\\u202e.")
    assert rules_in(text)[0].trade == "[31mTrade ."


def test_a_condition_is_read_back_as_written() -> None:
    condition = read_condition({"field": "kind", "is": "perm"}, "here", "history.services")
    assert getattr(condition, "field", None) == "history.services.kind"


def test_judging_is_quick() -> None:
    answers = baseline()
    judge(answers, NOW)
    # The best of many runs: what else the machine does is not judged here.
    seconds = min(timeit.repeat(lambda: judge(answers, NOW), number=1, repeat=60))
    assert seconds < 0.01


@given(heads())
@settings(in_fixed_order, max_examples=150)
def test_the_engine_agrees_with_a_plain_evaluator_that_shares_nothing(answers: Answers) -> None:
    told = plain_judgement(answers, NOW, builtin_rules())
    judged = judge(answers, NOW)
    found = tuple((f.rule, f.verdict, f.evidence, f.in_doubt) for f in judged.findings)
    assert found == tuple((f.rule, f.verdict, f.evidence, f.in_doubt) for f in told.findings)
    assert (judged.could_become, judged.ask) == (told.could_become, told.ask)
