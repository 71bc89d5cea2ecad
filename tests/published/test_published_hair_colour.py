"""Hair colours against what has been published about hair. Every check names its source beside it."""

import numpy as np
import pytest

from consult.colour.cie import lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import amount, load
from consult.colour.fade import share_left, uptake_after
from consult.colour.fibre import BACK, KERATIN, SURFACE, pile, reflectance
from consult.colour.melanin import STEP, absorbance, eumelanin
from consult.colour.pigment import lifted, natural_lab
from consult.colour.values import Shade
from consult.trade import TONES

# Source: scanavez-2000, Table III (p. 293): one dark brown tress under eight conditions, D65, 10 degrees.
DARK_BROWN = (
    (23.04, 4.04, 4.72), (22.48, 4.10, 5.13), (23.75, 3.82, 4.95), (23.59, 3.87, 4.76),
    (22.72, 3.35, 3.85), (21.68, 4.28, 5.41), (23.59, 3.87, 4.73), (21.85, 4.07, 5.09),
)  # fmt: skip
# Source: scanavez-2000, Table IV (p. 293): black hair with and without the mirror-like part of the light.
BLACK = ((18.37, -0.05, -0.84), (18.00, 0.02, -0.91))
# Source: scanavez-2000, Table VIII (p. 299): another black tress, B3.
BLACK_B3 = (21.55, 1.73, 1.67)


def natural(depth: float) -> np.ndarray:
    """Natural hair as the instrument of the source saw it: with the 10 degree observer."""
    return lab(reflectance(absorbance(depth)), "10 degree")


@pytest.mark.parametrize("row", DARK_BROWN)
def test_dark_brown_tress(row: tuple[float, float, float]) -> None:
    """Two of the model's constants were fitted to these rows; the check is that one depth serves them all."""
    around_three = np.linspace(2.75, 3.25, 11)  # dark brown is depth 3; a reading is good to half a level
    assert ciede2000(natural(around_three), row).min() < 1.5


def test_dark_brown_on_average_is_depth_three() -> None:
    assert ciede2000(natural(3.0), np.mean(DARK_BROWN, axis=0)) < 1.5


@pytest.mark.parametrize("row", BLACK)
def test_black_hair_is_depth_one(row: tuple[float, float, float]) -> None:
    assert ciede2000(natural(1.0), row) < 1.5
    assert ciede2000(natural(3.0), row) > 5  # and nothing browner would do


def test_other_black_tress_lies_between_depth_one_and_three() -> None:
    depths = np.linspace(1.0, 3.0, 41)
    apart = ciede2000(natural(depths), BLACK_B3)
    assert apart.min() < 1.5
    assert 1.0 < depths[int(apart.argmin())] < 3.0


def test_surface_light_alone_is_as_dark_as_published() -> None:
    """Source: scanavez-2000, Table IV: ink-filled capillaries, only surface light, L* 19.06 to 19.89."""
    ink = lab(reflectance(np.full(31, 30.0)), "10 degree")
    assert abs(ink[0] - (19.06 + 19.89) / 2) < 1.5
    assert np.hypot(ink[1], ink[2]) < 1.2


def test_pigment_falls_as_from_black_to_blond() -> None:
    """Source: rayrender-hair: eumelanin about 8 in black, 1.3 in brown and 0.3 in blond hair."""
    assert eumelanin(1) / eumelanin(5) == pytest.approx(8 / 1.3, rel=0.15)
    assert eumelanin(5) / eumelanin(8) == pytest.approx(1.3 / 0.3, rel=0.15)
    assert float(STEP) ** 7 == pytest.approx(8 / 0.3, rel=0.15)


def test_black_shade_holds_about_ten_times_the_dye_of_a_blond_one() -> None:
    """Source: modern-hair-science, p. 122: dye precursors about 5 per cent in a black, 0.5 in a blonde shade.

    A recipe's grams are not a fibre's absorbance, so only the order of size is held: 3 to 30 times.
    """
    for black, blond in ((1, 6), (1, 7), (2, 7), (2, 8)):
        times = amount(load(Shade(black, "neutral"))) / amount(load(Shade(blond, "neutral")))
        assert 3 < times < 30


def test_dye_without_lift_makes_hair_darker() -> None:
    """Source: modern-hair-science, p. 122: matching the natural colour by dye alone makes the hair darker;
    lift has to go with it."""
    for depth in (4, 6, 8):
        dye = load(Shade(depth, "neutral"))
        without = lab(reflectance(lifted(depth, 0) + dye))[0]
        with_lift = lab(reflectance(lifted(depth, 1) + dye))[0]
        bare = natural_lab(depth)[0]
        assert without < with_lift < bare


# Source: fade-copper-2021, Table III (p. 278), colour change after so many washes, on hair holding copper.
WASHES = (2, 5, 8, 12)
VIVID_LOSS = (7.59, 7.73, 6.99, 6.70)
BROWN_LOSS = (3.42, 4.57, 5.43, 6.12)


def colour_loss(shade: Shade, washes: float) -> float:
    """CIELAB distance on white hair, the largest this model can make of a wash."""
    full = load(shade)
    left = share_left(shade.tone, washes, 0) * full
    return float(np.linalg.norm(lab(reflectance(full)) - lab(reflectance(left))))


def test_fade_stays_under_the_upper_estimate_and_does_not_vanish() -> None:
    for washes, vivid, brown in zip(WASHES, VIVID_LOSS, BROWN_LOSS, strict=True):
        assert 0.25 * vivid < colour_loss(Shade(5, "copper"), washes) < vivid
        assert 0.25 * brown < colour_loss(Shade(4, "neutral"), washes) < brown


def test_vivid_shades_lose_at_once_and_browns_slowly() -> None:
    """Same table: the warm shade had its whole loss after two washes, the brown about half of it."""
    vivid = [colour_loss(Shade(5, "copper"), n) for n in (2, 12)]
    brown = [colour_loss(Shade(4, "neutral"), n) for n in (2, 12)]
    assert vivid[0] / vivid[1] > brown[0] / brown[1]
    assert brown[0] / brown[1] == pytest.approx(3.42 / 6.12, abs=0.2)


def test_fade_is_more_than_on_undamaged_hair() -> None:
    """Source: fade-30-washes-2008: over 90 per cent kept for thirty washes, on undamaged hair."""
    for tone in TONES:
        assert 0.4 < share_left(tone, 30, 0) < 0.9


def test_light_counts_as_well_as_washing() -> None:
    """Source: fade-light-2005: more is lost with light and shampoo together than with shampoo alone."""
    assert share_left("copper red", 4, 8) < share_left("copper red", 4, 0)


def test_uptake_follows_the_square_root_of_time() -> None:
    """Source: dye-uptake-1967: uptake rises with the square root of time, at short times."""
    assert uptake_after(10, 40) == pytest.approx(0.5)
    assert uptake_after(20, 40) / uptake_after(5, 40) == pytest.approx(2.0)


def test_hair_once_lightened_takes_up_faster() -> None:
    """Source: hair-damage-1993, Table III: diffusion 3.59 untreated, 9.78 after an hour of peroxide; depth
    of penetration goes with the root."""
    ratio = uptake_after(5, 40, "high") / uptake_after(5, 40, "normal")
    assert ratio == pytest.approx((9.78 / 3.59) ** 0.5, abs=0.01)


def test_pile_of_plates_added_up_layer_by_layer() -> None:
    """Source: stokes-1862: the closed form must be the sum over single layers, here added one by one."""
    absorbed = np.linspace(0.0, 3.0, 31)
    passed = np.exp(-(absorbed + KERATIN))
    back, through = SURFACE + BACK * passed**2, (1 - SURFACE - BACK) * passed
    whole = np.zeros(31)
    for _ in range(4000):  # put one more layer on top of what lies there already
        whole = back + through**2 * whole / (1 - back * whole)
    np.testing.assert_allclose(reflectance(absorbed), whole, atol=1e-9)


def test_weak_absorption_is_the_textile_law() -> None:
    """Source: common practice in textiles: (1 - R)^2 / 2R rises in proportion to absorption."""
    absorbed = np.array([1e-5, 2e-5, 4e-5])
    passed = np.exp(-absorbed)
    r = pile(passed, passed**2)
    ratio = (1 - r) ** 2 / (2 * r)
    scatter = (SURFACE + BACK) / ((1 - SURFACE) ** 2 - BACK**2)  # from the two-flux equations, by hand
    np.testing.assert_allclose(ratio, absorbed / scatter, rtol=1e-3)
