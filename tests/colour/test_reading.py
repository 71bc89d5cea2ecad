"""Today's reading is a constraint: hair on which nothing is put is forecast as it was read."""

from itertools import product

import numpy as np
import pytest

from consult.colour.difference import ciede2000
from consult.colour.hair import hair_of
from consult.colour.ladder import chart_lab
from consult.colour.prediction import predict, predict_all
from consult.colour.reading import found
from consult.colour.values import HairState, OldColour, Seen, Shade, Treatment
from consult.trade import NATURAL_TONES, TONES, NaturalTone, Tone

SIX = Shade(6, "neutral")


def read(
    natural: float, reading: Shade, white: float = 0.0, tone: NaturalTone = "neutral", lightened: float = 0
) -> HairState:
    """Hair that carries colour, or was lightened, and looks so today."""
    old = () if lightened else (OldColour(reading.depth, reading.tone, 0, 0),)
    return HairState(natural, white, old, lightened, "normal", tone, reading)


def today(state: HairState) -> Seen:
    return predict(state, None, SIX).seen


@pytest.mark.parametrize(
    ("natural", "depth", "tone", "lightened"),
    [
        (4, 6, "neutral", 0), (3, 6, "copper", 0), (5, 9, "ash", 4), (5, 7, "neutral", 0), (6, 3, "neutral", 0),
        (6, 9, "gold", 3), (2, 8, "pearl", 6), (7, 5, "red", 0),
    ],
)  # fmt: skip
def test_what_was_read_is_what_is_shown(natural: float, depth: float, tone: Tone, lightened: float) -> None:
    """Depth, tone and colour: a difference of one is what an eye just sees (from memory)."""
    reading = Shade(depth, tone)
    seen = today(read(natural, reading, lightened=lightened))
    assert (seen.depth, seen.tone) == (depth, tone)
    assert float(ciede2000(seen.lab, chart_lab(depth, tone))) < 1


def test_every_reading_of_every_hair() -> None:
    """Natural depth, share of white, depth and tone read; all of them under one, natural red to palest blonde apart."""
    grid = list(product((1.0, 3.0, 5.0, 7.0, 9.0), (0.0, 0.3, 0.8), range(1, 11), TONES))
    states = [read(natural, Shade(depth, tone), white) for natural, white, depth, tone in grid]
    found = predict_all([(state, None) for state in states], SIX)
    wanted = np.array([chart_lab(depth, tone) for _, _, depth, tone in grid])
    apart = ciede2000(np.array([one.seen.lab for one in found]), wanted)
    over = [(grid[i], round(float(apart[i]), 1)) for i in np.flatnonzero(apart >= 1)]
    assert len(grid) == 1500
    assert over == []


def test_on_red_hair_only_the_palest_cool_readings_are_out_of_reach() -> None:
    """No dye makes black hair of mostly pheomelanin a cool 10: there the nearest is shown, never another depth."""
    grid = list(product((1.0, 5.0), range(1, 11), TONES))
    for natural, depth, tone in grid:
        seen = today(read(natural, Shade(depth, tone), tone="red"))
        off = float(ciede2000(seen.lab, chart_lab(depth, tone)))
        assert off < 1 or depth >= 9
        assert seen.depth == depth


@pytest.mark.parametrize(
    ("depth", "tone"), [(5, "neutral"), (6, "neutral"), (6.5, "gold"), (7, "ash"), (7, "neutral")]
)
def test_hair_that_nothing_was_done_to_is_natural_hair_of_the_depth_read(depth: float, tone: Tone) -> None:
    state = HairState(6, reading=Shade(depth, tone))
    assert today(state).depth == depth
    assert not hair_of(state).old.any()
    assert hair_of(state).holds_back == 0


@pytest.mark.parametrize("tone", NATURAL_TONES)
@pytest.mark.parametrize("depth", [1, 3, 5, 7, 9])
def test_natural_tone_leaves_the_depth_as_it_is(depth: float, tone: NaturalTone) -> None:
    assert today(HairState(depth, natural_tone=tone)).depth == depth


def test_the_reading_wins_over_what_history_tells() -> None:
    told = OldColour(3, "red", 20, 60)
    one = HairState(6, 0.2, (told,), reading=Shade(7, "gold"))
    other = HairState(6, 0.2, (OldColour(9, "ash", 1, 1),), reading=Shade(7, "gold"))
    assert today(one).lab == today(other).lab


def test_coloured_hair_as_read_is_not_lifted_and_natural_hair_is() -> None:
    lighter = Treatment(Shade(8, "neutral"), 2)
    assert predict(read(6, Shade(5, "neutral")), lighter, SIX).lift == 0
    assert predict(HairState(6, reading=Shade(5, "neutral")), lighter, SIX).lift == 2


def test_a_measured_colour_names_its_own_tone() -> None:
    copper = tuple(chart_lab(6, "copper").tolist())
    seen = today(HairState(4, 0.0, (OldColour(6, "gold", 0, 0),), reading=copper))
    assert (seen.depth, seen.tone) == (6, "copper")


def test_wrong_readings_are_refused() -> None:
    for wrong in ((101.0, 0.0, 0.0), (50.0, 200.0, 0.0), (50.0, 0.0, float("nan"))):
        with pytest.raises(ValueError, match="measured"):
            HairState(6, reading=wrong)
    with pytest.raises(ValueError, match="natural tone"):
        HairState(6, natural_tone="copper")  # type: ignore[arg-type]


def test_hair_that_reads_as_it_grew_was_not_lifted() -> None:
    """Less lift is likelier than more: nothing speaks for any where depth and tone are those of nature."""
    state = found(Shade(5, "neutral"), 5, 0.0, 0.0, untouched=False)
    assert state.lift == 0
    assert float(state.dye.max()) < 0.05


@pytest.mark.parametrize(
    ("tone", "warmth"), [("ash", -1), ("gold", 1), ("copper", 2), ("copper red", 3), ("red", 3)]
)
def test_a_tone_word_read_on_untouched_hair_is_a_natural_tone(tone: Tone, warmth: float) -> None:
    """Ash, neutral, gold, auburn, red: natural hair is auburn where dyed hair would be called copper."""
    assert found(Shade(6, tone), 6, 0.0, 0.0, untouched=True).warmth == warmth
