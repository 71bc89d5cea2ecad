"""The depth and tone chart on the screen: for a trainer's class, and to see how this terminal shows hair."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Container

from consult.chart import Patch, depth_and_tone_chart
from consult.screens.messages import ClosePage
from consult.screens.page import BACK, EMERGENCY, HELP, LOOK, QUIT, Page
from consult.widgets.keys import Key, bindings
from consult.widgets.text import Piece, TextBlock, styled

PARTS = ("natural", "lifted", "shades-dark", "shades-light")
NOTE = (
    "Calculated; measured hair was compared from black to dark blonde. Shown as in good light, without the shine. "
    "Screens differ, real swatches win. Depth names differ between scales: the number counts."
)


class ChartPage(Page):
    """Natural depths, undertones and tones, each patch with its words."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "chart.tcss"]
    KEYS: ClassVar[Sequence[Key]] = (BACK, HELP, LOOK, EMERGENCY, QUIT)
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="note")
        with Container(id="parts"):
            for name in PARTS:
                yield TextBlock(id=name, classes="part")

    def on_mount(self) -> None:
        self.head("Depth and tone chart")
        self.query_one("#note", TextBlock).show(styled((NOTE, "$muted")))
        for name, (title, patches) in zip(PARTS, depth_and_tone_chart(), strict=True):
            self.query_one(f"#{name}", TextBlock).show(styled(*_column(title, patches)))

    def action_back(self) -> None:
        self.post_message(ClosePage(self))


def _column(title: str, patches: list[Patch]) -> list[Piece]:
    pieces: list[Piece] = [(title, "bold $heading"), "\n\n"]
    for patch in patches:
        wide = " " * (9 // len(patch.colours))
        pieces += [*((wide, f"on {colour}") for colour in patch.colours), f" {patch.words}\n"]
    return pieces
