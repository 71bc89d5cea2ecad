"""The strand as bands from root to tip: the types."""

from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from consult.strand.growth import Growth


class Zone(Enum):
    NEW_GROWTH = "new growth"
    LENGTHS = "lengths"
    ENDS = "ends"


@dataclass(frozen=True)
class Artificial:
    """Colour on the hair. `seen` means the eye's reading replaced what history computed."""

    depth: float
    tone: str
    weeks: float
    washes: float
    seen: bool


@dataclass(frozen=True)
class Band:
    """One stretch of the strand with one past. Lengths in cm from the scalp, white share 0 to 1.

    `passes` counts oxidative services that went over it; `peroxide_minutes` adds up percent on the head
    times minutes.
    """

    start_cm: float
    end_cm: float
    zone: Zone
    natural_depth: float
    white_share: float
    colour: Artificial | None
    lightened: bool
    porosity: str
    passes: int
    peroxide_minutes: float

    @property
    def length_cm(self) -> float:
        return self.end_cm - self.start_cm

    @property
    def depth(self) -> float:
        """The depth that is there now: the old colour's, else the natural one."""
        return self.colour.depth if self.colour else self.natural_depth

    @property
    def virgin(self) -> bool:
        return self.colour is None and not self.lightened and self.passes == 0


@dataclass(frozen=True)
class Disagreement:
    """Where the eye and the history do not tell the same story."""

    id: str
    trade: str
    plain: str
    remedy: str
    evidence: tuple[str, ...]


@dataclass(frozen=True)
class Strand:
    """Bands in order from the scalp, the growth they were built with, and the disagreements."""

    bands: tuple[Band, ...]
    growth: Growth
    disagreements: tuple[Disagreement, ...]

    @property
    def length_cm(self) -> float:
        return self.bands[-1].end_cm

    @property
    def demarcations(self) -> tuple[float, ...]:
        """Centimetres from the scalp at which the hair's past changes: lines of demarcation."""
        return tuple(
            after.start_cm
            for before, after in pairwise(self.bands)
            if (before.colour, before.lightened) != (after.colour, after.lightened)
        )

    def zone(self, zone: Zone) -> tuple[Band, ...]:
        return tuple(band for band in self.bands if band.zone is zone)

    @property
    def treated(self) -> tuple[Band, ...]:
        """The bands behind the new growth."""
        return tuple(band for band in self.bands if band.zone is not Zone.NEW_GROWTH)
