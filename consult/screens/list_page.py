"""What the review and the result share: one long list over a session, and the ways out of it."""

from typing import Final

from consult.screens.messages import ClosePage, OpenExport
from consult.screens.page import BACK, Page
from consult.session import Session
from consult.widgets.keys import Key
from consult.widgets.lists import RowList

UP_OR_BACK: Final = Key(BACK.name, BACK.label, BACK.help, (("pageup", "up_or_back"), ("escape", "back")))


class ListPage(Page):
    """A page whose body is one list. A page up scrolls it; at its top it leads back."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def action_up_or_back(self) -> None:
        rows = self.query_one(RowList)
        if rows.scroll_y > 0:
            rows.action_page_up()
        else:
            self.action_back()

    def action_back(self) -> None:
        self.post_message(ClosePage(self))

    def action_export(self) -> None:
        self.post_message(OpenExport())
