"""The chapters of a consultation with how far each has come, side by side or one under the other."""

from collections.abc import Iterator, Mapping

from consult.interview.intake import Progress
from consult.widgets.form_lines import Line
from consult.widgets.text import Piece, styled

WHOLE_LINE = 40
"""Columns that can be clicked of a chapter with a line of its own."""


def _marked(progress: Mapping[str, Progress], here: str) -> Iterator[tuple[str, str, str]]:
    """(chapter, its mark, its style)"""
    for chapter, done in progress.items():
        mark = "+" if done.of and done.complete else "-" if done.answered else " "
        yield chapter, mark, "bold reverse" if chapter == here else "$success" if mark == "+" else "$muted"


def across(progress: Mapping[str, Progress], here: str, width: int) -> list[Line]:
    """The chapters side by side, the one in hand standing out, in as many lines as they need."""
    lines: list[Line] = []
    pieces: list[Piece] = []
    targets: list[tuple[int, int, str]] = []
    column = 0
    for chapter, mark, style in _marked(progress, here):
        text = f"{mark}{chapter}".strip()
        if column and column + len(text) > width:
            lines.append(Line(styled(*pieces), tuple(targets)))
            pieces, targets, column = [], [], 0
        pieces += [(text, style), " "]
        targets.append((column, column + len(text), chapter))
        column += len(text) + 1
    return [*lines, Line(styled(*pieces), tuple(targets))]


def down(progress: Mapping[str, Progress], here: str) -> list[Line]:
    """The same one under the other."""
    marked = _marked(progress, here)
    return [
        Line(styled((f"{mark} {chapter}", style)), ((0, WHOLE_LINE, chapter),))
        for chapter, mark, style in marked
    ]
