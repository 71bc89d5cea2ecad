"""What stands around the questions: heading, chapters and gate panel, all read off the session."""

from textual.screen import Screen

from consult.answers.access import get
from consult.interview import intake as steps
from consult.interview.pages import page_of
from consult.records.wanted import Purpose
from consult.screens.page import TALL_ROWS, WIDE_COLUMNS
from consult.session import Session
from consult.widgets.chapters import across, down
from consult.widgets.form import LinesBlock
from consult.widgets.text import TextBlock, styled

ROWS_BESIDE, ROWS_IN_TALL, ROWS_IN_SHORT = 12, 6, 3
"""Verdict and reasons in the gate panel at the most: beside the questions, and under them in a tall or short window."""


class Around:
    """Heading, chapters and gate panel of a page of questions.

    begun  whether they have been shown: the first question is painted before the rules are loaded, which they need
    """

    def __init__(self, page: Screen[None], session: Session) -> None:
        self._page = page
        self._session = session
        self._under: object = None
        self.begun = False

    def show(self) -> None:
        """Show them as things stand."""
        self._show_heading()
        self._show_chapters()
        self.show_gate()

    def resized(self) -> None:
        """The window has another size."""
        self._show_chapters()
        if self.begun:
            self._under = None
            self.show_gate()

    def show_gate(self) -> None:
        """The verdict so far and its reasons."""
        from consult.widgets.verdicts import MARK_WIDTH, gate_content

        self.begun = True
        judged, voice = self._session.judgement(), self._session.voice
        if self._wide:
            content = gate_content(judged, voice, ROWS_BESIDE)
            self._block("#gate-side").show(content, hang=MARK_WIDTH)
            return
        tall = self._page.app.size.height >= TALL_ROWS
        self._keep_height()
        content = gate_content(judged, voice, ROWS_IN_TALL if tall else ROWS_IN_SHORT)
        self._block("#gate").show(content, hang=MARK_WIDTH)

    def _keep_height(self) -> None:
        """While a page is answered its questions do not move: the panel under them may grow, and shrinks with the next
        page."""
        gate, under = self._block("#gate"), page_of(self._session.intake.position)
        if under is self._under:
            gate.styles.min_height = gate.outer_size.height
        else:
            self._under = under
            gate.styles.min_height = None

    def _show_heading(self) -> None:
        session = self._session
        name = get(session.answers, "client.name")
        number, count = session.intake.place
        demo = "  demo client, nothing is kept" if not session.keep else ""
        buying = "  before buying" if session.purpose is Purpose.BUY else ""
        self._block("#heading").show(
            styled(
                (f"question {number} of about {count}", "bold $accent"),
                (buying + demo, "$muted"),
                (f"  {name}" if isinstance(name, str) else "", ""),
            ),
            same_size=True,
        )

    @property
    def _wide(self) -> bool:
        """Whether chapters and gate panel have room beside the questions; else they stand over and under them."""
        return self._page.app.size.width >= WIDE_COLUMNS

    def _show_chapters(self) -> None:
        """All chapters, as many as there are; each can be clicked."""
        intake = self._session.intake
        progress, here = steps.progress(intake), page_of(intake.position).chapter
        if self._wide:
            self._page.query_one("#chapters", LinesBlock).show_lines(down(progress, here))
        else:
            lines = across(progress, here, self._page.app.size.width - 2)
            self._page.query_one("#rail", LinesBlock).show_lines(lines)

    def _block(self, place: str) -> TextBlock:
        return self._page.query_one(place, TextBlock)
