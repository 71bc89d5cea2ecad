"""Every check of the plan with a head that fires it and one that just misses it (common practice, unless a
source stands in the check itself)."""

from dataclasses import dataclass
from typing import Any

import pytest
from msgspec.structs import replace

from consult.gates.limits import NO_LIMITS, Demand, Limits
from consult.plan.approach import choose_approach
from consult.plan.case import Case, read_case
from consult.plan.checks import all_checks, check_plan
from consult.plan.handling import carry_out
from consult.plan.settings import Settings
from consult.sources import is_source
from consult.trade import Stretch
from tests.demo import NOW, judged
from tests.plan.test_cases import TestDirectColour, TestTwoProducts

TUBE = {
    "product__kind": "tube and developer",
    "product__tube_g": 60,
    "product__chart_from": None,
    "product__chart_to": None,
    "product__pack_ml": None,
}
BLEACHED = {
    "history__services": [
        {"kind": "lightener all over", "on": NOW.date().replace(month=6), "stretch": "all over", "depth": 8.0}
    ],
    "hair__new_growth_cm": 5,
}


@dataclass(frozen=True)
class Pair:
    """A demo client, the changes with which a check fires, and those with which it just misses."""

    client: str
    fires: dict[str, Any]
    misses: dict[str, Any]
    limits: Limits = NO_LIMITS
    eased: Limits = NO_LIMITS


def demand(value: Any) -> Demand[Any]:
    return Demand(value, ("some-rule",))


TWO = TestTwoProducts()
PAIRS = {
    "too-early": Pair("ines", {"hair__new_growth_cm": 0.4}, {"hair__new_growth_cm": 0.5}),
    "nothing-to-colour": Pair(
        "tomas",
        {"hair__new_growth_cm": 0},
        {"hair__new_growth_cm": 0.3},
    ),
    "already-the-goal": Pair(
        "jonas",
        {"goal__depth": 6, "product__depth": 6},
        {"goal__depth": 6, "product__depth": 6, "goal__tone": "gold", "product__tone": "gold"},
    ),
    "too-long-alone": Pair(
        "wilma",
        {"client__applied_by": "myself at home"},
        {"client__applied_by": "myself at home", "client__helper": "yes"},
    ),
    "minutes-do-not-fit": Pair(
        "tomas",
        # Alone 29 minutes: 54 with the shortest time of 25, in one go or by halves of 15; with help 15.
        {"product__counted_from": "the first touch", "product__minutes_max": 39},
        {"product__counted_from": "the first touch", "product__minutes_max": 40},
    ),
    "chart-starts-lighter": Pair("ines", {"hair__natural_depth": 3.5}, {"hair__natural_depth": 4}),
    "chart-ends-darker": Pair("ines", {"hair__natural_depth": 7.5}, {"hair__natural_depth": 7}),
    "shade-misses-depth": Pair("ines", {"product__depth": 6}, {"product__depth": 5.5}),
    "shade-misses-tone": Pair("ines", {"product__tone": "red"}, {"product__tone": "copper"}),
    "lengths-shade-misses-depth": Pair(
        "ines", TWO.two(lengths_product__depth=6.0), TWO.two(lengths_product__depth=5.5)
    ),
    "filling-at-home": Pair(
        "ines",
        BLEACHED | {"hair__lengths_depth": 7, "hair__ends_depth": 7},
        BLEACHED | {"hair__lengths_depth": 6.5, "hair__ends_depth": 6.5},
    ),
    "deposit-only-and-lift": Pair(
        "tomas",
        {**TestDirectColour.DIRECT, "goal__depth": 5.5},
        {**TestDirectColour.DIRECT, "goal__depth": 5},
    ),
    "developer-lifts-too-little": Pair(
        "jonas",
        {**TUBE, "goal__depth": 8.5, "product__depth": 10, "product__developer_percent": 6},
        {**TUBE, "goal__depth": 8, "product__depth": 10, "product__developer_percent": 6},
    ),
    "white-not-covered": Pair(
        "ines", {"product__white_claim": "no claim"}, {"product__white_claim": "full cover"}
    ),
    "old-colour-not-lifted": Pair("ines", {"goal__depth": 6.5}, {"goal__depth": 6}),
    "mix-untested": Pair(
        "agnes",
        {"goal__tone": "red", "product__tone": "red"},
        {"goal__tone": "red", "product__tone": "red", "allergy_test__covers_mix": "yes"},
    ),
    "limit-developer": Pair(
        "tomas",
        {},
        {},
        Limits(developer_at_most=demand(5.9)),
        Limits(developer_at_most=demand(6.0)),
    ),
    "limit-lift": Pair(
        "jonas", {}, {"goal__depth": 6}, Limits(no_lift=demand(True)), Limits(no_lift=demand(True))
    ),
    "limit-lengths": Pair(
        "tomas",
        {"hair__lengths_depth": 6, "hair__ends_depth": 6},
        {},
        Limits(leave=(demand(Stretch.LENGTHS),)),
        Limits(leave=(demand(Stretch.LENGTHS),)),
    ),
    "limit-off-scalp": Pair("tomas", {}, {}, Limits(off_scalp=demand(True))),
    "limit-strand-test": Pair(
        "tomas",
        {},
        {"strand_test__done": "yes", "strand_test__hair": "sound"},
        Limits(strand_test=demand(True)),
        Limits(strand_test=demand(True)),
    ),
    "limit-licensed": Pair(
        "tomas",
        {},
        {"client__applied_by": "a licensed colourist"},
        Limits(licensed=demand(True)),
        Limits(licensed=demand(True)),
    ),
}


def case(client: str, changes: dict[str, Any], limits: Limits) -> Case:
    found = judged(client, **changes)
    assert found.head
    read = read_case(found.answers, found.head, limits)
    assert read
    return read


def fired(client: str, changes: dict[str, Any], limits: Limits) -> dict[str, Any]:
    read = case(client, changes, limits)
    applications = carry_out(read, choose_approach(read), Settings()).applications
    return {finding.rule: finding for finding in check_plan(read, applications, NOW)}


def test_every_check_has_its_pair() -> None:
    assert set(PAIRS) == {check.id for check in all_checks()}


@pytest.mark.parametrize("check", PAIRS)
def test_it_fires(check: str) -> None:
    pair = PAIRS[check]
    finding = fired(pair.client, pair.fires, pair.limits)[check]
    assert finding.verdict.blocks
    assert finding.trade
    assert finding.plain
    assert finding.remedy
    assert all(is_source(source) for source in finding.sources)


@pytest.mark.parametrize("check", PAIRS)
def test_it_just_misses(check: str) -> None:
    pair = PAIRS[check]
    assert check not in fired(pair.client, pair.misses, pair.eased)


@pytest.mark.parametrize("check", [name for name in PAIRS if name.startswith("limit-")])
def test_an_unmet_demand_names_the_rule(check: str) -> None:
    pair = PAIRS[check]
    assert "some-rule" in fired(pair.client, pair.fires, pair.limits)[check].trade


class TestDemandsThatAreMet:
    """What findings demand and the list of applications can give."""

    def written(self, client: str, limits: Limits, **changes: Any) -> tuple[Any, ...]:
        read = case(client, changes, limits)
        return carry_out(read, choose_approach(read), Settings()).applications

    @pytest.mark.parametrize(("time", "minutes"), [("shortest", 25), ("longest", 35)])
    def test_the_leaflets_shortest_or_longest_time(self, time: str, minutes: int) -> None:
        (application,) = self.written("tomas", Limits(time=demand(time)))
        assert application.minutes == minutes

    def test_lengths_that_are_to_be_left_get_none(self) -> None:
        (application,) = self.written("ines", Limits(leave=(demand(Stretch.LENGTHS),)))
        assert Stretch.LENGTHS not in application.target.stretches

    def test_a_step_is_added_where_it_belongs_and_names_its_rule(self) -> None:
        from consult.plan.bowls import mix_bowls, write_recipes
        from consult.plan.steps import plan_steps
        from consult.trade import Phrase, both

        limits = Limits(
            before=(demand(both("Do it before.")),),
            during=(demand(both("Do it meanwhile.")),),
            after=(demand(both("Do it after.")),),
        )
        read = case("tomas", {}, limits)
        handling = carry_out(read, choose_approach(read), Settings())
        applications = handling.applications
        mixes = mix_bowls(read, write_recipes(read, applications), Settings())
        reasons = {"some-rule": Phrase("Said in the trade.", "Said plainly.")}
        steps = plan_steps(read, applications, mixes, handling.working, reasons)
        told = [step.say.trade for step in steps]
        mixing = next(i for i, say in enumerate(told) if say.startswith("Mix "))
        rinse = next(i for i, say in enumerate(told) if "rinse lukewarm" in say)
        wait = next(i for i, step in enumerate(steps) if step.clock)
        assert told.index("Do it before.") < mixing < told.index("Do it meanwhile.") < wait
        assert rinse < told.index("Do it after.")
        demanded = [step for step in steps if step.say.trade.startswith("Do it")]
        assert all(step.rules == ("some-rule",) for step in demanded)
        assert {step.because.trade for step in demanded} == {"Said in the trade."}

    def test_a_longer_wait_for_the_allergy_test_moves_its_next_window(self) -> None:
        from consult.plan.aftercare import plan_visit

        usual = plan_visit(case("tomas", {}, Limits()), (), (), NOW.date())
        longer = plan_visit(case("tomas", {}, Limits(test_hours=demand(120.0))), (), (), NOW.date())
        assert longer.test_until < usual.test_until
        assert replace(longer, lines=()).colour_on == usual.colour_on
