"""A second product is judged as strictly as the first (stricter reading; the rules are those of the first)."""

from typing import Any

import pytest

from consult.gates.verdict import Verdict
from consult.plan.types import Incomplete, Made
from tests.demo import judged


def found(**changes: Any) -> dict[str, Any]:
    return {finding.rule: finding for finding in judged("odile", **changes).judgement.findings}


def test_two_sound_products_are_clear() -> None:
    assert judged("odile").judgement.verdict is Verdict.CLEAR
    assert isinstance(judged("odile").plan, Made)


@pytest.mark.parametrize(
    ("change", "rule", "verdict"),
    [
        ({"lengths_product__developer_percent": 12.1}, "developer-too-strong", Verdict.STOP),
        ({"lengths_product__named_together": "no"}, "not-named-together", Verdict.STOP),
        ({"lengths_product__contains_ammonia": "yes"}, "ammonia-in-it", Verdict.CAUTION),
        ({"lengths_product__age_limit": 60}, "client-under-leaflet-age", Verdict.STOP),
    ],
)
def test_what_stops_the_first_stops_the_second_and_names_its_own_answers(
    change: dict[str, Any], rule: str, verdict: Verdict
) -> None:
    finding = found(**change)[rule]
    assert finding.verdict is verdict
    assert any(path.startswith("lengths_product.") for path in finding.evidence)
    assert not any(path.startswith("product.") for path in finding.evidence)


def test_an_unasked_question_about_the_second_is_asked_in_its_own_section() -> None:
    judgement = judged("odile", lengths_product__named_together=None).judgement
    assert not judgement.settled
    assert "lengths_product.named_together" in judgement.ask


def test_a_second_product_that_is_not_wanted_is_not_judged() -> None:
    strong = {"lengths_product__developer_percent": 12.1, "goal__lengths_product": "no"}
    assert "developer-too-strong" not in found(**strong)


def test_not_sure_whether_there_is_a_second_is_never_read_as_no() -> None:
    plan = judged("odile", goal__lengths_product="not sure").plan
    assert isinstance(plan, Incomplete)
    assert "goal.lengths_product" in plan.missing


def test_what_both_share_is_told_once() -> None:
    both = judged("odile", product__contains_ammonia="yes", lengths_product__contains_ammonia="yes")
    rules = [finding.rule for finding in both.judgement.findings]
    assert rules.count("ammonia-in-it") == 2  # one for each product, each with its own evidence
    assert judged("odile", health__asthma="yes").judgement.findings[0].rule == "asthma"
    assert [f.rule for f in judged("odile", health__asthma="yes").judgement.findings].count("asthma") == 1
