"""A consultation line by line: the same intake as the wizard's, for screen readers, simple terminals and pipes."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from consult.answers.access import BadAnswer, get
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.paths import AnswerPath
from consult.answers.product import Product
from consult.answers.questions import Kind, question_of
from consult.ask.choosing import chosen, signs_in, toggled
from consult.ask.console import Console
from consult.ask.told import Told
from consult.ask.words import HELP, tell_question
from consult.cleaning import clean_text
from consult.exits import FAILED, UNFINISHED, of_plan
from consult.interview import intake as steps
from consult.interview.intake import REVIEW, Intake
from consult.interview.order import together
from consult.interview.pages import Page, page_of
from consult.interview.reading import UNSURE, Reading, readings
from consult.interview.rows import KEYS, NONE_KEY, SAME_KEY, Add, Entry, Option, Row, Usual, rows_of
from consult.report.text import write_report
from consult.session import Session
from consult.terminal import width


class Left(Exception):
    """Whoever answers wants to leave."""


class Talk:
    """Asks what the session's intake asks, until the record is written or the input ends.

    out  where the record goes; None for the place that the wizard offers
    """

    def __init__(self, session: Session, console: Console, out: Path | None = None) -> None:
        self.session = session
        self.console = console
        self.out = out
        self._page: Page | None = None
        self._trouble = ""
        self._correcting = False
        self._told = Told(console, session)

    def run(self) -> int:
        """The exit code. Raises KeyboardInterrupt; all that was answered is on the disk by then."""
        self._told.tell()
        try:
            while True:
                while not self._at_end:
                    self._ask()
                if (code := self._end()) is not None:
                    return code
        except (EOFError, Left):
            return self.leave()

    def leave(self) -> int:
        """Say where it is kept."""
        if self.session.error:
            self.session.save()
        if self.session.error:
            self.console.say(f"Left without saving: {self.session.error}")
            return FAILED
        path = self.session.draft.path
        if path:
            self.console.say("What was answered is kept. To go on:")
            self.console.line(clean_text(f"consult ask {path}"))
        else:
            self.console.say("Nothing new was answered.")
        return UNFINISHED

    @property
    def _at_end(self) -> bool:
        return self.session.intake.position == REVIEW

    # --- asking --------------------------------------------------------------------------------

    def _ask(self) -> None:
        rows, row = self._rows()
        page = page_of(row.path)
        shown = rows if page.ticks else [row]
        tell_question(self.console, self.session.intake, page, shown, new_page=page is not self._page)
        self._page = page
        while not self._heard(self.console.hear()):
            pass

    def _rows(self) -> tuple[list[Row], Row]:
        """The rows that stand together as in the wizard, and the one in hand."""
        intake, voice = self.session.intake, self.session.voice
        paths = together(intake.order, intake.position, voice)
        rows = rows_of(intake.answers, paths, voice, self.session.products)
        return rows, rows[paths.index(intake.position)]

    def _heard(self, text: str) -> bool:
        """Whether a typed line has led on, or asks for the question again."""
        if (done := self._command(text)) is not None:
            return done
        if len(text) > 1 and text[0] == text[-1] == '"':
            text = text[1:-1].strip()
        try:
            return self._answered(text)
        except BadAnswer as error:
            self.console.say(error.hint)
            return False

    def _answered(self, text: str) -> bool:
        rows, row = self._rows()
        if page_of(row.path).ticks:
            return self._signs(rows, text)
        if not text:
            return self._pass(row)
        if text == SAME_KEY and row.same is not None:
            return self._take(row.same)
        if row.typed:
            return self._typed(row, text)
        if text.lower() in UNSURE:
            return self._take(NOT_SURE)
        if row.kind is Kind.ENTRIES:
            return self._listed(row, text)
        if row.kind is Kind.SEVERAL:
            return self._several(row, text)
        return self._picked(row, chosen(row, row.options, text))

    def _pass(self, row: Row) -> bool:
        if row.value is None and row.needed:
            self.console.say("Not answered yet: answer it, or ? for not sure; skip leaves it open.")
            return False
        return self._change(steps.forward(self.session.intake))

    def _typed(self, row: Row, text: str) -> bool:
        usual = (o.value.text for o in row.options if o.key == text and isinstance(o.value, Usual))
        found = readings(row.question, next(usual, text), self.session.now())
        if len(found) == 1:
            return self._take(found[0].value, found[0].words)
        return self._which(row, found)

    def _which(self, row: Row, found: Sequence[Reading]) -> bool:
        """Two readings are both offered, and none is taken; whatever else is typed is read anew."""
        self.console.say("That can be read in more than one way. Which is it?")
        keyed = dict(zip(KEYS, found, strict=False))
        for key, reading in keyed.items():
            self.console.say(reading.words, first=f"  {key}  ")
        text = self.console.hear()
        if text in keyed:
            return self._take(keyed[text].value, keyed[text].words)
        if not text:
            self.console.say("None of them is taken: type it in another way.")
            return False
        return self._heard(text)

    def _picked(self, row: Row, option: Option) -> bool:
        if isinstance(option.value, Product):
            return self._change(
                steps.take_product(self.session.intake, option.value, row.path.section), on=True
            )
        return self._take(option.value)

    def _listed(self, row: Row, text: str) -> bool:
        """A list of entries: one more, one of them, or no more."""
        if text == NONE_KEY:
            return self._take(row.value if isinstance(row.value, tuple) and row.value else ())
        value = chosen(row, row.options, text).value
        if isinstance(value, Entry):
            return self._change(steps.into_entry(self.session.intake, value.number))
        return self._change(
            steps.add_entry(self.session.intake, value.like if isinstance(value, Add) else None)
        )

    def _several(self, row: Row, text: str) -> bool:
        if text == NONE_KEY:
            if row.value and row.value != NOT_SURE:
                raise BadAnswer(row.path, "0 is none of these, but there is a tick: its key takes it back")
            return self._take(())
        self._put(toggled([row], signs_in([row], text)))
        self._tell_ticked()
        return False

    def _signs(self, rows: Sequence[Row], text: str) -> bool:
        """Signs stand together: what is not ticked when they are left was not found."""
        if text and text != NONE_KEY:
            self._put(toggled(rows, signs_in(rows, text)))
            self._tell_ticked()
            return False
        paths = tuple(row.path for row in rows)
        changed = steps.jump(steps.none_of_these(self.session.intake, paths), paths[-1])
        for path in paths:
            self._note(path, format_answer(question_of(path), get(changed.answers, path)))
        return self._change(changed, on=True)

    def _tell_ticked(self) -> None:
        rows, row = self._rows()
        told = [r for r in (rows if page_of(row.path).ticks else [row]) if r.answer]
        ticked = "; ".join(f"{r.label}: {r.answer}" for r in told) or "nothing"
        self.console.say(f"Ticked: {ticked}. An empty line goes on.")

    # --- answering -----------------------------------------------------------------------------

    def _take(self, value: Any, words: str = "") -> bool:
        """Answer the question in hand and go on. Raises BadAnswer when it does not fit or contradicts another."""
        path = self.session.intake.position
        changed = self._with({path: value})
        self._note(path, words or format_answer(question_of(path), get(changed.answers, path)))
        return self._change(changed, on=True)

    def _put(self, values: dict[AnswerPath, Any]) -> None:
        self._change(self._with(values))

    def _with(self, values: dict[AnswerPath, Any]) -> Intake:
        return steps.answer_fitting(self.session.intake, values, self.session.now())

    def _note(self, path: str, words: str) -> None:
        self.console.say(f"{question_of(path).short}: {words or 'left open'}.", first="  ")

    def _change(self, changed: Intake, *, on: bool = False) -> bool:
        """Take a new intake, save it, and say at once what it brings."""
        self.session.change(steps.forward(changed) if on else changed)
        if self._correcting and on and self.session.intake.position.list is None:
            self._correcting = False
            self.session.change(steps.jump(self.session.intake, next_open(self.session.intake)))
        if self.session.trouble not in ("", self._trouble):
            self.console.say(self.session.trouble)
        self._trouble = self.session.trouble
        self._told.tell()
        return True

    # --- words ---------------------------------------------------------------------------------

    def _command(self, text: str) -> bool | None:
        """Do what a word asks for; None when it is no such word, else whether the question is told again."""
        word, _, rest = text.lower().partition(" ")
        intake = self.session.intake
        if rest and word == "go":
            return self._go(rest)
        if rest and word == "remove":
            return self._remove(rest)
        match text.lower():
            case "<" | "back":
                return self._change(steps.back(intake))
            case ">" | "skip" if not self._at_end:
                rows, row = self._rows()
                last = rows[-1] if page_of(row.path).ticks else row
                return self._change(steps.leave_open(steps.jump(intake, last.path)))
            case "clear" if not self._at_end:
                return self._change(steps.answer(intake, None))
            case "undo":
                return self._change(steps.undo(intake))
            case "finish":
                return self._change(steps.jump(intake, REVIEW))
            case "review":
                self._review()
            case "result":
                self._report()
            case "help":
                for name, what in HELP:
                    self.console.say(what, first=f"  {name}: ", then="      ")
            case "stop" | "quit" | "exit":
                raise Left
            case _:
                return None
        return True

    def _go(self, number: str) -> bool:
        order = self.session.intake.order
        if not number.isascii() or not number.isdigit() or not 1 <= int(number[:6]) <= len(order):
            self.console.say(f"There are questions 1 to {len(order)}; review tells them.")
            return False
        self._correcting = self._at_end
        return self._change(steps.jump(self.session.intake, order[int(number[:6]) - 1]))

    def _remove(self, key: str) -> bool:
        row = None if self._at_end else self._rows()[1]
        entry = next((o.value for o in row.options if o.key == key), None) if row else None
        if not isinstance(entry, Entry):
            self.console.say("There is no entry with that key here.")
            return False
        return self._change(steps.remove_entry(self.session.intake, entry.number))

    def _review(self) -> None:
        answers = self.session.answers
        for number, path in enumerate(self.session.intake.order, 1):
            question, value = question_of(path), get(answers, path)
            shown = format_answer(question, value) or ("left open" if question.optional else "NOT ASKED")
            self.console.say(f"{question.short}: {shown}", first=f"{number:>4}  ")

    def _report(self) -> None:
        self.console.say()
        write_report(self.session.consultation(), self.session.voice, width(), self.console.line)

    # --- the end -------------------------------------------------------------------------------

    def _end(self) -> int | None:
        """Verdict, plan, and the record; None when the person goes back to a question."""
        self._report()
        self._page = None
        path = self.out or self.session.export_path()
        self.console.say()
        if not self.session.keep:
            self.console.say("A demo client: nothing is kept.")
            return of_plan(self.session.consultation().plan)
        self.console.say(
            "An empty line, or the end of the input, writes the record and ends. It holds health answers. "
            "To change an answer: review, then go and its number; or < to go back. The record's place:"
        )
        self.console.line(clean_text(str(path)))
        while self._at_end:
            text = self._last_line()
            if not text:
                return self._written(path)
            if self._command(text) is None:
                self.console.say("That is none of the words here; help tells them.")
        return None

    def _last_line(self) -> str:
        try:
            return self.console.hear()
        except EOFError:
            return ""

    def _written(self, path: Path) -> int:
        from consult.records.store import CannotSave, missing_folder, written_line

        folder = missing_folder(path)
        code = of_plan(self.session.consultation().plan)
        try:
            self.session.export(path, new=True)
        except CannotSave as error:
            self.console.say(str(error))
            self.session.save()
            self.leave()
            return FAILED
        self.console.line(clean_text(written_line(path, folder)))
        if self.session.notice:
            self.console.say(self.session.notice)
        return code


def next_open(intake: Intake) -> str:
    """The first needed question without an answer; the end where there is none."""
    needed = (path for path in intake.stops if not question_of(path).optional)
    return next((path for path in needed if get(intake.answers, path) is None), REVIEW)
