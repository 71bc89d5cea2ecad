"""What the form tells its parent: what was picked, said, typed or asked for."""

from textual.message import Message

from consult.interview.rows import Option, Row


class FormMessage(Message):
    """Something about the row in hand."""


class Picked(FormMessage):
    """An option was picked."""

    def __init__(self, row: Row, option: Option) -> None:
        super().__init__()
        self.row, self.option = row, option


class Said(FormMessage):
    """One of the answers that any question may have: none of these, not sure, the same as above."""

    def __init__(self, row: Row, key: str) -> None:
        super().__init__()
        self.row, self.key = row, key


class Entered(FormMessage):
    """Enter: `text` is what stands in the field of a typed row, empty for others."""

    def __init__(self, row: Row, text: str) -> None:
        super().__init__()
        self.row, self.text = row, text


class Typed(FormMessage):
    """A text is being typed; it is not an answer yet."""

    def __init__(self, row: Row, text: str) -> None:
        super().__init__()
        self.row, self.text = row, text


class TakenBack(FormMessage):
    """Delete: the answer of the row, or the entry of a list that the cursor is on."""

    def __init__(self, row: Row, option: Option | None) -> None:
        super().__init__()
        self.row, self.option = row, option


class WentTo(FormMessage):
    """Another row of this page is wanted in hand."""

    def __init__(self, row: Row) -> None:
        super().__init__()
        self.row = row


class LeftOpen(FormMessage):
    """Tab: on to the next question, or back to the one before, and nothing answered."""

    def __init__(self, step: int) -> None:
        super().__init__()
        self.step = step


class FindAsked(Message):
    """Something is to be found by its words."""


class Clicked(Message):
    """A place with a meaning was clicked."""

    def __init__(self, target: object) -> None:
        super().__init__()
        self.target = target
