"""What the program's own cautions demand of a plan, and that the plan does it.

Every caution either demands something, or is on the list of those that only tell. A caution that the plan
ignores is a fault like a wrong number.
"""

from typing import Any

import pytest
from msgspec.structs import fields

from consult.gates.judge import judge
from consult.gates.limits import NO_EFFECT, Demand, Limits
from consult.gates.rules import builtin_rules
from consult.gates.verdict import Verdict
from consult.plan.types import Held
from consult.trade import Stretch
from tests.baseline import NOW, baseline
from tests.demo import judged
from tests.gates.cases import Case, cases
from tests.plan.plans import made, said

ONLY_TELLS = {
    "test-site-elsewhere": "advice for the next test; this one was read",
    "breastfeeding": "gloves, fresh air and a thorough rinse are in every plan",
    "medicine-light": "for the doctor; nothing about the colouring changes",
    "pre-pigment-needed": "the plan fills by itself, or holds",
    "pre-pigment-advised": "the plan fills by itself, or holds",
    "white-and-lift": "about the goal; the forecast shows both kinds of hair",
    "white-and-light-shade": "about the goal; the forecast shows both kinds of hair",
    "low-upkeep": "about the goal",
    "lightener-beyond-this-tool": "no plan is made for a lightener",
    "kit-strength-unknown": "the kit is mixed as it comes; what is unknown is said",
}
DEMANDING = {rule.id: rule.effect for rule in builtin_rules() if rule.effect != NO_EFFECT}


def demanded(limits: Limits) -> set[str]:
    """The rules named in any demand."""
    found: set[str] = set()
    for field in fields(limits):
        value = getattr(limits, field.name)
        for demand in value if isinstance(value, tuple) else (value,):
            found |= set(demand.rules) if isinstance(demand, Demand) else set()
    return found


def test_every_caution_demands_something_or_only_tells() -> None:
    cautions = {r.id for r in builtin_rules() if Verdict.CAUTION in (r.verdict, r.unsure)}
    assert cautions - set(DEMANDING) == set(ONLY_TELLS)


@pytest.mark.parametrize("case", [c for c in cases() if c.rule in DEMANDING], ids=str)
def test_a_demand_is_made_where_the_rule_fires_and_nowhere_else(case: Case) -> None:
    assert case.rule in demanded(judge(baseline(case.firing()), NOW).limits)
    assert case.rule not in demanded(judge(baseline(case.near()), NOW).limits)


def test_every_demand_has_its_case() -> None:
    assert set(DEMANDING) <= {case.rule for case in cases()}


# The plan does what is demanded. Which demand a caution makes: common practice, but where a source is named.


def test_in_pregnancy_the_shortest_time_counts_after_a_strand_test() -> None:
    """Source: nhs-pregnancy-hair-dye (shortest time, gloves, aired room, rinse, strand test first)."""
    pregnant = {"health__pregnancy": "pregnant", "health__pregnancy_week": 20}
    assert any(f.rule == "limit-strand-test" for f in held_by("agnes", **pregnant))
    plan = made(
        "agnes",
        **pregnant,
        strand_test__done="yes",
        strand_test__hair="sound",
        strand_test__colour="as wanted",
    )
    assert plan.applications[0].minutes == 30
    assert "Rinse the scalp longer" in said(plan.steps)


def test_resistant_white_gets_the_longest_time_of_the_leaflet() -> None:
    assert made("agnes", hair__white_resists="yes").applications[-1].minutes == 45


def test_within_four_weeks_only_the_new_growth_is_coloured() -> None:
    service = {
        "kind": "permanent colour",
        "on": NOW.date().replace(day=5),
        "stretch": "all over",
        "by": "a salon",
    }
    found = judged("ines", **{"history__services": [service]})
    assert found.judgement.limits.leaves(Stretch.LENGTHS)
    for application in getattr(found.plan, "applications", ()):
        assert not {Stretch.LENGTHS, Stretch.ENDS} & set(application.target.stretches)


def test_relaxed_hair_gets_no_developer_that_lifts() -> None:
    service = {"kind": "relaxer, thio", "on": NOW.date().replace(year=2025), "stretch": "all over"}
    for percent, held in ((6, True), (3, False)):
        plan = judged("agnes", history__services=[service], product__developer_percent=percent).plan
        assert isinstance(plan, Held)
        assert ("limit-developer" in {finding.rule for finding in plan.findings}) is held


def test_each_step_that_is_demanded_is_in_the_plan_and_names_its_rule() -> None:
    changes: dict[str, Any] = {"health__asthma": "yes", "health__allergies": ["latex"]}
    plan = made("agnes", **changes)
    named = {rule for step in plan.steps for rule in step.rules}
    assert {"asthma", "allergy-latex"} <= named
    assert "Inhaler at hand" in said(plan.steps)


def held_by(name: str, **changes: Any) -> Any:
    plan = judged(name, **changes).plan
    assert isinstance(plan, Held)
    return plan.findings
