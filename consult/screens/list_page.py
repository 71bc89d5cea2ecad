"""What the review and the result share: one long list over a session, and the ways out of it."""

from typing import Final

from consult.screens.messages import ClosePage, OpenExport
from consult.screens.page import BACK, Page
from consult.session import Session
from consult.widgets.keys import Key
from consult.widgets.lists import RowList
from consult.widgets.text import TextBlock, styled

UP_OR_BACK: Final = Key(BACK.name, BACK.label, BACK.help, (("pageup", "up_or_back"), ("escape", "back")))


class ListPage(Page):
    """A page whose body is one list. A page up scrolls it; at its top it leads back."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def on_screen_resume(self) -> None:
        """Whatever keeps the consultation from being saved is told here too."""
        trouble = self.query_one("#trouble", TextBlock)
        trouble.show(styled((self.session.trouble, "bold $text-error")))
        trouble.display = bool(self.session.trouble)

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
