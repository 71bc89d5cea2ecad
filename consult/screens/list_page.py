"""What the review and the result share: one long list over a session, and the ways out of it."""

from consult.screens.messages import ClosePage, OpenExport
from consult.screens.page import Page
from consult.session import Session
from consult.widgets.text import TextBlock, styled


class ListPage(Page):
    """A page whose body is one list."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def on_screen_resume(self) -> None:
        """Whatever keeps the consultation from being saved is told here too."""
        trouble = self.query_one("#trouble", TextBlock)
        trouble.show(styled((self.session.trouble, "bold $error")))
        trouble.display = bool(self.session.trouble)

    def action_back(self) -> None:
        self.post_message(ClosePage(self))

    def action_export(self) -> None:
        self.post_message(OpenExport())
