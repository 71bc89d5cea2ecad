"""What the model's constants come to, as colours.

Published tables are held by their column totals. Recipes of the tone families, widths of the bands, covers, the
share of pheomelanin and the bleaching rates are free assumptions: the colours below are what follows from them
today, so that none of them moves unseen. Whoever moves one on purpose writes these rows anew, and says why.
"""

import numpy as np
import numpy.typing as npt
import pytest

from consult.colour.cie import lab
from consult.colour.dyes import load, uptake_of
from consult.colour.fade import share_left, uptake_after
from consult.colour.fibre import reflectance
from consult.colour.ladder import chart_lab
from consult.colour.melanin import _EUMELANIN, _PHEOMELANIN
from consult.colour.pigment import dose, lifted, lifted_position, lightness_of, natural_lab
from consult.colour.values import Shade
from consult.trade import Tone
from tests.colour.optics import corrector

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
        ("neutral", (40.67, 6.28, 17.06), (27.61, 7.09, 12.33), (42.78, 6.19, 17.47)),
        ("ash", (42.12, 0.14, 4.20), (27.83, 3.54, 10.13), (42.78, 2.32, 13.43)),
        ("matt", (42.18, -6.04, 10.20), (27.74, 1.08, 10.88), (42.78, -1.42, 15.92)),
        ("gold", (43.11, 12.86, 27.77), (28.74, 10.61, 15.41), (42.78, 11.82, 26.55)),
        ("copper", (44.54, 26.06, 31.27), (29.20, 15.98, 16.58), (42.78, 20.58, 28.41)),
        ("copper red", (44.52, 28.64, 23.72), (29.15, 16.66, 15.37), (42.78, 21.85, 23.62)),
        ("red", (44.55, 27.50, 12.11), (29.19, 15.59, 13.50), (42.78, 20.48, 17.59)),
        ("mahogany", (43.22, 19.33, 1.33), (28.65, 11.59, 11.13), (42.78, 14.31, 12.87)),
        ("violet", (43.42, 15.94, -9.78), (28.46, 9.01, 9.23), (42.78, 10.56, 8.68)),
        ("pearl", (42.05, 6.53, 0.32), (27.92, 6.05, 9.80), (42.78, 6.10, 12.08)),
    ],
)  # fmt: skip
def test_the_ten_families(tone: Tone, on_white: Row, on_lifted: Row, on_the_chart: Row) -> None:
    """Depth 6 on white hair; 5.25, between two steps of the grid, on natural 4 lifted by 2; chart colour of depth 7."""
    same(lab(reflectance(load(Shade(6, tone)))), on_white)
    same(lab(reflectance(lifted(4, 2) + load(Shade(5.25, tone)))), on_lifted)
    same(chart_lab(7, tone), on_the_chart)


@pytest.mark.parametrize(
    ("colour", "wanted"),
    [
        ("yellow", (69.87, 6.11, 46.48)),
        ("orange", (58.98, 28.43, 34.05)),
        ("red", (49.55, 34.38, 11.81)),
        ("violet", (44.53, 19.90, -25.29)),
        ("blue", (51.17, -12.02, -23.41)),
        ("green", (52.25, -24.92, -1.14)),
    ],
)  # fmt: skip
def test_the_six_mix_tones(colour: str, wanted: Row) -> None:
    """0.2 of each on white hair."""
    same(lab(reflectance(corrector(colour, 0.2))), wanted)


@pytest.mark.parametrize(
    ("depth", "wanted"),
    [
        (1, (18.87, 0.56, 0.27)),
        (2, (19.62, 1.99, 1.51)),
        (3, (21.73, 3.90, 4.63)),
        (4, (25.53, 5.31, 9.04)),
        (5, (30.70, 6.03, 13.05)),
        (6, (36.63, 6.27, 15.82)),
        (7, (42.78, 6.19, 17.47)),
        (8, (48.71, 5.88, 18.32)),
        (9, (54.09, 5.43, 18.64)),
        (10, (58.68, 4.94, 18.65)),
        (15, (69.68, 3.45, 17.92)),
    ],
)  # fmt: skip
def test_natural_hair(depth: float, wanted: Row) -> None:
    same(natural_lab(depth), wanted)


def test_white_hair_is_a_light_straw() -> None:
    same(lab(reflectance(np.zeros(31))), (74.56, 2.10, 14.73))


@pytest.mark.parametrize(
    ("depth", "levels", "wanted"),
    [
        (1, 3, (25.53, 9.57, 10.98)),
        (3, 3, (36.63, 11.14, 22.30)),
        (5, 2, (42.78, 9.15, 22.66)),
        (5, 5, (66.11, 5.93, 28.23)),
        (8, 2, (64.18, 5.87, 23.91)),
        (10, 1, (66.91, 4.65, 21.01)),
        (1, 9, (66.12, 6.47, 32.05)),
        (7.3, 1.37, (53.10, 7.16, 22.33)),
        (2.1, 0.6, (20.92, 3.84, 3.59)),
    ],
)  # fmt: skip
def test_lifted_hair(depth: float, levels: float, wanted: Row) -> None:
    """Black to pale yellow, brown, blond, and between the steps of the table of doses."""
    same(lab(reflectance(lifted(depth, levels))), wanted)


class TestLiftedHairRunsAhead:
    """Over level 8 by 0.6 of a step for each squared level, fully after three levels of lift (from memory)."""

    @pytest.mark.parametrize(
        ("depth", "levels", "stands"),
        [
            (4, 3, 7), (5, 3, 8), (6, 3, 9.6), (6, 4, 12.4), (7, 3, 12.4), (8, 1, 9.2), (9, 1.5, 12.375),
            (9, 0, 9), (9, -1, 9), (3, 9, 14), (10, 0, 10),
        ],
    )  # fmt: skip
    def test_where_it_stands(self, depth: float, levels: float, stands: float) -> None:
        assert float(lifted_position(depth, levels)) == pytest.approx(stands)

    def test_the_dose_takes_it_there_at_every_step_of_its_table(self) -> None:
        """Quarters of a level both ways, as far as level 10; a tenth of a unit of L* is the grain of the doses."""
        for depth in np.arange(1, 10.1, 0.25):
            for levels in np.arange(0, 10.1 - depth, 0.25):
                reached = lab(reflectance(lifted(depth, levels)))[0]
                assert reached == pytest.approx(float(lightness_of(lifted_position(depth, levels))), abs=0.05)

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
    assert uptake_of(porosity) == most  # type: ignore[arg-type]


@pytest.mark.parametrize("count", [(-0.1, 0), (0, -0.1)])
def test_no_time_runs_backwards(count: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="negative"):
        share_left("red", *count)
    with pytest.raises(ValueError, match="negative"):
        uptake_after(-0.1, 40)
    assert uptake_after(0, 40) == 0
