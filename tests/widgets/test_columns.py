"""A table in columns: what fits, and no line wider than the window."""

import pytest

from consult.widgets.columns import LEAST, cell_width, columns_that_fit, table_row


@pytest.mark.parametrize(("width", "count"), [(24, 1), (58, 2), (77, 3), (117, 5), (157, 6)])
def test_at_80_columns_three_packs_stand_side_by_side(width: int, count: int) -> None:
    assert columns_that_fit(width) >= count
    if count > 1:
        assert cell_width(width, columns_that_fit(width)) >= LEAST


@pytest.mark.parametrize("width", [24, 40, 58, 77, 117, 157])
def test_no_line_is_wider_than_the_window_and_every_word_is_there(width: int) -> None:
    texts = ("no visible change, or a warm cast", "5 gold", "")
    cells = [(text, ("#5a3d28",) if text else ()) for text in texts[: columns_that_fit(width)]]
    row = table_row("Works here?", cells, width).plain
    assert max(map(len, row.splitlines())) <= width
    for text, _ in cells:
        for word in text.split():
            assert word in row


def test_columns_stand_one_under_the_other() -> None:
    lines = table_row(
        "New growth", [("one two three four five six seven", ()), ("eight", ())], 77
    ).plain.splitlines()
    first, second = lines[0].index("one"), lines[0].index("eight")
    assert len(lines) > 1
    assert lines[1][:first].strip() == ""
    assert lines[1][second:].strip() == ""
