"""The result on one page: verdict, colour, head, mix and clock to look at, and the way into the lines behind each."""

from collections.abc import Sequence
from itertools import groupby
from typing import Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.geometry import Size
from textual.widget import Widget

from consult.answers.base import known
from consult.dates import when
from consult.plan.types import Made
from consult.report.copies import Copy
from consult.report.difference import summary
from consult.report.sheet import working_sheet
from consult.screens.list_page import ListPage
from consult.screens.messages import OpenDay, OpenLines, OpenReview
from consult.screens.page import BACK, EMERGENCY, EXPORT, FIND_IN_LIST, HELP, LEAST_COLUMNS, LOOK, QUIT
from consult.session import Session
from consult.trade import Voice
from consult.widgets.boxes import Horizontal, VerticalScroll
from consult.widgets.glance import Height, Room, danger, parts_of
from consult.widgets.keys import Key, bindings
from consult.widgets.part import PartView
from consult.widgets.swatch import shows_colours
from consult.widgets.text import TextBlock

NAME = 12
"""Columns of a part's name beside its body, and of the edge that marks the part in hand."""
EDGES = 4
MEDIUM, LARGE = 34, 46
"""Rows from which a window has some, or plenty, to spare."""
MINUTES_A_STEP = 5

DAY = Key("F8", "day", "the day itself: the plan is carried out by the clock", (("f8", "day"),))


class ResultPage(ListPage):
    """What comes of the answers, to look at; each part opens its lines."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "result.tcss"]
    AUTO_FOCUS = "PartView"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Up/Down", "", "to another part", (("down", "part(1)"), ("up", "part(-1)"))),
        Key("Enter", "open", "open the lines of a part; so does its number"),
        Key("l", "", "the result line by line, each with its reason", (("l", "lines"),)),
        Key(
            "+ -",
            "",
            "begin five minutes later, or earlier",
            (("plus,equals_sign", "start(1)"), ("minus", "start(-1)")),
        ),
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        Key("F2", "", "review of all answers", (("f2", "review"),)),
        EXPORT,
        DAY,
        EMERGENCY,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(KEYS),
        *((str(digit), f"open({digit})", "") for digit in range(1, 10)),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._views: list[PartView] = []
        self._drawn_for: Size | None = None

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        found = self.session.consultation()
        verdict = found.verdict if found.judgement.settled else None
        self.session.note_shown()
        before = self.session.before
        changed = summary(before, found) if before and self.session.voice is Voice.TRAINER else ""
        self._sheet = sheet = working_sheet(found, self.session.voice, Copy.FILE)
        self._views = [PartView(n, part) for n, part in enumerate(parts_of(sheet, verdict, changed), 1)]
        # Drawn at once, so that the page is laid out with what it shows.
        self._draw()
        with VerticalScroll(id="parts", can_focus=False):
            for beside, views in groupby(self._views, lambda view: view.part.beside):
                if beside:
                    yield Horizontal(*views, classes="side-by-side")
                else:
                    yield from views
        yield TextBlock(id="danger")

    def on_mount(self) -> None:
        name, at = known(self.session.answers.client.name), when(self.session.consultation().now)
        self.head(f"Result{f' for {name}' if name else ''}", f"   judged as of {at}")
        self.query_one("#danger", TextBlock).show(danger(self._sheet, self.session.voice))

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        if event.size != self._drawn_for:
            self._draw()

    def _draw(self) -> None:
        """Every part anew, for the room there is."""
        size, colours = self.app.size, shows_colours(self.app)
        if size.width < LEAST_COLUMNS:
            return  # Nothing of it is seen, and there may be no room at all.
        self._drawn_for = size
        height = (
            Height.LARGE if size.height >= LARGE else Height.MEDIUM if size.height >= MEDIUM else Height.SMALL
        )
        self.set_class(height is Height.MEDIUM, "medium")
        self.set_class(height is Height.LARGE, "large")
        for view in self._views:
            side = 0 if view.part.beside else NAME
            view.show(Room(size.width - side - EDGES, height, colours, self.session.start))

    def shown_keys(self) -> Sequence[Key]:
        made = isinstance(self.session.consultation().plan, Made)
        return [key for key in self.KEYS if made or key is not DAY]

    def set_focus(
        self, widget: Widget | None, scroll_visible: bool = True, from_app_focus: bool = False
    ) -> None:
        """A part in hand is scrolled to in the same frame; the framework would begin to once it is painted."""
        super().set_focus(widget, scroll_visible=False, from_app_focus=from_app_focus)
        if widget is not None and scroll_visible:
            self.scroll_to_widget(widget, animate=False, immediate=True)

    def action_part(self, step: int) -> None:
        """To the part behind the one in hand, or before it."""
        if step > 0:
            self.focus_next(PartView)
        else:
            self.focus_previous(PartView)

    def action_open(self, number: int) -> None:
        for view in self._views:
            if view.number == number:
                view.focus()
                view.action_choose()

    def on_part_view_chosen(self, message: PartView.Chosen) -> None:
        self.post_message(OpenLines(block=message.part.block))

    def action_lines(self) -> None:
        self.post_message(OpenLines())

    def action_start(self, steps: int) -> None:
        """The first touch a little later, or earlier."""
        self.session.move_start(steps * MINUTES_A_STEP)
        self._draw()

    def action_review(self) -> None:
        self.post_message(OpenReview())

    def action_day(self) -> None:
        """Only a plan that is made can be carried out."""
        if isinstance(self.session.consultation().plan, Made):
            self.post_message(OpenDay())
        else:
            self.notify("No plan is made, so nothing is put on.", markup=False)
