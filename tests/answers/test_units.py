"""Metric and US units: what is typed or written with its unit means the same hair and the same bowl."""

import pytest

from consult.answers import Answers
from consult.answers.access import BadAnswer, get, with_answer
from consult.answers.units import NOMINAL_VOLUMES, percent_of_volume, volume_of_percent

SAME = [
    # The inch is 2.54 cm exactly by the yard and pound agreement of 1959.
    ("hair.length_cm", "12 in", 30.48),
    ("hair.length_cm", '12"', 30.48),
    ("hair.length_cm", "12 inches", 30.48),
    ("hair.length_cm", "30,5", 30.5),
    ("hair.length_cm", "30.5 cm", 30.5),
    ("hair.new_growth_cm", "15 mm", 1.5),
    # One US fluid ounce is 29.5735 ml, one avoirdupois ounce 28.3495 g.
    ("product.pack_ml", "4 fl oz", 118.29),
    ("product.pack_ml", "4 fl. oz.", 118.29),
    ("product.pack_ml", "110 ml", 110.0),
    ("product.tube_g", "2 oz", 56.7),
    ("product.tube_g", "60g", 60.0),
    ("product.developer_percent", "20 vol", 6.0),
    ("product.developer_percent", "40 volume", 12.0),
    ("product.developer_percent", "6 %", 6.0),
    ("product.minutes_max", "35 min", 35.0),
    ("hair.white_front", "60%", 60.0),
    ("product.ratio", "1:1.5", 1.5),
    ("product.ratio", "1:1,5", 1.5),
    ("product.ratio", "1+2", 2.0),
    ("product.ratio", "2:1", 0.5),
    ("product.ratio", "60:90", 1.5),
    ("product.ratio", "1.5", 1.5),
]


@pytest.mark.parametrize(("path", "written", "meant"), SAME)
def test_a_quantity_with_its_unit(path: str, written: str, meant: float) -> None:
    assert get(with_answer(Answers(), path, written), path) == pytest.approx(meant)


@pytest.mark.parametrize(
    ("path", "written"),
    [
        ("hair.length_cm", "12 ml"),
        ("hair.length_cm", "twelve inches"),
        ("hair.length_cm", "-12 in"),
        ("hair.length_cm", "80 in"),
        ("product.pack_ml", "4 oz"),
        ("product.pack_ml", "0 ml"),
        ("product.tube_g", "4 fl oz"),
        ("product.ratio", "1:0"),
        ("product.ratio", "0:1"),
        ("product.ratio", "1:1:1"),
        ("product.developer_percent", "20 cm"),
        ("product.developer_percent", "140 vol"),
        ("hair.white_front", "60 permille"),
    ],
)
def test_a_unit_that_does_not_measure_this_is_refused(path: str, written: str) -> None:
    with pytest.raises(BadAnswer):
        with_answer(Answers(), path, written)


@pytest.mark.parametrize(("volume", "percent"), NOMINAL_VOLUMES.items())
def test_the_trades_round_strengths_read_both_ways(volume: float, percent: float) -> None:
    assert percent_of_volume(volume) == percent
    assert volume_of_percent(percent) == volume


def test_a_strength_between_the_round_ones_is_computed() -> None:
    # 100 volumes: 100 l of oxygen from 1 l of solution, 2 mol peroxide of 34.01 g to 22.41 l.
    assert percent_of_volume(100) == pytest.approx(100 * 2 * 34.0147 / 22.41397 / 10, abs=0.02)
    assert volume_of_percent(1.9) == pytest.approx(6.3, abs=0.05)
