"""Colour swatches: a patch of colour that never stands without its word."""

from collections.abc import Iterable

from textual.app import App

from consult.widgets.text import Piece

PATCH = "      "


def swatches(colours: Iterable[tuple[str, str]]) -> list[Piece]:
    """(word, #rrggbb) pairs as a line of words and patches; empty when there are none."""
    pieces: list[Piece] = []
    for word, colour in colours:
        pieces += [(f"{word} ", "$muted"), (PATCH, f"on {colour}"), "  "]
    return pieces


def shows_colours(app: App[object]) -> bool:
    """Whether the terminal shows a colour as it is meant: with 16 colours or none, words say more than a patch."""
    return not app.no_color and app.console.color_system in ("truecolor", "256", "windows")
