"""What is painted while a consultation is being opened: its name, before the models that read the rest are loaded."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from consult.cleaning import clean_text
from consult.files import read_head
from consult.records.wanted import Wanted
from consult.screens.messages import OpenWizard
from consult.screens.page import EMERGENCY, QUIT, Page
from consult.widgets.keys import Key, bindings
from consult.widgets.text import TextBlock, styled


class OpeningPage(Page):
    """Says what is being opened, and asks for it once that has been painted."""

    CSS_PATH: ClassVar[Any] = "page.tcss"
    KEYS: ClassVar[Sequence[Key]] = (EMERGENCY, QUIT)
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, wanted: Wanted) -> None:
        super().__init__()
        self.wanted = wanted

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="opening")

    def on_mount(self) -> None:
        head = read_head(self.wanted.path, "client") if self.wanted.path else {}
        name, shows = (_text(head, *place) for place in (("client", "name"), ("record", "shows")))
        self.head(f"Opening {name}")
        self.query_one("#opening", TextBlock).show(styled((shows, "$muted")))
        self.call_after_refresh(self.post_message, OpenWizard(self.wanted))


def _text(head: dict[str, Any], table: str, entry: str) -> str:
    found = head.get(table)
    value = found.get(entry) if isinstance(found, dict) else None
    return clean_text(value) if isinstance(value, str) else ""
