"""One line of keys. It is a plain line, because the stock footer keeps every label it ever showed."""

from collections.abc import Sequence

from consult.widgets.text import Piece, TextBlock, styled


class KeyBar(TextBlock):
    """Shows (key, what it does) pairs."""

    DEFAULT_CSS = """
    KeyBar { dock: bottom; height: 1; background: $panel; color: $foreground; padding: 0 1; }
    """

    def keys(self, pairs: Sequence[tuple[str, str]]) -> None:
        pieces: list[Piece] = []
        for key, what in pairs:
            pieces += [(key, "bold $text-accent"), f" {what}  "]
        self.show(styled(*pieces))
