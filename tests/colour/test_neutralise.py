"""How much of the opposite tone goes into a neutral shade, in the words of the trade; and what is refused.

Twenty-fourths of the colour, a third at most (common practice: sparingly, or the tone itself is seen).
"""

import numpy as np
import pytest

from consult.colour.neutralise import neutralise, objections
from consult.colour.prediction import predict
from consult.colour.undertone import undertone
from consult.colour.values import HairState, Shade, Treatment
from consult.trade import Tone


@pytest.mark.parametrize(
    ("depth", "lift", "of_24", "words"),
    [
        (4, 1, 0, "none is needed"),
        (4, 2, 1, "a touch, about a twelfth of the colour"),
        (6, 1, 3, "about an eighth of the colour"),
        (8, 1, 4, "about a sixth of the colour"),
        (7, 1, 5, "about a sixth of the colour"),
        (8, 2, 6, "about a quarter of the colour"),
        (9, 3, 7, "up to a third of the colour, not more"),
        (6, 4, 7, "up to a third of the colour, not more"),
    ],
)
def test_the_share_and_its_words(depth: float, lift: float, of_24: int, words: str) -> None:
    """What four fifths of the possible cancelling takes: the bound is an assumption, so are the tones' recipes."""
    found = neutralise(depth, lift)
    assert found.share == pytest.approx(of_24 / 24)
    assert found.words.endswith(f": {found.shade.tone}, {words}")


@pytest.mark.parametrize(("depth", "lift"), [(6, 3), (7, 3), (8, 3), (9, 4), (10, 4)])
def test_half_the_share_would_leave_more_warmth_and_a_little_more_gains_little(
    depth: float, lift: float
) -> None:
    """Sparingly: the share is the smallest that does most of what a third could do."""
    neutral = Shade(depth, "neutral")
    found = neutralise(depth, lift)

    def off(share: float) -> float:
        """How far a* and b* are from natural hair of that depth."""
        hair = HairState(depth - lift, lightened_levels=lift)
        seen = predict(hair, Treatment(neutral, 0, 1.0, ((found.shade, share),)), neutral).seen.lab
        aim = predict(HairState(depth), None, neutral).seen.lab
        return float(np.hypot(seen[1] - aim[1], seen[2] - aim[2]))

    gained, possible = off(0) - off(found.share), off(0) - off(1 / 3)
    assert off(found.share / 2) > off(found.share)
    assert 0.7 * possible < gained <= possible + 0.5


@pytest.mark.parametrize("tone", ["violet", "pearl"])
def test_another_family_may_be_asked_about(tone: Tone) -> None:
    found = neutralise(9, 3, family=tone)
    assert found.shade == Shade(9, tone)
    assert 0 < found.share <= 1 / 3


def test_hair_cannot_have_been_lifted_from_below_black() -> None:
    assert neutralise(3, 9).share == neutralise(3, 2).share
    assert neutralise(1, 0).share == 0
    with pytest.raises(ValueError, match="negative"):
        neutralise(6, -0.1)


@pytest.mark.parametrize(("tone", "instead"), [("ash", "violet"), ("matt", "violet")])
def test_from_level_8_on_blue_and_green_are_refused(tone: Tone, instead: Tone) -> None:
    """Blue on yellow turns green; up to level 7 there is still orange for it to cancel."""
    (found,) = objections(tone, 8)
    assert (found.weight, found.instead) == ("reject", instead)
    assert objections(tone, 7.9) == ()
    assert [o.weight for o in objections(tone, 9, existing="pearl")] == ["caution"]
    assert [o.weight for o in objections(tone, 9, existing="gold")] == ["reject"]


def test_warm_tones_are_never_objected_to() -> None:
    for tone in ("neutral", "gold", "copper", "red"):
        assert objections(tone, 9, existing="ash", porosity="high") == ()


def test_normal_hair_needs_no_warning_of_cool_tones() -> None:
    assert objections("violet", 9, porosity="normal") == objections("violet", 9, porosity="low") == ()
    assert len(objections("violet", 9, porosity="high")) == 1


@pytest.mark.parametrize(
    ("level", "word", "against"),
    [
        (1, "dark red", "green"), (2, "dark red", "green"), (3, "red", "green"), (4, "red to red-orange", "green"),
        (5, "red-orange", "blue"), (6, "orange", "blue"), (7, "orange-gold", "blue"), (8, "gold", "violet"),
        (9, "yellow", "violet"), (10, "pale yellow", "violet"),
    ],
)  # fmt: skip
def test_undertones_and_what_cancels_them(level: float, word: str, against: str) -> None:
    found = undertone(level)
    assert (found.level, found.word, found.against) == (level, word, against)


@pytest.mark.parametrize("level", [0.99, 10.01])
def test_there_is_no_level_beyond_the_scale(level: float) -> None:
    with pytest.raises(ValueError, match="between 1 and 10"):
        undertone(level)
