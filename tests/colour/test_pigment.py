"""Natural depth, lift and what lift exposes."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.colour.apparent import apparent_lightness
from consult.colour.cie import lab
from consult.colour.fibre import blend, reflectance
from consult.colour.pigment import (
    depth_seen,
    expected_lift,
    lifted,
    lifted_position,
    looks_of,
    melanins,
    natural_lab,
)
from tests.colour.optics import born, lch

CALM = settings(derandomize=True, deadline=None, max_examples=80)
DEPTH = st.floats(1, 10)
LEVELS = st.floats(0, 9)
SHARE = st.floats(0, 1)


def light(absorbed: np.ndarray) -> float:
    return float(lab(reflectance(absorbed))[0])


def test_ladder_rises_and_warms() -> None:
    colours = natural_lab(np.arange(1, 11))
    assert (np.diff(colours[:, 0]) > 0.5).all()
    assert (np.diff(lch(colours)[:, 2]) > 0).all()  # from red-brown towards yellow


def test_depth_and_lightness_are_each_others_inverse() -> None:
    depths = np.linspace(1, 10, 37)
    np.testing.assert_allclose(depth_seen(natural_lab(depths)), depths, atol=0.002)


def test_no_lift_changes_nothing() -> None:
    np.testing.assert_array_equal(lifted(4.5, 0.0), born(4.5))


@CALM
@given(DEPTH, LEVELS)
def test_lift_reaches_the_lightness_it_stands_for(depth: float, levels: float) -> None:
    """The dose is looked up on a grid; half a unit of lightness is a tenth of a level."""
    reached = float(apparent_lightness(lab(reflectance(lifted(depth, levels)))))
    assert reached == pytest.approx(float(looks_of(lifted_position(depth, levels))), abs=0.5)


@CALM
@given(DEPTH, LEVELS, st.floats(0, 3))
def test_more_lift_is_never_darker(depth: float, levels: float, more: float) -> None:
    assert light(lifted(depth, levels + more)) >= light(lifted(depth, levels)) - 1e-9


@CALM
@given(DEPTH, st.floats(0, 3), LEVELS)
def test_more_pigment_is_never_lighter(depth: float, darker: float, levels: float) -> None:
    deep = max(depth - darker, 1.0)
    assert (born(deep) >= born(depth) - 1e-12).all()
    assert light(lifted(deep, levels)) <= light(lifted(depth, levels)) + 0.05  # 0.05: the grid of doses


@CALM
@given(st.floats(0, 5), st.floats(0, 5), SHARE)
def test_a_blend_lies_between_its_parts(dark: float, pale: float, share: float) -> None:
    one, two = dark * np.ones(31), pale * np.linspace(1.5, 0.5, 31)
    mixed = reflectance(one), blend(one, two, share), reflectance(two)
    low, high = np.minimum(mixed[0], mixed[2]), np.maximum(mixed[0], mixed[2])
    assert (mixed[1] >= low - 1e-12).all()
    assert (mixed[1] <= high + 1e-12).all()


def test_all_and_no_white_are_the_pure_cases() -> None:
    pigmented, white = born(4), np.zeros(31)
    np.testing.assert_allclose(blend(pigmented, white, 0.0), reflectance(pigmented), rtol=1e-12)
    np.testing.assert_allclose(blend(pigmented, white, 1.0), reflectance(white), rtol=1e-12)


@pytest.mark.parametrize("depth", [1, 2, 3, 4, 5, 6])
def test_undertones_come_in_the_order_of_the_trade(depth: int) -> None:
    """Red, orange, yellow, pale yellow: common practice, and taught everywhere in this order."""
    stages = lch(lab(reflectance(lifted(depth, np.arange(1, 11 - depth)))))
    hue, chroma = stages[:, 2], stages[:, 1]
    assert (np.diff(hue) > 0).all()  # always on from red towards yellow, never back
    assert (stages[:, 1] > lch(natural_lab(np.arange(depth + 1, 11)))[:, 1]).all()  # warmer than born so
    assert hue[-1] > 77  # level 10 is yellow ...
    assert chroma[-1] < chroma[-2]  # ... and paler than level 9
    if depth <= 2:
        assert hue[0] < 50  # the first stage of the darkest hair is red
    if depth < 6:
        assert 50 < stages[5 - depth][2] < 70  # orange in the middle


def test_the_darker_the_start_the_warmer_the_same_level() -> None:
    warmth = [lch(lab(reflectance(lifted(depth, 7 - depth))))[1] for depth in (1, 3, 5)]
    assert warmth[0] > warmth[1] > warmth[2]


def test_lifted_hair_of_level_ten_is_lighter_than_hair_born_so() -> None:
    assert light(lifted(4, 6)) > natural_lab(10)[0] + 4
    below = apparent_lightness([lab(reflectance(lifted(4, 3))), natural_lab(7)])
    assert below[0] == pytest.approx(below[1], abs=0.34)  # up to 7 they look as light


def test_lift_is_bounded_by_developer_and_shade() -> None:
    assert expected_lift(5, 8, 2) == 2  # the developer's bound
    assert expected_lift(3, 3, 4) == 1  # a level 3 shade with the strongest developer stays dark
    assert expected_lift(4, 6, 4) == 3  # up to its depth and the level its dye takes back, no more
    assert expected_lift(6, 8, 4) == 3.5  # a light blonde takes back one and a half
    assert expected_lift(4, 8, 0) == 0


def test_an_old_colour_was_washed_never_or_more_often() -> None:
    from consult.colour.values import OldColour

    assert OldColour(6, "gold", 4, 0).washes == 0
    for washes in (-0.5, 20_000.5):
        with pytest.raises(ValueError, match="washes"):
            OldColour(6, "gold", 4, washes)


def test_half_way_between_two_natural_tones_lies_half_way_between_their_pigments() -> None:
    """A meter reads warmths between the words; the pigment between them is a mean, never a difference."""
    for depth in (3.0, 5.25, 8.0):
        neutral, half, gold = (melanins(depth, warmth) for warmth in (0.0, 0.5, 1.0))
        for one, between, other in zip(neutral, half, gold, strict=True):
            assert min(one, other) <= between <= max(one, other)
