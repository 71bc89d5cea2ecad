"""Figures that are read from across the room, and the bar of a stay."""

import pytest

from consult.widgets.time_figures import LARGEST, LONGEST_TIME, figures, scale_for, stay_bar

SEGMENTS = {
    **{"0": "abcdef", "1": "", "2": "abdeg", "3": "abcdg", "4": "bcfg"},
    **{"5": "acdfg", "6": "acdefg", "7": "abc", "8": "abcdefg", "9": "abcdfg"},
}
"""Which of the seven strokes of a clock a figure has, by their usual letters; 1 is drawn with a foot of its own."""


@pytest.mark.parametrize("figure", [name for name in SEGMENTS if SEGMENTS[name]])
def test_a_figure_has_the_strokes_of_a_clock(figure: str) -> None:
    # At two half lines a dot, every dot is two columns of one line.
    top, upper, middle, lower, bottom = figures(figure, 2)
    strokes = {
        "a": top[2],
        "b": upper[4],
        "c": lower[4],
        "d": bottom[2],
        "e": lower[0],
        "f": upper[0],
        "g": middle[2],
    }
    assert {name for name, drawn in strokes.items() if drawn == "█"} == {*SEGMENTS[figure]}


@pytest.mark.parametrize("scale", range(1, LARGEST + 1))
def test_no_two_figures_are_drawn_alike_and_all_are_as_wide(scale: int) -> None:
    drawn = [tuple(figures(str(digit), scale)) for digit in range(10)]
    assert len(set(drawn)) == 10
    assert {len(line) for lines in drawn for line in lines} == {3 * scale}


@pytest.mark.parametrize("size", [(28, 20), (38, 24), (58, 40), (78, 50), (200, 100)])
def test_every_time_has_room_at_the_scale_that_is_taken(size: tuple[int, int]) -> None:
    drawn = figures(LONGEST_TIME, scale_for(*size))
    assert len(drawn[0]) <= size[0]
    assert len(drawn) <= size[1] / 5


def test_a_larger_window_has_larger_figures() -> None:
    assert [scale_for(*size) for size in ((38, 24), (58, 40), (78, 50))] == [1, 2, 3]


@pytest.mark.parametrize(
    ("counted", "full"), [(0, 0), (10, 10), (34.9, 34), (35, 35), (50, 35)], ids=lambda value: f"{value}"
)
def test_the_bar_is_full_when_the_longest_is_reached_and_not_before(counted: float, full: int) -> None:
    drawn = stay_bar(60 * counted, 60 * 25, 60 * 35, 35).plain
    assert drawn.count("█") == full
    assert drawn.count("░") == 35 - full
    assert drawn.index("│") == 25


def test_a_stay_without_a_shortest_has_no_line() -> None:
    assert "│" not in stay_bar(60, 0, 300, 20).plain
    assert "│" not in stay_bar(60, 300, 300, 20).plain
