"""The result line by line, with the reason and source of the line in hand below."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.gates.words import when
from consult.report import Block, Row, report
from consult.report.difference import difference_block
from consult.screens.behind import BehindWindow
from consult.screens.list_page import ListPage
from consult.screens.messages import ChangeAnswer, OpenLines, OpenReview
from consult.screens.page import BACK, EXPORT, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.session import Session
from consult.trade import Voice
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import RowList
from consult.widgets.swatch import shows_colours, swatches
from consult.widgets.text import TextBlock, styled
from consult.widgets.verdicts import MARKS, STYLES

ROWS_FOR_MORE = 36


class LinesPage(ListPage):
    """Verdict, findings and plan as lines; moving over a line opens its reason."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "lines.tcss"]
    AUTO_FOCUS = "#lines"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Enter", "behind", "what lies behind the line: its reason, its sources, the answers it rests on"),
        Key("Up/Down", "", "to another line; its reason and source stand below"),
        Key(
            "[ ]",
            "part",
            "to the next part, or the part before",
            (("right_square_bracket", "block(1)"), ("left_square_bracket", "block(-1)")),
        ),
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        Key("F2", "review", "review of all answers", (("f2", "review"),)),
        EXPORT,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session, at: int = 0, block: str = "") -> None:
        """With the line `at` in hand, or the first one of a block."""
        super().__init__(session)
        self._at = at
        self._block = block
        self._rows: list[Row | None] = []

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        yield RowList(id="lines")
        yield TextBlock(id="why")

    def on_mount(self) -> None:
        found = self.session.consultation()
        self.query_one("#heading", TextBlock).show(
            styled(
                ("consult ", "bold $accent"),
                ("Result, line by line", "bold"),
                (f"   judged as of {when(found.now)}", "$muted"),
            )
        )
        options: list[Option] = []
        for block in self._blocks():
            if block.title == self._block:
                self._at = len(options) + 1
            self._rows.append(None)
            gap = "\n" if options else ""
            options.append(Option(styled(gap, (block.title, "bold $heading")), disabled=True))
            for row in block.rows:
                self._rows.append(row)
                options.append(Option(self._line(row)))
        listed = self.query_one("#lines", OptionList)
        listed.add_options(options)
        first = 1 if len(options) > 1 else None
        listed.highlighted = self._at if 0 < self._at < len(options) else first
        if self._block:
            self.call_after_refresh(self._to_the_top)

    def _to_the_top(self) -> None:
        """The part that was opened stands at the top, its heading too."""
        listed = self.query_one(RowList)
        listed.scroll_to_highlight(top=True)
        listed.scroll_relative(y=-1, animate=False, immediate=True)

    def _blocks(self) -> list[Block]:
        """What is told; to a class first what the last change of an answer has changed."""
        found, before = self.session.consultation(), self.session.before
        blocks = report(found, self.session.voice)
        if self.session.voice is Voice.TRAINER and before:
            return [difference_block(before, found), *blocks]
        return blocks

    def _line(self, row: Row) -> Content:
        if row.verdict is None:
            patches = swatches(row.swatches) if shows_colours(self.app) else []
            return styled(row.say, *(["\n", *patches] if patches else []))
        rule = (f"{row.rule}: ", "$muted") if self.session.voice is Voice.TRAINER else ""
        return styled((f"{MARKS[row.verdict]} ", STYLES[row.verdict]), rule, row.say)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        row = self._rows[event.option_index]
        if row is None:
            return
        lead = "What to do: " if row.verdict is not None else "Why: "
        self.query_one("#why", TextBlock).show(
            styled(
                (lead, "bold $accent"),
                row.because,
                "\n",
                ("Source: ", "$muted"),
                (row.cited_shortly, "$muted"),
            )
        )

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        row = self._rows[event.option_index]
        if row is None:
            return
        here = OpenLines(event.option_index)

        def go(path: str | None) -> None:
            if path:
                self.post_message(ChangeAnswer(path, here))

        self.app.push_screen(BehindWindow(self.session, row), go)

    def action_block(self, step: int) -> None:
        """To the first line of the next part, or of the part before."""
        listed = self.query_one("#lines", OptionList)
        heads = [i for i, row in enumerate(self._rows) if row is None]
        here = listed.highlighted or 0
        ahead = [i for i in heads if i > here] if step > 0 else [i for i in heads if i < here - 1][::-1]
        if ahead:
            listed.highlighted = ahead[0] + 1

    def action_review(self) -> None:
        self.post_message(OpenReview())
