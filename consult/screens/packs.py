"""Which packs are compared before one is bought: those of the shelf, those used before, and what is typed there."""

from collections.abc import Sequence
from typing import Any, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.answers.product import Product
from consult.buying.compare import FEWEST, MOST
from consult.interview.rows import product_name
from consult.interview.slip import Slip
from consult.screens.list_page import ListPage
from consult.screens.messages import ClosePage, OpenOver, Over
from consult.screens.page import BACK, EMERGENCY, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.screens.slip_page import SLIP_KEYS, SlipPage
from consult.session import Session
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import NumberedList, numbered
from consult.widgets.text import TextBlock, styled

TOLD = (
    "Tick two to six packs that you could buy. What a pack does not say may stay open: it is taken as usual, and told "
    "what has to be looked up."
)


class PacksPage(ListPage):
    """Ticks packs; the first row types a new one."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "packs.tcss"]
    AUTO_FOCUS = "#packs"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Enter", "tick", "tick or untick the pack in hand; so do the digits"),
        Key("a", "add a pack", "type what stands on a pack", (("a", "add"),)),
        Key("F3", "compare", "put the ticked packs side by side on this head", (("f3", "compare"),)),
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        EMERGENCY,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        if not session.candidates and session.shelf:
            session.candidates = session.shelf.product[:MOST]
        self._packs: list[Product] = []

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        yield TextBlock(id="told")
        yield NumberedList(id="packs")
        yield TextBlock(id="error")

    def on_mount(self) -> None:
        self.head("Packs to compare")
        self.query_one("#told", TextBlock).show(styled(TOLD))

    def on_screen_resume(self) -> None:
        """A pack may have been typed since."""
        super().on_screen_resume()
        session = self.session
        self._packs = [p for p in session.products if p not in session.candidates]
        self._packs = [*session.candidates, *self._packs]
        self._show(0)

    def _show(self, at: int) -> None:
        rows = [
            Option(
                numbered(
                    number,
                    product_name(pack),
                    _words(pack),
                    "[x] " if pack in self.session.candidates else "[ ] ",
                )
            )
            for number, pack in enumerate(self._packs)
        ]
        listed = self.query_one("#packs", OptionList)
        listed.clear_options()
        listed.add_options(rows)
        listed.highlighted = min(at, len(rows) - 1) if rows else None
        self._say("" if rows else "no pack is known yet: press a, and type what stands on the first one")

    def _say(self, text: str) -> None:
        self.query_one("#error", TextBlock).show(styled((text, "bold $warning")))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        pack, ticked = self._packs[event.option_index], self.session.candidates
        if pack in ticked:
            self.session.compare(tuple(one for one in ticked if one != pack))
        elif len(ticked) == MOST:
            self._say(f"at most {MOST}: untick one first")
            return
        else:
            self.session.compare((*ticked, pack))
        self._show(event.option_index)

    def action_add(self) -> None:
        if len(self.session.candidates) == MOST:
            self._say(f"at most {MOST}: untick one first")
        else:
            self.post_message(OpenOver(Over.PACK))

    def action_compare(self) -> None:
        if len(self.session.candidates) < FEWEST:
            self._say(f"tick at least {FEWEST}; a adds one")
        else:
            self.post_message(OpenOver(Over.COMPARISON))


def _words(pack: Product) -> str:
    """What is known of it, in a few words."""
    told = [pack.colour_class, isinstance(pack.depth, float) and f"depth {pack.depth:g}", pack.tone]
    return ", ".join(str(word) for word in told if word)


def _asked_in_a_shop(pack: Product) -> tuple[str, ...]:
    """What a pack shows on its outside, and what its price is."""
    chart = ("chart_from", "chart_to") if pack.kind == "retail kit" else ()
    return ("name", "shade", "kind", "colour_class", "depth", "tone", "white_claim", *chart, "price")


class PackPage(SlipPage):
    """Types a pack: what stands on its outside."""

    KEYS: ClassVar[Sequence[Key]] = SLIP_KEYS
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session) -> None:
        super().__init__(session, Slip(Product(), _asked_in_a_shop))

    def heading(self) -> str:
        return "A pack in the shop"

    def finished(self) -> None:
        pack = cast(Product, self.slip.given)
        if pack != Product() and pack not in self.session.candidates:
            self.session.compare((*self.session.candidates, pack))
        self.post_message(ClosePage(self))

    def left(self) -> None:
        self.post_message(ClosePage(self))
