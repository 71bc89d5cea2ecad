"""The application: it opens and closes pages and lets no error out as a traceback.

The start page is painted before anything else is loaded; the pages behind it are imported when they are
opened, and meanwhile one by one between the keys.
"""

import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from rich.console import RenderableType
from rich.text import Text
from textual import events
from textual.app import App
from textual.binding import BindingType
from textual.driver import Driver
from textual.screen import Screen

from consult.cleaning import clean_text
from consult.records.remembered import remember, remembered
from consult.records.wanted import Purpose, Wanted
from consult.screens import messages
from consult.screens.driver import handing_over
from consult.screens.keyboard import Keyboard
from consult.screens.loading import load_the_rest
from consult.screens.page import EMERGENCY, QUIT, Page
from consult.screens.start import StartPage
from consult.screens.themes import THEMES, following, theme_named
from consult.terminal import in_browser
from consult.trade import Voice
from consult.widgets.keys import bindings

if TYPE_CHECKING:
    from consult.answers.shelf import Shelf
    from consult.salon import SalonConfig
    from consult.screens.wizard import WizardPage
    from consult.session import Session

FOLDER = Path(__file__).parent
LONGEST_LINE = 300
QUIET_SECONDS = 0.4  # after the first paint, before the rest is loaded


class ConsultApp(App[None]):
    """Holds the session in hand; pages post messages and this class answers them."""

    TITLE = "consult"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = bindings((EMERGENCY, QUIT))

    def __init__(
        self,
        *,
        voice: Voice | None = None,
        session: "Session | None" = None,
        opening: Wanted | None = None,
        salon: "SalonConfig | None" = None,
        shelf: "Shelf | None" = None,
        demos: bool = False,
        on_the_day: bool = False,
    ) -> None:
        # The first page is the default screen, whose style sheets the framework does not load by itself.
        first = "wizard.tcss" if session else "page.tcss" if opening else "start.tcss"
        super().__init__(css_path=[FOLDER / "page.tcss", FOLDER / first])
        self.opening = opening
        self.voice = voice
        """Who uses it, where that is known."""
        self.session = session
        self.salon = salon
        self.shelf = shelf
        self.demos = demos
        self.on_the_day = on_the_day
        """Whether the session's day is opened over its review."""
        self.fatal = ""
        self._wizard_page: WizardPage | None = None
        self.keyboard = Keyboard(self)
        for look in THEMES:
            self.register_theme(look)
        # Past its watcher, which would have every style sheet read a second time.
        self.set_reactive(App.theme, theme_named(remembered().theme).name)
        self.stylesheet.set_variables(self.get_css_variables())

    def get_driver_class(self) -> type[Driver]:
        return handing_over(super().get_driver_class())

    def get_default_screen(self) -> Screen[None]:
        """The start page, or what is opened at once."""
        if self.session:
            return self._wizard_for(self.session)
        if self.opening:
            from consult.screens.opening import OpeningPage

            return OpeningPage(self.opening)
        return self._start_page()

    def _start_page(self) -> StartPage:
        return StartPage(self.voice, demos=self.demos)

    def on_load(self) -> None:
        """Before the terminal is taken."""
        if not self.is_headless:
            from consult.screens.ending import listen

            listen(self._end_by_signal)

    async def on_event(self, event: events.Event) -> None:
        if not self.keyboard.holds(event):
            await super().on_event(event)

    def on_mount(self) -> None:
        self.run_worker(self.keyboard.run(), exit_on_error=False)
        self.set_timer(QUIET_SECONDS, self._load_ahead)

    def _load_ahead(self) -> None:
        self.run_worker(load_the_rest(), exit_on_error=False)

    def _wizard_for(self, session: "Session") -> "WizardPage":
        from consult.screens.wizard import WizardPage

        self.session = session
        self._wizard_page = WizardPage(session)
        return self._wizard_page

    def _wizard(self) -> "WizardPage | None":
        page = self._wizard_page
        return page if page in self.screen_stack else None

    def _close_down_to(self, page: "Screen[Any] | None") -> None:
        while page and len(self.screen_stack) > 1 and self.screen is not page:
            self.pop_screen()

    async def on_open_wizard(self, message: messages.OpenWizard) -> None:
        from consult.files import BadFile
        from consult.session import open_session

        page, first = self.screen, self.opening is not None and len(self.screen_stack) == 1
        if not first and not isinstance(page, StartPage):
            return
        try:
            session = open_session(message.wanted, self.salon, self.shelf)
        except BadFile as error:
            if isinstance(page, StartPage):
                page.refuse(str(error))
            else:
                self._end(str(error), 2)
            return
        if isinstance(page, StartPage):
            self.voice = message.wanted.voice
            remember(role=self.voice)
        # Keys that are pressed meanwhile wait for the wizard.
        await self.push_screen(self._first_page(session))

    def _first_page(self, session: "Session") -> Page:
        """Where what somebody comes for begins."""
        if session.purpose is Purpose.WRONG:
            from consult.screens.wrong import WrongPage

            self.session = session
            return WrongPage(session)
        return self._wizard_for(session)

    async def action_quit(self) -> None:
        from consult.screens.places import UnsavedWindow

        if isinstance(self.screen, UnsavedWindow):
            self._fail("left without saving")
        elif self._saved():
            self.exit(message=self._where_it_is())
        else:
            self._offer_another_place(self._quit_from)

    def _where_it_is(self) -> Text | None:
        """Said on leaving: where the unfinished consultation is kept."""
        path = self.session.draft.path if self.session and self.session.keep else None
        return Text(f"consult: unfinished, kept in {clean_text(str(path))}") if path else None

    def _saved(self) -> bool:
        """Whether what was typed is on the disk; it may have room again."""
        if self.session and self.session.error:
            self.session.save()
        return not (self.session and self.session.error)

    def _offer_another_place(self, then: Callable[[Path | None], None]) -> None:
        from consult.screens.places import UnsavedWindow

        if self.session:
            self.push_screen(UnsavedWindow(self.session), then)

    def _quit_from(self, path: Path | None) -> None:
        if path is not None:
            self.exit(message=Text(f"consult: the consultation is kept in {clean_text(str(path))}"))

    def _start_from(self, path: Path | None) -> None:
        if path is not None:
            self.on_open_start()

    def on_open_start(self) -> None:
        if not self._saved():
            self._offer_another_place(self._start_from)
            return
        start = next((page for page in self.screen_stack if isinstance(page, StartPage)), None)
        if start is None:
            # What was opened first lies at the bottom of the stack, where it cannot be taken away.
            self._wizard_page = None
            self._close_down_to(self.screen_stack[0])
            self.push_screen(self._start_page())
        self._close_down_to(start)

    async def on_open_review(self, message: messages.OpenReview) -> None:
        if self.session:
            from consult.screens.review import ReviewPage

            self._close_down_to(self._wizard())
            await self.push_screen(ReviewPage(self.session, message.at))
            if self.on_the_day:
                self.on_the_day = False
                self.post_message(messages.OpenDay())

    def on_open_chart(self) -> None:
        # The chart needs the colour model, which nothing else on the start page does.
        from consult.screens.chart import ChartPage

        self.push_screen(ChartPage())

    def action_emergency(self) -> None:
        """A key of the program, not of a page: it counts over every window too."""
        self.post_message(messages.OpenEmergency())

    async def on_open_emergency(self, message: messages.OpenEmergency) -> None:
        from consult.plan.settings import Settings
        from consult.screens.emergency import EmergencyPage

        if not isinstance(self.screen, EmergencyPage):
            salon = self.session.salon if self.session else self.salon
            settings = salon.settings if salon else Settings()
            voice = self.session.voice if self.session else self.voice
            await self.push_screen(EmergencyPage(settings, voice or Voice.HOME, message.at))

    async def on_open_over(self, message: messages.OpenOver) -> None:
        from consult.screens.over import page_over

        page = page_over(self.session, message.page, self.screen) if self.session else None
        if page:
            await self.push_screen(page)

    async def on_have_product(self) -> None:
        """From the card on to what is asked of a product."""
        if not self.session:
            return
        self.session.have_product()
        wizard = self._wizard()
        self._close_down_to(wizard)
        if wizard:
            wizard.show_question()

    async def on_open_result(self, _: messages.OpenResult) -> None:
        from consult.screens.result import ResultPage

        if self.session and self.session.purpose is Purpose.BUY:
            await self.on_open_over(messages.OpenOver(messages.Over.CARD))
        elif self.session and not isinstance(self.screen, ResultPage):
            await self.push_screen(ResultPage(self.session))

    async def on_open_lines(self, message: messages.OpenLines) -> None:
        """The lines stand over the result: back from them is the result."""
        from consult.screens.lines import LinesPage

        if self.session and not isinstance(self.screen, LinesPage):
            await self.on_open_result(messages.OpenResult())
            await self.push_screen(LinesPage(self.session, message.at, message.block))

    async def on_close_page(self, message: messages.ClosePage) -> None:
        """Close the page on top; behind the review at the end the wizard shows its last question again."""
        from consult.interview.intake import REVIEW
        from consult.screens.review import ReviewPage

        if self.screen is not message.page:
            return
        leaving_review = isinstance(self.screen, ReviewPage)
        self.pop_screen()
        if self.opening and self.session is None and len(self.screen_stack) == 1:
            # It could not be opened while another page lay over it.
            self.post_message(messages.OpenWizard(self.opening))
        wizard = self._wizard()
        if wizard is None or self.screen is not wizard:
            return
        if leaving_review and wizard.session.intake.position == REVIEW:
            wizard.action_back()
        else:
            wizard.show_question()

    async def on_change_answer(self, message: messages.ChangeAnswer) -> None:
        wizard = self._wizard()
        self._close_down_to(wizard)
        if wizard:
            wizard.go(message.path, message.back_to)

    async def on_tell_stop(self) -> None:
        from consult.screens.notices import StopNotice

        if self.session:
            await self.push_screen(StopNotice(self.session), self._after_stop)

    async def _after_stop(self, choice: str | None) -> None:
        wizard = self._wizard()
        if wizard is None:
            return
        if choice == "change":
            wizard.action_undo()
            return
        wizard.show_question()
        if choice == "result":
            await self.on_open_result(messages.OpenResult())

    async def on_open_day(self) -> None:
        from consult.day.day import NoDay, open_day
        from consult.files import BadFile
        from consult.records.store import CannotSave
        from consult.screens.day import DayPage

        session = self.session
        if session is None or isinstance(self.screen, DayPage):
            return
        try:
            day = open_day(session.answers, session.salon, session.now(), keep=session.keep)
        except (NoDay, BadFile, CannotSave) as error:
            self.notify(clean_text(str(error)), severity="error", markup=False, timeout=20)
            return
        await self.push_screen(DayPage(session, day))

    def on_open_export(self) -> None:
        from consult.screens.places import ExportWindow, PlaceWindow

        if not self.session or isinstance(self.screen, PlaceWindow):
            return
        if self.session.purpose is Purpose.BUY:
            from consult.screens.buy import CardWindow

            self.push_screen(CardWindow(self.session), self._after_export)
        else:
            self.push_screen(ExportWindow(self.session), self._after_export)

    def _after_export(self, path: Path | None) -> None:
        if path is not None:
            self.notify(clean_text(f"Written: {path}"), title="Exported", markup=False, timeout=8)

    def action_look(self) -> None:
        """The next look: dark, light, high contrast."""
        self.theme = following(self.theme).name
        remember(theme=self.theme)

    def action_help(self) -> None:
        from consult.screens.notices import HelpWindow

        if isinstance(self.screen, Page):
            self.push_screen(HelpWindow(self.screen.KEYS))

    def panic(self, *renderables: RenderableType) -> None:
        """One line instead of what the framework prints when its keyboard or its painter has failed."""
        from consult.screens.ending import left_alone, panic_line

        if not left_alone():
            self._fail(panic_line(renderables[0] if renderables else None))

    def _handle_exception(self, error: Exception) -> None:
        from consult.screens.ending import exception_line

        self._fail(exception_line(error))

    def _end_by_signal(self, number: int) -> None:
        self._fail(f"ended by {signal.Signals(number).name}", 128 + number)

    def _fail(self, why: str, code: int = 1) -> None:
        kept = "what was typed is kept, start again to go on"
        if self.session and self.session.error:
            kept = self.session.error
        self._end(f"{why}; {kept}", code)

    def _end(self, why: str, code: int) -> None:
        if self._exit:
            # A page that was still being filled has lost its widgets because the program is being left.
            return
        self.fatal = f"consult: {clean_text(why)}"[:LONGEST_LINE]
        self._return_code = code
        self.exit(return_code=code)


def run(app: ConsultApp) -> int:
    """Run the app to its end. Returns the exit code; needs a terminal on both sides."""
    if not in_browser() and not (sys.stdin.isatty() and sys.stdout.isatty() and sys.stderr.isatty()):
        print("consult: the wizard needs a terminal; use 'consult plan FILE' without one", file=sys.stderr)
        return 2
    app.run()
    if app.return_code is None:
        # Interrupted while it was being started, before it listened itself.
        app.fatal, code = "consult: ended by SIGINT", 128 + signal.SIGINT
    else:
        code = app.return_code
    if app.fatal:
        print(app.fatal, file=sys.stderr)
    return code
