"""The head from above and from behind, drawn in dots of Braille: eight a cell, so that a small head is still round."""

from typing import Final

from textual.content import Content

from consult.report.head_picture import HeadPicture, View
from consult.widgets.text import Piece, styled

DOTS_WIDE, DOTS_HIGH = 2, 4
BRAILLE: Final = 0x2800
_DOTS: Final = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The bit of each dot of a cell, by row and column (Unicode, Braille Patterns)."""
BEGIN: Final = "▼"
SHORT: Final = {View.ABOVE: "top", View.BEHIND: "back"}
"""So short that it stands beside the head in the smallest drawing."""
LEFT, RIGHT, TOP, FOOT = -0.1, 1.1, -0.13, 1.03
"""What is drawn of a view, which has the head from 0 to 1: ears beside it, the nose above."""


def head_lines(head: HeadPicture, wide: int, high: int, *, named: bool) -> list[Content]:
    """Both views side by side, each so many cells wide and high; under their names where they are `named`, else with
    a short one in a corner."""
    views = [_view(head, view, wide, high, "" if named else SHORT[view]) for view in View]
    names = styled((" ".join(f"{view.value:^{wide}}" for view in View), "$muted"))
    drawn = [styled(*one, " ", *other) for one, other in zip(*views, strict=True)]
    return [names, *drawn] if named else drawn


def begins(head: HeadPicture) -> str:
    """What the mark says."""
    places = dict.fromkeys(start.words.removeprefix("begin here: ") for start in head.starts)
    return f"{BEGIN} start: {', '.join(places)}"


def _view(head: HeadPicture, view: View, wide: int, high: int, corner: str) -> list[list[Piece]]:
    """One view, row by row: numbers and marks bold on the drawing, a word in its upper left corner."""
    across, down = wide * DOTS_WIDE, high * DOTS_HIGH
    shapes = [[_shape(head, view, x, y, across, down) for x in range(across + 1)] for y in range(down + 1)]
    marks = _marks(head, view, wide, high)
    marks |= {(column, 0): (letter, "$muted") for column, letter in enumerate(corner)}
    rows: list[list[Piece]] = []
    for row in range(high):
        pieces: list[Piece] = []
        for column in range(wide):
            mark = marks.get((column, row))
            pieces.append(mark or (_cell(shapes, column, row), "$heading"))
        rows.append(pieces)
    return rows


def _shape(head: HeadPicture, view: View, x: int, y: int, across: int, down: int) -> str | None:
    """What lies at a dot: a section, nose, ear or neck; None beside the head."""
    at_x = LEFT + (x + 0.5) / across * (RIGHT - LEFT)
    at_y = TOP + (y + 0.5) / down * (FOOT - TOP)
    inside = head.section_at(view, at_x, at_y)
    if inside is not None:
        return inside
    if any(((at_x - ear) / 0.06) ** 2 + ((at_y - 0.5) / 0.1) ** 2 < 1 for ear in (0.0, 1.0)):
        return "ear"
    if view is View.ABOVE and abs(at_x - 0.5) < (at_y - TOP) * 0.6 and at_y < 0.1:
        return "nose"
    return "neck" if view is View.BEHIND and abs(at_x - 0.5) < 0.2 and at_y > 0.9 else None


def _cell(shapes: list[list[str | None]], column: int, row: int) -> str:
    """The dots of a cell: those where another shape begins to the right or below."""
    bits = 0
    for dot_row, line in enumerate(_DOTS):
        for dot_column, bit in enumerate(line):
            x, y = column * DOTS_WIDE + dot_column, row * DOTS_HIGH + dot_row
            if shapes[y][x] != shapes[y][x + 1] or shapes[y][x] != shapes[y + 1][x]:
                bits |= bit
    return chr(BRAILLE + bits) if bits else " "


def _marks(head: HeadPicture, view: View, wide: int, high: int) -> dict[tuple[int, int], Piece]:
    """Numbers in their sections and the places where it is begun, by cell."""

    def cell(at: tuple[float, float]) -> tuple[int, int]:
        across, down = (at[0] - LEFT) / (RIGHT - LEFT), (at[1] - TOP) / (FOOT - TOP)
        return min(int(across * wide), wide - 1), min(int(down * high), high - 1)

    found: dict[tuple[int, int], Piece] = {
        cell(field.middle): (str(field.number), "bold $foreground")
        for field in head.fields
        if field.view is view
    }
    return found | {cell(start.at): (BEGIN, "bold $accent") for start in head.starts if start.view is view}
