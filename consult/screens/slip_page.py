"""A page that asks a slip: one question at a time, with the keys that any question has."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult

from consult.answers.access import BadAnswer
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.questions import Kind
from consult.cleaning import clean_text
from consult.interview import slip as steps
from consult.interview.reading import Reading
from consult.interview.rows import NONE_KEY, SAME_KEY, UNSURE_KEY, Row, Usual
from consult.interview.slip import END, Slip
from consult.screens.form_page import FormPage
from consult.screens.page import BACK, EMERGENCY, HELP, LOOK, QUIT
from consult.session import Session
from consult.widgets.boxes import Vertical
from consult.widgets.form import Form
from consult.widgets.form_messages import Entered, LeftOpen, Picked, Said, TakenBack, Typed
from consult.widgets.keys import Key
from consult.widgets.text import TextBlock, styled

SLIP_KEYS: Sequence[Key] = (
    Key("digits, letters", "", "pick the answer that stands beside them, or tick it where several may be"),
    Key("Enter", "", "take what is typed or ticked and go on"),
    Key("0", "", "none of these"),
    Key("?", "", "not sure, wherever nothing is typed yet"),
    Key("=", "", "the same as the answer above, where it is offered"),
    Key("Up/Down", "", "through the answers"),
    Key("Tab", "leave open", "leave the question open and go on; Shift+Tab goes back"),
    Key("Delete", "", "take the answer back"),
    BACK,
    Key("PgUp/PgDn", "", "scroll", (("pageup", "scroll(-1)"), ("pagedown", "scroll(1)"))),
    Key("Ctrl+Z", "", "undo the last answer", (("ctrl+z", "undo"),)),
    HELP,
    LOOK,
    EMERGENCY,
    QUIT,
)


class SlipPage(FormPage):
    """One question of the slip in hand. What is done with the answers is its own."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "wizard.tcss", "slip_page.tcss"]
    AUTO_FOCUS = ""

    def __init__(self, session: Session, slip: Slip) -> None:
        super().__init__(session)
        self.slip = steps.begin(slip)

    def told(self, before: Slip) -> None:
        """The slip has another answer than before."""

    def finished(self) -> None:
        """The last question is behind."""
        raise NotImplementedError

    def left(self) -> None:
        """Back, from the first question."""
        raise NotImplementedError

    def heading(self) -> str:
        """What is asked about."""
        raise NotImplementedError

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        with Vertical(id="card"):
            yield TextBlock(id="title")
            yield Form(id="form")
            yield TextBlock(id="error")

    def on_mount(self) -> None:
        if self.slip.here == END:
            # All is told already; the last question stands behind what comes of it.
            self.slip = steps.back(self.slip)
            self.call_after_refresh(self.finished)
        self.show_question()

    def show_question(self) -> None:
        row = steps.row_in_hand(self.slip, self.session.voice)
        number, count = self.slip.place
        self.head(self.heading(), f"   question {number} of at most {count}")
        trouble = self.query_one("#trouble", TextBlock)
        trouble.show(styled((clean_text(self.session.trouble), "bold $error")))
        trouble.display = bool(self.session.trouble)
        given = row.typed and row.value is not None and row.value != NOT_SURE
        self.query_one(Form).show(
            [row],
            0,
            one=True,
            ticks=False,
            text=format_answer(row.question, row.value, unit=False) if given else "",
        )
        self.say("")

    def rows_with(self, row: Row) -> tuple[Sequence[Row], int]:
        return [row], 0

    def on_picked(self, message: Picked) -> None:
        row, value = message.row, message.option.value
        if isinstance(value, Reading):
            self.take(value.value, move=True)
        elif isinstance(value, Usual):
            self.read(row, value.text)
        elif row.kind is Kind.SEVERAL:
            self.tick(row, value)
        else:
            self.take(value, move=True)

    def on_said(self, message: Said) -> None:
        if message.key == UNSURE_KEY:
            self.take(NOT_SURE, move=True)
        elif message.key == SAME_KEY:
            self.take(message.row.same, move=True)
        elif message.key == NONE_KEY:
            self.take((), move=True)

    def on_entered(self, message: Entered) -> None:
        row = message.row
        if row.typed and message.text.strip():
            self.read(row, message.text)
        elif row.value is not None or not row.needed:
            self.go_on()
        else:
            self.say("not answered yet: answer it, or ? for not sure; Tab leaves it open")

    def on_typed(self, message: Typed) -> None:
        self.say("")
        self.echo(message.row, message.text)

    def on_taken_back(self, message: TakenBack) -> None:
        self.take(None, move=False)

    def on_left_open(self, message: LeftOpen) -> None:
        if message.step > 0:
            self.go_on()
        else:
            self.action_back()

    def on_find_asked(self) -> None:
        """There is nothing to be found among a few questions."""

    def refused(self, value: object) -> str:
        """Why an answer that fits is not taken all the same; empty where it is."""
        return ""

    def take(self, value: object, *, move: bool) -> None:
        before = self.slip
        if why := self.refused(value):
            self.say(why)
            return
        try:
            self.slip = steps.answer(self.slip, value)
        except BadAnswer as error:
            self.say(error.hint)
            return
        if self.slip.given != before.given:
            self.told(before)
        if move:
            self.go_on()
        else:
            self.show_question()

    def go_on(self) -> None:
        ahead = steps.forward(self.slip)
        if ahead.here == END:
            self.finished()
        else:
            self.slip = ahead
            self.show_question()

    def action_back(self) -> None:
        before = steps.back(self.slip)
        if before.here == self.slip.here:
            self.left()
        else:
            self.slip = before
            self.show_question()

    def action_undo(self) -> None:
        before, self.slip = self.slip, steps.undo(self.slip)
        if self.slip.given != before.given:
            self.told(before)
        self.show_question()

    def action_scroll(self, step: int) -> None:
        form = self.query_one(Form)
        form.scroll_page_down(animate=False) if step > 0 else form.scroll_page_up(animate=False)
