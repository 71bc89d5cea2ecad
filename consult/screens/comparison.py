"""The packs side by side on this head: a table whose columns are packs, as many of them as the window has room for."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.answers.shelf import Shelf
from consult.buying.compare import Comparison, compare
from consult.report.advice import comparison_blocks
from consult.report.comparison import TableRow, comparison_table
from consult.screens.list_page import ListPage
from consult.screens.page import BACK, EMERGENCY, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.session import Session
from consult.widgets.columns import columns_that_fit, table_row
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import RowList
from consult.widgets.swatch import shows_colours
from consult.widgets.text import TextBlock, styled

FRAME = 3
"""Columns of the list's padding and its scroll bar."""


class ComparisonPage(ListPage):
    """Will it work, the colour predicted, cover, damage, upkeep, packs, cost; reason and source of the row in hand."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "blocks_page.tcss", "comparison.tcss"]
    AUTO_FOCUS = "#lines"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Up/Down", "row", "to another row; its reason and source stand below"),
        Key(
            "Left/Right",
            "more packs",
            "the packs beside those in sight",
            (("left", "turn(-1)"), ("right", "turn(1)")),
        ),
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        EMERGENCY,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._found: Comparison | None = None
        self._rows: list[TableRow] = []
        self._first = 0

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        yield TextBlock(id="packs-in-sight")
        yield RowList(id="lines")
        yield TextBlock(id="why")

    def on_mount(self) -> None:
        session = self.session
        charts = session.shelf.chart if session.shelf else ()
        shelf = Shelf(product=session.candidates, developers=(), chart=charts)
        self._found = compare(session.answers, shelf, session.now(), session.salon)
        self._rows = comparison_table(self._found, session.voice)
        self._draw()

    def on_resize(self, event: events.Resize) -> None:
        if self._found is not None:
            self._draw()

    @property
    def _room(self) -> int:
        return max(self.app.size.width - FRAME, 24)

    def _draw(self) -> None:
        assert self._found is not None
        candidates = self._found.candidates
        count = min(columns_that_fit(self._room), max(len(candidates), 1))
        self._first = min(self._first, max(len(candidates) - count, 0))
        shown = slice(self._first, self._first + count)
        beside = f"   packs {self._first + 1} to {self._first + count} of {len(candidates)}"
        self.head("Side by side on this head", beside if len(candidates) > count else "")
        names = [(one.name, ()) for one in candidates[shown]]
        self.query_one("#packs-in-sight", TextBlock).show(
            table_row("", names, self._room, "bold") if names else styled("")
        )
        colours = shows_colours(self.app)
        options = []
        for row in self._rows:
            cells = [(cell.text, cell.hexes if colours else ()) for cell in row.cells[shown]]
            options.append(Option(table_row(row.label, cells, self._room)))
        if not candidates:
            blocks = comparison_blocks(self._found, self.session.voice)
            options = [Option(styled(row.say)) for block in blocks for row in block.rows]
        listed = self.query_one("#lines", OptionList)
        at = listed.highlighted or 0
        listed.clear_options()
        listed.add_options(options)
        listed.highlighted = min(at, len(options) - 1) if options else None

    def action_turn(self, step: int) -> None:
        """One pack on, or back; the last ones stay in sight."""
        self._first = max(0, self._first + step)
        self._draw()

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        if event.option_index < len(self._rows):
            row = self._rows[event.option_index]
            self.query_one("#why", TextBlock).show(
                styled(("Why: ", "bold $accent"), row.because, "\n", (f"Source: {row.cited}", "$muted"))
            )
