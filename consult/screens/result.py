"""The result: the verdict first, then the plan; the reason and source of the line in hand below."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.gates.words import when
from consult.plan.types import Made
from consult.report import Row, headline, plan_headline, report
from consult.report.strand_picture import strand_pictures
from consult.screens.list_page import ListPage
from consult.screens.messages import OpenDay, OpenReview
from consult.screens.page import BACK, EMERGENCY, EXPORT, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.session import Session
from consult.trade import Voice
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import RowList
from consult.widgets.strand import strand_lines
from consult.widgets.swatch import shows_colours, swatches
from consult.widgets.text import TextBlock, lines, styled
from consult.widgets.verdicts import MARKS, STYLES

ROWS_FOR_MORE = 36


class ResultPage(ListPage):
    """Verdict, findings and plan as lines; moving over a line opens its reason."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "result.tcss"]
    AUTO_FOCUS = "#lines"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Up/Down", "", "to another line; its reason and source stand below"),
        Key(
            "[ ]",
            "",
            "to the next part, or the part before",
            (("right_square_bracket", "block(1)"), ("left_square_bracket", "block(-1)")),
        ),
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        Key("F2", "review", "review of all answers", (("f2", "review"),)),
        EXPORT,
        Key("F8", "day", "the day itself: the plan is carried out by the clock", (("f8", "day"),)),
        EMERGENCY,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session, at: int = 0) -> None:
        super().__init__(session)
        self._at = at
        self._rows: list[Row | None] = []

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        yield TextBlock(id="verdict")
        yield TextBlock(id="strand")
        yield RowList(id="lines")
        yield TextBlock(id="why")

    def on_mount(self) -> None:
        found = self.session.consultation()
        self.query_one("#heading", TextBlock).show(
            styled(
                ("consult ", "bold $accent"),
                ("Result", "bold"),
                (f"   judged as of {when(found.now)}", "$muted"),
            )
        )
        verdict = found.verdict
        style = STYLES[verdict] if found.judgement.settled else "bold"
        mark = MARKS[verdict] if found.judgement.settled else "-"
        self.query_one("#verdict", TextBlock).show(
            styled((f"[{mark}] {headline(found)}", style), "\n", plan_headline(found))
        )
        self._show_strand()
        options: list[Option] = []
        for block in report(found, self.session.voice):
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

    def _show_strand(self) -> None:
        """What hair it is and what it will be, from scalp to tip; of several strands as many as there is room for."""
        found, block = self.session.consultation(), self.query_one("#strand", TextBlock)
        made = isinstance(found.plan, Made) and found.forecast is not None
        block.display = made
        if not made or found.forecast is None:
            return
        size = self.app.size
        shown: list[Content] = []
        for strand in strand_pictures(found.forecast)[: 1 if size.height < ROWS_FOR_MORE else 2]:
            shown += strand_lines(strand, size.width - 2, colours=shows_colours(self.app))
        block.show(lines(shown))

    def on_resize(self, event: events.Resize) -> None:
        if self.is_mounted:
            self._show_strand()

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

    def action_day(self) -> None:
        """Only a plan that is made can be carried out."""
        if isinstance(self.session.consultation().plan, Made):
            self.post_message(OpenDay())
        else:
            self.notify("No plan is made, so nothing is put on.", markup=False)
