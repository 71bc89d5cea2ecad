"""The entry point: one stretch, its treatment, what it will look like and how sure that is."""

import re
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.colour import prediction as said
from consult.colour.apparent import apparent_lightness
from consult.colour.difference import VISIBLE_LINE, ciede2000
from consult.colour.dyes import amount
from consult.colour.hair import hair_of
from consult.colour.prediction import Border, lines_between, predict
from consult.colour.spread import Uncertainty, in_words
from consult.colour.values import HairState, OldColour, Prediction, Shade, Treatment
from consult.trade import POROSITIES, TONES

CALM = settings(derandomize=True, deadline=None, max_examples=60)
SIX = Shade(6, "copper red")

depths = st.integers(2, 20).map(lambda n: n / 2)
shades = st.builds(Shade, depths, st.sampled_from(TONES))
old = st.builds(OldColour, depths, st.sampled_from(TONES), st.floats(0, 100), st.floats(0, 300))
stretches = st.builds(
    HairState,
    depths,
    st.floats(0, 1),
    st.lists(old, max_size=3).map(tuple),
    st.floats(0, 5),
    st.sampled_from(POROSITIES),
)
treatments = st.none() | st.builds(Treatment, shades, st.floats(0, 4), st.floats(0, 1))


def light(p: Prediction) -> float:
    return p.seen.lab[0]


def border(one: Prediction, other: Prediction) -> Border:
    return lines_between([(one, other)])[0]


@CALM
@given(stretches, treatments, shades)
def test_every_prediction_is_whole(stretch: HairState, treatment: Treatment | None, goal: Shade) -> None:
    p = predict(stretch, treatment, goal)
    for seen in (p.pigmented, p.white, p.seen, p.goal, p.spread.low, p.spread.high):
        assert re.fullmatch("#[0-9a-f]{6}", seen.hex)
        assert 1 <= seen.depth <= 10
        assert seen.tone in TONES
        assert all(np.isfinite(seen.lab))
    assert p.spread.likely == p.seen
    assert p.spread.low.lab[0] <= p.seen.lab[0] <= p.spread.high.lab[0]
    assert p.to_goal == pytest.approx(float(ciede2000(p.seen.lab, p.goal.lab)))
    parts = sorted((p.pigmented.lab[0], p.white.lab[0]))
    assert parts[0] - 1e-9 <= light(p) <= parts[1] + 1e-9


@CALM
@given(stretches, treatments, st.floats(1, 4))
def test_greater_uncertainty_never_narrows_the_strip(
    stretch: HairState, treatment: Treatment | None, factor: float
) -> None:
    usual, doubled = Uncertainty(), Uncertainty().times(factor)
    one, two = predict(stretch, treatment, SIX, usual), predict(stretch, treatment, SIX, doubled)
    assert two.spread.low.lab[0] <= one.spread.low.lab[0] + 1e-9
    assert two.spread.high.lab[0] >= one.spread.high.lab[0] - 1e-9
    assert two.spread.levels >= one.spread.levels - 1e-9
    assert two.spread.difference >= one.spread.difference - 1e-9


def test_certain_inputs_leave_no_strip_and_doubling_widens_it() -> None:
    stretch, treatment = HairState(6, 0.3), Treatment(SIX, 1)
    sure = predict(stretch, treatment, SIX, Uncertainty().times(0)).spread
    usual = predict(stretch, treatment, SIX).spread
    double = predict(stretch, treatment, SIX, Uncertainty().times(2)).spread
    assert sure.levels == pytest.approx(0, abs=1e-9)
    assert sure.difference == pytest.approx(0, abs=1e-9)
    assert double.levels > 1.5 * usual.levels > 0


def test_each_input_by_itself_widens_the_strip() -> None:
    stretch, treatment = HairState(6, 0.3), Treatment(SIX, 1)
    for name in ("depth", "white", "uptake", "lift", "observer", "surface", "model"):
        nothing = dict.fromkeys(("depth", "white", "uptake", "lift", "observer", "surface", "model"), 0.0)
        usual = getattr(Uncertainty(), name)
        alone = predict(stretch, treatment, SIX, Uncertainty(**{**nothing, name: usual})).spread
        assert alone.difference > 0.1, name


def test_the_spread_is_about_half_a_level() -> None:
    for stretch, shade in ((HairState(6, 0.3), SIX), (HairState(4, 0.5), Shade(5, "neutral"))):
        spread = predict(stretch, Treatment(shade, 1), shade).spread
        assert spread.words == "about half a level either way"
        assert 5 < spread.difference < 9  # what was measured needs this much


def test_strong_lift_is_less_sure() -> None:
    mild = predict(HairState(5), Treatment(Shade(7, "gold"), 2), SIX).spread
    strong = predict(HairState(3), Treatment(Shade(9, "gold"), 6), SIX).spread
    assert strong.difference > mild.difference
    assert strong.words == "up to a whole level either way"


def test_width_in_words() -> None:
    words = [in_words(w) for w in (0.0, 0.34, 0.35, 0.75, 0.76, 1.25, 1.26)]
    assert len(set(words)) == 4
    assert words[0] == words[1] != words[2] == words[3] != words[4] == words[5] != words[6]
    assert not any(re.search(r"\d\.\d", w) for w in words)  # no decimals on a screen


@CALM
@given(stretches, shades, st.floats(0, 4), st.floats(0, 2))
def test_more_lift_is_never_darker(stretch: HairState, shade: Shade, lift: float, more: float) -> None:
    """To the eye, within a sixtieth of a level: more dye shows in lighter hair, so that its number stays."""
    one, two = (predict(stretch, Treatment(shade, levels), SIX).seen.lab for levels in (lift, lift + more))
    assert apparent_lightness(two) >= apparent_lightness(one) - 0.1


@CALM
@given(depths, st.floats(0, 1), shades, st.floats(0, 1))
def test_darker_natural_hair_never_comes_out_lighter(
    depth: float, white: float, shade: Shade, lift: float
) -> None:
    """Up to one level of lift, which every shade asks for: so both are lifted by the same."""
    darker = max(depth - 1, 1)
    one = predict(HairState(depth, white), Treatment(shade, lift), SIX)
    two = predict(HairState(darker, white), Treatment(shade, lift), SIX)
    looks = apparent_lightness([one.seen.lab, two.seen.lab])
    assert looks[1] <= looks[0] + 0.15


@CALM
@given(depths, st.floats(0, 1), shades, st.floats(0, 0.9))
def test_more_dye_is_never_lighter(depth: float, white: float, shade: Shade, uptake: float) -> None:
    one = predict(HairState(depth, white), Treatment(shade, 1, uptake), SIX)
    two = predict(HairState(depth, white), Treatment(shade, 1, uptake + 0.1), SIX)
    assert light(two) <= light(one) + 1e-9


def test_all_or_no_white_are_the_pure_cases() -> None:
    none, every = (predict(HairState(5, share), Treatment(SIX, 1), SIX) for share in (0.0, 1.0))
    assert none.seen.lab == pytest.approx(none.pigmented.lab)
    assert every.seen.lab == pytest.approx(every.white.lab)


def test_colour_does_not_lift_colour() -> None:
    """Common practice: a lighter tint on coloured lengths lightens the new growth only."""
    goal = Shade(8, "neutral")
    coloured = HairState(6, 0.0, (OldColour(5, "neutral", 4, 10),))
    before = predict(coloured, None, goal)
    after = predict(coloured, Treatment(goal, 3), goal)
    roots = predict(HairState(6), Treatment(goal, 3), goal)
    assert after.lift == 0
    assert light(after) <= light(before)
    assert light(roots) > light(after) + 3
    line = border(roots, after)
    assert line.visible
    assert line.darker == "second"
    assert said.NO_LIFT_THROUGH_COLOUR in after.weaknesses
    assert said.NO_LIFT_THROUGH_COLOUR not in roots.weaknesses


def test_refreshing_faded_colour_brings_it_back_and_builds_up_a_little() -> None:
    fresh = predict(HairState(6, 0, (OldColour(6, "copper red", 0, 0),)), None, SIX)
    faded_hair = HairState(6, 0, (OldColour(6, "copper red", 10, 30),))
    faded = predict(faded_hair, None, SIX)
    again = predict(faded_hair, Treatment(SIX, 0), SIX)
    assert light(faded) > light(fresh) + 0.5
    assert light(fresh) - 1.5 < light(again) < light(fresh)
    assert float(ciede2000(again.seen.lab, fresh.seen.lab)) < 1.5


def test_a_diluted_refresh_does_less() -> None:
    hair = HairState(6, 0.2, (OldColour(6, "copper red", 20, 60),))
    before, half, full = (
        predict(hair, t, SIX) for t in (None, Treatment(SIX, 0, 0.4), Treatment(SIX, 0, 1.0))
    )
    assert light(before) > light(half) > light(full)


def test_lightening_without_dye() -> None:
    hair = HairState(4)
    p = predict(hair, Treatment(Shade(10, "neutral"), 3, 0.0), Shade(7, "neutral"))
    assert p.lift == 3
    assert p.seen.depth == 7
    assert p.seen.tone == "gold"  # warm, as lifted hair is
    again = predict(HairState(4, lightened_levels=3), None, Shade(7, "neutral"))
    assert again.seen.lab == pytest.approx(p.seen.lab)


def test_porous_hair_takes_more() -> None:
    low, normal, high = (predict(HairState(7, 0, (), 0, p), Treatment(SIX, 1), SIX) for p in POROSITIES)
    assert light(low) > light(normal) > light(high)


def test_weaknesses_are_said_where_they_apply_and_only_there() -> None:
    dark = predict(HairState(2), Treatment(Shade(2, "neutral"), 1), SIX)
    assert dark.weaknesses == (said.UNMEASURED,)
    assert predict(HairState(2), None, SIX).weaknesses == ()
    assert said.UNMEASURED in predict(HairState(7), None, SIX).weaknesses
    assert said.STRONGLY_LIFTED in predict(HairState(3, lightened_levels=3.5), None, SIX).weaknesses
    assert said.STRONGLY_LIFTED not in predict(HairState(3, lightened_levels=3), None, SIX).weaknesses
    vivid = Treatment(Shade(6, "red"), 1)
    assert said.VIVID_ON_WHITE in predict(HairState(6, 0.5), vivid, SIX).weaknesses
    assert said.VIVID_ON_WHITE not in predict(HairState(6, 0.0), vivid, SIX).weaknesses
    plain = Treatment(Shade(6, "neutral"), 1)
    assert said.VIVID_ON_WHITE not in predict(HairState(6, 0.5), plain, SIX).weaknesses
    mixed = Treatment(Shade(6, "neutral"), 1, 1.0, ((Shade(6, "red"), 0.25),))
    assert said.VIVID_ON_WHITE in predict(HairState(6, 0.5), mixed, SIX).weaknesses


def test_a_line_shows_from_its_threshold_on() -> None:
    one = predict(HairState(6), None, SIX)
    same = border(one, one)
    assert (same.difference, same.visible, same.darker, same.levels) == (0, False, "neither", 0)
    near, far = (predict(HairState(depth), None, SIX) for depth in (6.5, 7))
    assert not border(one, predict(HairState(6, 0.05), None, SIX)).visible
    assert border(one, far).difference > VISIBLE_LINE
    assert border(one, far).darker == "first"
    assert border(far, one).darker == "second"
    assert border(one, near).levels == pytest.approx(0.5, abs=0.01)


def test_wrong_values_are_refused() -> None:
    for wrong in (
        lambda: HairState(0),
        lambda: HairState(11),
        lambda: HairState(float("nan")),
        lambda: HairState(5, 1.1),
        lambda: HairState(5, porosity="medium"),
        lambda: OldColour(5, "red", -1, 0),
        lambda: Treatment(SIX, -1),
        lambda: Treatment(SIX, 1, 1.5),
        lambda: Treatment(SIX, 1, 1.0, ((SIX, 0.6), (SIX, 0.6))),
        lambda: Uncertainty().times(-1),
    ):
        with pytest.raises(ValueError, match=r".+"):
            wrong()


def test_inputs_and_results_need_no_numpy() -> None:
    """The start-up path imports the plain values; numpy must not come with them."""
    code = (
        "import sys, consult.colour, consult.colour.values, consult.colour.undertone; "
        "raise SystemExit('numpy' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_colour_put_on_again_and_again_hardly_builds_up() -> None:
    """Colour saturates with the first cycle (hair-colour-dyeing-thermal); a second adds little."""
    once = predict(HairState(6, 0, (OldColour(6, "copper red", 1, 3),)), None, SIX)
    layers = tuple(OldColour(6, "copper red", weeks, weeks * 3) for weeks in (1, 9, 17))
    thrice = predict(HairState(6, 0, (*layers,)), None, SIX)
    assert light(thrice) < light(once) + 1e-9
    assert float(ciede2000(once.seen.lab, thrice.seen.lab)) < 1.5
    assert predict(HairState(6, 0, layers[::-1]), None, SIX) == thrice  # the order of telling does not matter


def test_a_trace_of_old_pale_colour_is_as_good_as_none() -> None:
    """Ten years and thousands of washes on, nothing tells the hair from hair that was never coloured."""
    worn = HairState(6, 0, (OldColour(9, "neutral", 520, 1500),))
    never = HairState(6)
    assert predict(worn, None, SIX).seen.lab == pytest.approx(predict(never, None, SIX).seen.lab, abs=0.1)
    lifts = [predict(hair, Treatment(Shade(8, "neutral"), 2), SIX).lift for hair in (worn, never)]
    assert lifts[0] == pytest.approx(lifts[1], abs=0.05)


def test_the_more_old_colour_the_less_lift_and_no_jump() -> None:
    weeks = np.linspace(0, 700, 141)
    lifts = [
        predict(
            HairState(6, 0, (OldColour(6, "neutral", w, 3 * w),)), Treatment(Shade(8, "neutral"), 2), SIX
        ).lift
        for w in weeks
    ]
    assert lifts[0] == 0
    assert lifts[-1] > 1.9
    assert (np.diff(lifts) >= 0).all()
    assert np.diff(lifts).max() < 0.5  # five weeks and fifteen washes a step


def test_the_lift_itself_is_doubly_unsure_beyond_three_levels() -> None:
    only_lift = Uncertainty(0, 0, 0, 0.5, 0, 0, 0)
    at, beyond = (predict(HairState(3, 0, (), n), None, SIX, only_lift).spread for n in (3.0, 3.01))
    assert beyond.difference > 1.5 * at.difference
    untouched = predict(HairState(3), None, SIX, only_lift).spread
    assert untouched.difference == 0


def test_room_is_what_was_left_on_the_day_not_what_is_left_now() -> None:
    """Two colourings a wash apart, long ago: the second found the hair full, however faded both are today."""
    one = hair_of(HairState(6, 0, (OldColour(6, "copper red", 19, 59),))).old
    two = hair_of(
        HairState(6, 0, (OldColour(6, "copper red", 19, 59), OldColour(6, "copper red", 20, 60)))
    ).old
    assert 1.0 < float(amount(two) / amount(one)) < 1.3
