"""The wizard: a page of questions in hand, and what becomes of each answer."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType

from consult.answers.access import BadAnswer
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.product import Product
from consult.answers.questions import Kind
from consult.gates.verdict import Verdict
from consult.interview import intake as steps
from consult.interview.intake import REVIEW, Intake
from consult.interview.order import together
from consult.interview.pages import page_of
from consult.interview.reading import Reading
from consult.interview.rows import (
    NONE_KEY,
    SAME_KEY,
    UNSURE_KEY,
    Add,
    Entry,
    NoProduct,
    Row,
    Usual,
    rows_of,
)
from consult.records.wanted import Purpose
from consult.screens.around import Around
from consult.screens.find import Found
from consult.screens.form_page import FormPage
from consult.screens.messages import OpenExport, OpenLines, OpenResult, OpenReview, OpenStart, TellStop
from consult.screens.page import EMERGENCY, EXPORT, FIND, HELP, LOOK, QUIT
from consult.session import Session
from consult.trade import Voice
from consult.widgets.boxes import Horizontal, Vertical
from consult.widgets.form import Form, LinesBlock
from consult.widgets.form_messages import (
    Clicked,
    Entered,
    LeftOpen,
    Picked,
    Said,
    TakenBack,
    Typed,
    WentTo,
)
from consult.widgets.keys import Key, bindings
from consult.widgets.text import TextBlock, styled

FIRST_PAINT_SECONDS = 0.02  # more than a frame takes


class WizardPage(FormPage):
    """One permanent screen; a change of question changes its form in place."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "wizard.tcss"]
    AUTO_FOCUS = ""
    KEYS: ClassVar[Sequence[Key]] = (
        Key(
            "digits, letters", "", "pick the answer that stands beside them; in a list of signs they tick it"
        ),
        Key("Enter", "", "take what is typed or ticked and go on"),
        Key("0", "", "none of these, nothing more; counts once all signs have been on the screen"),
        Key("?", "", "not sure, wherever nothing is typed yet"),
        Key("=", "", "the same as the answer above, where it is offered"),
        Key("Up/Down", "", "to another question of the page, or through the answers"),
        Key("Tab", "leave open", "leave the question open and go on; Shift+Tab goes back"),
        Key("Delete", "", "take an answer back, or remove the entry in hand from a list"),
        Key("Esc", "back", "to the question before", (("escape", "back"),)),
        Key("PgUp/PgDn", "", "scroll", (("pageup", "scroll(-1)"), ("pagedown", "scroll(1)"))),
        Key("Ctrl+Z", "", "undo the last answer", (("ctrl+z", "undo"),)),
        FIND,
        HELP,
        LOOK,
        EMERGENCY,
        Key("F2", "review", "review of all answers", (("f2", "review"),)),
        Key("F3", "result", "verdict and plan", (("f3", "result"),)),
        Key(EXPORT.name, "", EXPORT.help, EXPORT.binds),
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._return_to: OpenReview | OpenLines | None = None
        self._around = Around(self, session)
        self._drawn: tuple[object, Sequence[Row]] | None = None

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield LinesBlock(id="rail")
        with Horizontal(id="middle"):
            yield LinesBlock(id="chapters")
            with Vertical(id="card"):
                yield TextBlock(id="title")
                yield Form(id="form")
                yield TextBlock(id="error")
            yield TextBlock(id="gate-side")
        yield TextBlock(id="gate")

    def on_mount(self) -> None:
        self.show_question()

    def on_resize(self, event: events.Resize) -> None:
        if self.session.intake.position != REVIEW:
            self._around.resized()

    def go(self, path: str, back_to: OpenReview | OpenLines) -> None:
        """Jump to one question; its answer leads back to where it was asked for."""
        self._return_to = back_to
        self._jump(path)

    def _jump(self, path: str) -> None:
        self.session.change(steps.jump(self.session.intake, path))
        self.show_question()

    def found(self) -> Sequence[Found]:
        """Every question that is asked, then the actions."""
        asked = [path for path in self.session.intake.order if path.list is None]
        rows = rows_of(self.session.answers, asked, self.session.voice)
        return [*(Found(row.label, row.ask, row.path) for row in rows), *super().found()]

    def go_to_found(self, where: str | None) -> None:
        if where in self.session.intake.order:
            self._jump(where)
        else:
            super().go_to_found(where)

    # --- showing -----------------------------------------------------------------------------

    def show_question(self) -> None:
        """Put the question in hand on the screen, ready to be answered."""
        intake = self.session.intake
        if intake.position == REVIEW:
            self._return_to = None
            self.post_message(OpenReview())
            return
        rows, here = self._rows(intake)
        row = rows[here]
        half = self.session.typed
        text = half or (
            format_answer(row.question, row.value, unit=False) if row.typed and row.value != NOT_SURE else ""
        )
        page = page_of(intake.position)
        self.query_one(Form).show(
            rows,
            here,
            one=self.session.voice is Voice.HOME,
            ticks=page.ticks,
            text=text,
            fresh=not half,
        )
        self.say(self.session.trouble)
        self.query_one("#title", TextBlock).show(styled((page.title, "bold $heading")), same_size=True)
        if self._around.begun:
            self._show_around()
        else:
            # The first question is painted before the rules are loaded.
            self.set_timer(FIRST_PAINT_SECONDS, self._show_around)

    def _rows(self, intake: Intake) -> tuple[Sequence[Row], int]:
        """The rows of the page in hand; they stay as they are until an answer changes."""
        paths = together(intake.order, intake.position, self.session.voice)
        shop = self.session.purpose is not Purpose.BUY
        rests_on = (intake.answers, paths, shop)
        if self._drawn is None or self._drawn[0] != rests_on:
            rows = rows_of(intake.answers, paths, self.session.voice, self.session.products, shop=shop)
            self._drawn = (rests_on, rows)
        return self._drawn[1], paths.index(intake.position)

    def rows_with(self, row: Row) -> tuple[Sequence[Row], int]:
        rows, here = self._rows(self.session.intake)
        return [*rows[:here], row, *rows[here + 1 :]], here

    def _show_around(self) -> None:
        if self.session.intake.position != REVIEW:
            self._around.show()

    # --- answering -----------------------------------------------------------------------------

    def _at(self, row: Row) -> None:
        """The row answered is the question in hand."""
        if row.path != self.session.intake.position:
            self.session.intake = steps.jump(self.session.intake, row.path)

    def on_picked(self, message: Picked) -> None:
        self._at(message.row)
        row, value = message.row, message.option.value
        if isinstance(value, Reading):
            self.take(value.value, move=True)
        elif isinstance(value, Usual):
            self.read(row, value.text)
        elif isinstance(value, NoProduct):
            self.session.purpose = Purpose.BUY
            self._change(self.session.intake)
        elif isinstance(value, Product):
            self._change(steps.take_product(self.session.intake, value, row.path.section))
        elif isinstance(value, Add):
            self._add(value)
        elif isinstance(value, Entry):
            self._change(steps.into_entry(self.session.intake, value.number))
        elif row.kind is Kind.SEVERAL:
            self.tick(row, value)
        elif page_of(row.path).ticks:
            self.take(None if row.value == value else value, move=False)
        else:
            self.take(value, move=True)

    def on_said(self, message: Said) -> None:
        self._at(message.row)
        row = message.row
        if message.key == UNSURE_KEY:
            self.take(NOT_SURE, move=not page_of(row.path).ticks)
        elif message.key == SAME_KEY:
            self.take(row.same, move=True)
        elif message.key == NONE_KEY and page_of(row.path).ticks:
            self._finish_ticks()
        elif message.key == NONE_KEY:
            entries = row.kind is Kind.ENTRIES and row.value
            self.take(row.value if entries else (), move=True)

    def on_entered(self, message: Entered) -> None:
        self._at(message.row)
        row = message.row
        if page_of(row.path).ticks:
            self._finish_ticks()
        elif row.typed and message.text.strip():
            self.read(row, message.text)
        elif row.typed and row.value is not None and row.value != NOT_SURE:
            self.take(None, move=False)
            self.say("taken back; type it anew, or ? for not sure, or Tab to leave it open")
        elif row.value is not None or not row.needed:
            self._go_on()
        else:
            self.say("not answered yet: answer it, or ? for not sure; Tab leaves it open")

    def on_typed(self, message: Typed) -> None:
        if message.row.path == self.session.intake.position:
            self.session.type(message.text)
            self.say(self.session.trouble)
            self.echo(message.row, message.text)

    def on_taken_back(self, message: TakenBack) -> None:
        self._at(message.row)
        option = message.option
        if message.row.kind is Kind.ENTRIES:
            if option and isinstance(option.value, Entry):
                self._change(steps.remove_entry(self.session.intake, option.value.number))
        elif message.row.value is not None:
            self.take(None, move=False)

    def _finish_ticks(self) -> None:
        """What is not ticked was not found; that counts only of signs that have been on the screen."""
        form = self.query_one(Form)
        if not form.all_seen:
            form.scroll_page_down(animate=False)
            self.say("there are more signs below: look at them too, then 0 or Enter")
            return
        intake = self.session.intake
        paths = together(intake.order, intake.position, self.session.voice)
        changed = steps.none_of_these(intake, paths)
        self._change(steps.jump(changed, paths[-1]), move=True)

    def take(self, value: object, *, move: bool) -> None:
        """Take an answer; refuse one that does not fit or contradicts another, and say why."""
        intake = self.session.intake
        try:
            self._change(
                steps.answer_fitting(intake, {intake.position: value}, self.session.now()), move=move
            )
        except BadAnswer as error:
            self.say(error.hint)

    def _add(self, add: Add) -> None:
        try:
            self._change(steps.add_entry(self.session.intake, add.like, habit=add.habit))
        except BadAnswer as error:
            self.say(error.hint)

    def _change(self, changed: Intake, *, move: bool = False) -> None:
        """Take a new intake; a new stop is told once, at the answer that brings it."""
        stopped_before = self._stopped()
        self.session.change(steps.forward(changed) if move else changed)
        if self._stopped() and not stopped_before:
            self._around.show_gate()  # It stays in sight beside the notice and must not say something milder.
            self.post_message(TellStop())
        elif move:
            self._arrive()
        else:
            self.show_question()

    def _go_on(self) -> None:
        self.session.change(steps.forward(self.session.intake))
        self._arrive()

    def _arrive(self) -> None:
        """After an answer: back to where it was asked for, or to the next question."""
        if self.session.intake.position.list is not None or not self._return():
            self.show_question()

    def _return(self) -> bool:
        """Back to where the question was asked for; False where nobody asked."""
        if self._return_to is None:
            return False
        message, self._return_to = self._return_to, None
        self.post_message(message)
        return True

    def _stopped(self) -> bool:
        return self.session.judgement().verdict is Verdict.STOP

    # --- moving --------------------------------------------------------------------------------

    def on_went_to(self, message: WentTo) -> None:
        self._jump(message.row.path)

    def on_find_asked(self) -> None:
        self.action_find()

    def on_left_open(self, message: LeftOpen) -> None:
        intake = self.session.intake
        if message.step < 0:
            self.session.change(steps.back(intake))
        else:
            self.session.change(steps.leave_open(intake))
        self._arrive() if message.step > 0 else self.show_question()

    def on_clicked(self, message: Clicked) -> None:
        if not isinstance(message.target, str):
            return
        order = self.session.intake.order
        inside = [path for path in order if page_of(path).chapter == message.target]
        if inside:
            self._jump(inside[0])

    def action_back(self) -> None:
        intake = self.session.intake
        if self._return():
            return
        if intake.position == intake.order[0]:
            self.post_message(OpenStart())
        else:
            self.session.change(steps.back(intake))
            self.show_question()

    def action_scroll(self, step: int) -> None:
        form = self.query_one(Form)
        form.note_seen()
        if step > 0:
            form.scroll_page_down(animate=False)
        else:
            form.scroll_page_up(animate=False)

    def action_undo(self) -> None:
        self.session.change(steps.undo(self.session.intake))
        self.show_question()

    def action_review(self) -> None:
        self.post_message(OpenReview())

    def action_result(self) -> None:
        self.post_message(OpenResult())

    def action_export(self) -> None:
        self.post_message(OpenExport())
