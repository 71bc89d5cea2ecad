"""The words on a pack as ranges of depth: a name alone never counts as a number.

Names differ between scales by a level and more, so a name stands for every depth that either scale calls so, and half
a level beyond on both sides.
"""

import re
from typing import Final

from msgspec import Struct

from consult.answers.typed_colour import typed_lab
from consult.sources import ASSUMPTION, Number
from consult.trade import DARKEST, DEPTH_NAMES, LIGHTEST, Tone

NAME_DOUBT = Number(0.5, "levels beyond what the scales name, either way", ASSUMPTION)
PICTURE_DOUBT = Number(1.0, "levels either way: print is not hair", ASSUMPTION)
_BASES: Final = {"black": (1, 2), "brown": (2, 6), "blonde": (6, 10), "white": (10, 10)}
"""A colour word without more: from where to where the scales use it (common practice)."""
_DEGREES: Final = ("very light", "lightest", "darkest", "light", "medium", "dark")
_TONE_WORDS: Final[dict[str, Tone]] = {
    "ash": "ash", "ashy": "ash", "cool": "ash", "smoky": "ash", "matt": "matt", "natural": "neutral",
    "neutral": "neutral", "gold": "gold", "golden": "gold", "honey": "gold", "copper": "copper", "red": "red",
    "mahogany": "mahogany", "violet": "violet", "plum": "violet", "pearl": "pearl",
}  # fmt: skip


class Range(Struct, frozen=True):
    """Depths that words or a picture may mean, 1 to 10, and why it is no number."""

    low: float
    high: float
    because: str

    @property
    def depths(self) -> tuple[float, ...]:
        """The ends and the middle, in halves."""
        middle = round(self.low + self.high) / 2
        return tuple(dict.fromkeys((self.low, middle, self.high)))

    def surely_holds(self, depth: float) -> bool:
        """It holds the depth even when the doubt goes against it."""
        return self.low + NAME_DOUBT * 2 <= depth <= self.high - NAME_DOUBT * 2

    def may_hold(self, depth: float) -> bool:
        return self.low <= depth <= self.high


def depth_of_words(text: str) -> Range | None:
    """The depths that a pack's words may mean; None where no word names a depth."""
    words = re.sub(r"[^a-z ]+", " ", text.casefold().replace("blond ", "blonde ") + " ").split()
    words = ["blonde" if word == "blond" else word for word in words]
    base = next((word for word in words if word in _BASES), None)
    if base is None:
        return None
    degree = next((d for d in _DEGREES if d in " ".join(words)), "")
    wanted = f"{degree} {base}".strip()
    named = [depth for depth, names in DEPTH_NAMES.items() if wanted in names]
    low, high = (min(named), max(named)) if named else _BASES[base]
    both = "the scales call several depths so" if len(named) != 1 else "scales differ"
    return _range(low, high, float(NAME_DOUBT), f'"{wanted}" is a name: {both}')


def tone_of_words(text: str) -> Tone | None:
    """The tone family that a pack's words name first; None where none does."""
    return next((_TONE_WORDS[w] for w in re.findall("[a-z]+", text.casefold()) if w in _TONE_WORDS), None)


def depth_of_picture(colour: str) -> Range:
    """The depths that a printed colour may mean. Raises ValueError where it is no colour."""
    from consult.colour.ladder import nearest_depth

    depth = float(nearest_depth(typed_lab(colour)))
    return _range(depth, depth, float(PICTURE_DOUBT), "a picture on a pack: print is not hair")


def _range(low: float, high: float, doubt: float, because: str) -> Range:
    return Range(max(DARKEST, low - doubt), min(LIGHTEST, high + doubt), because)


def chart_range(darkest: Range | None, lightest: Range | None) -> Range | None:
    """The starting hair that a chart in words holds: from its darkest to its lightest name, doubts included."""
    if darkest is None or lightest is None:
        return None
    low, high = min(darkest.low, lightest.low), max(darkest.high, lightest.high)
    return Range(low, high, f"{darkest.because}; {lightest.because}")
