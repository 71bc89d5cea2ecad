"""The pages that are opened over the session in hand and need nothing else."""

from typing import Final

from consult.screens.buy import CardPage, YearPage
from consult.screens.comparison import ComparisonPage
from consult.screens.messages import Over
from consult.screens.packs import PackPage, PacksPage
from consult.screens.page import Page
from consult.screens.wrong import AdvicePage
from consult.session import Session

_PAGES: Final = {
    Over.ADVICE: AdvicePage,
    Over.CARD: CardPage,
    Over.YEAR: YearPage,
    Over.PACKS: PacksPage,
    Over.PACK: PackPage,
    Over.COMPARISON: ComparisonPage,
}


def page_over(session: Session, which: Over, top: object) -> Page | None:
    """The page, or None where it is the one on top: a key that was pressed twice opens it once."""
    page = _PAGES[which]
    return None if isinstance(top, page) else page(session)
