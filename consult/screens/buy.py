"""Before buying: the card for the shop, and a year of upkeep. Both are lines with their reasons."""

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.binding import BindingType
from textual.content import Content

from consult.buying.card import make_card
from consult.buying.year import year_before_buying
from consult.records.store import save_text
from consult.report.advice import card_blocks, card_text, year_blocks
from consult.report.rows import Block
from consult.screens.blocks_page import BLOCK_KEYS, PART, BlocksPage
from consult.screens.messages import HaveProduct, OpenExport, OpenOver, OpenReview, Over
from consult.screens.page import BACK, EMERGENCY, EXPORT, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.screens.places import PlaceWindow
from consult.widgets.keys import Key, bindings
from consult.widgets.text import Piece, styled


class CardPage(BlocksPage):
    """What to look for, what not to buy, what to photograph."""

    KEYS: ClassVar[Sequence[Key]] = (
        Key("Up/Down", "", "to another line; its reason and source stand below"),
        Key("c", "compare packs", "put packs side by side on this head", (("c", "packs"),)),
        Key("y", "a year", "upkeep as a year, every 4, 6 and 8 weeks", (("y", "year"),)),
        Key("p", "I have one", "a product is in hand now: go on with its questions", (("p", "product"),)),
        Key(PART.name, "", PART.help, PART.binds),
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        Key("F2", "", "review of all answers", (("f2", "review"),)),
        Key("F4", "card", "write the card as text, for the shop", EXPORT.binds),
        Key(EMERGENCY.name, "", EMERGENCY.help, EMERGENCY.binds),
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def heading(self) -> str:
        return "Before buying"

    def verdict(self) -> Sequence[Piece]:
        found = self.session.look_for()
        if found.shades or found.nothing_needed:
            return [("For this head only", "bold $success"), "   Take the card along: F4 writes it as text."]
        return [("Buy nothing yet", "bold $warning"), "   Why stands below; F2 shows all answers."]

    def blocks(self) -> Sequence[Block]:
        return card_blocks(make_card(self.session.look_for()), self.session.voice)

    def action_packs(self) -> None:
        self.post_message(OpenOver(Over.PACKS))

    def action_year(self) -> None:
        self.post_message(OpenOver(Over.YEAR))

    def action_product(self) -> None:
        self.post_message(HaveProduct())

    def action_review(self) -> None:
        self.post_message(OpenReview())

    def action_export(self) -> None:
        self.post_message(OpenExport())


class YearPage(BlocksPage):
    """Every touch-up of a year in three habits, and which is the better way."""

    KEYS: ClassVar[Sequence[Key]] = tuple(key for key in BLOCK_KEYS if key is not EXPORT)
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def heading(self) -> str:
        return "A year of upkeep"

    def verdict(self) -> Sequence[Piece]:
        return [("Each colouring needs its own allergy alert test", "bold $warning")]

    def blocks(self) -> Sequence[Block]:
        session = self.session
        return year_blocks(year_before_buying(session.answers, session.now(), session.salon), session.voice)


class CardWindow(PlaceWindow):
    """Asks where the card goes."""

    def words(self) -> Content:
        return styled(
            ("Write the card for the shop", "bold"),
            "\nPlain text, as narrow as a phone. No name stands on it; what speaks against buying may tell of health."
            "\nEnter writes, Escape goes back.",
        )

    def offered(self) -> str:
        return str(self.session.export_path().with_suffix(".card.txt"))

    def write(self, path: Path, *, new: bool) -> None:
        save_text(path, card_text(make_card(self.session.look_for()), self.session.voice), new=new)
