"""What the model's constants come to, as colours.

Published tables are held by their column totals. Recipes of the tone families, widths of the bands, covers, the
share of pheomelanin and the bleaching rates are free assumptions: the colours below are what follows from them
today, so that none of them moves unseen. Whoever moves one on purpose writes these rows anew, and says why.
"""

import numpy as np
import numpy.typing as npt
import pytest

from consult.colour.apparent import apparent_lightness
from consult.colour.cie import lab
from consult.colour.dyes import amount, load
from consult.colour.fade import share_left, uptake_after
from consult.colour.fibre import reflectance
from consult.colour.ladder import chart_lab
from consult.colour.melanin import _EUMELANIN, _PHEOMELANIN
from consult.colour.pigment import dose, levels_to, lifted, lifted_position, looks_of, natural_lab
from consult.colour.values import Shade
from consult.trade import Tone
from tests.colour.optics import corrector
from tests.colour.optics import on_white as dyed

Row = tuple[float, float, float]
HUNDREDTH = 0.006
"""CIELAB to two decimals: far finer than any eye, so that no constant moves unseen."""


def same(colour: npt.ArrayLike, wanted: Row) -> None:
    np.testing.assert_allclose(np.asarray(colour), wanted, atol=HUNDREDTH)


@pytest.mark.parametrize(
    ("table", "rows", "nm", "extinction"),
    [(_EUMELANIN, 12, 6478.55, 90.950), (_PHEOMELANIN, 16, 8446.83, 86.437)],
)
def test_the_melanin_tables_add_up_as_published(
    table: tuple[tuple[float, float], ...], rows: int, nm: float, extinction: float
) -> None:
    """Source: omlc-melanin. Columns: nm; 1/cm per mg/ml."""
    assert len(table) == rows
    assert [sum(column) for column in zip(*table, strict=True)] == [
        pytest.approx(nm),
        pytest.approx(extinction),
    ]


@pytest.mark.parametrize(
    ("tone", "on_white", "on_lifted", "on_the_chart"),
    [
        ("neutral", (36.69, 5.98, 15.93), (25.60, 6.28, 10.02), (42.91, 5.69, 17.43)),
        ("ash", (37.81, -6.34, -0.96), (25.30, -0.74, 6.54), (43.74, 1.05, 14.96)),
        ("matt", (36.83, -8.04, 11.97), (25.18, -0.61, 8.57), (43.40, 0.76, 17.87)),
        ("gold", (34.63, 12.98, 22.69), (24.94, 9.46, 10.30), (41.55, 9.84, 23.95)),
        ("copper", (31.97, 25.28, 21.84), (23.82, 14.27, 8.75), (40.15, 17.01, 25.75)),
        ("copper red", (32.26, 24.85, 19.71), (23.86, 14.09, 8.67), (40.52, 16.71, 22.90)),
        ("red", (31.92, 26.83, 16.96), (23.63, 14.70, 8.11), (40.45, 17.69, 21.70)),
        ("mahogany", (35.32, 16.17, 5.76), (24.98, 9.89, 7.99), (42.36, 10.39, 16.09)),
        ("violet", (37.00, 6.30, -5.62), (25.18, 4.51, 6.06), (43.34, 5.44, 14.14)),
        ("pearl", (38.56, 3.94, 0.64), (26.03, 4.44, 7.90), (43.26, 5.09, 15.17)),
    ],
)  # fmt: skip
def test_the_ten_families(tone: Tone, on_white: Row, on_lifted: Row, on_the_chart: Row) -> None:
    """Depth 6 on white hair; 5.25, between two steps of the grid, on natural 4 lifted by 2; chart colour of depth 7."""
    same(lab(reflectance(dyed(Shade(6, tone)))), on_white)
    same(lab(reflectance(lifted(4, 2) + dyed(Shade(5.25, tone)))), on_lifted)
    same(chart_lab(7, tone), on_the_chart)


@pytest.mark.parametrize(
    ("colour", "wanted"),
    [
        ("yellow", (70.56, 3.58, 47.02)),
        ("orange", (59.12, 27.08, 33.91)),
        ("red", (49.56, 33.46, 11.38)),
        ("violet", (44.75, 19.70, -26.39)),
        ("blue", (51.82, -12.84, -24.55)),
        ("green", (52.84, -26.33, -1.27)),
    ],
)  # fmt: skip
def test_the_six_mix_tones(colour: str, wanted: Row) -> None:
    """0.2 of each on white hair."""
    same(lab(reflectance(corrector(colour, 0.2))), wanted)


@pytest.mark.parametrize(
    ("depth", "wanted"),
    [
        (1, (18.87, 0.56, 0.27)),
        (2, (19.62, 1.98, 1.51)),
        (3, (21.73, 3.86, 4.64)),
        (4, (25.55, 5.21, 9.05)),
        (5, (30.75, 5.84, 13.05)),
        (6, (36.71, 5.95, 15.81)),
        (7, (42.91, 5.69, 17.43)),
        (8, (48.92, 5.15, 18.25)),
        (9, (54.39, 4.42, 18.53)),
        (10, (59.08, 3.62, 18.49)),
        (15, (70.49, 0.91, 17.64)),
    ],
)  # fmt: skip
def test_natural_hair(depth: float, wanted: Row) -> None:
    same(natural_lab(depth), wanted)


def test_white_hair_is_a_light_straw() -> None:
    same(lab(reflectance(np.zeros(31))), (75.74, -1.37, 14.24))


@pytest.mark.parametrize(
    ("depth", "levels", "wanted"),
    [
        (1, 3, (24.67, 8.80, 9.66)),
        (3, 3, (35.30, 10.48, 20.99)),
        (5, 2, (41.97, 8.52, 22.03)),
        (5, 5, (68.86, 2.49, 26.52)),
        (8, 2, (68.48, 2.53, 23.31)),
        (10, 1, (69.41, 1.84, 20.73)),
        (1, 9, (68.53, 3.08, 30.60)),
        (7.3, 1.37, (57.93, 5.90, 24.01)),
        (2.1, 0.6, (20.83, 3.69, 3.45)),
    ],
)  # fmt: skip
def test_lifted_hair(depth: float, levels: float, wanted: Row) -> None:
    """Black to pale yellow, brown, blond, and between the steps of the table of doses."""
    same(lab(reflectance(lifted(depth, levels))), wanted)


class TestLiftedHairRunsAhead:
    """Over level 7 by 0.45 of a step for each squared level that lightening has gone through (from memory)."""

    @pytest.mark.parametrize(
        ("depth", "levels", "stands"),
        [
            (4, 3, 7), (3, 4, 7), (5, 3, 8.45), (6, 3, 10.8), (6, 4, 14.05),
            (7, 3, 14.05), (8, 1, 10.35), (9, 1.5, 14.2125),
            (9, 0, 9), (9, -1, 9), (3, 9, 15), (10, 0, 10),
        ],
    )  # fmt: skip
    def test_where_it_stands(self, depth: float, levels: float, stands: float) -> None:
        assert float(lifted_position(depth, levels)) == pytest.approx(stands)

    def test_the_way_back_to_its_levels(self) -> None:
        for depth in (1, 4, 7, 8.5, 10):
            for levels in (0, 0.5, 1, 2.75):
                if (stands := float(lifted_position(depth, levels))) < 15:
                    assert float(levels_to(depth, stands)) == pytest.approx(levels)
        assert float(levels_to(9, 8)) == 0  # hair is never darkened
        assert float(levels_to(10, 15)) == float(levels_to(10, 19))  # the ladder has an end

    def test_the_dose_takes_it_there_at_every_step_of_its_table(self) -> None:
        """Quarters of a level both ways, as far as level 10; a tenth of a unit of L* is the grain of the doses."""
        for depth in np.arange(1, 10.1, 0.25):
            for levels in np.arange(0, 10.1 - depth, 0.25):
                reached = apparent_lightness(lab(reflectance(lifted(depth, levels))))
                assert reached == pytest.approx(float(looks_of(lifted_position(depth, levels))), abs=0.05)

    def test_no_lift_takes_no_dose_and_beyond_the_table_its_ends_hold(self) -> None:
        assert float(dose(5, 0)) == 0
        assert float(dose(5, -1)) == 0
        assert float(dose(-3, 2)) == pytest.approx(float(dose(-2, 2)), rel=1e-5)
        assert float(dose(14, 0.5)) == pytest.approx(float(dose(13, 0.5)), rel=1e-5)
        assert float(dose(2, 15)) == pytest.approx(float(dose(2, 14)), rel=1e-5)


@pytest.mark.parametrize(
    ("tone", "porosity", "left"),
    [
        ("neutral", "low", (95.3, 83.6, 81.5, 92.6, 48.0)),
        ("neutral", "normal", (94.5, 81.4, 78.8, 90.8, 40.7)),
        ("neutral", "high", (93.0, 76.1, 72.6, 86.6, 26.9)),
        ("red", "low", (88.5, 73.9, 70.4, 86.6, 42.2)),
        ("red", "normal", (86.7, 72.4, 68.2, 83.5, 35.9)),
        ("red", "high", (83.5, 68.9, 62.9, 76.3, 24.1)),
    ],
)  # fmt: skip
def test_percent_of_colour_left(tone: Tone, porosity: str, left: tuple[float, ...]) -> None:
    """After 1 wash; 12; 12 in 4 weeks; 12 weeks without any; 60 in 20 weeks. Assumptions, between two publications.

    By hand, 12 washes of a normal brown: 93 of 100 held firmly x exp(-12/90) = 81.4.
    """
    course = ((1, 0), (12, 0), (12, 4), (0, 12), (60, 20))
    found = [share_left(tone, washes, weeks, porosity) * 100 for washes, weeks in course]  # type: ignore[arg-type]
    assert found == [pytest.approx(share, abs=0.06) for share in left]


@pytest.mark.parametrize(
    ("porosity", "taken", "most"),
    [
        ("low", (0.283, 0.4, 0.566, 0.8), 0.85),
        ("normal", (0.354, 0.5, 0.707, 1.0), 1.0),
        ("high", (0.583, 0.825, 1.0, 1.0), 1.15),
    ],
)
def test_uptake_in_a_time(porosity: str, taken: tuple[float, ...], most: float) -> None:
    """5, 10, 20 and 40 of 40 minutes: the square root of the time, by 0.8, 1 and 1.65 (the last published)."""
    found = [uptake_after(minutes, 40, porosity) for minutes in (5, 10, 20, 40)]  # type: ignore[arg-type]
    assert found == [pytest.approx(share, abs=0.001) for share in taken]
    six = Shade(6, "neutral")
    assert float(amount(load(six, porosity).dye) / amount(load(six).dye)) == pytest.approx(most)  # type: ignore[arg-type]


@pytest.mark.parametrize("count", [(-0.1, 0), (0, -0.1)])
def test_no_time_runs_backwards(count: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="negative"):
        share_left("red", *count)
    with pytest.raises(ValueError, match="negative"):
        uptake_after(-0.1, 40)
    assert uptake_after(0, 40) == 0
