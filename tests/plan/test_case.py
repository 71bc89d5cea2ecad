"""What a plan is read from: nothing that is missing is guessed, and nothing that is doubted is taken."""

from typing import Any, ClassVar

import pytest

from consult.plan.case import Case
from consult.plan.types import Held, Incomplete
from tests.demo import judged
from tests.plan.plans import made
from tests.plan.test_cases import TestTwoProducts


def lacking(name: str, **changes: Any) -> tuple[str, ...]:
    plan = judged(name, **changes).plan
    assert isinstance(plan, Incomplete)
    return plan.missing


def read(name: str, **changes: Any) -> Case:
    plan = judged(name, **changes).plan
    case = plan.case if isinstance(plan, Held) else getattr(plan, "case", None)
    assert isinstance(case, Case)
    return case


@pytest.mark.parametrize("value", [None, "not sure"])
@pytest.mark.parametrize("path", ["hair.density", "hair.white_crown", "goal.extent", "hair.ends_depth"])
def test_what_is_unasked_or_doubted_is_missing(path: str, value: str | None) -> None:
    assert path in lacking("tomas", **{path.replace(".", "__"): value})


def test_whether_the_lengths_have_a_product_of_their_own_has_to_be_known() -> None:
    assert lacking("tomas", goal__lengths_product="not sure") == ("goal.lengths_product",)


def test_a_second_product_needs_what_the_first_needs() -> None:
    two = TestTwoProducts().two()
    assert lacking("ines", **two | {"lengths_product__ratio": None}) == ("lengths_product.ratio",)
    assert made("ines", **two).case.two_products
    assert len(made("ines", **two).case.products) == 2
    assert not made("ines").case.two_products
    assert made("ines").case.products == (made("ines").case.product,)


def test_no_history_told_is_not_an_empty_history() -> None:
    assert lacking("tomas", history__services=None) == ("history.services",)


def test_hands_and_place_of_work() -> None:
    assert made("ines").case.work.hands == 1
    assert made("ines", client__helper="yes").case.work.hands == 2
    assert made("ines").case.work.at_home
    assert not made("jonas").case.work.at_home


class TestTheStrandTest:
    DONE: ClassVar[dict[str, Any]] = {
        "strand_test__done": "yes", "strand_test__hair": "sound", "strand_test__colour": "as wanted",
        "strand_test__minutes": 31,
    }  # fmt: skip

    def test_its_minutes_count_where_it_came_out_as_wanted(self) -> None:
        tests = read("jonas", **self.DONE).tests
        assert (tests.strand_held, tests.strand_minutes) == (True, 31)

    @pytest.mark.parametrize(
        ("changes", "held", "minutes"),
        [
            ({"strand_test__colour": "too dark"}, True, None),
            ({"strand_test__minutes": None}, True, None),
            ({"strand_test__minutes": "not sure"}, True, None),
            ({"strand_test__done": "no"}, False, None),
        ],
    )
    def test_else_they_do_not(self, changes: dict[str, Any], held: bool, minutes: int | None) -> None:
        tests = read("jonas", **self.DONE | changes).tests
        assert (tests.strand_held, tests.strand_minutes) == (held, minutes)


def test_washes_nobody_counted_are_taken_as_three_a_week() -> None:
    """Assumption of the head's model."""
    assert read("tomas", history__washes_per_week=None).hair.washes_a_week == 3
    assert read("tomas", history__washes_per_week="not sure").hair.washes_a_week == 3
    assert read("tomas", history__washes_per_week=0).hair.washes_a_week == 0


def test_white_is_covered_only_where_there_is_some() -> None:
    none = {f"hair__white_{zone}": 0 for zone in ("front", "temples", "crown", "nape")}
    assert read("tomas").covers_white
    assert not read("tomas", **none).covers_white
    assert not read("tomas", goal__white="blend").covers_white
    assert read("tomas", **none | {"hair__white_nape": 1}).covers_white


def test_lift_counts_from_the_darkest_nature_and_darkening_from_the_lightest_length() -> None:
    case = read("jonas")
    assert case.lift == 2
    assert case.darker_by == -2
    assert read("rosa").darker_by == 3
