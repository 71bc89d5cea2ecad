"""Whatever a finding demands, no plan that is made goes against it: on every kind of head."""

from typing import Any

import pytest

from consult.answers.base import known
from consult.consultation import Consultation, consult
from consult.gates.rules import with_salon_rules
from consult.plan.application import Act, Application, Bowl, Ending, Target, Touch
from consult.plan.lines import line
from consult.plan.rounds import in_sections
from consult.plan.settings import Settings
from consult.plan.steps import plan_steps
from consult.plan.types import Made
from consult.products.kinds import Auxiliary, Direct
from consult.salon import SalonConfig
from consult.trade import AT_HOME, Stretch
from tests.baseline import NOW
from tests.plan.heads import head
from tests.plan.plans import made

HEADS = range(150)


def by(effect: dict[str, Any]) -> SalonConfig:
    """A salon where a rule that always fires demands something."""
    rule = {
        "id": "ours",
        "when": {"field": "client.age", "at_least": 0},
        "verdict": "caution",
        "trade": "Ours.",
        "plain": "Ours.",
        "remedy": "Ours.",
        "sources": ["assumption"],
        "effect": effect,
    }
    return SalonConfig(with_salon_rules({"rule": [rule]}, "salon"), Settings())


def plans(effect: dict[str, Any]) -> list[tuple[Consultation, Made]]:
    salon = by(effect)
    found = [consult(head(seed), NOW, salon) for seed in HEADS]
    made = [(one, one.plan) for one in found if isinstance(one.plan, Made)]
    assert made or "licensed" in effect or "off_scalp" in effect
    return made


@pytest.mark.parametrize("stretch", list(Stretch), ids=lambda stretch: stretch.value)
def test_a_stretch_to_be_left_gets_nothing(stretch: Stretch) -> None:
    salon = by({"leave": [stretch.value]})
    for seed in HEADS:
        plan = consult(head(seed), NOW, salon).plan
        for application in getattr(plan, "applications", ()) if isinstance(plan, Made) else ():
            assert stretch not in application.target.stretches, seed
            assert application.target.stretches, seed


def test_no_stronger_developer() -> None:
    for found, plan in plans({"developer_at_most": 4}):
        for application in plan.applications:
            product = application.bowl.product
            if not isinstance(product, Auxiliary | Direct):
                assert product.developer.percent <= 4
        assert not any("ours" in demand.rules for demand in found.plan.case.limits.leave)  # type: ignore[union-attr]


def test_the_shortest_time() -> None:
    for _, plan in plans({"time": "shortest"}):
        colour = next(a for a in plan.applications if not isinstance(a.bowl.product, Auxiliary))
        assert colour.minutes >= colour.bowl.product.leaflet.shortest


def test_no_lift() -> None:
    for _, plan in plans({"no_lift": True}):
        assert plan.case.lift <= 0


def test_nothing_at_the_scalp() -> None:
    for _, plan in plans({"off_scalp": True}):
        assert all(Stretch.SCALP not in a.target.stretches for a in plan.applications)


def test_a_strand_test_that_held() -> None:
    for _, plan in plans({"strand_test": True}):
        assert plan.case.tests.strand_held


def test_a_licensed_hand() -> None:
    for found, _ in plans({"licensed": True}):
        assert known(found.answers.client.applied_by) not in AT_HOME


def test_a_step_more_is_told_once_at_its_place() -> None:
    words = {"trade": "Sing.", "plain": "Sing."}
    for _, plan in plans({"before": words, "after": words}):
        say = [step.say.trade for step in plan.steps]
        assert say.count("Sing.") == 2
        first = next(n for n, step in enumerate(plan.steps) if step.clock)
        assert say.index("Sing.") < first


@pytest.mark.parametrize(
    ("act", "opening"),
    [
        (Act.DAB, "Dab the water on"),
        (Act.COMB_THROUGH, "Comb the water through"),
        (Act.PAINT, "Put the water on"),
    ],
)
def test_something_beside_the_colour_is_told_by_its_act(act: Act, opening: str) -> None:
    plan = made("ines")
    beside = Application(
        Bowl(0, Auxiliary("water", 0.0, "Wet hair takes less."), ()),
        Target((Stretch.ENDS,)),
        act,
        (Touch("ends", -60, -58),),
        -50,
        Ending.BLOT,
        line("This wets the ends.", "Wet hair takes less."),
    )
    working = in_sections(plan.case, Settings())
    steps = plan_steps(plan.case, (beside, *plan.applications), plan.mixes, working, {})
    assert any(step.say.trade.startswith(opening) for step in steps)
