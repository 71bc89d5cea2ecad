"""How much of the opposite tone goes into a neutral shade, in the words of the trade; and what is refused.

Half of the colour at most (common practice). That a share is the best there is, is held in `test_trade_facts`.
"""

import pytest

from consult.colour.neutralise import _part, neutralise, objections
from consult.colour.undertone import undertone
from consult.colour.values import HairState, Shade, Treatment
from consult.trade import Tone


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "none is needed"), (0.05, "a touch, about a twelfth of the colour"),
        (0.12, "about an eighth of the colour"), (0.2, "about a sixth of the colour"),
        (0.25, "about a quarter of the colour"), (0.33, "about a third of the colour"),
        (0.5, "half of the colour, not more"),
    ],
)  # fmt: skip
def test_a_share_in_words(share: float, words: str) -> None:
    assert _part(share, 0.9) == words
    assert _part(share, 1.1) == words + (", and some warmth stays" if share == 0.5 else "")


@pytest.mark.parametrize("tone", ["violet", "pearl"])
def test_another_family_may_be_asked_about(tone: Tone) -> None:
    found = neutralise(HairState(6), Treatment(Shade(9, "neutral"), 4), family=tone)
    assert found.shade == Shade(9, tone)
    assert 0 < found.share <= 1 / 2
    assert found.words.startswith("yellow shows at 9; violet cancels it")


@pytest.mark.parametrize(("tone", "instead"), [("ash", "violet"), ("matt", "violet")])
def test_from_level_8_on_blue_and_green_are_refused(tone: Tone, instead: Tone) -> None:
    """Blue on yellow turns green; up to level 7 there is still orange for it to cancel."""
    (found,) = objections(tone, 8)
    assert (found.weight, found.instead) == ("reject", instead)
    assert objections(tone, 7) == ()
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
