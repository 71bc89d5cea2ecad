"""What a person wants to open. It stands apart, so that the start page is painted without loading answers."""

from enum import Enum
from pathlib import Path

from msgspec import Struct

from consult.trade import Voice


class Origin(Enum):
    """Where a consultation comes from."""

    NEW = "new"
    DRAFT = "draft"
    DEMO = "demo"
    FILE = "file"


class Purpose(Enum):
    """What somebody comes for."""

    COLOUR = "colour"
    BUY = "buy"
    WRONG = "wrong"


class Wanted(Struct, frozen=True):
    """A consultation to be opened, and whose words are used; a new one has no path. An unfinished one keeps its own
    purpose where nothing else is wanted."""

    origin: Origin
    voice: Voice
    path: Path | None = None
    purpose: Purpose = Purpose.COLOUR
