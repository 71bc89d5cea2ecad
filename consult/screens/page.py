"""What every page has: a notice when the window is too small, and one line of keys."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from consult.widgets.keybar import KeyBar

LEAST_COLUMNS, LEAST_ROWS = 76, 22
WIDE_COLUMNS = 110


class Page(Screen[None]):
    """A screen whose content is hidden behind a plain notice while the window is too small."""

    CSS_PATH: ClassVar[Any] = "page.tcss"

    def body(self) -> ComposeResult:
        """The widgets of this page."""
        raise NotImplementedError

    def keys(self) -> Sequence[tuple[str, str]]:
        """Keys and what they do, for the key line."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        yield from self.body()
        yield KeyBar(id="keys")
        yield Static(
            Content(f"The window needs at least {LEAST_COLUMNS} x {LEAST_ROWS} characters."), id="too-small"
        )

    @on(events.Mount)
    def _show_keys(self) -> None:
        self.query_one(KeyBar).keys(self.keys())

    def on_resize(self, event: events.Resize) -> None:
        size = event.size
        self.set_class(size.width < LEAST_COLUMNS or size.height < LEAST_ROWS, "too-small")
        self.set_class(size.width >= WIDE_COLUMNS, "wide")
        self.set_class(size.height >= 32, "tall")
