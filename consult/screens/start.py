"""The start page: who is using it, and what to open."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any, ClassVar

from msgspec import Struct
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from consult.cleaning import clean_text
from consult.dates import when
from consult.records.demos import demo_files, demo_words
from consult.records.drafts import MOST_LISTED, Draft, DraftFile, draft_folder, offered
from consult.records.store import stamp
from consult.records.wanted import Origin, Purpose, Wanted
from consult.screens.messages import OpenChart, OpenWizard
from consult.screens.page import BACK, EMERGENCY, HELP, LOOK, QUIT, Page
from consult.trade import Voice
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import NumberedList, numbered
from consult.widgets.text import TextBlock, TextLine, styled

VOICE_WORDS = {
    Voice.STYLIST: ("a stylist with a client in the chair", "trade words"),
    Voice.HOME: ("someone colouring at home", "plain words, one thing at a time"),
    Voice.TRAINER: ("a trainer showing how it is decided", "names the rules"),
}
PURPOSE_WORDS = {
    Purpose.COLOUR: "unfinished",
    Purpose.BUY: "before buying",
    Purpose.WRONG: "something went wrong",
}


class BegunFrom(Struct, frozen=True):
    """What is asked before something is begun, and the words of what it may be begun from."""

    asked: str
    hint: str
    nothing: tuple[str, str]
    record: tuple[str, str]
    draft: str


BEGUN_FROM = {
    Purpose.WRONG: BegunFrom(
        "Which colouring went wrong?",
        "  Esc goes back; somebody is hurt: F9",
        ("No record at hand", "say what happened; most can be said without"),
        ("The record of that day", "the file it was kept in, .toml"),
        "It was",
    ),
    Purpose.BUY: BegunFrom(
        "Whose hair is it?",
        "  Esc goes back",
        ("A new head", "questions first, none about a product"),
        ("An earlier record or answers", "the file it was kept in, .toml"),
        "That of",
    ),
}
PROMISE = (
    "Judges one head of hair before any colour is opened, and plans what to do. The product's leaflet, "
    "local law and licensed practice come first. Nothing leaves this machine."
)


class StartPage(Page):
    """First who, then what. Unfinished consultations are offered again."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "start.tcss"]
    AUTO_FOCUS = "#voices"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Enter", "choose", "choose; so do the digits"),
        Key("Tab", "next list", "to the next list"),
        Key("Esc", "", "back to what can be opened", BACK.binds),
        Key("Delete", "", "remove an unfinished consultation; pressed twice", (("delete", "remove"),)),
        HELP,
        LOOK,
        EMERGENCY,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, voice: Voice | None, *, demos: bool = False) -> None:
        """`voice` is who uses it, where that is known; then the first key is about what to open."""
        super().__init__()
        self.voice = voice or Voice.HOME
        self._known = voice is not None
        self._acts: dict[str, tuple[Origin | Purpose | str, Path | None]] = {}
        self._demos_first = demos
        self._left = False
        self._drafts_listed = False
        self._purpose = Purpose.COLOUR
        self._to_remove: Path | None = None

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        with Vertical(id="start"):
            yield TextBlock(id="promise")
            yield TextBlock(id="who")
            yield NumberedList(id="voices")
            yield TextBlock(id="what")
            yield NumberedList(id="acts")
            yield Vertical(id="place")
            yield TextBlock(id="error")

    def on_mount(self) -> None:
        self.head("before colour is opened")
        self.query_one("#promise", TextBlock).show(styled((PROMISE, "$muted")))
        self.query_one("#who", TextBlock).show(styled(("Who is using it?", "bold")))
        self._show_voices()
        if self._demos_first:
            self._show_demos()
        else:
            self._show_acts()
            if self._known:
                self.query_one("#acts", OptionList).focus()

    def on_screen_suspend(self) -> None:
        self._left = True

    def on_screen_resume(self) -> None:
        """What is offered may have changed since the page was left."""
        if self._left and not self._demos_first:
            self._show_acts()

    def _show_voices(self) -> None:
        options = [
            Option(
                numbered(i, f"I am {who}", hint, "(o) " if voice is self.voice else "( ) "), id=voice.value
            )
            for i, (voice, (who, hint)) in enumerate(VOICE_WORDS.items())
        ]
        _refill(self.query_one("#voices", OptionList), options, list(VOICE_WORDS).index(self.voice))

    def _show_acts(self) -> None:
        offer = offered()
        self._acts, self._purpose, self._drafts_listed = {}, Purpose.COLOUR, False
        rows = [self._act(Origin.NEW, None, "New consultation")]
        rows += [self._act(Origin.DRAFT, draft.path, *_draft_words(draft)) for draft in offer.drafts]
        if offer.drafts:
            more = f"{offer.more} more; " if offer.more else ""
            rows.append(
                self._act("drafts", None, "All unfinished consultations", f"{more}remove what is done with")
            )
        rows.append(
            self._act(Purpose.WRONG, None, "Something went wrong", "what to do now; somebody is hurt: F9")
        )
        rows.append(self._act(Purpose.BUY, None, "Before buying", "no product yet: what to look for"))
        rows.append(self._act("open", None, "Open a file", "a record that was kept, or answers; .toml"))
        rows.append(self._act("demos", None, "Demo clients", "invented people"))
        rows.append(self._act("chart", None, "Depth and tone chart"))
        self.query_one("#what", TextBlock).show(styled(("What shall be opened?", "bold")))
        _refill(self.query_one("#acts", OptionList), rows, 0)
        self.show_error(_what_is_wrong(offer.errors))

    def _show_records(self, purpose: Purpose) -> None:
        """What it is begun from: nothing, a record, an unfinished consultation."""
        self._acts, self._purpose, self._drafts_listed = {}, purpose, False
        words = BEGUN_FROM[purpose]
        rows = [self._act(Origin.NEW, None, *words.nothing), self._act("open", None, *words.record)]
        rows += [self._act(Origin.DRAFT, d.path, *_draft_words(d, words.draft)) for d in offered().drafts]
        self.query_one("#what", TextBlock).show(styled((words.asked, "bold"), (words.hint, "$muted")))
        _refill(self.query_one("#acts", OptionList), rows, 0)
        self.query_one("#acts", OptionList).focus()

    def _show_demos(self) -> None:
        self._acts = {}
        files = demo_files()
        rows = [
            self._act(Origin.DEMO, files[name], name.capitalize(), shows)
            for name, shows in demo_words().items()
        ]
        self.query_one("#what", TextBlock).show(
            styled(("Demo clients", "bold"), ("  Esc goes back", "$muted"))
        )
        _refill(self.query_one("#acts", OptionList), rows, 0)
        self.query_one("#acts", OptionList).focus()

    def _show_drafts(self) -> None:
        """Every unfinished consultation, to go on with or to remove."""
        self._acts, self._to_remove, self._drafts_listed = {}, None, True
        offer = offered(MOST_LISTED)
        rows = [self._act(Origin.DRAFT, draft.path, *_draft_words(draft)) for draft in offer.drafts]
        more = f"; {offer.more} more in {draft_folder()}" if offer.more else ""
        told = f"  Enter goes on with one, Delete removes it, Esc goes back{more}"
        self.query_one("#what", TextBlock).show(
            styled(("Unfinished consultations", "bold"), (told, "$muted"))
        )
        _refill(self.query_one("#acts", OptionList), rows, 0)
        self.show_error(_what_is_wrong(offer.errors))
        self.query_one("#acts", OptionList).focus()

    def action_remove(self) -> None:
        """Remove the unfinished consultation in hand; the key has to be pressed twice."""
        listed = self.query_one("#acts", OptionList)
        if not self._drafts_listed or listed.highlighted is None or not listed.has_focus:
            return
        _, path = self._acts[f"act-{listed.highlighted}"]
        if path is None:
            return
        if path != self._to_remove:
            self._to_remove = path
            self.show_error("Delete again removes this one for good; any other key keeps it")
            return
        try:
            DraftFile(path, stamp(path)).remove()
        except OSError as error:
            self.show_error(str(error))
        else:
            self._show_drafts()

    def _act(self, act: Origin | Purpose | str, path: Path | None, text: str, hint: str = "") -> Option:
        """One numbered row that does something when it is chosen."""
        number = len(self._acts)
        self._acts[f"act-{number}"] = (act, path)
        return Option(numbered(number, text, hint), id=f"act-{number}")

    def refuse(self, why: str) -> None:
        """Something could not be opened: offer what there is now, and say why in one line."""
        if not self._demos_first:
            self._show_acts()
        self.show_error(why)

    def show_error(self, text: str) -> None:
        """Say in one line what is wrong."""
        self.query_one("#error", TextBlock).show(styled((clean_text(text), "bold $error")))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        if event.option_list.id == "voices":
            self.voice = Voice(event.option_id)
            self._show_voices()
            self.query_one("#acts", OptionList).focus()
            return
        # A key may still be on its way from a list that has been filled anew since.
        act, path = self._acts.get(event.option_id or "", ("", None))
        if isinstance(act, Origin):
            self.post_message(OpenWizard(Wanted(act, self.voice, path, self._purpose)))
        elif isinstance(act, Purpose):
            self._show_records(act)
        elif act == "chart":
            self.post_message(OpenChart())
        elif act == "drafts":
            self._show_drafts()
        elif act == "demos":
            self._show_demos()
        elif act == "open":
            self._ask_for_a_path()

    def _ask_for_a_path(self) -> None:
        place = self.query_one("#place", Vertical)
        if not place.children:
            place.mount(TextLine(placeholder="path of a TOML file, then Enter", id="path"))
        # At once: keys that are typed on belong to the field, not to the list.
        self.set_focus(self.query_one("#path", TextLine))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        try:
            path = Path(event.value.strip()).expanduser()
        except RuntimeError as error:
            self.show_error(str(error))
            return
        origin = Origin.DRAFT if path.parent == draft_folder() else Origin.FILE
        self.post_message(OpenWizard(Wanted(origin, self.voice, path, self._purpose)))

    def action_back(self) -> None:
        self.query_one("#place", Vertical).remove_children()
        self._demos_first = False
        self._show_acts()
        self.query_one("#acts", OptionList).focus()


def _what_is_wrong(errors: list[str]) -> str:
    more = f"; and {len(errors) - 1} more" if len(errors) > 1 else ""
    return errors[0] + more if errors else ""


def _draft_words(draft: Draft, act: str = "Go on with") -> tuple[str, str]:
    words = PURPOSE_WORDS[draft.purpose]
    return f"{act} {draft.name or 'no name yet'}", f"{words}, saved {when(draft.saved_at)}"


def _refill(options: OptionList, rows: list[Option], highlighted: int) -> None:
    options.clear_options()
    options.add_options(rows)
    options.highlighted = highlighted if rows else None
