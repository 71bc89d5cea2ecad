"""The warmth that lightening exposes at each level, by its trade word, and what is opposite to it.

Charts disagree by about a level between 4 and 8, so the words mark a stage and no colour value; the
strand test decides. Source of the table and of the opposites: common practice. No numpy here.
"""

from typing import Literal

from msgspec import Struct

from consult.trade import DARKEST, LIGHTEST, Tone

Hue = Literal["red", "orange", "yellow", "green", "blue", "violet"]

OPPOSITE: dict[Hue, Hue] = {
    "red": "green",
    "green": "red",
    "orange": "blue",
    "blue": "orange",
    "yellow": "violet",
    "violet": "yellow",
}


class Undertone(Struct, frozen=True):
    """What shows at a level. word: as it is called; hue: what has to be cancelled first; against: the hue
    that cancels it; family: the tone family that carries that hue."""

    level: int
    word: str
    hue: Hue
    against: Hue
    family: Tone


_TABLE: tuple[tuple[str, Hue, Tone], ...] = (
    ("dark red", "red", "matt"),
    ("dark red", "red", "matt"),
    ("red", "red", "matt"),
    ("red to red-orange", "red", "matt"),
    ("red-orange", "orange", "ash"),
    ("orange", "orange", "ash"),
    ("orange-gold", "orange", "ash"),
    ("gold", "yellow", "violet"),
    ("yellow", "yellow", "violet"),
    ("pale yellow", "yellow", "pearl"),
)


def undertone(level: float) -> Undertone:
    """The undertone of hair lightened to a level; a half level still shows the warmer, darker stage.

    Raises ValueError outside 1..10.
    """
    if not DARKEST <= level <= LIGHTEST:
        raise ValueError("a level lies between 1 and 10")
    row = int(level)
    word, hue, family = _TABLE[row - 1]
    return Undertone(row, word, hue, OPPOSITE[hue], family)
