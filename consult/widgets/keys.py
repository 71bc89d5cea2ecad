"""The keys of a page, declared once: what binds them, the key line, the help and the documents read this."""

from collections.abc import Iterable
from dataclasses import dataclass

from textual.binding import Binding, BindingType

from consult.widgets.text import Piece, TextBlock, styled


@dataclass(frozen=True)
class Key:
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
    """One line of keys. It is a plain line, because the stock footer keeps every label it ever showed."""

    DEFAULT_CSS = """
    KeyBar { dock: bottom; height: 1; background: $panel; color: $foreground; padding: 0 1; }
    """

    def keys(self, keys: Iterable[Key]) -> None:
        pieces: list[Piece] = []
        for key in keys:
            if key.label:
                pieces += [(key.short_name, "bold $accent"), f" {key.label}  "]
        self.show(styled(*pieces))
