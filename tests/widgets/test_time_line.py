"""The time line in cells: every label stands whole beside its bar, in any window."""

from datetime import time

import pytest

from consult.plan.counting import from_first_touch
from consult.plan.types import Made
from consult.report.head_picture import head_picture
from consult.report.time_picture import TimePicture, time_picture
from consult.widgets.time_line import clock_lines
from tests.demo import judged

BARS = set("·░▒█")


def line_of(name: str) -> TimePicture:
    plan = judged(name).plan
    assert isinstance(plan, Made)
    made = from_first_touch(plan)
    return time_picture(made, head_picture(made).order)


def drawn(name: str, width: int, *, sections: bool) -> list[str]:
    lines = clock_lines(line_of(name), time(10, 15), width, sections=sections, key=False)
    return [line.plain for line in lines]


@pytest.mark.parametrize("width", [42, 65, 105])
@pytest.mark.parametrize("name", ["ines", "rosa", "lioba", "odile"])
def test_labels_stand_whole_beside_bars_that_reach_the_edge(name: str, width: int) -> None:
    for sections in (True, False):
        rows = [row for row in drawn(name, width, sections=sections) if BARS & set(row)]
        assert {len(row) for row in rows} == {width}
        beside = " ".join(" ".join(row.rstrip("·░▒█").split()) for row in rows)
        for bar in line_of(name).bars:
            assert (bar.label if sections else bar.part) in beside


def test_a_long_label_takes_a_second_row_and_the_bar_with_it() -> None:
    rows = drawn("lioba", 42, sections=False)
    first = next(n for n, row in enumerate(rows) if row.startswith("new growth of the"))
    assert rows[first + 1].startswith("front half")
    assert rows[first][21:] == rows[first + 1][21:]


@pytest.mark.parametrize("name", ["ines", "rosa", "lioba", "odile", "jonas"])
def test_no_two_bars_have_the_same_label(name: str) -> None:
    rows = [row for row in drawn(name, 141, sections=True) if BARS & set(row)]
    assert len(rows) == len(line_of(name).bars)
    assert len({row.rstrip("·░▒█") for row in rows}) == len(rows)


def test_semicolons_part_moments_only() -> None:
    said = drawn("henrik", 105, sections=False)[-1]
    moments = said.split("; ")
    assert all(moment[:5].replace(":", "").isdigit() for moment in moments)
    assert sum("RINSE" in moment and moment.endswith("never later") for moment in moments) == 4
