"""Tone families, porosity and what old colour leaves room for."""

from itertools import pairwise

import numpy as np
import pytest

from consult.colour.cie import lab
from consult.colour.dyes import amount, load, mix, recipe, room_for
from consult.colour.fade import share_left, uptake_after
from consult.colour.fibre import reflectance
from consult.colour.ladder import chart_lab, nearest_depth, nearest_tones
from consult.colour.pigment import base_lift, depth_seen, lifted_to, natural_lab
from consult.colour.values import Shade
from consult.trade import POROSITIES, TONES, Tone
from tests.colour.optics import corrector, lch, nearest_tone


def hue_on_white(tone: str) -> float:
    return float(lch(lab(reflectance(load(Shade(6, tone)).dye)))[2])


def test_families_turn_round_the_colour_circle_in_order() -> None:
    order = ["matt", "gold", "copper", "copper red", "red", "mahogany"]
    hues = [hue_on_white(tone) for tone in order]
    assert hues == sorted(hues, reverse=True)
    assert hues[0] > 100  # matt is on the green side
    assert 300 < hue_on_white("violet") < 360


def test_neutral_series_imitates_natural_hair() -> None:
    for depth in np.arange(4.0, 9.1):
        dyed = load(Shade(depth, "neutral")).dye
        colour = lab(reflectance(dyed))
        born = natural_lab(depth_seen(colour))
        assert np.hypot(*(colour[1:] - born[1:])) < 1.0


@pytest.mark.parametrize("tone", TONES)
def test_a_darker_shade_holds_more_dye(tone: str) -> None:
    amounts = [float(amount(load(Shade(depth, tone)).dye)) for depth in np.arange(1, 10.1, 0.5)]
    assert all(a > b for a, b in pairwise(amounts))


@pytest.mark.parametrize("tone", TONES)
@pytest.mark.parametrize("depth", [2, 3, 5, 7, 9])
def test_a_shade_gives_its_number_on_white_hair_and_on_its_own_depth(tone: Tone, depth: int) -> None:
    """Common practice: one tube, one number, on white hair and on hair of that depth that it lifts by a level."""
    one = load(Shade(depth, tone))
    stands = depth + float(base_lift(depth))
    own = lifted_to(depth, stands), float(one.share(stands, depth))
    for pigment, share in ((np.zeros(31), 1.0), own):
        assert float(depth_seen(lab(reflectance(pigment + share * one.dye)))) == pytest.approx(
            depth, abs=0.03
        )


def test_mixing_is_by_share() -> None:
    one, two = Shade(6, "neutral"), Shade(6, "red")
    np.testing.assert_allclose(mix([(one, 0.75), (two, 0.25)]), 0.75 * load(one).dye + 0.25 * load(two).dye)
    np.testing.assert_array_equal(mix([(one, 1.0)]), load(one).dye)


def test_unknown_family_is_refused() -> None:
    with pytest.raises(ValueError, match="unknown tone"):
        Shade(6, "chocolate")  # type: ignore[arg-type]
    with pytest.raises(KeyError):
        recipe("chocolate", 6)  # type: ignore[arg-type]


@pytest.mark.parametrize("tone", TONES)
@pytest.mark.parametrize("depth", [2.0, 4.0, 5.5, 7.0, 9.0])
def test_charts_read_back_as_themselves(tone: str, depth: float) -> None:
    colour = chart_lab(depth, tone)
    assert nearest_depth(colour) == depth
    if depth >= 6 or (depth >= 4 and tone not in ("violet", "pearl")):  # below, closer than anybody can see
        assert nearest_tone(colour) == tone


def test_natural_and_white_hair_read_as_neutral() -> None:
    assert set(nearest_tones(natural_lab(np.arange(1, 11)))) == {"neutral"}
    assert nearest_tone(lab(reflectance(np.zeros(31)))) == "neutral"


def test_opposite_mixtones_grey_each_other_out() -> None:
    for one, two in (("red", "green"), ("orange", "blue"), ("yellow", "violet")):
        alone = lch(lab(reflectance(corrector(one, 0.15))))[1]
        both = lch(lab(reflectance(corrector(one, 0.15) + corrector(two, 0.1))))[1]
        wrong = lch(lab(reflectance(corrector(one, 0.15) + corrector(one, 0.1))))[1]
        assert both < alone < wrong


def test_room_left_by_old_colour() -> None:
    assert room_for(1.0, 0.0) == 1.0
    assert room_for(1.0, 0.4) == pytest.approx(0.6)  # refills to full, no further
    assert 0 < room_for(1.0, 3.0) < 0.5  # a full head exchanges a little


def test_porosity_scales_uptake_and_fade() -> None:
    taken = [float(amount(load(Shade(6, "neutral"), p).dye)) for p in POROSITIES]
    assert taken == sorted(taken)
    for tone in TONES:
        left = [share_left(tone, 20, 8, p) for p in POROSITIES]
        assert left == sorted(left, reverse=True)


def test_fade_starts_full_and_only_falls() -> None:
    for tone in TONES:
        assert share_left(tone, 0, 0) == pytest.approx(1.0)
        course = [share_left(tone, n, n / 3) for n in range(0, 90, 5)]
        assert all(a > b > 0 for a, b in pairwise(course))


def test_vivid_tones_fade_faster_than_browns() -> None:
    """Common practice, and the only published pair of shades agrees (fade-copper-2021)."""
    for vivid in ("copper", "copper red", "red", "mahogany", "violet"):
        assert share_left(vivid, 6, 2) < share_left("neutral", 6, 2)


def test_fade_and_uptake_refuse_nonsense() -> None:
    with pytest.raises(ValueError, match="negative"):
        share_left("red", -1, 0)
    with pytest.raises(ValueError, match="full time"):
        uptake_after(10, 0)


def test_uptake_never_passes_full() -> None:
    assert uptake_after(60, 30) == 1.0
    assert uptake_after(30, 30, "low") < 1.0
    assert uptake_after(12, 30, "high") > uptake_after(12, 30)
