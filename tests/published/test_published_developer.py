"""Developer arithmetic against published definitions and worked examples."""

import pytest

from consult.answers.units import percent_of_volume, volume_of_percent
from consult.plan.developer import OutsideStrengths, alligate, density, on_head, volume_of_wv, wv_of_ww


@pytest.mark.parametrize(
    ("percent", "volume"), [(3, 9.88), (6, 19.77), (9, 29.65), (12, 39.54), (3.035, 10), (30.35, 100)]
)
def test_volume_strength_from_molar_masses(percent: float, volume: float) -> None:
    """n volumes of oxygen at 0 °C, 1 atm (AMA Handbook of Useful Drugs: 3 % is about 10 volumes);
    2 x 34.0147 g give 22.414 l."""
    assert volume_of_wv(percent) == pytest.approx(volume, abs=0.01)


@pytest.mark.parametrize(("volume", "percent"), [(10, 3), (20, 6), (30, 9), (40, 12)])
def test_the_trade_rounds(volume: float, percent: float) -> None:
    """3/6/9/12 % are 10/20/30/40 volume in the trade (college teaching, common practice)."""
    assert percent_of_volume(volume) == percent
    assert volume_of_percent(percent) == volume


def test_an_odd_volume_is_converted_exactly() -> None:
    """30 vol is 9.11 % in published worked examples; 12 vol 3.64 % by the same arithmetic."""
    assert percent_of_volume(12) == pytest.approx(3.64, abs=0.005)


@pytest.mark.parametrize(("fraction", "rho"), [(0.03, 1.0086), (0.35, 1.132), (0.90, 1.395), (1.0, 1.450)])
def test_density_of_peroxide(fraction: float, rho: float) -> None:
    """3 % about 1.01, 35 % about 1.13, 90 % about 1.39, 100 % about 1.45 g/cm3 at 20 °C (handbook values)."""
    assert density(fraction) == pytest.approx(rho, rel=0.003)


def test_the_british_6_percent_solution() -> None:
    """UK product characteristics: "6 % BP 20 vols" is made with 15 % v/v of 35 % w/w solution."""
    strength = 0.15 * density(0.35) * 35
    assert strength == pytest.approx(5.94, abs=0.01)
    assert volume_of_wv(strength) == pytest.approx(19.6, abs=0.05)


def test_weight_and_volume_percent_differ_little_up_to_12() -> None:
    assert wv_of_ww(6) == pytest.approx(6.12, abs=0.01)
    assert wv_of_ww(12) == pytest.approx(12.49, abs=0.01)


@pytest.mark.parametrize(
    ("strong", "weak", "target", "grams", "parts"),
    [
        (30, 0, 12, 60, (24, 36)),  # pharmacy technician tutorial: 60 ml of 12 % from 30 % and water
        (0.5, 0.1, 0.2, 100, (25, 75)),  # published alligation exercise: 75 g + 25 g
        (12, 3, 6, 90, (30, 60)),  # 1 : 2
        (9, 0, 6, 90, (60, 30)),  # 2 : 1
        (12, 6, 9, 80, (40, 40)),  # 1 : 1
    ],
)
def test_alligation(
    strong: float, weak: float, target: float, grams: float, parts: tuple[float, float]
) -> None:
    made = alligate(strong, weak, target, grams)
    assert (made.strong_g, made.weak_g) == (pytest.approx(parts[0]), pytest.approx(parts[1]))
    assert (strong * made.strong_g + weak * made.weak_g) / grams == pytest.approx(target)


@pytest.mark.parametrize("target", [2.9, 12.1])
def test_no_mixture_lies_outside_its_two_strengths(target: float) -> None:
    with pytest.raises(OutsideStrengths, match="does not lie between"):
        alligate(12, 3, target, 60)


@pytest.mark.parametrize(
    ("percent", "ratio", "held"), [(6, 1, 3), (9, 1, 4.5), (12, 1, 6), (12, 2, 8), (9, 1.5, 5.4)]
)
def test_what_the_mix_holds_on_the_head(percent: float, ratio: float, held: float) -> None:
    """Practical Modern Hair Science (2012) 122-147: 3, 4.5, 6 or 8 % on the head from 6, 9, 12 % developers."""
    assert on_head(percent, ratio) == pytest.approx(held)
