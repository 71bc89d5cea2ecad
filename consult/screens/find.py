"""A window over a page: every question and every action by its words; Enter goes there."""

from collections.abc import Sequence
from typing import ClassVar

from msgspec import Struct
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from consult.widgets.hanging import Hanging
from consult.widgets.lists import RowList
from consult.widgets.text import TextBlock, TextLine, styled

NAME = 22
"""Columns of the name before the words."""


class Found(Struct, frozen=True):
    """One thing that can be found.

    name   its name, as it stands in the list
    words  a sentence about it, which is searched too
    where  what the page is told when it is chosen: a question's path, or a key's name
    """

    name: str
    words: str
    where: str

    def has(self, wanted: Sequence[str]) -> bool:
        text = f"{self.name} {self.words}".casefold()
        return all(word in text for word in wanted)


class FindWindow(ModalScreen[str | None]):
    """Type some letters of it; Up and Down choose, Enter goes there."""

    CSS_PATH = "notices.tcss"
    AUTO_FOCUS = "#wanted"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,ctrl+f", "leave", "Back", priority=True),
        Binding("up", "move(-1)", "Up", priority=True),
        Binding("down", "move(1)", "Down", priority=True),
    ]

    def __init__(self, things: Sequence[Found]) -> None:
        super().__init__()
        self._things = things

    def compose(self) -> ComposeResult:
        with Vertical(classes="window"):
            yield TextBlock(id="text")
            yield TextLine(placeholder="some letters of it", id="wanted")
            yield RowList(id="found")

    def on_mount(self) -> None:
        self._fill("")

    def on_input_changed(self, event: Input.Changed) -> None:
        self._fill(event.value)

    def _fill(self, text: str) -> None:
        wanted = text.casefold().split()
        rows = [
            Option(
                Hanging(styled((f"{thing.name:<{NAME}}", "bold"), (thing.words, "$muted")), NAME),
                id=str(number),
            )
            for number, thing in enumerate(self._things)
            if thing.has(wanted)
        ]
        listed = self.query_one("#found", OptionList)
        listed.clear_options()
        listed.add_options(rows)
        listed.highlighted = 0 if rows else None
        nothing = "" if rows else "   nothing here has these letters"
        self.query_one("#text", TextBlock).show(
            styled(("Find a question or an action", "bold"), (nothing, "$warning"))
        )

    def action_move(self, step: int) -> None:
        listed = self.query_one("#found", OptionList)
        if listed.highlighted is not None:
            listed.highlighted = min(max(listed.highlighted + step, 0), listed.option_count - 1)

    def on_input_submitted(self) -> None:
        listed = self.query_one("#found", OptionList)
        if listed.highlighted is not None:
            self._choose(listed.get_option_at_index(listed.highlighted))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self._choose(event.option)

    def _choose(self, option: Option) -> None:
        self.dismiss(self._things[int(option.id or 0)].where)

    def action_leave(self) -> None:
        self.dismiss(None)
