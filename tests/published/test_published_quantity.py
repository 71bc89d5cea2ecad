"""Hair mass, amounts and packs against published figures."""

import math
from statistics import NormalDist

import pytest

from consult.plan.amounts import (
    DIAMETER_UM,
    HAIR_DENSITY,
    HAIRS,
    MIX_PER_HAIR,
    MIX_PER_HAIR_LEAST,
    MIX_PER_HAIR_MOST,
    Need,
    hair_mass,
    need_of_hair,
)

ML_PER_FL_OZ = 29.5735


def test_a_head_of_hair_four_inches_long_weighs_60_g() -> None:
    """Maibach and Wolfram, J. Soc. Cosmet. Chem. 32 (1981) 224; 69.6 um: ibid. 34 (1983) 366; count within
    100,000 to 120,000: ibid. 28 (1977) 220."""
    assert hair_mass(117_600, 69.6, 10.16) == pytest.approx(60.0, abs=0.3)


@pytest.mark.parametrize(
    ("um", "tex"), [(50, 2.59), (55, 3.14), (60, 3.73), (70, 5.08), (80, 6.64), (90, 8.40)]
)
def test_linear_density_of_a_fibre(um: float, tex: float) -> None:
    """Arithmetic: cross-section times 1.32 g/cm3; tex is mg a metre."""
    one_metre = hair_mass(1, um, 100) * 1000
    assert one_metre == pytest.approx(tex, abs=0.01)
    assert HAIR_DENSITY == 1.32


def test_published_mix_per_gram_is_kept_to() -> None:
    """1.5 to 2.0 g of lotion a gram of hair (Maibach and Wolfram 1981, 224); 1 to 1 as customer use
    (J. Cosmet. Sci. 55 (2004) 554): the two figures are the ends of what is reckoned with."""
    leaner_pack = 3 * ML_PER_FL_OZ / 60
    assert leaner_pack == pytest.approx(1.48, abs=0.01)
    assert pytest.approx(1.0) == MIX_PER_HAIR_LEAST
    assert pytest.approx(leaner_pack, abs=0.05) == MIX_PER_HAIR_MOST
    assert MIX_PER_HAIR_LEAST < MIX_PER_HAIR < MIX_PER_HAIR_MOST


def test_one_4_fl_oz_pack_for_up_to_120_g_of_hair_is_the_lean_end() -> None:
    """ "Sufficient to color up to 120 g of hair" (Maibach and Wolfram 1981, 224): 1 g a gram, the least here."""
    assert pytest.approx(MIX_PER_HAIR_LEAST, abs=0.02) == 4 * ML_PER_FL_OZ / 120
    assert need_of_hair(120).chance_above(4 * ML_PER_FL_OZ) > 0.9
    assert need_of_hair(60).chance_above(4 * ML_PER_FL_OZ) < 0.02


def test_counts_and_diameters_lie_in_the_published_ranges() -> None:
    """100,000 to 150,000 fibres a head (Practical Modern Hair Science 2012, 353); means of ten men
    55.7 to 86.6 um (J. Soc. Cosmet. Chem. 34 (1983) 366)."""
    assert 100_000 <= HAIRS["normal"] <= HAIRS["high"] <= 150_000
    assert all(55 <= um <= 87 for um in DIAMETER_UM.values())


def test_the_need_is_a_log_normal_by_its_moments() -> None:
    """Mean and variance of exp(N(m, s)) are exp(m + s2/2) and (exp(s2) - 1) exp(2m + s2) (textbook)."""
    need = Need(150.0, 30.0)
    s2 = math.log(1 + (30 / 150) ** 2)
    m = math.log(150) - s2 / 2
    assert math.exp(m + s2 / 2) == pytest.approx(150)
    assert need.quantile(0.5) == pytest.approx(math.exp(m))
    assert need.chance_above(need.quantile(0.02)) == pytest.approx(0.02)


@pytest.mark.parametrize("chance", [0.001, 0.02, 0.1, 0.5])
def test_quantiles_and_chances_are_those_of_the_reference_library(chance: float) -> None:
    """Python's statistics.NormalDist, on the logarithm."""
    need = Need(150.0, 30.0)
    spread = math.sqrt(math.log(1 + (30 / 150) ** 2))
    reference = NormalDist(math.log(150) - spread**2 / 2, spread)
    assert need.quantile(chance) == pytest.approx(math.exp(reference.inv_cdf(1 - chance)), rel=1e-9)
    assert need.chance_above(180) == pytest.approx(1 - reference.cdf(math.log(180)), rel=1e-9)
