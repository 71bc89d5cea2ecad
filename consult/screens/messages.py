"""Where a page wants to go. Pages post these; the app alone opens and closes pages."""

from enum import Enum

from textual.message import Message
from textual.screen import Screen

from consult.records.wanted import Wanted


class OpenStart(Message):
    """Back to the start page; the consultation is kept as unfinished."""


class OpenWizard(Message):
    """Open something in the wizard."""

    def __init__(self, wanted: Wanted) -> None:
        super().__init__()
        self.wanted = wanted


class OpenChart(Message):
    """The depth and tone chart."""


class OpenEmergency(Message):
    """What to do now, whatever is open; nothing that is open is lost. `at` is the number of what is seen."""

    def __init__(self, at: int = 0) -> None:
        super().__init__()
        self.at = at


class Over(Enum):
    """Pages that are opened over the session in hand and need nothing else."""

    ADVICE = "what to do about a day that went wrong"
    CARD = "what to look for in the shop"
    YEAR = "upkeep as a year"
    PACKS = "which packs are put side by side"
    PACK = "what stands on a pack"
    COMPARISON = "the packs side by side"


class OpenOver(Message):
    """One of those pages."""

    def __init__(self, page: Over) -> None:
        super().__init__()
        self.page = page


class HaveProduct(Message):
    """A product is in hand now: go on with the questions about it."""


class OpenReview(Message):
    """All answers on one page, with the one of that path in hand."""

    def __init__(self, at: str = "") -> None:
        super().__init__()
        self.at = at


class OpenResult(Message):
    """Verdict and plan, to look at."""


class OpenLines(Message):
    """The result line by line, with that line in hand, or the first of a block."""

    def __init__(self, at: int = 0, block: str = "") -> None:
        super().__init__()
        self.at = at
        self.block = block


class OpenDay(Message):
    """The day itself: the plan is carried out by the clock."""


class OpenExport(Message):
    """Ask where the record goes."""


class TellStop(Message):
    """A stop has just been reached: say so, and whom to see."""


class ChangeAnswer(Message):
    """From the review or the result to one question, and back again with its answer."""

    def __init__(self, path: str, back_to: OpenReview | OpenLines) -> None:
        super().__init__()
        self.path = path
        self.back_to = back_to


class ClosePage(Message):
    """Close this page, if it is still the one on top: a key may have been pressed twice."""

    def __init__(self, page: Screen[None]) -> None:
        super().__init__()
        self.page = page
