"""Colour swatches: a patch of colour that never stands without its word."""

from collections.abc import Iterable

from consult.widgets.text import Piece

PATCH = "      "


def swatches(colours: Iterable[tuple[str, str]]) -> list[Piece]:
    """(word, #rrggbb) pairs as a line of words and patches; empty when there are none."""
    pieces: list[Piece] = []
    for word, colour in colours:
        pieces += [(f"{word} ", "$muted"), (PATCH, f"on {colour}"), "  "]
    return pieces
