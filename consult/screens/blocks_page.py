"""A page of blocks of lines; the reason and source of the line in hand stand below."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.report.rows import Block, Row
from consult.screens.list_page import ListPage
from consult.screens.page import BACK, EMERGENCY, EXPORT, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.session import Session
from consult.widgets.hanging import Hanging
from consult.widgets.keys import Key
from consult.widgets.lists import RowList
from consult.widgets.text import Piece, TextBlock, styled

PART = Key(
    "[ ]",
    "part",
    "to the next part, or the part before",
    (("right_square_bracket", "block(1)"), ("left_square_bracket", "block(-1)")),
)
BLOCK_KEYS: Sequence[Key] = (
    Key("Up/Down", "line", "to another line; its reason and source stand below"),
    PART,
    BACK,
    FIND_IN_LIST,
    HELP,
    LOOK,
    EXPORT,
    EMERGENCY,
    QUIT,
)
INDENT = 2
"""Columns by which the wrapped lines of a row are moved in: so one row is told from the next."""


class BlocksPage(ListPage):
    """What is told in blocks. What they are is its own."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "blocks_page.tcss"]
    AUTO_FOCUS = "#lines"

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._rows: list[Row | None] = []

    def verdict(self) -> Sequence[Piece]:
        """What stands over the blocks; nothing where it is empty."""
        return ()

    def blocks(self) -> Sequence[Block]:
        raise NotImplementedError

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        yield TextBlock(id="verdict")
        yield RowList(id="lines")
        yield TextBlock(id="why")

    def on_mount(self) -> None:
        self.head(self.heading(), self.beside())
        self.fill()

    def heading(self) -> str:
        raise NotImplementedError

    def beside(self) -> str:
        """What stands beside the heading, of less weight."""
        return ""

    def fill(self) -> None:
        """Show what there is to tell now."""
        options: list[Option] = []
        self._rows = []
        for block in self.blocks():
            if not block.rows:
                continue
            gap = "\n" if options else ""
            self._rows.append(None)
            options.append(Option(styled(gap, (block.title, "bold $heading")), disabled=True))
            for row in block.rows:
                self._rows.append(row)
                options.append(Option(Hanging(self.line(row), INDENT)))
        verdict, said = self.query_one("#verdict", TextBlock), self.verdict()
        verdict.show(styled(*said))
        verdict.display = bool(said)
        listed = self.query_one("#lines", OptionList)
        listed.clear_options()
        listed.add_options(options)
        listed.highlighted = 1 if len(options) > 1 else None

    def line(self, row: Row) -> Content:
        """A row as it is drawn."""
        return styled(row.say)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        row = self._rows[event.option_index] if event.option_index < len(self._rows) else None
        if row is not None:
            self.query_one("#why", TextBlock).show(
                styled(
                    ("Why: " if row.verdict is None else "What to do: ", "bold $accent"),
                    row.because,
                    "\n",
                    (f"Source: {row.cited_shortly}", "$muted"),
                )
            )

    def action_block(self, step: int) -> None:
        """To the first line of the next part, or of the part before."""
        listed = self.query_one("#lines", OptionList)
        heads = [i for i, row in enumerate(self._rows) if row is None]
        here = listed.highlighted or 0
        ahead = [i for i in heads if i > here] if step > 0 else [i for i in heads if i < here - 1][::-1]
        if ahead:
            listed.highlighted = ahead[0] + 1
