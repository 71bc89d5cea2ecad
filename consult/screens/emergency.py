"""The emergency page: one key from anywhere. What is seen is picked with a digit; what to do now stands below."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.plan.settings import Settings
from consult.remedies.emergency import Emergency, emergencies
from consult.screens.messages import ClosePage
from consult.screens.page import BACK, HELP, LOOK, QUIT, Page
from consult.sources import cite
from consult.trade import Voice
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import NumberedList, numbered
from consult.widgets.text import Piece, TextBlock, styled


class EmergencyPage(Page):
    """Whom to ring, what is seen, what to do now and what not to do. It needs no consultation and no room."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "emergency.tcss"]
    AUTO_FOCUS = "#seen"
    LEAST_SIZE = (0, 0)
    KEYS: ClassVar[Sequence[Key]] = (
        Key("digits", "what is seen", "what is seen; so do Up and Down"),
        Key("PgUp/PgDn", "more", "scroll what to do", (("pageup", "scroll(-1)"), ("pagedown", "scroll(1)"))),
        BACK,
        HELP,
        LOOK,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, settings: Settings, voice: Voice, at: int = 0) -> None:
        """`at` is the number of what is seen."""
        super().__init__()
        self._at = at
        self._settings = settings
        self._voice = voice
        self._told = emergencies(settings)

    def body(self) -> ComposeResult:
        yield TextBlock(id="ring")
        yield NumberedList(id="seen")
        with VerticalScroll(id="steps", can_focus=False):
            yield TextBlock(id="what-to-do")

    def on_mount(self) -> None:
        poison = f"   {self._settings.poison_words}" if self._settings.poison_centre else ""
        self.query_one("#ring", TextBlock).show(
            styled((f" EMERGENCY: ring {self._settings.emergency_words} ", "bold reverse $error"), poison)
        )
        seen = self.query_one("#seen", OptionList)
        seen.add_options([Option(numbered(n, one.name)) for n, one in enumerate(self._told)])
        seen.highlighted = self._at

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        self.query_one("#what-to-do", TextBlock).show(
            styled(*what_to_do(self._told[event.option_index], self._voice)), hang=len("- ")
        )
        self.query_one("#steps").scroll_home(animate=False)

    def action_scroll(self, step: int) -> None:
        steps = self.query_one("#steps")
        steps.scroll_page_down(animate=False) if step > 0 else steps.scroll_page_up(animate=False)

    def action_back(self) -> None:
        self.post_message(ClosePage(self))


def what_to_do(one: Emergency, voice: Voice) -> list[Piece]:
    """Each part under its word, the first sentence of each line standing out; the sources at the end."""
    pieces: list[Piece] = []
    for title, style, told in (
        ("DO NOW", "bold $error", one.now),
        ("DO NOT", "bold $warning", one.never),
        ("TELL, AND TAKE ALONG", "bold $heading", one.say),
    ):
        pieces += [(title, style), (f"   {one.help.title}" if told is one.now else "", "bold"), "\n"]
        for line in told:
            first, stop, rest = line.say.in_voice(voice).partition(". ")
            pieces += ["- ", (first + stop.strip(), "bold"), f" {rest}".rstrip(), "\n"]
        pieces.append("\n")
    lines = (*one.now, *one.never, *one.say)
    sources = dict.fromkeys(source for line in lines for source in line.sources)
    return [*pieces, ("Source: " + "; ".join(cite(source) for source in sources), "$muted")]
