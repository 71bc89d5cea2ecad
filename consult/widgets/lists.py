"""Lists whose rows carry a digit."""

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.geometry import Size
from textual.widgets import OptionList

from consult.widgets.hanging import Hanging
from consult.widgets.text import styled

LEAST_WIDTH = 12


class RowList(OptionList):
    """A list of rows that bears a window of no width at all, as there is while one is being opened."""

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return super().get_content_height(container, viewport, max(width, LEAST_WIDTH))

    def action_page_up(self) -> None:
        if self.scrollable_content_region:  # Rows have a place only once they have been laid out.
            super().action_page_up()  # type: ignore[no-untyped-call]

    def action_page_down(self) -> None:
        if self.scrollable_content_region:
            super().action_page_down()  # type: ignore[no-untyped-call]

    def scroll_to_highlight(self, top: bool = False) -> None:
        """With the first row that can be chosen, the headings above it come into sight."""
        super().scroll_to_highlight(top)
        if self.highlighted is not None and all(row.disabled for row in self.options[: self.highlighted]):
            self.scroll_home(animate=False, immediate=True)


class NumberedList(RowList):
    """A list whose first nine options are also chosen by their digit."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(str(digit), f"digit({digit})", show=False) for digit in range(1, 10)
    ]

    def action_digit(self, digit: int) -> None:
        if digit <= self.option_count and not self.get_option_at_index(digit - 1).disabled:
            self.highlighted = digit - 1
            self.choose(digit - 1)

    def choose(self, index: int) -> None:
        self.action_select()


def numbered(index: int, text: str, hint: str = "", mark: str = "", digit: str = "") -> Hanging:
    """One option: its digit (the first nine have one, or the one given), a mark, the text and a dim hint."""
    digit = digit or (str(index + 1) if index < 9 else " ")
    content = styled((f"{digit} ", "bold $accent"), mark, text, (f"  {hint}" if hint else "", "$muted"))
    return Hanging(content, len(digit) + 1 + len(mark))
