"""Computed differences as people say them, without decimals."""

from consult.sources import ASSUMPTION, Number

SAME = Number(2.5, "colour difference", ASSUMPTION)
NEAR = Number(6.0, "colour difference", ASSUMPTION)


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
