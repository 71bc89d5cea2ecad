"""Growth against published rates."""

from datetime import date

import pytest

from consult.growth import COILY_MEAN, FASTEST_MEAN, MEAN, SLOWEST_MEAN, own, published

DAYS_A_MONTH = 30.4375
# Loussouarn, El Rawadi, Genain, Int. J. Dermatol. 44 Suppl. 1 (2005) 6-9: micrometres a day, mean and SD.
GROUPS = {"African": (280, 50), "Caucasian": (367, 56), "Asian": (411, 53)}


def cm_a_month(um_a_day: float) -> float:
    return um_a_day * DAYS_A_MONTH / 1e4


def test_the_published_means_lie_within_the_range_used() -> None:
    """The worldwide sampling (Eur. J. Dermatol. 26 (2016) 144) gives 0.8 to 1.3 cm a month."""
    for mean, _ in GROUPS.values():
        assert SLOWEST_MEAN <= cm_a_month(mean) <= FASTEST_MEAN
    assert SLOWEST_MEAN < MEAN < FASTEST_MEAN


def test_coily_hair_is_taken_slower() -> None:
    assert pytest.approx(cm_a_month(280), abs=0.01) == COILY_MEAN
    assert published("coily").rate < published("straight").rate


@pytest.mark.parametrize(("weeks", "low_mm", "high_mm"), [(6, 11.8, 17.3), (8, 15.7, 23.0)])
def test_new_growth_after_weeks(weeks: int, low_mm: float, high_mm: float) -> None:
    """The slowest and the fastest group's mean bound what the default says."""
    growth = published(None)
    assert low_mm <= growth.cm(weeks * 7) * 10 <= high_mm


def test_ones_own_rate_comes_from_new_growth_and_weeks() -> None:
    growth = own(1.5, date(2026, 10, 14), date(2026, 11, 25))
    assert growth
    assert growth.rate == pytest.approx(1.5 / 42 * DAYS_A_MONTH)


@pytest.mark.parametrize("centimetres", [0.4, 2.4])
def test_an_unbelievable_rate_is_not_taken(centimetres: float) -> None:
    """Single persons: 150 micrometres a day at the slowest (Br. J. Dermatol. 2001); the fastest group's
    mean plus two standard deviations is 517."""
    assert own(centimetres, date(2026, 10, 14), date(2026, 11, 25)) is None
