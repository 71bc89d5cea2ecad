"""Limits: the union of what findings demand, strictest wins whatever the order."""

from itertools import permutations

import pytest

from consult.gates.limits import NO_LIMITS, Demand, Effect, union
from consult.trade import Phrase, Stretch

AIR = Phrase("Ventilate.", "Open the window.")


def test_nothing_demanded_is_no_limit() -> None:
    assert union([("a", Effect())]) == NO_LIMITS


def test_the_strictest_of_each_kind_wins_whatever_the_order() -> None:
    effects = [
        ("weak", Effect(developer_at_most=9, time="longest", test_hours=48)),
        ("strict", Effect(developer_at_most=3, time="shortest", test_hours=96)),
        ("none", Effect(no_lift=True)),
    ]
    for order in permutations(effects):
        limits = union(order)
        assert limits.developer_at_most == Demand(3, ("strict",))
        assert limits.time == Demand("shortest", ("strict",))
        assert limits.test_hours == Demand(96, ("strict",))
        assert limits.no_lift == Demand(True, ("none",))
        assert limits.licensed is None


def test_rules_that_ask_the_same_are_all_named() -> None:
    limits = union([("b", Effect(strand_test=True)), ("a", Effect(strand_test=True))])
    assert limits.strand_test == Demand(True, ("a", "b"))


def test_stretches_and_steps_add_up() -> None:
    limits = union(
        [
            ("a", Effect(leave=(Stretch.LENGTHS,), before=AIR)),
            ("b", Effect(leave=(Stretch.LENGTHS, Stretch.ENDS), before=AIR)),
        ]
    )
    assert limits.leaves(Stretch.LENGTHS) == Demand(Stretch.LENGTHS, ("a", "b"))
    assert limits.leaves(Stretch.ENDS) == Demand(Stretch.ENDS, ("b",))
    assert limits.leaves(Stretch.SCALP) is None
    assert limits.before == (Demand(AIR, ("a", "b")),)


@pytest.mark.parametrize("flag", ["no_lift", "off_scalp", "strand_test", "licensed"])
def test_every_plain_demand_is_kept_and_names_its_rule(flag: str) -> None:
    demanded = union([("some-rule", Effect(**{flag: True})), ("another", Effect())])
    assert getattr(demanded, flag) == Demand(True, ("some-rule",))
    assert getattr(union([("another", Effect())]), flag) is None
