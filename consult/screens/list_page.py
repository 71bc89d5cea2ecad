"""What the review and the result share: one long list over a session, and the ways out of it."""

from typing import ClassVar

from textual.binding import Binding, BindingType

from consult.screens.messages import ClosePage, OpenExport
from consult.screens.page import Page
from consult.session import Session
from consult.widgets.lists import RowList


class ListPage(Page):
    """A page whose body is one list. A page up scrolls it; at its top it leads back."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back", priority=True),
        Binding("pageup", "up_or_back", "Back", priority=True),
        Binding("f1", "app.help", "Help", priority=True),
        Binding("f4", "export", "Export", priority=True),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def action_up_or_back(self) -> None:
        rows = self.query_one(RowList)
        if rows.scroll_y > 0:
            rows.scroll_a_page_up()
        else:
            self.action_back()

    def action_back(self) -> None:
        self.post_message(ClosePage(self))

    def action_export(self) -> None:
        self.post_message(OpenExport())
