"""What a rule table may hold beside conditions: groups, shared conditions, kinds, effects; both ends of each range."""

from typing import Any

import pytest

from consult.answers.base import NOT_SURE
from consult.files import LONGEST_ERROR, parse_toml
from consult.gates.conditions import BadRule
from consult.gates.judge import judge
from consult.gates.limits import NO_EFFECT, Demand
from consult.gates.rule import Rule
from consult.gates.rules import shared_names, with_salon_rules
from consult.gates.tables import Table, read_table
from consult.gates.verdict import Verdict
from consult.trade import AT_HOME, GROUPS, THRESHOLDS, Phrase, Stretch
from tests.baseline import NOW, baseline

GLOVES = '{ field = "client.gloves", is = "no" }'


def read(text: str) -> Table:
    return read_table(parse_toml(text, "here"), "here", shared_names())


def rule(when: str = GLOVES, more: str = 'verdict = "caution"') -> Rule:
    return read(table(when, more)).rules[0]


def table(when: str = GLOVES, more: str = 'verdict = "caution"', id_: str = "mine") -> str:
    return (
        f'[[rule]]\nid = "{id_}"\nwhen = {when}\n{more}\n'
        'trade = "Trade."\nplain = "Plain."\nremedy = "Remedy."\nsources = ["assumption"]\n'
    )


def wait(until: str) -> Rule:
    return rule(more=f'verdict = "wait"\nuntil = {{ words = "later", {until} }}')


# Names


def test_a_group_of_the_trade_stands_for_its_choices() -> None:
    assert rule('{ field = "client.applied_by", in = "at home" }') == rule(
        f'{{ field = "client.applied_by", in = {list(AT_HOME)} }}'
    )


def test_a_threshold_of_the_trade_stands_for_its_number() -> None:
    named = rule('{ fact = "lift", over = "lift-at-home" }')
    assert named == rule(f'{{ fact = "lift", over = {float(THRESHOLDS["lift-at-home"])} }}')


def test_a_table_may_have_groups_and_conditions_of_its_own() -> None:
    text = (
        '[group]\n"our days" = ["redness"]\n'
        '[condition]\n"red" = { field = "scalp.signs", has = "our days" }\n'
        '"red or sore" = { any = [ { condition = "red" }, { field = "scalp.scratched", is = "yes" } ] }\n'
        + table('{ condition = "red or sore" }')
    )
    (mine,) = read(text).rules
    for changes in ({"scalp.signs": ["redness"]}, {"scalp.scratched": "yes"}):
        assert judge(baseline(changes), NOW, [mine]).findings
    assert not judge(baseline(), NOW, [mine]).findings


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('group = ["redness"]', "one table"),
        ('[group]\n"mine" = []', "a list of choices"),
        ('[group]\n"mine" = [3]', "a list of choices"),
        ('[group]\n"at home" = ["myself at home"]', "already"),
        ('[condition]\n"at home" = { field = "client.gloves", is = "no" }', "already"),
        (
            '[condition]\n"mine" = { field = "client.shoes", is = "no" }',
            "condition 'mine': there is no question",
        ),
        (table("{ condition = 3 }"), r"no \[condition\] '3'"),
        (table("{ condition = [] }"), r"no \[condition\]"),
        (table('{ entries = 3, where = { field = "kind", is = "perm" } }'), "'3' is not a list of entries"),
        (table('{ entries = [], where = { field = "kind", is = "perm" } }'), "is not a list of entries"),
        (table('{ condition = "nowhere" }'), r"no \[condition\] 'nowhere'"),
        (table('{ field = "client.applied_by", in = "nowhere" }'), "'nowhere'"),
        (table('{ field = "client.age", under = "nowhere" }'), "the name of a threshold"),
        (
            table('{ entries = "history.services", where = { fact = "lift", over = 1 } }'),
            "of the whole head",
        ),
        (table('{ entries = "history.services", where = { condition = "at home" } }'), "not inside 'where'"),
    ],
)
def test_a_bad_name_is_refused(text: str, says: str) -> None:
    with pytest.raises(BadRule, match=says):
        read(text)


def test_a_group_may_be_told_again_as_it_is() -> None:
    assert read(f'[group]\n"at home" = {list(GROUPS["at home"])}\n').rules == []


def test_conditions_nest_so_deep_and_no_deeper() -> None:
    def nested(levels: int) -> str:
        return "{ not = " * levels + GLOVES + " }" * levels

    assert rule(nested(20))
    with pytest.raises(BadRule, match="more than 20 deep"):
        rule(nested(21))


# Kinds


def test_a_rule_for_other_kinds_of_product_is_passed_over_only_when_the_kind_is_certain() -> None:
    mine = rule(more='verdict = "caution"\nkinds = ["high-lift", "direct (no developer)"]')
    no_gloves = {"client.gloves": "no"}
    for colour_class, fires in (("high-lift", True), ("permanent", False), (NOT_SURE, True), (None, True)):
        found = judge(baseline({**no_gloves, "product.colour_class": colour_class}), NOW, [mine])
        assert bool(found.findings) is fires, colour_class


@pytest.mark.parametrize("kinds", ['"at work"', "[]", '["hair gel"]', "3", '["permanent", 3]', '"at home"'])
def test_a_kind_that_is_none_is_refused(kinds: str) -> None:
    with pytest.raises(BadRule, match="'kinds' is a list from"):
        rule(more=f'verdict = "caution"\nkinds = {kinds}')


def test_kinds_may_be_a_group() -> None:
    assert "permanent" in rule(more='verdict = "caution"\nkinds = "mixed with developer"').kinds


# Effects


def effect(text: str) -> Any:
    return rule(more=f'verdict = "caution"\neffect = {{ {text} }}').effect


def test_an_effect_is_read_as_it_is_meant() -> None:
    read = effect(
        'developer_at_most = 6, time = "longest", leave = ["lengths", "ends"], no_lift = true, off_scalp = true, '
        'strand_test = true, licensed = true, test_hours = 96, before = { trade = "T", plain = "P" }'
    )
    assert (read.developer_at_most, read.time, read.test_hours) == (6, "longest", 96)
    assert read.leave == (Stretch.LENGTHS, Stretch.ENDS)
    assert (read.no_lift, read.off_scalp, read.strand_test, read.licensed) == (True, True, True, True)
    assert read.before == Phrase("T", "P")
    assert read.after is read.during is None


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("developer_at_most = -0.1", "from 0 to 12"),
        ("developer_at_most = 12.1", "from 0 to 12"),
        ("developer_at_most = nan", "from 0 to 12"),
        ("developer_at_most = true", "from 0 to 12"),
        ("test_hours = 47.9", "from 48 to 168"),
        ("test_hours = 168.1", "from 48 to 168"),
        ('time = "long"', "shortest or longest"),
        ("leave = []", "a list from"),
        ('leave = ["beard"]', "a list from"),
        ("no_lift = false", "can only be true"),
        ("licensed = 1", "can only be true"),
        ("before = 3", "'trade' and 'plain'"),
        ('before = "text"', "'trade' and 'plain'"),
        ('after = { trade = "only" }', "'trade' and 'plain'"),
        ('during = { trade = "", plain = "P" }', "1 to 600"),
        ("colour = 3", "is a table of"),
    ],
)
def test_a_bad_effect_is_refused(text: str, says: str) -> None:
    with pytest.raises(BadRule, match=says):
        effect(text)


@pytest.mark.parametrize("table", ["3", "[]", '"shortest"'])
def test_an_effect_is_a_table(table: str) -> None:
    assert effect("") == NO_EFFECT
    with pytest.raises(BadRule, match="is a table of"):
        rule(more=f'verdict = "caution"\neffect = {table}')


@pytest.mark.parametrize(
    "text", ["developer_at_most = 0", "developer_at_most = 12", "test_hours = 48", "test_hours = 168"]
)
def test_the_ends_of_a_range_are_inside(text: str) -> None:
    assert effect(text)


def test_what_a_finding_demands_reaches_the_limits_in_doubt_too() -> None:
    mine = rule('{ field = "client.gloves", is = "no" }', 'verdict = "caution"\neffect = { test_hours = 72 }')
    for answer in ("no", NOT_SURE):
        assert judge(baseline({"client.gloves": answer}), NOW, [mine]).limits.test_hours == Demand(
            72, ("mine",)
        )
    assert judge(baseline(), NOW, [mine]).limits.test_hours is None


# Ranges and lengths


@pytest.mark.parametrize("until", ["days = 3660", "months = 120", "days = 1, months = 0"])
def test_a_long_wait_is_a_wait(until: str) -> None:
    assert wait(until).until


@pytest.mark.parametrize("until", ["days = 3661", "months = 121", "days = -1", "months = -1", "days = true"])
def test_a_wait_has_both_ends(until: str) -> None:
    with pytest.raises(BadRule, match="waits 0 to"):
        wait(until)


def test_a_wait_has_no_other_key() -> None:
    with pytest.raises(BadRule, match="a table of words"):
        wait("days = 3, weeks = 2")


@pytest.mark.parametrize(("key", "longest"), [("trade", 600), ("id", 60)])
def test_a_text_has_a_greatest_length(key: str, longest: int) -> None:
    given = {"trade": 'trade = "Trade."', "id": 'id = "mine"'}[key]
    assert read(table().replace(given, f'{key} = "{"x" * longest}"')).rules
    with pytest.raises(BadRule, match=f"1 to {longest} characters"):
        read(table().replace(given, f'{key} = "{"x" * (longest + 1)}"'))


def test_a_table_has_at_most_500_rules() -> None:
    many = [table(id_=f"r{number}") for number in range(501)]
    assert len(read("".join(many[:500])).rules) == 500
    with pytest.raises(BadRule, match="at most 500"):
        read("".join(many))


@pytest.mark.parametrize("number", [0, 120])
def test_the_least_and_the_greatest_answer_may_be_compared_with(number: int) -> None:
    assert rule(f'{{ field = "client.age", at_most = {number} }}')


@pytest.mark.parametrize("number", ["121", "1e400", "9" * 400, "-1", "1e9"])
def test_a_number_that_no_answer_reaches_is_refused(number: str) -> None:
    with pytest.raises(BadRule) as refusal:
        rule(f'{{ field = "client.age", under = {number} }}')
    assert len(str(refusal.value)) <= 300


def test_an_error_is_never_longer_than_300_characters() -> None:
    with pytest.raises(BadRule) as refusal:
        read(table().replace('"mine"', f'"{"m" * 5000}"'))
    assert len(str(refusal.value)) <= 300
    assert str(refusal.value).endswith("...") or "1 to 60" in str(refusal.value)


# A salon's own


def test_a_salon_raises_a_rule_for_certain_and_in_doubt() -> None:
    rules = with_salon_rules({"raise": [{"id": "asthma", "verdict": "stop"}]}, "salon")
    assert {r.id: (r.verdict, r.unsure) for r in rules}["asthma"] == (Verdict.STOP, Verdict.STOP)


def test_no_salon_is_the_program_as_it_ships() -> None:
    assert with_salon_rules({}, "salon") is with_salon_rules({}, "salon")


def test_a_long_line_is_cut_and_says_so() -> None:
    line = str(BadRule("x" * 400))
    assert len(line) == LONGEST_ERROR
    assert line.endswith("...")
    assert str(BadRule("short")) == "short"
