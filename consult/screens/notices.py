"""Small windows over a page: a stop, help."""

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.gates.verdict import Verdict
from consult.gates.words import reason_words
from consult.session import Session
from consult.widgets.keys import Key
from consult.widgets.lists import NumberedList, numbered
from consult.widgets.text import TextBlock, styled
from consult.widgets.verdicts import STYLES

_CSS = "notices.tcss"


class StopNotice(ModalScreen[str]):
    """Says why no oxidative colour may be used and whom to see. It offers no way around."""

    CSS_PATH = _CSS
    AUTO_FOCUS = "#choices"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("pageup", "scroll_reasons(-1)", "Up", priority=True),
        Binding("pagedown", "scroll_reasons(1)", "Down", priority=True),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="window", can_focus=False):
            yield TextBlock(id="text")
            yield NumberedList(id="choices")

    def on_mount(self) -> None:
        found = self.session.judgement().findings
        stops = [f for f in found if f.verdict is Verdict.STOP]
        pieces: list[str | tuple[str, str]] = [(Verdict.STOP.title, STYLES[Verdict.STOP]), "\n"]
        for finding in stops:
            pieces += [
                "\n",
                reason_words(finding, self.session.voice),
                "\n",
                (finding.remedy, "bold"),
                "\n",
            ]
        self.query_one("#text", TextBlock).show(styled(*pieces))
        self.query_one("#choices", OptionList).add_options(
            [
                Option(numbered(0, "Show the result"), id="result"),
                Option(numbered(1, "The answer was wrong: change it"), id="change"),
                Option(numbered(2, "Go on with the questions, for the record only"), id="on"),
            ]
        )
        self.query_one("#choices", OptionList).highlighted = 0

    def on_resize(self) -> None:
        self.call_after_refresh(self._tell_of_more)

    def _tell_of_more(self) -> None:
        """The choices stay in sight; that there is more to read above them has to be said."""
        window = self.query_one(VerticalScroll)
        window.border_subtitle = "PgUp/PgDn: more to read" if window.max_scroll_y else ""

    def action_scroll_reasons(self, step: int) -> None:
        window = self.query_one(VerticalScroll)
        window.scroll_page_down(animate=False) if step > 0 else window.scroll_page_up(animate=False)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(event.option_id or "on")


MARKS = (
    ("+ - _ ·", "before a question or a chapter: answered, begun, open, may stay open"),
    ("[ ] [x]", "a sign that is not ticked, one that is"),
    (">", "the question in hand"),
    ("=", "before green words: how what is typed is read, before it counts"),
)
WORDS = (
    ("depth (level)", "how light hair is: 1 black to 10 lightest blonde"),
    ("tone", "the family of the colour: gold, ash, copper, neutral"),
    ("new growth", "hair grown since the last colour"),
    ("lengths, ends", "the hair between new growth and ends; its last quarter"),
    ("line of demarcation", "where old colour and new growth meet"),
    ("developer", "the peroxide that colour is mixed with; 6 % is 20 volume"),
    ("allergy alert test", "a dab of the product on the skin, 48 hours before"),
    ("strand test", "one hidden strand coloured first"),
    ("incompatibility test", "cut hair in a dish, by a professional: shows metal salts"),
    ("refresh", "colour drawn through faded lengths for a few minutes"),
    ("pre-pigmentation", "warm colour put back before lightened hair goes darker"),
    ("not sure", "is never read as no; the stricter side counts"),
)


WINDOW_WIDTH, FRAME, NAME_WIDTH = 74, 8, 24
"""Columns: of a window as notices.tcss has it, of its frame with a scroll bar, and of a name in the help."""


class HelpWindow(ModalScreen[None]):
    """The keys of the page below, and words."""

    CSS_PATH = _CSS
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,f1,enter", "dismiss", "Close", priority=True)]

    def __init__(self, keys: Sequence[Key]) -> None:
        super().__init__()
        self._keys = keys

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="window"):
            yield TextBlock(id="text")

    def on_mount(self) -> None:
        parts = (
            ("Keys", [(key.name, key.help) for key in self._keys]),
            ("Marks", MARKS),
            ("Words", WORDS),
        )
        rows = []
        for title, pairs in parts:
            rows.append(styled((title, "bold $heading")))
            rows += [row for name, what in pairs for row in self._lines(name, what)]
        self.query_one("#text", TextBlock).show(Content("\n").join(rows))
        self.query_one(VerticalScroll).focus()

    def _lines(self, name: str, what: str) -> Iterator[Content]:
        """A name and what it means, the lines that follow indented under the first."""
        width = min(WINDOW_WIDTH, self.app.size.width * 95 // 100) - FRAME - NAME_WIDTH
        lead = f"  {name}"
        for line in wrap(what, max(width, 20)):
            yield styled((lead.ljust(NAME_WIDTH), "bold"), line)
            lead = ""
