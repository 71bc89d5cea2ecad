"""The wizard: one question in hand, its section beside it, the gate panel always in sight."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from consult.answers import intake as steps
from consult.answers.access import BadAnswer, answer_paths, entries, get
from consult.answers.conflicts import new_conflict
from consult.answers.intake import REVIEW, Intake
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, inner_questions, question_of, section_titles
from consult.answers.reading import format_answer, read_typed
from consult.gates.verdict import Verdict
from consult.screens.messages import OpenExport, OpenResult, OpenReview, OpenStart, TellStop
from consult.screens.page import BACK, EXPORT, HELP, QUIT, Page
from consult.session import Session
from consult.trade import Voice
from consult.widgets.editors import (
    NONE_OF_THESE,
    Answered,
    EditorMessage,
    Entered,
    EntryWanted,
    Field,
    KeepEntries,
    NothingTicked,
    PickOne,
    Ticked,
    TickSeveral,
    Typed,
    TypeIn,
)
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import RowList
from consult.widgets.text import Piece, TextBlock, styled
from consult.widgets.verdicts import gate_content


class WizardPage(Page):
    """One permanent screen; a change of question changes its body in place."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "wizard.tcss"]
    AUTO_FOCUS = "#editor *"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Enter, digits", "", "answer; in lists a digit picks or ticks, 0 is none of these"),
        Key("Space", "", "tick, where several answers may be right"),
        Key("?", "", "typed into a field: not sure"),
        Key("PgUp", "back", "to the question before, as does Escape", BACK.binds),
        Key("PgDn", "leave open", "leave the question open", (("pagedown", "skip"),)),
        Key("Ctrl+Z", "undo", "undo the last answer", (("ctrl+z", "undo"),)),
        HELP,
        Key("F2", "review", "review of all answers", (("f2", "review"),)),
        Key("F3", "result", "verdict and plan", (("f3", "result"),)),
        Key(EXPORT.name, "", EXPORT.help, EXPORT.binds),
        Key("Tab", "", "to the list of questions on the left and back"),
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._editing = ""
        self._returns_to_review = False

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="rail")
        with Horizontal(id="middle"):
            yield RowList(id="outline")
            with Vertical(id="card"):
                yield TextBlock(id="question")
                yield TextBlock(id="tell")
                yield TextBlock(id="error")
                yield Vertical(id="editor")
            yield TextBlock(id="gate-side")
        yield TextBlock(id="gate")

    async def on_mount(self) -> None:
        await self.show_question()

    async def go(self, path: str) -> None:
        """Jump to one question from the review; the next answer leads back there."""
        self._returns_to_review = True
        self.session.change(steps.jump(self.session.intake, path))
        await self.show_question()

    # --- showing -----------------------------------------------------------------------------

    async def show_question(self) -> None:
        """Put the question in hand on the screen, with its editor focused."""
        intake = self.session.intake
        if intake.position == REVIEW:
            self._editing, self._returns_to_review = "", False
            self.post_message(OpenReview())
            return
        question = question_of(intake.position)
        voice = self.session.voice
        self.query_one("#question", TextBlock).show(
            styled((question.plain if voice is Voice.HOME else question.trade, "bold"))
        )
        self.query_one("#tell", TextBlock).show(styled((self._tell(intake), "dim")))
        if self._editing != intake.position or question.kind in (Kind.ENTRIES, Kind.CHOICE):
            await self._mount_editor(intake)
        self._show_around()

    def _tell(self, intake: Intake) -> str:
        question = question_of(intake.position)
        parts = [question.how_to_tell]
        if self.session.voice is Voice.HOME and question.optional:
            parts.append("You can leave this open with PgDn.")
        if question.kind is Kind.SEVERAL:
            parts.append("Space or the digit ticks, Enter goes on.")
        if entries(intake.answers, intake.position):
            parts.append("Enter on an entry changes it, Delete removes it.")
        return " ".join(part for part in parts if part)

    async def _mount_editor(self, intake: Intake) -> None:
        holder = self.query_one("#editor", Vertical)
        async with self.batch():
            await holder.remove_children()
            editor = self._editor(intake)
            await holder.mount(editor)
        self._editing = intake.position
        target = editor.query_one(Input) if isinstance(editor, TypeIn) else editor
        target.focus()

    def _editor(self, intake: Intake) -> Widget:
        path = intake.position
        question, value = question_of(path), get(intake.answers, path)
        if question.kind is Kind.CHOICE:
            return PickOne(path, question, value)
        if question.kind is Kind.SEVERAL:
            return TickSeveral(path, question, value)
        if question.kind is Kind.ENTRIES:
            return KeepEntries(path, question, value, entry_rows(intake, path))
        return TypeIn(path, question, value, self.session.typed)

    def _show_around(self) -> None:
        """Heading, section rail, outline and, a moment later, the gate panel: all read off the session."""
        intake, session = self.session.intake, self.session
        name = get(intake.answers, "client.name")
        title = section_titles()[intake.section]
        demo = "  demo client, nothing is kept" if not session.keep else ""
        self.query_one("#heading", TextBlock).show(
            styled(
                ("consult ", "bold $text-accent"),
                (title, "bold"),
                (f"   {name}" if isinstance(name, str) else "", ""),
                (demo, "dim"),
            )
        )
        self._show_error("")
        self.query_one("#rail", TextBlock).show(_rail(intake, session.voice))
        self._show_outline(intake)
        # The question is painted before the rules are asked; at the start they have to be read first.
        self.call_after_refresh(self._show_gate)

    def _show_gate(self) -> None:
        judged, voice = self.session.judgement(), self.session.voice
        rows = 6 if self.has_class("tall") else 3
        self.query_one("#gate", TextBlock).show(gate_content(judged, voice, rows))
        self.query_one("#gate-side", TextBlock).show(gate_content(judged, voice, 12))

    def _show_outline(self, intake: Intake) -> None:
        outline = self.query_one("#outline", OptionList)
        paths = list(answer_paths(intake.answers, intake.section))
        outline.clear_options()
        shown_paths = [path for path in paths if _stands_in_outline(path, intake.position)]
        outline.add_options(Option(_outline_row(intake, path), id=path) for path in shown_paths)
        if intake.position in shown_paths:
            outline.highlighted = shown_paths.index(intake.position)

    def _show_error(self, text: str) -> None:
        if text:
            for field in self.query(Field):
                field.handed_over = False
        error = text or self.session.trouble
        line = self.query_one("#error", TextBlock)
        line.show(styled((error, "bold $text-error")))
        line.display = bool(error)

    # --- answering -----------------------------------------------------------------------------

    def _in_hand(self, message: EditorMessage) -> bool:
        return message.path == self.session.intake.position

    @on(Answered)
    async def _answered(self, message: Answered) -> None:
        if self._in_hand(message):
            await self._take(message.value, move=not isinstance(message, Ticked))

    def on_nothing_ticked(self, message: NothingTicked) -> None:
        if self._in_hand(message):
            self._show_error(f"nothing is ticked; tick what is true, or '{NONE_OF_THESE}'")

    async def on_entered(self, message: Entered) -> None:
        if not self._in_hand(message):
            return
        question = question_of(self.session.intake.position)
        try:
            value = read_typed(question, message.text, self.session.now())
        except BadAnswer as error:
            self._show_error(error.hint)
            return
        await self._take(value, move=True)

    def on_typed(self, message: Typed) -> None:
        if self._in_hand(message):
            self.session.type(message.text)
            self._show_error("")

    async def _take(self, value: object, *, move: bool) -> None:
        """Take an answer; refuse one that does not fit or contradicts another, and say why."""
        intake, session = self.session.intake, self.session
        stopped_before = self._stopped()
        try:
            changed = steps.answer(intake, value)
        except BadAnswer as error:
            self._show_error(error.hint)
            return
        conflict = new_conflict(intake.answers, changed.answers, session.now())
        if conflict:
            other = "" if conflict.path == intake.position else f"{question_of(conflict.path).short}: "
            self._show_error(other + conflict.hint)
            return
        session.change(steps.forward(changed) if move else changed)
        if move and self._returns_to_review and intake.position.list is None:
            session.change(steps.jump(session.intake, REVIEW))
        if self._stopped() and not stopped_before:
            # A new stop is told once, at the answer that brings it.
            self.post_message(TellStop())
            return
        if move:
            await self.show_question()
        else:
            self._show_around()

    def _stopped(self) -> bool:
        return self.session.judgement().verdict is Verdict.STOP

    async def on_entry_wanted(self, message: EntryWanted) -> None:
        if not self._in_hand(message):
            return
        intake, session = self.session.intake, self.session
        if message.what == "add":
            try:
                session.change(steps.add_entry(intake))
            except BadAnswer as error:
                self._show_error(error.hint)
                return
        elif message.what == "edit":
            session.change(steps.into_entry(intake, message.index))
        elif message.what == "remove":
            session.change(steps.remove_entry(intake, message.index))
        elif message.what == "done":
            session.change(steps.forward(intake))
            if self._returns_to_review:
                session.change(steps.jump(session.intake, REVIEW))
        else:
            await self._take(() if message.what == "none" else message.what, move=True)
            return
        await self.show_question()

    # --- moving --------------------------------------------------------------------------------

    async def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        if event.option_list.id == "outline" and event.option_id:
            self.session.change(steps.jump(self.session.intake, event.option_id))
            self._editing = ""
            await self.show_question()

    async def action_back(self) -> None:
        intake = self.session.intake
        if intake.position == intake.order[0]:
            self.post_message(OpenStart())
            return
        self.session.change(steps.back(intake))
        await self.show_question()

    async def action_skip(self) -> None:
        self.session.change(steps.forward(self.session.intake))
        await self.show_question()

    async def action_undo(self) -> None:
        self.session.change(steps.undo(self.session.intake))
        self._editing = ""
        await self.show_question()

    def action_review(self) -> None:
        self.post_message(OpenReview())

    def action_result(self) -> None:
        self.post_message(OpenResult())

    def action_export(self) -> None:
        self.post_message(OpenExport())


def entry_rows(intake: Intake, path: AnswerPath) -> list[str]:
    """One line for each entry of a list answer."""
    rows = []
    for index in range(len(entries(intake.answers, path))):
        given = [(q, get(intake.answers, path.inside(index, q.path.name))) for q in inner_questions(path)]
        rows.append(
            ", ".join(format_answer(q, value) for q, value in given if value is not None) or "(empty)"
        )
    return rows


def _rail(intake: Intake, voice: Voice) -> Content:
    """All sections in one line, each with its state; the one in hand stands out."""
    words = RAIL_WORDS | PLAIN_RAIL_WORDS if voice is Voice.HOME else RAIL_WORDS
    pieces: list[Piece] = []
    for name, progress in steps.progress(intake.answers).items():
        label = words[name]
        mark = "+" if progress.complete else "-" if progress.answered else " "
        style = "bold reverse" if name == intake.section else "$text-success" if mark == "+" else "dim"
        pieces += [(f"{mark}{label}".strip(), style), " "]
    return styled(*pieces)


RAIL_WORDS = {
    "client": "Client",
    "health": "Health",
    "scalp": "Scalp",
    "history": "History",
    "hair": "Hair",
    "goal": "Goal",
    "product": "Product",
    "lengths_product": "2nd product",
    "allergy_test": "Alert",
    "strand_test": "Strand",
    "incompatibility_test": "Metals",
}
PLAIN_RAIL_WORDS = {"client": "You", "history": "Past", "allergy_test": "Skin test"}


def _stands_in_outline(path: AnswerPath, position: AnswerPath) -> bool:
    """Of list entries only the one in hand is spread out; the list question itself shows them all."""
    return path.list is None or path.same_entry(position)


def _outline_row(intake: Intake, path: AnswerPath) -> Content:
    question = question_of(path)
    value = get(intake.answers, path)
    text = format_answer(question, value)
    indent = "  " if path.list else ""
    style = "dim" if value is None else ""
    mark = ("· " if question.optional else "_ ") if value is None else "+ "
    return styled(
        indent, (mark, style), (question.short, style), (f"  {text}" if text else "", "$text-accent")
    )
