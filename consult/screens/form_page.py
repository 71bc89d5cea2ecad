"""What pages with a form share: the field that stays in hand, what is wrong, and how what is typed is read."""

from collections.abc import Sequence

from msgspec.structs import replace

from consult.answers.access import BadAnswer
from consult.cleaning import clean_text
from consult.interview.reading import Reading, readings
from consult.interview.rows import KEYS, Option, Row
from consult.screens.page import Page
from consult.session import Session
from consult.widgets.form import Form
from consult.widgets.text import TextBlock, styled


class FormPage(Page):
    """A page with a form over a session. What becomes of an answer is its own."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def take(self, value: object, *, move: bool) -> None:
        """Take an answer to the row in hand, and go on from it or not."""
        raise NotImplementedError

    def rows_with(self, row: Row) -> tuple[Sequence[Row], int]:
        """The rows on the screen with this one in place of the one in hand, and its number."""
        raise NotImplementedError

    def say(self, error: str) -> None:
        """What is wrong, in a place that never scrolls away."""
        said = self.query_one("#error", TextBlock)
        said.show(styled((clean_text(error), "bold $error")))
        if said.display != bool(error):
            said.display = bool(error)

    def read(self, row: Row, text: str) -> None:
        """Take what is typed; where it can be read in two ways, both are offered, and none is taken."""
        try:
            found = readings(row.question, text, self.session.now())
        except BadAnswer as error:
            self.say(error.hint)
            return
        if len(found) > 1:
            self._ask_which(row, found)
            return
        self.take(found[0].value if found else None, move=True)

    def _ask_which(self, row: Row, found: list[Reading]) -> None:
        options = tuple(
            Option(key, reading.words, reading) for key, reading in zip(KEYS, found, strict=False)
        )
        rows, here = self.rows_with(replace(row, options=options, which=True))
        self.query_one(Form).show(rows, here, one=True, ticks=False)
        self.say("that can be read in more than one way: which is it?")

    def echo(self, row: Row, text: str) -> None:
        """How a typed text is read stands beside the field before it counts."""
        try:
            found = readings(row.question, text, self.session.now())
        except BadAnswer:
            found = []
        self.query_one(Form).echo(", or ".join(reading.words for reading in found))

    def tick(self, row: Row, choice: object) -> None:
        """Tick one of several, or take its tick away."""
        given = row.value if isinstance(row.value, tuple) else ()
        ticked = [one for one in row.question.choices if (one in given) != (one == choice)]
        self.take(tuple(ticked) or None, move=False)

    def _focus_anew(self) -> None:
        self.query_one(Form).focus_in_hand()
