"""A table in columns: texts wrapped side by side, and as many columns as there is room for."""

from collections.abc import Sequence
from textwrap import wrap

from textual.content import Content

from consult.widgets.text import Piece, lines, styled

LABEL, LEAST, MOST, GAP = 12, 19, 30, 2
"""Columns of characters: of the label, the least and the most of a cell, and between two."""
PATCH = "  "


def columns_that_fit(width: int) -> int:
    """How many cells stand side by side beside the labels."""
    return max(1, (width - LABEL) // (LEAST + GAP))


def cell_width(width: int, count: int) -> int:
    return max(1, min(MOST, (width - LABEL) // max(count, 1) - GAP))


def table_row(label: str, cells: Sequence[tuple[str, Sequence[str]]], width: int, style: str = "") -> Content:
    """One row of the table: a label and (text, colours drawn over it) for each column, wrapped."""
    each = cell_width(width, len(cells))
    columns = [_cell(text, colours, each, style) for text, colours in cells]
    labels = [[(line.ljust(LABEL), "$muted")] for line in wrap(label, LABEL - 1)]
    height = max(len(labels), *(len(column) for column in columns))
    rows = []
    for number in range(height):
        pieces: list[Piece] = [*(labels[number] if number < len(labels) else [(" " * LABEL, "")])]
        for column in columns:
            pieces += column[number] if number < len(column) else [" " * each]
            pieces.append(" " * GAP)
        rows.append(styled(*pieces))
    return lines(rows)


def _cell(text: str, colours: Sequence[str], width: int, style: str) -> list[list[Piece]]:
    """The lines of one cell, each as wide as the column; its colours stand before its first words."""
    shown = list(colours)[: (width // 2) // len(PATCH)]
    drawn = len(PATCH) * len(shown)
    wrapped = wrap(text, width, initial_indent=" " * (drawn + 1 if shown else 0))
    found: list[list[Piece]] = [[(line.ljust(width), style)] for line in wrapped]
    if shown and found:
        patches: list[Piece] = [(PATCH, f"on {colour}") for colour in shown]
        found[0] = [*patches, (wrapped[0][drawn:].ljust(width - drawn), style)]
    return found
