"""A window over the lines of a result: what lies behind one of them. Enter on an answer opens its question."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import OptionList
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from consult.answers import Answers
from consult.answers.access import get
from consult.answers.format import format_answer
from consult.answers.questions import question_of
from consult.interview.order import follows_from
from consult.report.difference import NOT_ASKED
from consult.report.rows import Row
from consult.session import Session
from consult.widgets.lists import NumberedList, numbered
from consult.widgets.text import TextBlock, styled

NOTHING = "It stands there whatever is answered."
LOOKING = "Trying out which answers it rests on ..."


class BehindWindow(ModalScreen[str | None]):
    """The sentence, its reason, its sources, and the answers it rests on."""

    CSS_PATH = "notices.tcss"
    AUTO_FOCUS = "#answers"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Back", priority=True)]

    def __init__(self, session: Session, row: Row) -> None:
        super().__init__()
        self.session = session
        self.row = row
        self.busy = False
        """Its answers are still being looked for: keys that are pressed meanwhile wait for the list."""

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="window", can_focus=False):
            yield TextBlock(id="text")
            yield TextBlock(id="rests")
            yield NumberedList(id="answers")

    def on_mount(self) -> None:
        row = self.row
        self.query_one("#text", TextBlock).show(
            styled(
                (row.say, "bold"),
                "\n\n",
                ("Because: " if row.verdict is None else "What to do: ", "bold $accent"),
                row.because,
                "\n",
                ("Source: ", "bold $accent"),
                row.cited,
                "\n",
            )
        )
        if row.paths:
            self._show(row.paths)
        elif rests := self.session.rests:
            self._show(rests.behind(row.say))
        else:
            self.query_one("#rests", TextBlock).show(styled((LOOKING, "$muted")))
            self.busy = True
            self.run_worker(self._look, thread=True)

    def _look(self) -> None:
        """In the background: it takes a second or two."""
        worker = get_current_worker()
        rests = self.session.look_behind(lambda: worker.is_cancelled)
        if not worker.is_cancelled:
            self.app.call_from_thread(self._show, rests.behind(self.row.say))

    def _show(self, paths: Sequence[str]) -> None:
        """The answers as a list, each a key press from its question."""
        self.busy = False
        answers = self.session.answers
        title = "It rests on these answers; Enter opens the question." if paths else NOTHING
        self.query_one("#rests", TextBlock).show(styled((title, "$muted")))
        listed = self.query_one("#answers", OptionList)
        listed.add_options(
            Option(numbered(number, question_of(path).short, _answer(answers, path)), id=path)
            for number, path in enumerate(paths)
        )
        listed.highlighted = 0 if paths else None

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        if event.option_id:
            self.dismiss(follows_from(self.session.answers, event.option_id) or event.option_id)

    def action_leave(self) -> None:
        self.dismiss(None)


def _answer(answers: Answers, path: str) -> str:
    return format_answer(question_of(path), get(answers, path)) or NOT_ASKED
