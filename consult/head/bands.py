"""The head and its strands: the types."""

from functools import cached_property
from itertools import pairwise

from msgspec import Struct

from consult.colour.values import Lab, Shade
from consult.growth import Growth
from consult.trade import BEYOND, NaturalTone, Porosity, Stretch, Tone, Zone


class Artificial(Struct, frozen=True):
    """Colour on the hair. `seen` means the eye's reading replaced what history computed."""

    depth: float
    tone: Tone
    weeks: float
    washes: float
    seen: bool


class Band(Struct, frozen=True):
    """A piece of one stretch with one past. Lengths in cm from the scalp, white share 0 to 1.

    `natural_tone` is what grew; `reading` what the eye or a meter read on it today, None where nobody looked.
    `passes` counts oxidative services that went over it; `peroxide_minutes` adds up percent on the head
    times minutes.
    """

    start_cm: float
    end_cm: float
    stretch: Stretch
    natural_depth: float
    white_share: float
    colour: Artificial | None
    lightened: bool
    porosity: Porosity
    passes: int
    peroxide_minutes: float
    natural_tone: NaturalTone = "neutral"
    reading: Shade | Lab | None = None

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


class Strand(Struct, frozen=True):
    """Bands in order from the scalp to the tip, without a gap."""

    bands: tuple[Band, ...]

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

    def on(self, stretch: Stretch) -> tuple[Band, ...]:
        """The bands of one stretch."""
        return tuple(band for band in self.bands if band.stretch is stretch)


class Area(Struct, frozen=True):
    """Zones whose hair is alike, and their strand."""

    zones: tuple[Zone, ...]
    strand: Strand


class Disagreement(Struct, frozen=True):
    """Where the eye and the history do not tell the same story."""

    id: str
    trade: str
    plain: str
    remedy: str
    evidence: tuple[str, ...]


class Head(Struct, frozen=True, dict=True):
    """One head: its areas from the front to the nape, the growth they were built with, the disagreements.

    Every zone belongs to one area; zones that do not differ share one.
    """

    areas: tuple[Area, ...]
    growth: Growth
    disagreements: tuple[Disagreement, ...]

    @cached_property
    def bands(self) -> tuple[Band, ...]:
        """Every band of every area."""
        return tuple(band for area in self.areas for band in area.strand.bands)

    @cached_property
    def treated(self) -> tuple[Band, ...]:
        """The bands of lengths and ends."""
        return tuple(band for band in self.bands if band.stretch in BEYOND)

    @property
    def length_cm(self) -> float:
        return self.areas[0].strand.length_cm

    @cached_property
    def white(self) -> dict[Zone, float]:
        """White share 0 to 1 of every zone."""
        return {zone: area.strand.bands[0].white_share for area in self.areas for zone in area.zones}

    @cached_property
    def white_mean(self) -> float:
        """White share of the whole head: the plain mean of the four zones (assumption)."""
        return sum(self.white.values()) / len(self.white)

    @cached_property
    def white_most(self) -> float:
        return max(self.white.values())

    @cached_property
    def natural_depth(self) -> float:
        """The darkest natural depth on the head."""
        return min(band.natural_depth for band in self.bands)

    @property
    def natural_tone(self) -> NaturalTone:
        """The tone of what grows; it is read once for the whole head."""
        return self.bands[0].natural_tone

    @property
    def all_white(self) -> bool:
        """No pigmented hair is left."""
        return all(share >= 1 for share in self.white.values())

    @cached_property
    def coloured(self) -> bool:
        """Artificial colour lies on lengths or ends."""
        return any(band.colour for band in self.treated)

    @cached_property
    def lightened(self) -> bool:
        return any(band.lightened for band in self.bands)

    @cached_property
    def darkest_length(self) -> float:
        """Depth of the darkest band of lengths and ends: colour does not lift colour, so it decides upwards."""
        return min((band.depth for band in self.treated), default=self.natural_depth)

    @cached_property
    def lightest_length(self) -> float:
        """Depth of the lightest band of lengths and ends."""
        return max((band.depth for band in self.treated), default=self.natural_depth)

    @cached_property
    def porous_lengths(self) -> bool:
        return any(band.porosity == "high" for band in self.treated)
