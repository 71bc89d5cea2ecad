"""The start page: who is using it, and what to open."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from consult.answers.access import get
from consult.answers.base import clean_text
from consult.answers.intake import start as start_intake
from consult.answers.shelf import Shelf
from consult.house import House
from consult.records.codec import BadFile, Loaded, read_file
from consult.records.demos import demo_files
from consult.records.store import Draft, drafts
from consult.screens.messages import OpenSheet, OpenWizard
from consult.screens.page import Page
from consult.screens.session import Session, clock
from consult.widgets.editors import NumberedList, numbered
from consult.widgets.text import TextLine, Words, styled

VOICE_WORDS = {
    "stylist": ("a stylist with a client in the chair", "trade words"),
    "home": ("someone colouring at home", "plain words, one thing at a time"),
    "trainer": ("a trainer showing how it is decided", "names the rules"),
}
PROMISE = (
    "Judges one head of hair before any colour is opened, and plans what to do. The product's leaflet, "
    "local law and licensed practice come first. Nothing leaves this machine."
)


class StartPage(Page):
    """First who, then what. Unfinished consultations are offered again."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "start.tcss"]
    AUTO_FOCUS = "#voices"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1", "app.help", "Help", priority=True),
        Binding("pageup,escape", "back", "Back", priority=True),
    ]

    def __init__(self, voice: str, house: House | None, shelf: Shelf | None, *, demos: bool = False) -> None:
        super().__init__()
        self.voice = voice
        self.house = house
        self.shelf = shelf
        self._acts: dict[str, tuple[str, object]] = {}
        self._demos_first = demos

    def body(self) -> ComposeResult:
        yield Words(id="heading")
        with Vertical(id="start"):
            yield Words(id="promise")
            yield Words(id="who")
            yield NumberedList(id="voices")
            yield Words(id="what")
            yield NumberedList(id="acts")
            yield TextLine(placeholder="path of a TOML file, then Enter", id="path")
            yield Words(id="fault")

    def keys(self) -> Sequence[tuple[str, str]]:
        return (("Enter", "choose"), ("Tab", "next list"), ("F1", "help"), ("^Q", "quit"))

    def on_mount(self) -> None:
        self.query_one("#heading", Words).show(
            styled(("consult ", "bold $text-accent"), ("before colour is opened", "bold"))
        )
        self.query_one("#promise", Words).show(styled((PROMISE, "dim")))
        self.query_one("#who", Words).show(styled(("Who is using it?", "bold")))
        self.query_one("#path", Input).display = False
        self._show_voices()
        if self._demos_first:
            self._show_demos()
        else:
            self._show_acts()
            self.query_one("#voices", OptionList).focus()

    def on_screen_resume(self) -> None:
        if not self._demos_first:
            self._show_acts()

    def _show_voices(self) -> None:
        options = [
            Option(numbered(i, f"I am {who}", hint, "(o) " if voice == self.voice else "( ) "), id=voice)
            for i, (voice, (who, hint)) in enumerate(VOICE_WORDS.items())
        ]
        _refill(self.query_one("#voices", OptionList), options, list(VOICE_WORDS).index(self.voice))

    def _show_acts(self) -> None:
        unfinished, faults = drafts(clock())
        self._acts = {}
        rows = [self._act("new", None, "New consultation")]
        rows += [self._act("draft", draft, *_draft_words(draft)) for draft in unfinished[:5]]
        rows.append(self._act("open", None, "Open a file", "answers or record, TOML"))
        rows.append(self._act("demos", None, "Demo clients", "invented people"))
        rows.append(self._act("sheet", None, "Sheet of depths and tones"))
        self.query_one("#what", Words).show(styled(("What shall be opened?", "bold")))
        _refill(self.query_one("#acts", OptionList), rows, 0)
        self._show_fault("; ".join(clean_text(fault) for fault in faults))

    def _show_demos(self) -> None:
        self._acts = {}
        rows: list[Option] = []
        for name, path in demo_files().items():
            try:
                loaded = read_file(path, clock())
            except BadFile as fault:
                self._show_fault(str(fault))
                continue
            rows.append(self._act("demo", loaded, name.capitalize(), loaded.shows))
        self.query_one("#what", Words).show(styled(("Demo clients", "bold"), ("  PgUp goes back", "dim")))
        _refill(self.query_one("#acts", OptionList), rows, 0)
        self.query_one("#acts", OptionList).focus()

    def _act(self, act: str, what: object, text: str, hint: str = "") -> Option:
        """One numbered row that does something when it is chosen."""
        number = len(self._acts)
        self._acts[f"act-{number}"] = (act, what)
        return Option(numbered(number, text, hint), id=f"act-{number}")

    def _show_fault(self, text: str) -> None:
        self.query_one("#fault", Words).show(styled((text, "bold $text-error")))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        if event.option_list.id == "voices":
            self.voice = event.option_id or self.voice
            self._show_voices()
            self.query_one("#acts", OptionList).focus()
            return
        # A key may still be on its way from a list that has been filled anew since.
        act, what = self._acts.get(event.option_id or "", ("", None))
        if act == "new":
            self.post_message(OpenWizard(Session(self.voice, house=self.house, shelf=self.shelf)))
        elif act == "draft" and isinstance(what, Draft):
            self.post_message(OpenWizard(Session.resume(what.loaded, what.path, self.house, self.shelf)))
        elif act == "sheet":
            self.post_message(OpenSheet())
        elif act == "demos":
            self._show_demos()
        elif act == "demo" and isinstance(what, Loaded):
            self.post_message(OpenWizard(Session.demo(what, self.voice, self.house, self.shelf)))
        elif act == "open":
            path = self.query_one("#path", Input)
            path.display = True
            path.focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Open a file for a judgement of today: its answers are taken, its old result is not."""
        try:
            loaded = read_file(Path(event.value.strip()).expanduser(), clock())
        except (BadFile, ValueError, RuntimeError) as fault:
            self._show_fault(clean_text(str(fault)))
            return
        intake = start_intake(loaded.answers, "review" if get(loaded.answers, "client.age") else None)
        self.post_message(OpenWizard(Session(self.voice, intake=intake, house=self.house, shelf=self.shelf)))

    def action_back(self) -> None:
        self.query_one("#path", Input).display = False
        self._demos_first = False
        self._show_acts()
        self.query_one("#acts", OptionList).focus()


def _draft_words(draft: Draft) -> tuple[str, str]:
    name = get(draft.loaded.answers, "client.name")
    who = name if isinstance(name, str) else "no name yet"
    return f"Go on with {who}", f"unfinished, saved {draft.saved_at:%Y-%m-%d %H:%M}"


def _refill(options: OptionList, rows: list[Option], highlighted: int) -> None:
    options.clear_options()
    options.add_options(rows)
    options.highlighted = highlighted if rows else None
