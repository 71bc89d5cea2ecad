"""The result line by line, with the reason and source of the line in hand below, and what lies behind it a key away."""

from collections.abc import Sequence
from functools import cached_property
from typing import ClassVar

from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList

from consult.dates import when
from consult.report import Block, Row, report
from consult.report.difference import difference_block
from consult.screens.behind import BehindWindow
from consult.screens.blocks_page import PART, BlocksPage
from consult.screens.messages import ChangeAnswer, OpenLines, OpenReview
from consult.screens.page import BACK, EMERGENCY, EXPORT, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.session import Session
from consult.trade import Voice
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import RowList
from consult.widgets.swatch import shows_colours, swatches
from consult.widgets.text import styled
from consult.widgets.verdicts import MARKS, STYLES


class LinesPage(BlocksPage):
    """Findings and plan as lines; moving over a line opens its reason."""

    KEYS: ClassVar[Sequence[Key]] = (
        Key("Enter", "behind", "what lies behind the line: its reason, its sources, the answers it rests on"),
        Key("Up/Down", "", "to another line; its reason and source stand below"),
        PART,
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        Key("F2", "review", "review of all answers", (("f2", "review"),)),
        Key(EXPORT.name, "", EXPORT.help, EXPORT.binds),
        EMERGENCY,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session, at: int = 0, block: str = "") -> None:
        """With the line `at` in hand, or the first one of a block."""
        super().__init__(session)
        self._at = at
        self._block = block

    def heading(self) -> str:
        return "Result, line by line"

    def beside(self) -> str:
        return f"   judged as of {when(self.session.consultation().now)}"

    def fill(self) -> None:
        super().fill()
        listed = self.query_one(RowList)
        titles = [block.title for block in self.blocks() if block.rows]
        if self._block in titles:
            heads = [number for number, row in enumerate(self._rows) if row is None]
            self._at = heads[titles.index(self._block)] + 1
            self.call_after_refresh(self._to_the_top)
        if 0 < self._at < listed.option_count:
            listed.highlighted = self._at

    def _to_the_top(self) -> None:
        """The part that was opened stands at the top, its heading too."""
        listed = self.query_one(RowList)
        listed.scroll_to_highlight(top=True)
        listed.scroll_relative(y=-1, animate=False, immediate=True)

    @cached_property
    def _told(self) -> list[Block]:
        """To a class first what the last change of an answer has changed."""
        found, before = self.session.consultation(), self.session.before
        blocks = report(found, self.session.voice)
        if self.session.voice is Voice.TRAINER and before:
            return [difference_block(before, found), *blocks]
        return blocks

    def blocks(self) -> Sequence[Block]:
        return self._told

    def line(self, row: Row) -> Content:
        if row.verdict is None:
            patches = swatches(row.swatches) if shows_colours(self.app) else []
            return styled(row.say, *(["\n", *patches] if patches else []))
        rule = (f"{row.rule}: ", "$muted") if self.session.voice is Voice.TRAINER else ""
        return styled((f"{MARKS[row.verdict]} ", STYLES[row.verdict]), rule, row.say)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        row = self._rows[event.option_index]
        if row is None:
            return
        here = OpenLines(event.option_index)

        def go(path: str | None) -> None:
            if path:
                self.post_message(ChangeAnswer(path, here))

        self.app.push_screen(BehindWindow(self.session, row), go)

    def action_review(self) -> None:
        self.post_message(OpenReview())
