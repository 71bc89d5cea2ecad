"""The spine of a plan: one ordered list of applications.

An application says what is put on, on which hair, by which act, from which minute to which, and how it
ends. Bowls, amounts, shopping, sections, time line, steps, ledger and forecast are read off this list;
none of them knows how it came to be written.

Minutes are counted from the end of the first round of colour, minute 0; what lies before it is negative.
"""

from enum import Enum
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from consult.colour.values import Shade
from consult.gates.limits import Limits
from consult.head.bands import Area, Band, Head
from consult.plan.lines import Line
from consult.products.kinds import Auxiliary, Product
from consult.trade import Stretch, Zone


class Act(Enum):
    """How it is put on."""

    PAINT = "paint"
    COMB_THROUGH = "comb through"
    DAB = "dab on"


class Ending(Enum):
    """How it ends."""

    RINSE = "rinse"
    BLOT = "blot"


class Which(Enum):
    """Which hairs of a stretch are meant."""

    EVERY = "every hair"
    WHITE = "white hair"
    LIGHTENED = "lightened hair"


class Bowl(Struct, frozen=True):
    """What is mixed together: a product and its shades with their shares of the colour, which add up to 1.

    Two bowls with different numbers are mixed apart, each fresh when its turn comes.
    """

    number: int
    product: Product | Auxiliary
    shades: tuple[tuple[Shade, float], ...]


class Target(Struct, frozen=True):
    """The hair that is meant."""

    stretches: tuple[Stretch, ...]
    zones: tuple[Zone, ...] = tuple(Zone)
    which: Which = Which.EVERY

    def holds(self, band: Band, zones: tuple[Zone, ...]) -> bool:
        """Whether a band of these zones gets it, in whole or, for white hair, in its white hairs."""
        if band.stretch not in self.stretches or not any(zone in self.zones for zone in zones):
            return False
        if self.which is Which.LIGHTENED:
            return band.lightened
        return self.which is Which.EVERY or band.white_share > 0


class Touch(Struct, frozen=True):
    """One section gets it from minute `start` to minute `end`.

    `off` is the minute it is taken off there, None where that is the application's own.
    """

    section: str
    start: int
    end: int
    off: int | None = None


class Application(Struct, frozen=True, dict=True):
    """One bowl on one target. `until` is the minute by which all is taken off; `water` that it is thinned.

    `emulsified` that nothing more is mixed for it: what lies on the new growth is drawn through.
    `reason` is why it is done, and why so.
    """

    bowl: Bowl
    target: Target
    act: Act
    touches: tuple[Touch, ...]
    until: int
    ending: Ending
    reason: Line
    water: bool = False
    emulsified: bool = False

    @cached_property
    def start(self) -> int:
        """The first touch."""
        return min(touch.start for touch in self.touches)

    @cached_property
    def on_by(self) -> int:
        """The minute the last hair has it: from here the leaflet counts."""
        return max(touch.end for touch in self.touches)

    @property
    def minutes(self) -> int:
        """Minutes as the leaflet counts them."""
        return self.until - self.on_by

    def off(self, touch: Touch) -> int:
        """The minute it is taken off a section."""
        return self.until if touch.off is None else touch.off

    def contact(self, touch: Touch, minute: int) -> int:
        """Minutes on the first hair of a section at a minute of the clock; 0 before it is touched."""
        return max(0, min(minute, self.off(touch)) - touch.start)

    def later(self, minutes: int) -> "Application":
        """The same, so many minutes later."""
        touches = tuple(
            Touch(t.section, t.start + minutes, t.end + minutes, None if t.off is None else t.off + minutes)
            for t in self.touches
        )
        return replace(self, touches=touches, until=self.until + minutes)


Applications = tuple[Application, ...]


def reaching(applications: Applications, band: Band, zones: tuple[Zone, ...]) -> Applications:
    """Those that reach a band of these zones, in order."""
    return tuple(a for a in applications if a.target.holds(band, zones))


def areas_under(head: Head, applications: Applications) -> tuple[Area, ...]:
    """The areas of a head, apart where their zones do not get the same: one half may follow the other."""
    found = []
    for area in head.areas:
        by_what: dict[tuple[bool, ...], tuple[Zone, ...]] = {}
        for zone in area.zones:
            gets = tuple(zone in a.target.zones for a in applications)
            by_what[gets] = (*by_what.get(gets, ()), zone)
        found += [replace(area, zones=zones) for zones in by_what.values()]
    return tuple(found)


def on_this_head(head: Head, applications: Applications) -> Applications:
    """Without those whose hair this head does not have: a crop has no lengths to refresh."""
    return tuple(
        a
        for a in applications
        if any(a.target.holds(band, area.zones) for area in head.areas for band in area.strand.bands)
    )


def within(limits: Limits, applications: Applications) -> Applications:
    """Without the stretches that findings keep colour off, and without what has no stretch left."""
    if not any(limits.leaves(stretch) for stretch in Stretch):
        return applications
    kept = ((a, tuple(s for s in a.target.stretches if not limits.leaves(s))) for a in applications)
    return tuple(replace(a, target=replace(a.target, stretches=left)) for a, left in kept if left)


def products_of(applications: Applications) -> tuple[Product, ...]:
    """The products that are put on, each once, in order; developer alone is none."""
    found = (a.bowl.product for a in applications)
    return tuple(dict.fromkeys(p for p in found if not isinstance(p, Auxiliary)))


def span(head: Head, target: Target) -> tuple[float, float]:
    """(first, last) cm from the scalp of a target; (0, 0) where the head has no such stretch."""
    bands = [b for area in head.areas for b in area.strand.bands if target.holds(b, area.zones)]
    return min((b.start_cm for b in bands), default=0.0), max((b.end_cm for b in bands), default=0.0)
