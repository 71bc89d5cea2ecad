"""Computed differences as people say them, without decimals."""

from consult.sources import ASSUMPTION, Number

SAME = Number(2.5, "colour difference", ASSUMPTION)
NEAR = Number(6.0, "colour difference", ASSUMPTION)


def percent(share: float) -> str:
    """A share of 0 to 1 in whole percent."""
    return f"{share * 100:.0f} %"


def level_words(levels: float) -> str:
    """How far apart two depths are, in words."""
    for limit, words in ((0.3, "by a trace"), (0.75, "by about half a level"), (1.5, "by about a level")):
        if levels < limit:
            return words
    return f"by about {levels:.0f} levels"


def nearness(difference: float) -> str:
    """How near a colour comes to the goal, in words and never as a decimal."""
    if difference < SAME:
        return "the goal, as far as can be told"
    return "near the goal" if difference < NEAR else "clearly off the goal"


_NEAR_TONES = (
    {"neutral", "gold"},
    {"neutral", "ash"},
    {"neutral", "pearl"},
    {"gold", "copper"},
    {"copper", "copper red"},
    {"copper red", "red"},
    {"red", "mahogany"},
    {"mahogany", "violet"},
    {"violet", "pearl"},
    {"ash", "matt"},
    {"ash", "pearl"},
)
"""Tone families that pass into one another; all others are another colour (common practice)."""


def other_tone(one: str | None, other: str | None) -> bool:
    """True when two tone families are clearly different; an unread tone is no difference."""
    if one is None or other is None or one == other:
        return False
    return {one, other} not in _NEAR_TONES
