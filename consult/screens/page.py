"""What every page has: a notice when the window is too small, and its keys."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.content import Content
from textual.reactive import Reactive
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from consult.widgets.keys import Key, KeyBar
from consult.widgets.text import TextBlock, styled

if TYPE_CHECKING:
    from consult.screens.find import Found

HELP = Key("F1", "help", "this help", (("f1", "app.help"),))
FIND = Key("Ctrl+F or /", "", "find a question or an action by its words", (("ctrl+f", "find"),))
FIND_IN_LIST = Key(FIND.name, "", FIND.help, (("ctrl+f,slash", "find"),))
"""Where nothing is typed."""
LOOK = Key("F6", "", "the next look: dark, light, high contrast", (("f6", "app.look"),))
QUIT = Key("Ctrl+Q", "quit", "quit; what was typed is kept and offered again", (("ctrl+q", "app.quit"),))
BACK = Key("Esc", "back", "back to where you came from", (("escape", "back"),))
EXPORT = Key("F4", "export", "write the record, or the working sheet, to a file", (("f4", "export"),))
EMERGENCY = Key("F9", "emergency", "somebody is hurt: what to do now", (("f9", "app.emergency"),))
"""Keys that several pages have."""

LEAST_COLUMNS, LEAST_ROWS = 58, 18
WIDE_COLUMNS = 110
SHORT_ROWS, TALL_ROWS = 22, 32


class Page(Screen[None]):
    """A screen whose content is hidden behind a plain notice while the window is too small."""

    CSS_PATH: ClassVar[Any] = "page.tcss"
    KEYS: ClassVar[Sequence[Key]] = ()
    """The page's keys, in the order of the key line."""
    LEAST_SIZE: ClassVar[tuple[int, int]] = (LEAST_COLUMNS, LEAST_ROWS)
    focused: Reactive[Widget | None] = Reactive(None, repaint=False)
    """What gains and what loses the focus is painted anew, not the whole page."""

    def body(self) -> ComposeResult:
        """The widgets of this page."""
        raise NotImplementedError

    def head(self, title: str, beside: str = "") -> None:
        """What page it is, and beside it what is of less weight."""
        self.query_one("#heading", TextBlock).show(
            styled(("consult ", "bold $accent"), (title, "bold"), (beside, "$muted"))
        )

    def compose(self) -> ComposeResult:
        yield from self.body()
        yield KeyBar(id="keys")
        yield Static(
            Content(f"The window needs at least {LEAST_COLUMNS} x {LEAST_ROWS} characters."), id="too-small"
        )

    @on(events.Mount)
    def _show_keys(self) -> None:
        self.query_one(KeyBar).keys(self.shown_keys())

    def shown_keys(self) -> Sequence[Key]:
        """The keys that do something as things stand."""
        return self.KEYS

    def found(self) -> "Sequence[Found]":
        """What can be found from here: the actions of this page."""
        from consult.screens.find import Found

        return [Found(key.name, key.help, key.pressed) for key in self.KEYS if key.pressed]

    def action_find(self) -> None:
        # Nothing is looked for before the first page is painted.
        from consult.screens.find import FindWindow

        self.app.push_screen(FindWindow(self.found()), self.go_to_found)

    def go_to_found(self, where: str | None) -> None:
        """Do what was found: an action is done as if its key had been pressed."""
        if where is not None:
            self.app.post_message(events.Key(where, None))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What cannot be seen takes no keys."""
        return not self.has_class("too-small")

    def on_resize(self, event: events.Resize) -> None:
        size = event.size
        was_small = self.has_class("too-small")
        self.set_class(size.width < self.LEAST_SIZE[0] or size.height < self.LEAST_SIZE[1], "too-small")
        if was_small and not self.has_class("too-small"):
            self.call_after_refresh(self._focus_anew)
        self.set_class(size.width >= WIDE_COLUMNS, "wide")
        self.set_class(size.height >= TALL_ROWS, "tall")
        self.set_class(size.height < SHORT_ROWS, "short")

    def _focus_anew(self) -> None:
        """Hidden widgets lose the focus; what this page focuses first takes it again."""
        for widget in self.query(self.AUTO_FOCUS or "*"):
            if widget.focusable:
                widget.focus()
                return
