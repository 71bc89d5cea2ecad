"""The keys of a page, declared once: what binds them, the key line, the help and the documents read this."""

from collections.abc import Iterable, Sequence

from msgspec import Struct
from textual import events
from textual.binding import Binding, BindingType

from consult.widgets.text import Piece, TextBlock, styled


class Key(Struct, frozen=True):
    """One key, or keys that belong together, of a page.

    name   as a reader knows it: `PgUp`
    label  what it does, in a word or two, for the key line; empty where the line has no room for it
    help   the same in a sentence, for the help
    binds  (keys as the framework names them, action) pairs; none where a widget of the page takes the key
    """

    name: str
    label: str
    help: str
    binds: tuple[tuple[str, str], ...] = ()

    @property
    def pressed(self) -> str:
        """The key as the framework names it; empty where it is several or belongs to a widget alone."""
        if self.binds:
            return self.binds[0][0].split(",")[0] if len(self.binds) == 1 else ""
        return self.name.lower() if self.name in ("Enter", "Tab", "Delete") else ""

    @property
    def short_name(self) -> str:
        return self.name.replace("Ctrl+", "^")


def bindings(keys: Iterable[Key]) -> list[BindingType]:
    """The bindings of a page. They come before those of its widgets: a field takes no key away from a page."""
    return [
        Binding(names, action, key.label or key.help, priority=True)
        for key in keys
        for names, action in key.binds
    ]


class KeyBar(TextBlock):
    """One line of keys. It is a plain line, because the stock footer keeps every label it ever showed. A click on a
    key is the key."""

    DEFAULT_CSS = """
    KeyBar { dock: bottom; height: 1; background: $panel; color: $foreground; padding: 0 1; }
    """

    _keys: Sequence[Key] = ()
    _places: Sequence[tuple[int, str]] = ()
    """(first column behind a key, what it presses), from left to right."""

    def keys(self, keys: Iterable[Key]) -> None:
        self._keys = [key for key in keys if key.label]
        self._draw()

    def on_resize(self) -> None:
        self._draw()

    def _draw(self) -> None:
        """The keys that fit, whole; the rest stand in the help."""
        pieces: list[Piece] = []
        places, column = [], 0
        for key in self._keys:
            width = len(key.short_name) + len(key.label) + 3
            if column + width - 2 > self.content_size.width:
                continue
            pieces += [(key.short_name, "bold $accent"), f" {key.label}  "]
            column += width
            places.append((column, key.pressed))
        self._places = places
        self.show(styled(*pieces), same_size=True)

    def on_click(self, event: events.Click) -> None:
        event.stop()
        at = event.get_content_offset(self)
        pressed = next((key for end, key in self._places if at is not None and at.x < end), "")
        if pressed:
            self.app.post_message(events.Key(pressed, None))
