"""The kinds of product: what each is made of, lifts, deposits and counts as.

A closed union: permanent, high-lift and demi-permanent colour are mixed with developer, direct colour is not
and has no place for one. Each says for itself what the plan, the forecast and the ledger need to know, so
that none of them asks which kind it has in hand.
"""

from typing import ClassVar, Literal

from msgspec import Struct
from msgspec.structs import replace

from consult.colour.values import Shade
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS, ColourClass, CountedFrom, FirstTimeOrder

WhiteClaim = Literal["full cover", "blends white", "no claim"]

# Cautious end of what is taught, percent of developer -> levels; an upper bound on natural hair.
LIFT_BOUND = {
    0.0: Number(0.0, "levels", COMMON_PRACTICE),
    3.0: Number(0.0, "levels", COMMON_PRACTICE),
    6.0: Number(2.0, "levels", COMMON_PRACTICE),
    9.0: Number(3.0, "levels", COMMON_PRACTICE),
    12.0: Number(4.0, "levels", COMMON_PRACTICE),
}
MIX_LIFE = Number(30, "min that a mix is used, where its leaflet says nothing", COMMON_PRACTICE)
USUAL_KIT_STRENGTH = Number(6, "% developer, where a kit prints none", ASSUMPTION)
FILLER_DEPOSIT = Number(0.6, "share of full uptake, demi-permanent for 10 to 15 minutes", ASSUMPTION)
DEMI_DEPOSIT = Number(0.8, "share of a permanent colour's full uptake", ASSUMPTION)
"""Demi-permanent colour stays translucent on white hair (common practice)."""

HIGH_LIFT_DEPOSIT = Number(0.4, "share of a permanent colour's full uptake", ASSUMPTION)
"""High-lift colour lightens and tones; it hardly colours white hair (common practice)."""

DIRECT_DEPOSIT = Number(0.6, "share of a permanent colour's full uptake", ASSUMPTION)


def lift_bound(percent: float) -> float:
    """Levels a developer can lift natural hair at most (common practice, cautious end)."""
    return float(max(lift for strength, lift in LIFT_BOUND.items() if strength <= percent))


class Leaflet(Struct, frozen=True):
    """What the leaflet says, in whole minutes; a refresh of 0 minutes is one it does not allow.

    counted_from  from when its minutes count
    total         the longest time from the first touch to the rinse, where it names one
    mix           how long a mix may be used, where it says
    first_time    its own order for hair that was never coloured
    """

    new_growth: int
    white: int
    refresh: int
    shortest: int
    longest: int
    counted_from: CountedFrom = "the end of application"
    total: int | None = None
    mix: int | None = None
    first_time: FirstTimeOrder = "it does not say"

    @property
    def mix_life(self) -> int:
        """Minutes that a mix may be used: the leaflet's, else the trade's."""
        return int(MIX_LIFE) if self.mix is None else self.mix


class Developer(Struct, frozen=True):
    """Peroxide: its percent in the bottle, and its parts to one part of colour.

    `printed` is False for a kit that does not print its strength; the percent is a usual one then.
    """

    percent: float
    ratio: float
    printed: bool = True

    @property
    def at_most(self) -> float:
        """The percent to hold against a limit: what is not printed may be as strong as the law allows."""
        return self.percent if self.printed else float(THRESHOLDS["peroxide-limit"])

    @property
    def on_head(self) -> float:
        """Percent peroxide of the ready mix."""
        return self.percent * self.ratio / (1 + self.ratio)


class Kit(Struct, frozen=True):
    """A box: what one makes, ready to use, and the natural depths its chart starts from, where it gives numbers."""

    pack_ml: float
    chart: tuple[float, float] | None


class Tube(Struct, frozen=True):
    """Colour by the tube; developer, where there is one, is bought beside it."""

    grams: float


class Unpacked(Struct, frozen=True):
    """Something whose pack nobody has told of: bought by weight."""


Package = Kit | Tube | Unpacked


class _Colour(Struct, frozen=True):
    """What every kind has."""

    colour_class: ClassVar[ColourClass]

    name: str
    shade: Shade
    printed: str
    white_claim: WhiteClaim
    leaflet: Leaflet
    package: Package
    price: float | None

    @property
    def covers_white(self) -> bool:
        """Whether it may be planned to cover white hair."""
        return self.white_claim == "full cover"

    @property
    def is_kit(self) -> bool:
        return isinstance(self.package, Kit)

    @property
    def label(self) -> str:
        """Name and shade as they are told: no shade number is made up from a name."""
        return f"{self.name} {self.printed}".strip() or "this product"


class _Mixed(_Colour, frozen=True):
    """Colour that is mixed with developer."""

    developer: Developer

    passes: ClassVar[int] = 1
    """Oxidative passes that one application counts as."""
    works_in_the_bowl: ClassVar[bool] = True
    """The mix begins to work before it is on the hair."""

    @property
    def lifts(self) -> float:
        """Levels it lifts natural hair at most."""
        return lift_bound(self.developer.percent)

    @property
    def deposit(self) -> float:
        """Share of full uptake that its full time gives."""
        return 1.0

    @property
    def peroxide_on_head(self) -> float:
        return self.developer.on_head

    @property
    def parts(self) -> float:
        """Parts of ready mix from one part of colour."""
        return 1 + self.developer.ratio


class Permanent(_Mixed, frozen=True):
    """Grows out, does not wash out; covers white and can lift."""

    colour_class = "permanent"


class HighLift(_Mixed, frozen=True):
    """Lightens natural hair strongly; leaves little colour in white hair."""

    colour_class = "high-lift"

    @property
    def deposit(self) -> float:
        return float(HIGH_LIFT_DEPOSIT)

    @property
    def covers_white(self) -> bool:
        return False


class DemiPermanent(_Mixed, frozen=True):
    """Weak developer; deposits, blends white and does not lift."""

    colour_class = "demi-permanent"

    @property
    def covers_white(self) -> bool:
        return False

    @property
    def lifts(self) -> float:
        return 0.0

    @property
    def deposit(self) -> float:
        return float(DEMI_DEPOSIT)


class Direct(_Colour, frozen=True):
    """Colour without developer: put on as it is, washes out, deposits a little and never lifts."""

    colour_class = "direct (no developer)"
    passes: ClassVar[int] = 0
    works_in_the_bowl: ClassVar[bool] = False
    lifts: ClassVar[float] = 0.0
    peroxide_on_head: ClassVar[float] = 0.0
    parts: ClassVar[float] = 1.0

    @property
    def covers_white(self) -> bool:
        return False

    @property
    def deposit(self) -> float:
        return float(DIRECT_DEPOSIT)


class Filler(DemiPermanent, frozen=True):
    """A warm demi-permanent colour for a few minutes, which gives back the pigment that lightening took."""

    @property
    def deposit(self) -> float:
        return float(FILLER_DEPOSIT)


class Auxiliary(Struct, frozen=True):
    """Something put on beside the colour, such as developer alone that opens resistant white.

    It deposits nothing and counts as no colouring; `percent` is its peroxide, 0 where it holds none.
    """

    label: str
    percent: float
    because: str
    passes: ClassVar[int] = 0
    works_in_the_bowl: ClassVar[bool] = False
    lifts: ClassVar[float] = 0.0
    deposit: ClassVar[float] = 0.0

    @property
    def peroxide_on_head(self) -> float:
        return self.percent


Mixed = Permanent | HighLift | DemiPermanent
Product = Permanent | HighLift | DemiPermanent | Direct


def with_developer(product: Mixed, percent: float) -> Mixed:
    """The same product with another strength of its developer."""
    return replace(product, developer=replace(product.developer, percent=percent))
