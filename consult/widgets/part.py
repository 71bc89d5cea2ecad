"""One part of the result on its page: its number and name, and its body drawn for the room there is."""

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.message import Message

from consult.widgets.glance import Part, Room
from consult.widgets.text import TextBlock, styled


class PartView(Container, can_focus=True):
    """A part that can be chosen: Enter, or a click, opens what lies behind it."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "choose", "Open", show=False)]

    class Chosen(Message):
        """This part was chosen."""

        def __init__(self, part: Part) -> None:
            super().__init__()
            self.part = part

    def __init__(self, number: int, part: Part) -> None:
        super().__init__(id=part.key, classes="beside" if part.beside else "")
        self.number = number
        self.part = part
        self._name_block = TextBlock(classes="name")
        self._body_block = TextBlock(classes="body")

    def compose(self) -> ComposeResult:
        yield self._name_block
        yield self._body_block

    def show(self, room: Room) -> None:
        """Draw it for so much room; `columns` are those of the body."""
        more = "".join(f"\n{row}" for row in self.part.rows(room))
        self._name_block.show(
            styled((f"{self.number} ", "bold $accent"), (self.part.name, "bold"), (more, "$muted"))
        )
        self._body_block.show(self.part.draw(room), hang=self.part.hang)

    def on_click(self, event: events.Click) -> None:
        event.stop()
        self.action_choose()

    def action_choose(self) -> None:
        self.post_message(self.Chosen(self.part))
