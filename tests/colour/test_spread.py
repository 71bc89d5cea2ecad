"""The strip of likely results: independent errors add up by squares, and the strip is theirs."""

import numpy as np
import pytest

from consult.colour.difference import ciede2000
from consult.colour.prediction import predict
from consult.colour.spread import Uncertainty, in_words, learned
from consult.colour.values import HairState, OldColour, Prediction, Shade, Treatment

GOAL = Shade(6, "copper red")
NOTHING = dict.fromkeys(("depth", "white", "uptake", "lift", "observer", "surface", "model"), 0.0)
USUAL = {
    "depth": 0.5,
    "white": 0.1,
    "uptake": 0.25,
    "lift": 0.5,
    "observer": 1.0,
    "surface": 1.0,
    "model": 2.7,
}
HEADS = [
    (HairState(6, 0.3), Treatment(GOAL, 1)),
    (HairState(4, 0.05), Treatment(Shade(7, "ash"), 2)),
    (HairState(7, 0.95, (OldColour(5, "red", 6, 20),)), Treatment(Shade(5, "neutral"), 2, 0.6)),
    (HairState(3), Treatment(Shade(9, "gold"), 4)),
    (HairState(8, 0.5, (), 1.0, "high"), None),
]


def sides(found: Prediction) -> tuple[float, float, float]:
    """L* to the dark side, to the light side, and the colour difference all inputs make."""
    likely = found.seen.lab[0]
    return likely - found.spread.low.lab[0], found.spread.high.lab[0] - likely, found.spread.difference


@pytest.mark.parametrize(("hair", "treatment"), HEADS)
def test_errors_add_up_by_squares(hair: HairState, treatment: Treatment | None) -> None:
    """A reading half a level off, white a tenth, uptake a quarter, lift half a level, another eye."""
    alone = [
        sides(predict(hair, treatment, GOAL, Uncertainty(**{**NOTHING, name: half})))
        for name, half in USUAL.items()
    ]
    together = sides(predict(hair, treatment, GOAL))
    for i in range(3):
        assert together[i] == pytest.approx(np.sqrt(sum(one[i] ** 2 for one in alone)), rel=1e-3, abs=1e-3)


@pytest.mark.parametrize(("hair", "treatment"), HEADS)
def test_a_reading_of_depth_half_a_level_off_is_the_hair_next_to_it(
    hair: HairState, treatment: Treatment | None
) -> None:
    """Where nothing is put on: what a shade gives hangs less on the hair under it than the strip assumes."""
    if treatment:
        return
    only = predict(hair, treatment, GOAL, Uncertainty(0.5, 0, 0, 0, 0, 0, 0))
    darker = HairState(hair.natural_depth - 0.5, hair.white_share, (), hair.lightened_levels, hair.porosity)
    lighter = HairState(hair.natural_depth + 0.5, hair.white_share, (), hair.lightened_levels, hair.porosity)
    assert only.spread.low.lab[0] == pytest.approx(predict(darker, treatment, GOAL).seen.lab[0], abs=0.02)
    assert only.spread.high.lab[0] == pytest.approx(predict(lighter, treatment, GOAL).seen.lab[0], abs=0.02)


def test_a_tenth_more_or_less_white_is_the_hair_with_that_much_white() -> None:
    treatment = Treatment(GOAL, 1)
    only = predict(HairState(6, 0.3), treatment, GOAL, Uncertainty(0, 0.1, 0, 0, 0, 0, 0))
    ends = (predict(HairState(6, share), treatment, GOAL).seen for share in (0.2, 0.4))
    less, more = sorted(ends, key=lambda seen: seen.lab[0])
    assert only.spread.low.lab[0] == pytest.approx(less.lab[0], abs=1e-3)
    assert only.spread.high.lab[0] == pytest.approx(more.lab[0], abs=1e-3)
    apart = max(float(ciede2000(only.seen.lab, other.lab)) for other in (less, more))
    assert only.spread.difference == pytest.approx(apart, abs=1e-3)


def test_there_is_no_less_than_no_white_and_no_more_than_all() -> None:
    only = Uncertainty(0, 0.1, 0, 0, 0, 0, 0)
    none, every = (predict(HairState(6, share), None, GOAL, only) for share in (0.0, 1.0))
    assert none.spread.low.lab == pytest.approx(none.seen.lab, abs=1e-3)
    assert every.spread.high.lab == pytest.approx(every.seen.lab, abs=1e-3)
    assert none.spread.high.lab[0] > none.seen.lab[0] + 0.5
    assert every.spread.low.lab[0] < every.seen.lab[0] - 0.5


def test_a_quarter_more_or_less_dye() -> None:
    only = predict(HairState(6, 0.3), Treatment(GOAL, 1, 0.8), GOAL, Uncertainty(0, 0, 0.25, 0, 0, 0, 0))
    more, less = (predict(HairState(6, 0.3), Treatment(GOAL, 1, share), GOAL).seen for share in (1.0, 0.6))
    assert only.spread.low.lab[0] == pytest.approx(more.lab[0], abs=1e-3)
    assert only.spread.high.lab[0] == pytest.approx(less.lab[0], abs=1e-3)


def test_half_a_level_more_or_less_lift() -> None:
    only = predict(HairState(4, 0, (), 2.0), None, GOAL, Uncertainty(0, 0, 0, 0.5, 0, 0, 0))
    less, more = (predict(HairState(4, 0, (), lift), None, GOAL).seen for lift in (1.5, 2.5))
    assert only.spread.low.lab[0] == pytest.approx(less.lab[0], abs=1e-3)
    assert only.spread.high.lab[0] == pytest.approx(more.lab[0], abs=1e-3)
    assert only.spread.levels == pytest.approx(0.5, abs=0.03)


def test_a_lift_never_turns_back() -> None:
    """A quarter of a level may be none at all, but not less."""
    slight = predict(HairState(6, 0, (), 0.25), None, GOAL, Uncertainty(0, 0, 0, 0.5, 0, 0, 0))
    assert slight.spread.low.lab[0] == pytest.approx(predict(HairState(6), None, GOAL).seen.lab[0], abs=1e-3)


@pytest.mark.parametrize("depth", [1.0, 10.0])
def test_a_reading_at_an_end_of_the_scale_may_still_be_off(depth: float) -> None:
    """Black may be blacker and lightest blonde lighter than the scale: up to a level (assumption)."""
    half, whole, two = (
        sides(predict(HairState(depth), None, GOAL, Uncertainty(off, 0, 0, 0, 0, 0, 0)))
        for off in (0.5, 1.0, 2.0)
    )
    outer = 0 if depth == 1 else 1
    assert half[outer] < whole[outer] == pytest.approx(two[outer], rel=1e-3)
    assert whole[1 - outer] < two[1 - outer]


class TestRecordedResults:
    """The stated limit is two sigmas; the measured tresses weigh as seven results."""

    def test_results_as_far_off_as_stated_on_average_change_nothing(self) -> None:
        assert learned([]) == 1
        assert learned([(3.0, 6.0)] * 5) == pytest.approx(1)

    def test_good_results_narrow_and_bad_ones_widen(self) -> None:
        """By hand: one result right on the spot: root of 7/8; one off by the whole limit: root of 11/8."""
        assert learned([(0.0, 6.0)]) == pytest.approx((7 / 8) ** 0.5)
        assert learned([(6.0, 6.0)]) == pytest.approx((11 / 8) ** 0.5)
        assert learned([(0.0, 6.0)] * 100) < 0.3

    def test_a_limit_of_nothing_is_refused(self) -> None:
        with pytest.raises(ValueError, match="more than none"):
            learned([(1.0, 0.0)])


@pytest.mark.parametrize(
    ("levels", "words"),
    [
        (0.34, "less than half a level either way"), (0.35, "about half a level either way"),
        (0.75, "about half a level either way"), (0.76, "up to a whole level either way"),
        (1.25, "up to a whole level either way"), (1.26, "more than a level either way"),
    ],
)  # fmt: skip
def test_widths_in_words(levels: float, words: str) -> None:
    assert in_words(levels) == words


def test_twice_as_unsure_is_twice_each_input() -> None:
    assert Uncertainty().times(2) == Uncertainty(1.0, 0.2, 0.5, 1.0, 2.0, 2.0, 5.4)
    assert Uncertainty().times(0) == Uncertainty(0, 0, 0, 0, 0, 0, 0)
