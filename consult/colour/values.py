"""What goes into a colour prediction and what comes out: plain frozen values, no numpy.

Depth is the trade's number, 1 (darkest) to 10 (lightest), halves allowed. Tone is a family word.
"""

from math import isfinite

from msgspec import Struct

from consult.trade import DARKEST, LIGHTEST, NATURAL_TONES, POROSITIES, TONES, NaturalTone, Porosity, Tone

Lab = tuple[float, float, float]


def _within(name: str, value: float, low: float, high: float) -> None:
    if not (isfinite(value) and low <= value <= high):
        raise ValueError(f"{name} must lie between {low:g} and {high:g}")


def _known_tone(tone: str) -> None:
    if tone not in TONES:
        raise ValueError(f"unknown tone family; known are {', '.join(TONES)}")


class Shade(Struct, frozen=True):
    """A colour as the trade names it: depth number and tone family. Raises ValueError.

    swatch: the maker's own swatch as CIELAB, where somebody read it; the dye is then fitted to it.
    """

    depth: float
    tone: Tone
    swatch: Lab | None = None

    def __post_init__(self) -> None:
        _within("depth", self.depth, DARKEST, LIGHTEST)
        _known_tone(self.tone)


class OldColour(Struct, frozen=True):
    """One earlier artificial colour on a stretch, with what it has been through since. Raises ValueError."""

    depth: float
    tone: Tone
    weeks: float
    washes: float

    def __post_init__(self) -> None:
        _within("depth", self.depth, DARKEST, LIGHTEST)
        _known_tone(self.tone)
        _within("weeks", self.weeks, 0.0, 5000.0)
        _within("washes", self.washes, 0.0, 20000.0)


class HairState(Struct, frozen=True):
    """A piece of the strand that is alike along its length. Raises ValueError.

    natural_depth and natural_tone are what grew, before any lightening; white_share is the share of white
    hairs, 0..1. reading is today's colour as it was read off swatches, or measured as CIELAB: what lightening
    and artificial colour have left is then worked out so that it comes out as read. Without a reading,
    lightened_levels is what lightening has taken off and old_colours what went on since.
    """

    natural_depth: float
    white_share: float = 0.0
    old_colours: tuple[OldColour, ...] = ()
    lightened_levels: float = 0.0
    porosity: Porosity = "normal"
    natural_tone: NaturalTone = "neutral"
    reading: Shade | Lab | None = None

    def __post_init__(self) -> None:
        _within("natural depth", self.natural_depth, DARKEST, LIGHTEST)
        _within("white share", self.white_share, 0.0, 1.0)
        _within("lightened levels", self.lightened_levels, 0.0, LIGHTEST)
        if self.porosity not in POROSITIES:
            raise ValueError(f"porosity must be one of {', '.join(POROSITIES)}")
        if self.natural_tone not in NATURAL_TONES:
            raise ValueError(f"natural tone must be one of {', '.join(NATURAL_TONES)}")
        if isinstance(self.reading, tuple):
            _within("measured L*", self.reading[0], 0.0, 100.0)
            _within("measured a*", self.reading[1], -128.0, 128.0)
            _within("measured b*", self.reading[2], -128.0, 128.0)

    @property
    def untouched(self) -> bool:
        """Neither lightened nor coloured, as far as was told."""
        return not self.old_colours and self.lightened_levels == 0


class Treatment(Struct, frozen=True):
    """What is put on a stretch. Raises ValueError.

    lift_levels is the most the developer gives on natural hair (an upper bound, not a promise);
    uptake the share of full dye uptake (time, dilution), 0 for a product without dye. Other shades may be
    mixed in, each with its share of the colour; the rest, 0 to 1, is the shade itself.
    """

    shade: Shade
    lift_levels: float
    uptake: float = 1.0
    others: tuple[tuple[Shade, float], ...] = ()

    def __post_init__(self) -> None:
        _within("lift levels", self.lift_levels, 0.0, LIGHTEST)
        _within("uptake", self.uptake, 0.0, 1.0)
        for _, share in self.others:
            _within("share of a shade", share, 0.0, 1.0)
        _within("share of the shade", self.share, -1e-9, 1.0)

    @property
    def share(self) -> float:
        """Share of the shade itself."""
        return 1.0 - sum(share for _, share in self.others)

    @property
    def shades(self) -> tuple[tuple[Shade, float], ...]:
        """Every shade with its share, without those of no share."""
        return tuple((s, share) for s, share in ((self.shade, self.share), *self.others) if share > 1e-9)

    @property
    def depth(self) -> float:
        """Depth of the mix: by share."""
        return sum(share * shade.depth for shade, share in self.shades)


class Seen(Struct, frozen=True):
    """One predicted colour. in_gamut is False where no screen can show it; hex is then the nearest."""

    lab: Lab
    hex: str
    in_gamut: bool
    depth: float
    tone: Tone


class Spread(Struct, frozen=True):
    """The strip from darkest to lightest likely result.

    levels: half its width in depth levels. difference: CIEDE2000 from the likely colour that the
    inputs' uncertainties add up to. words: the width as one says it.
    """

    low: Seen
    likely: Seen
    high: Seen
    levels: float
    difference: float
    words: str


class Prediction(Struct, frozen=True):
    """What a stretch will look like: the pigmented hairs, the white hairs and both together as seen.

    lift: the levels the natural pigment is expected to move. to_goal: CIEDE2000 of the seen colour
    to the goal. weaknesses: what the reader must know about this number, in plain words.
    """

    pigmented: Seen
    white: Seen
    seen: Seen
    goal: Seen
    to_goal: float
    lift: float
    spread: Spread
    weaknesses: tuple[str, ...]
