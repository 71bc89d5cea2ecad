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

    def compose(self) -> ComposeResult:
        yield TextBlock(classes="name")
        yield TextBlock(classes="body")

    def show(self, room: Room) -> None:
        """Draw it for so much room; `columns` are those of the body."""
        name, body = self.query(TextBlock)
        more = "".join(f"\n{row}" for row in self.part.rows(room))
        name.show(styled((f"{self.number} ", "bold $accent"), (self.part.name, "bold"), (more, "$muted")))
        body.show(self.part.draw(room))

    def on_click(self, event: events.Click) -> None:
        event.stop()
        self.action_choose()

    def action_choose(self) -> None:
        self.post_message(self.Chosen(self.part))
