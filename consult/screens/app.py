"""The application: it opens and closes pages and lets no error out as a traceback."""

import sys
from pathlib import Path
from typing import ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.theme import Theme

from consult.answers.base import clean_text
from consult.answers.intake import REVIEW
from consult.answers.shelf import Shelf
from consult.house import House
from consult.screens import messages
from consult.screens.notices import ExportWindow, HelpWindow, StopNotice
from consult.screens.page import Page
from consult.screens.result import ResultPage
from consult.screens.review import ReviewPage
from consult.screens.session import Session
from consult.screens.start import StartPage
from consult.screens.wizard import WizardPage

# A neutral grey surround, so that swatches are judged without a tint beside them.
THEME = Theme(
    name="consult",
    primary="#3d6475",
    secondary="#5f7a6b",
    accent="#8fb8c8",
    warning="#d8b04a",
    error="#e0705a",
    success="#86b37a",
    background="#191a1b",
    surface="#222425",
    panel="#2b2e30",
    foreground="#e6e6e4",
    dark=True,
)


class ConsultApp(App[None]):
    """Holds the session in hand; pages post messages and this class answers them."""

    TITLE = "consult"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+q", "quit", "Quit", priority=True),
        Binding("f1", "help", "Help"),
    ]

    def __init__(
        self,
        *,
        voice: str = "home",
        session: Session | None = None,
        house: House | None = None,
        shelf: Shelf | None = None,
        demos: bool = False,
    ) -> None:
        super().__init__()
        self.voice = voice
        self.session = session
        self.house = house
        self.shelf = shelf
        self.demos = demos
        self.fatal = ""
        self.register_theme(THEME)
        self.theme = "consult"

    def on_mount(self) -> None:
        self.push_screen(StartPage(self.voice, self.house, self.shelf, demos=self.demos))
        if self.session:
            self._open(self.session)

    def _open(self, session: Session) -> None:
        self.session = session
        self.push_screen(WizardPage(session))

    def _wizard(self) -> WizardPage | None:
        return next((s for s in self.screen_stack if isinstance(s, WizardPage)), None)

    def _close_down_to(self, page: type[Page]) -> None:
        while len(self.screen_stack) > 1 and not isinstance(self.screen, page):
            self.pop_screen()

    def on_open_wizard(self, message: messages.OpenWizard) -> None:
        if self._wizard() is None:
            self._open(message.session)

    def on_open_start(self) -> None:
        self._close_down_to(StartPage)

    def on_open_review(self) -> None:
        if self.session:
            self._close_down_to(WizardPage)
            self.push_screen(ReviewPage(self.session))

    def on_open_sheet(self) -> None:
        # The sheet needs the colour model, which nothing else on the start page does.
        from consult.screens.sheet import SheetPage

        self.push_screen(SheetPage())

    def on_open_result(self) -> None:
        if self.session and not isinstance(self.screen, ResultPage):
            self.push_screen(ResultPage(self.session))

    async def on_close_page(self, message: messages.ClosePage) -> None:
        """Close the page on top; behind the review at the end the wizard shows its last question again."""
        if self.screen is not message.page:
            return
        leaving_review = isinstance(self.screen, ReviewPage)
        self.pop_screen()
        wizard = self._wizard()
        if wizard is None or self.screen is not wizard:
            return
        if leaving_review and wizard.session.intake.position == REVIEW:
            await wizard.action_back()
        else:
            await wizard.show_question()

    async def on_change_answer(self, message: messages.ChangeAnswer) -> None:
        self._close_down_to(WizardPage)
        wizard = self._wizard()
        if wizard:
            await wizard.go(message.path)

    def on_tell_stop(self) -> None:
        if self.session:
            self.push_screen(StopNotice(self.session), self._after_stop)

    async def _after_stop(self, choice: str | None) -> None:
        wizard = self._wizard()
        if wizard is None:
            return
        if choice == "change":
            await wizard.action_undo()
            return
        await wizard.show_question()
        if choice == "result":
            self.on_open_result()

    def on_open_export(self) -> None:
        if self.session and not isinstance(self.screen, ExportWindow):
            self.push_screen(ExportWindow(self.session), self._after_export)

    def _after_export(self, path: Path | None) -> None:
        if path is not None:
            self.notify(
                clean_text(f"The record is written: {path}"), title="Exported", markup=False, timeout=8
            )

    def action_help(self) -> None:
        if not isinstance(self.screen, HelpWindow):
            self.push_screen(HelpWindow())

    def _handle_exception(self, error: Exception) -> None:
        """One line with kind and place instead of a traceback, whose locals would hold health answers."""
        frame = error.__traceback__
        while frame and frame.tb_next:
            frame = frame.tb_next
        place = f"{Path(frame.tb_frame.f_code.co_filename).name}:{frame.tb_lineno}" if frame else "?"
        self.fatal = (
            f"consult: {type(error).__name__} at {place}; what was typed is kept, start again to go on"
        )
        self._return_code = 1
        self.exit(return_code=1)


def run(app: ConsultApp) -> int:
    """Run the app to its end. Returns the exit code; needs a terminal on both sides."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        print("consult: the wizard needs a terminal; use 'consult plan FILE' without one", file=sys.stderr)
        return 2
    app.run()
    if app.fatal:
        print(app.fatal, file=sys.stderr)
    return app.return_code or 0
