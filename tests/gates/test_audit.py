"""The audits find nothing in the shipped tables, and find every fault that is planted."""

import pytest

from consult.files import parse_toml
from consult.gates.audit import never_firing, redundant, unmentioned
from consult.gates.rule import Rule
from consult.gates.rules import builtin_rules, shared_names
from consult.gates.tables import read_table


def planted(*conditions: str, verdict: str = "caution") -> list[Rule]:
    """Rules rule-1, rule-2 ... with these conditions and nothing else of interest."""
    text = "".join(
        f'[[rule]]\nid = "rule-{number}"\nwhen = {condition}\nverdict = "{verdict}"\n'
        'trade = "Trade."\nplain = "Plain."\nremedy = "Remedy."\nsources = ["assumption"]\n'
        for number, condition in enumerate(conditions, 1)
    )
    return read_table(parse_toml(text, "planted"), "planted", shared_names()).rules


def test_the_shipped_tables_pass_all_audits() -> None:
    assert unmentioned() == []
    assert never_firing() == []
    assert redundant() == []


@pytest.mark.parametrize(
    ("without", "forgotten"),
    [
        ("scalp-flaking", "scalp.signs = heavy flaking or scaling"),
        ("client-no-gloves", "client.gloves = no"),
        ("chemotherapy-recent", "health.chemotherapy_ended"),
        ("ppd-over-limit", "product.ppd_percent"),
        ("history-incomplete", "history.known_months"),
    ],
)
def test_a_forgotten_answer_is_found(without: str, forgotten: str) -> None:
    assert forgotten in unmentioned([rule for rule in builtin_rules() if rule.id != without])


def test_with_no_rule_at_all_every_answer_that_is_not_clear_is_found() -> None:
    found = unmentioned([])
    assert {"client.age", "history.services", "health.allergies = latex"} <= set(found)
    assert "client.age = 16 or over" not in found
    assert "goal.tone = ash" not in found


@pytest.mark.parametrize(
    "condition",
    [
        '{ all = [{ field = "client.gloves", is = "no" }, { field = "client.gloves", is = "yes" }] }',
        '{ all = [{ field = "client.age", under = 16 }, { field = "client.age", over = 15 }] }',
        '{ all = [{ field = "client.age", under = 16 }, { field = "client.age", is = "16 or over" }] }',
        '{ all = [{ field = "client.gloves", unknown = true }, { field = "client.gloves", is = "no" }] }',
        '{ all = [{ fact = "lift", over = 3 }, { not = { fact = "lift", over = 2 } }] }',
        '{ all = [{ fact = "test_times_possible", is = "no" }, { fact = "test_times_possible", is = "yes" }] }',
        # Nobody types a length over the longest there is (200 cm).
        '{ field = "hair.length_cm", over = 200 }',
        # A week of pregnancy is only asked of the pregnant; a reading only of a test that was put on.
        '{ all = [{ field = "health.pregnancy", is = "neither" }, { field = "health.pregnancy_week", under = 9 }] }',
        '{ all = [{ field = "allergy_test.done", is = "no" }, { fact = "test_age", over = 7 }] }',
        '{ all = [{ field = "scalp.signs", has = ["sunburn"] }, '
        '{ not = { field = "scalp.signs", has = ["sunburn", "redness"] } }] }',
        '{ all = [{ field = "health.black_henna_on", within_days = 5 }, '
        '{ not = { field = "health.black_henna_on", within_days = 6 } }] }',
        '{ entries = "history.services", where = '
        '{ all = [{ field = "kind", is = "perm" }, { field = "tone", is = "ash" }] } }',
        '{ all = [{ entries = "history.services", where = { field = "kind", is = "perm" } }, '
        '{ not = { entries = "history.services", where = { field = "kind", in = ["perm", "plain henna"] } } }] }',
    ],
)
def test_a_rule_that_contradicts_itself_is_found(condition: str) -> None:
    assert never_firing(planted(condition)) == ["rule-1"]


@pytest.mark.parametrize(
    "condition",
    [
        '{ all = [{ field = "client.age", under = 16 }, { field = "client.age", over = 14 }] }',
        '{ all = [{ field = "health.pregnancy", unknown = true }, { field = "health.pregnancy_week", under = 9 }] }',
        '{ all = [{ field = "scalp.signs", has = ["sunburn"] }, { field = "scalp.signs", has = ["redness"] }] }',
        '{ all = [{ field = "allergy_test.done", is = "no" }, { not = { fact = "test_age", over = 7 } }] }',
        '{ not = { field = "product.ppd_percent", at_least = 0 } }',
        # Two entries of a list may differ, one cannot.
        '{ all = [{ entries = "history.services", where = { field = "kind", is = "perm" } }, '
        '{ entries = "history.services", where = { field = "kind", is = "plain henna" } }] }',
    ],
)
def test_a_rule_that_can_fire_is_left_in_peace(condition: str) -> None:
    assert never_firing(planted(condition)) == []


GLOVES_OR_AGE = '{ any = [{ field = "client.gloves", is = "no" }, { field = "client.age", under = 16 }] }'
SAME_TURNED = (
    '{ not = { all = [{ not = { field = "client.age", under = 16 } }, '
    '{ not = { field = "client.gloves", is = "no" } }] } }'
)


def test_two_rules_with_one_condition_are_found_however_they_are_written() -> None:
    assert redundant(planted(GLOVES_OR_AGE, SAME_TURNED)) == [("rule-1", "rule-2"), ("rule-2", "rule-1")]


def test_a_choice_list_and_its_single_choices_are_one_condition() -> None:
    listed = '{ field = "hair.wet_stretch", in = ["breaks", "gummy or spongy"] }'
    single = (
        '{ any = [{ field = "hair.wet_stretch", is = "gummy or spongy" }, '
        '{ field = "hair.wet_stretch", is = "breaks" }] }'
    )
    assert len(redundant(planted(listed, single))) == 2


def test_a_weaker_twin_is_superfluous_and_the_stronger_one_is_not() -> None:
    strong = planted(GLOVES_OR_AGE, verdict="stop")
    weak = planted("{ field = 'client.gloves', is = 'yes' }", SAME_TURNED)[1:]
    assert redundant([*strong, *weak]) == [("rule-2", "rule-1")]


def test_a_rule_that_sharpens_another_is_not_redundant() -> None:
    narrow = '{ all = [{ field = "client.gloves", is = "no" }, { field = "client.age", under = 16 }] }'
    assert redundant(planted(GLOVES_OR_AGE, narrow)) == []


@pytest.mark.parametrize(
    "condition",
    [
        '{ all = [ { field = "hair.length_cm", over = 5 }, { field = "hair.length_cm", under = 6 } ] }',
        '{ not = { field = "hair.length_cm", unknown = true } }',
        '{ not = { field = "client.age", unknown = true } }',
        '{ not = { field = "goal.depth", unknown = true } }',
    ],
)
def test_a_number_that_an_answer_can_have_is_found(condition: str) -> None:
    assert never_firing(planted(condition)) == []
