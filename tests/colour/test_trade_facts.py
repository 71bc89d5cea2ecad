"""What every colourist is taught about colour, as facts the predictions must agree with.

All of these are common practice: taught alike in several places, or plain reasoning from such teaching.
In cases of lift only direction, order and size are held, never one shade number.
"""

import numpy as np
import pytest

from consult.colour.apparent import apparent_lightness
from consult.colour.cie import lab
from consult.colour.difference import ciede2000
from consult.colour.fibre import reflectance
from consult.colour.neutralise import MOST_SHARE, Neutraliser, neutralise, objections
from consult.colour.pigment import depth_seen, lifted, natural_lab
from consult.colour.prediction import predict
from consult.colour.undertone import OPPOSITE, undertone
from consult.colour.values import HairState, OldColour, Shade, Treatment
from consult.products.kinds import DEMI_DEPOSIT, HIGH_LIFT_DEPOSIT
from consult.trade import POROSITIES, TONES, Tone
from tests.colour.optics import corrector, lch, on_white

SIX = Shade(6, "neutral")
DEMI, HIGH_LIFT = float(DEMI_DEPOSIT), float(HIGH_LIFT_DEPOSIT)


def test_opposites_cancel_and_are_mutual() -> None:
    assert (OPPOSITE["red"], OPPOSITE["orange"], OPPOSITE["yellow"]) == ("green", "blue", "violet")
    assert all(OPPOSITE[OPPOSITE[hue]] == hue for hue in OPPOSITE)


def cure(natural: float, depth: float, lift: float, family: Tone | None = None) -> Neutraliser:
    """What is advised for natural hair under a neutral shade of a depth."""
    return neutralise(HairState(natural), Treatment(Shade(depth, "neutral"), lift), family)


def test_unwanted_orange_is_cancelled_by_blue() -> None:
    assert undertone(6).hue == "orange"
    assert cure(4, 6, 2).undertone.against == "blue"
    orange = lifted(3, 3)
    before, after = lch(lab(reflectance(orange))), lch(lab(reflectance(orange + corrector("blue", 0.1))))
    assert after[1] < 0.8 * before[1]


def test_unwanted_red_at_level_four_is_cancelled_by_green() -> None:
    answer = cure(2, 4, 2)
    assert answer.undertone.hue == "red"
    assert answer.undertone.against == "green"
    assert answer.shade == Shade(4, "matt")
    red = lifted(1, 3)
    before = lab(reflectance(red))
    after = lab(reflectance(red + corrector("green", 0.15)))
    assert after[1] < before[1]


def warmth(state: HairState, treatment: Treatment) -> float:
    """How far to the red and yellow side of natural hair as light."""
    seen = predict(state, treatment, treatment.shade).seen
    natural = natural_lab(depth_seen(seen.lab))
    return float(np.hypot(*seen.lab[1:]) - np.hypot(*natural[1:]))


@pytest.mark.parametrize(
    ("level", "family"), [(9, "violet"), (9.5, "violet"), (6, "ash"), (5, "ash"), (4, "matt"), (3, "matt")]
)
def test_every_bit_more_of_the_opposite_takes_more_warmth(level: float, family: Tone) -> None:
    """Violet on yellow, blue on orange, green on red: as much is cancelled as is put in."""
    hair = HairState(max(level - 4, 1), lightened_levels=min(4, level - 1))
    neutral = Shade(level, "neutral")
    left = [
        warmth(hair, Treatment(neutral, 0, 1.0, ((Shade(level, family), share),)))
        for share in np.linspace(0, 1, 9)
    ]
    assert (np.diff(left) < 0).all()
    assert left[0] - left[4] == pytest.approx(left[4] - left[8], rel=0.5)  # about evenly


@pytest.mark.parametrize("lift", [2, 3, 4, 5])
@pytest.mark.parametrize("level", [9, 9.5, 10])
def test_ash_itself_over_yellow_shows_green(level: float, lift: float) -> None:
    """Blue on yellow turns green, in the numbers: as green as red at most, and past natural hair; violet does not."""
    hair = HairState(level - lift, lightened_levels=lift)
    ash, violet = (predict(hair, Treatment(Shade(level, t), 0), SIX).seen for t in ("ash", "violet"))
    assert ash.lab[1] < 1.0
    assert lch(ash.lab)[2] > 88
    assert lch(violet.lab)[2] < 84


def test_pale_blue_on_yellow_turns_green_and_is_refused() -> None:
    rejected = objections("ash", 9)
    assert [o.weight for o in rejected] == ["reject"]
    assert rejected[0].instead == "violet"
    yellow = lifted(5, 4)
    blue = lch(lab(reflectance(yellow + corrector("blue", 0.1))))
    violet = lch(lab(reflectance(yellow + corrector("violet", 0.1))))
    assert 95 < blue[2] < 180  # green
    assert violet[2] < 90
    assert violet[1] < lch(lab(reflectance(yellow)))[1]


def test_blue_is_welcome_where_hair_is_orange() -> None:
    assert objections("ash", 6) == ()
    assert objections("violet", 9) == ()


def test_ash_on_ash_turns_dull() -> None:
    said = objections("ash", 7, existing="ash")
    assert [o.weight for o in said] == ["caution"]
    assert "dull" in said[0].words
    assert objections("gold", 7, existing="ash") == ()
    ashed = Shade(7, "ash")
    once = predict(HairState(7), Treatment(ashed, 1), ashed).seen.lab
    twice = predict(HairState(7), Treatment(Shade(6, "ash"), 1), ashed).seen.lab
    assert np.hypot(*twice[1:]) < np.hypot(*once[1:])
    assert twice[0] < once[0]


def test_porous_hair_is_warned_of_cool_tones() -> None:
    assert any("Porous" in o.words for o in objections("ash", 6, porosity="high"))
    assert objections("gold", 6, porosity="high") == ()


def test_neutralising_is_done_at_the_target_depth_and_half_at_most() -> None:
    for depth in range(2, 11):
        for lift in (1, 2, 4):
            answer = cure(max(depth - lift, 1), depth, lift)
            assert 0 <= answer.share <= MOST_SHARE
            assert answer.shade.depth == depth
            assert answer.undertone.word in answer.words
    assert cure(6, 6, 1).share <= cure(3, 6, 4).share
    assert cure(3, 6, 4).share > 0.1


@pytest.mark.parametrize(
    ("natural", "depth", "lift"), [(6, 7, 2), (4, 4, 2), (6, 9, 4), (5, 8, 3), (3, 6, 3)]
)
def test_the_share_advised_is_the_best_there_is(natural: float, depth: float, lift: float) -> None:
    """Tried one by one with the prediction itself: no other share, up to half, comes nearer in tone."""
    state, neutral = HairState(natural), Shade(depth, "neutral")
    advised = cure(natural, depth, lift)
    plain = predict(state, Treatment(neutral, lift), neutral).seen
    goal = Shade(float(np.clip(depth_seen(plain.lab), 1, 10)), "neutral")

    def off(share: float) -> float:
        mixed = Treatment(neutral, lift, 1.0, ((advised.shade, share),))
        return predict(state, mixed, goal).to_goal

    assert off(advised.share) <= min(off(share) for share in np.linspace(0, 0.5, 26)) + 0.05
    assert off(advised.share) < off(0)


@pytest.mark.parametrize(("natural", "depth"), [(3, 6), (4, 7), (5, 8), (6, 9), (4, 8), (6, 10)])
def test_half_on_hair_lifted_by_three_levels_and_more_leaves_it_warm_and_says_so(
    natural: int, depth: int
) -> None:
    """Common practice: equal parts of neutral and opposite are the most one mixes; strong lift stays warm all the same
    (a colour of the highest depth on natural 5 gives a warm 7 to 8 at best), and half never turns it past natural."""
    shade = Shade(depth, "neutral")
    advised = cure(natural, depth, 4)
    assert advised.share == MOST_SHARE
    assert advised.words.endswith("half of the colour, not more, and some warmth stays")
    mixed = Treatment(shade, 4, 1.0, ((advised.shade, advised.share),))
    plain = warmth(HairState(natural), Treatment(shade, 4))
    assert 1 < warmth(HairState(natural), mixed) < plain - 1
    seen = predict(HairState(natural), mixed, shade).seen.lab
    assert abs(lch(seen)[2] - lch(natural_lab(depth_seen(seen)))[2]) < 5


def test_hair_lifted_by_a_level_or_two_wants_less_than_half() -> None:
    for natural, depth in ((4, 5), (5, 6), (6, 7)):
        advised = cure(natural, depth, 2)
        assert 0.25 < advised.share < MOST_SHARE
        assert "stays" not in advised.words


def test_shares_differ_from_head_to_head() -> None:
    found = {round(cure(n, d, d - n + 1).share, 2) for n in range(3, 9) for d in range(n, 10)}
    assert len(found) > 6


def test_undertone_words_run_from_red_to_pale_yellow() -> None:
    words = [undertone(level).word for level in range(1, 11)]
    assert words[0].endswith("red")
    assert words[5] == "orange"
    assert words[-2:] == ["yellow", "pale yellow"]
    assert undertone(6.5) == undertone(6)  # half a level still shows the warmer stage
    with pytest.raises(ValueError, match="between 1 and 10"):
        undertone(0.5)


def test_a_shade_between_two_depths_meets_about_in_the_middle() -> None:
    """Taught as an averaging rule: shade 6 on natural 2 gives about 4. An estimate, a level either way."""
    shade = Shade(6, "neutral")
    result = predict(HairState(2), Treatment(shade, 2), shade).seen.lab
    assert float(depth_seen(result)) == pytest.approx(4, abs=0.5)


def test_same_level_as_the_unwhite_hair_covers_evenly() -> None:
    """Natural 7, half white, shade 7: all of it 7. And natural 4, half white, shade 4."""
    for depth in (7, 4):
        shade = Shade(depth, "neutral")
        p = predict(HairState(depth, 0.5), Treatment(shade, 2), shade)
        assert p.seen.depth == depth
        assert float(depth_seen(p.pigmented.lab)) == pytest.approx(depth, abs=0.1)
        assert float(depth_seen(p.white.lab)) == pytest.approx(depth, abs=0.1)


def test_a_light_shade_on_dark_hair_with_white_splits() -> None:
    """Natural 3, half white, shade 7: the white becomes about 7, the rest about 5."""
    shade = Shade(7, "neutral")
    p = predict(HairState(3, 0.5), Treatment(shade, 2), shade)
    assert float(depth_seen(p.white.lab)) == pytest.approx(7, abs=0.1)
    assert float(depth_seen(p.pigmented.lab)) == pytest.approx(5, abs=0.5)


def test_a_dark_shade_with_a_strong_developer_stays_dark() -> None:
    shade = Shade(3, "neutral")
    p = predict(HairState(3), Treatment(shade, 4), shade)
    assert p.seen.depth <= 3


def test_red_alone_on_white_is_too_bright_and_a_neutral_calms_it() -> None:
    red = Shade(6, "red")
    alone = predict(HairState(5, 0.7), Treatment(red, 2), red).white.lab
    calmed = predict(HairState(5, 0.7), Treatment(red, 2, 1.0, ((Shade(6, "neutral"), 0.5),)), red).white.lab
    own_base = predict(HairState(5, 0.7), Treatment(red, 2), red).pigmented.lab
    assert np.hypot(*alone[1:]) > 1.25 * np.hypot(*own_base[1:])
    assert np.hypot(*calmed[1:]) < 0.8 * np.hypot(*alone[1:])


@pytest.mark.parametrize("tone", TONES)
def test_the_result_is_artificial_and_remaining_pigment_together(tone: str) -> None:
    """The same shade looks different on every base, and every base looks different under it."""
    shade = Shade(7, tone)
    on = [predict(HairState(depth), Treatment(shade, 1), shade).seen.lab for depth in (3, 5, 7, 9)]
    looks = apparent_lightness(on)
    assert looks[0] < looks[1] < looks[2]
    assert looks[3] == pytest.approx(looks[2], abs=1.2)  # hair lighter than the shade is brought down to it
    for depth, colour in zip((5, 7, 9), on[1:], strict=True):
        pigment_alone = predict(HairState(depth), Treatment(shade, 1, 0.0), shade).seen.lab
        assert float(ciede2000(pigment_alone, colour)) > 2


def test_ash_looks_as_dark_and_cooler_than_gold_at_the_same_level() -> None:
    ash, gold = (
        predict(HairState(6), Treatment(Shade(7, tone), 1), Shade(7, tone)).seen.lab
        for tone in ("ash", "gold")
    )
    looks = apparent_lightness([ash, gold])
    assert looks[0] == pytest.approx(looks[1], abs=0.5)
    assert np.hypot(*ash[1:]) < np.hypot(*gold[1:])


def test_gold_takes_the_matt_look_out_of_ash() -> None:
    """Ash brown wanted as a medium blonde without a dull matt result: gold goes into the mix."""
    hair, goal = HairState(6), Shade(7, "neutral")
    matt = predict(hair, Treatment(Shade(7, "ash"), 1), goal)
    warmed = predict(hair, Treatment(Shade(7, "ash"), 1, 1.0, ((Shade(7, "gold"), 0.5),)), goal)
    assert np.hypot(*warmed.seen.lab[1:]) > np.hypot(*matt.seen.lab[1:])


def test_the_family_against_an_undertone_carries_the_opposite_hue() -> None:
    carries = {"matt": "green", "ash": "blue", "violet": "violet", "pearl": "violet"}
    for level in range(1, 11):
        under = undertone(level)
        assert under.against == OPPOSITE[under.hue]
        assert carries[under.family] == under.against


@pytest.mark.parametrize(("family", "level"), [("matt", 4), ("ash", 6), ("violet", 9), ("pearl", 10)])
def test_each_family_pulls_its_undertone_towards_grey(family: str, level: int) -> None:
    neutral = Treatment(Shade(level, "neutral"), 0)
    cancelling = Treatment(Shade(level, "neutral"), 0, 1.0, ((Shade(level, family), 1 / 3),))
    hair = HairState(max(level - 4, 1), lightened_levels=min(4, level - 1))
    goal = Shade(level, "neutral")
    plain, mixed = (predict(hair, t, goal).seen.lab for t in (neutral, cancelling))
    assert np.hypot(*mixed[1:]) < np.hypot(*plain[1:])


@pytest.mark.parametrize("natural", [3, 5, 6])
def test_hair_lightened_to_ten_is_pale_yellow(natural: float) -> None:
    """From memory: lightened level 10 measures about L* 68 to 75, a* 0 to 3, b* 25 to 30; nearly white, no apricot."""
    light, a, b = predict(HairState(natural, lightened_levels=10 - natural), None, SIX).seen.lab
    assert 67 < light < 75
    assert -1 < a < 4
    assert 22 < b < 31


def test_hair_lightened_to_eight_is_gold() -> None:
    """From memory: lightened level 8 measures about L* 49 to 55, a* 9 to 12, b* 28 to 35."""
    light, a, b = predict(HairState(3, lightened_levels=5), None, SIX).seen.lab
    assert 47 < light < 55
    assert 8 < a < 13
    assert 28 < b < 35


def test_lightening_warms_brown_hair_by_about_half_as_much_again() -> None:
    """Common practice: what lightening exposes is warmer than hair born as light, the darker the start the more."""
    for start, level in ((3, 6), (3, 7), (4, 7)):
        seen = predict(HairState(start, lightened_levels=level - start), None, SIX).seen.lab
        born = predict(HairState(level), None, SIX).seen.lab
        assert 1.35 < np.hypot(*seen[1:]) / np.hypot(*born[1:]) < 1.9


def test_white_hair_is_a_light_straw_and_never_red() -> None:
    """From memory: undyed white hair measures about L* 70 to 76, b* 12 to 20, hardly any red."""
    light, a, b = predict(HairState(5, 1.0), None, SIX).seen.lab
    assert 70 < light < 77
    assert abs(a) < 2.5
    assert 12 < b < 20


def test_on_a_screen_white_hair_is_white_and_black_hair_black() -> None:
    """As an eye sees it in daylight: white hair nearly as light as paper, black hair darker than slate."""

    def shown(state: HairState) -> list[int]:
        code = predict(state, None, SIX).seen.hex
        return [int(code[i : i + 2], 16) for i in (1, 3, 5)]

    assert min(shown(HairState(5, 1.0))[:2]) > 225
    assert max(shown(HairState(1))) < 40
    assert max(shown(HairState(2))) < 60
    blonde = shown(HairState(10))
    assert blonde[0] > 195
    assert blonde[0] - blonde[2] > 55  # sandy, not grey


def test_families_keep_their_hues_on_white_hair() -> None:
    """Hue angles that the words stand for (common practice): red, copper and gold in turn, violet blue of red."""
    hue = {tone: float(lch(lab(reflectance(on_white(Shade(7, tone)))))[2]) for tone in TONES}
    assert 60 < hue["gold"] < 75
    assert 42 < hue["copper"] < 60
    assert hue["copper"] - 12 < hue["copper red"] < hue["copper"]
    assert 25 < hue["red"] < 42
    assert hue["mahogany"] < hue["red"]
    assert 110 < hue["matt"] < 150
    assert 300 < hue["violet"] < 345
    assert 130 < hue["ash"] < 230


@pytest.mark.parametrize("state", [HairState(8), HairState(8, 1.0), HairState(4, lightened_levels=5)])
def test_a_light_red_is_a_coppery_strawberry_and_no_salmon(state: HairState) -> None:
    """Common practice: a red at 8 is warm on every base, as yellow as it is red (hue near 45), and never pink."""
    shade = Shade(8, "red")
    _, a, b = predict(state, Treatment(shade, 0 if state.lightened_levels else 2), shade).seen.lab
    assert 40 < lch((0, a, b))[2] < 56
    assert a > 17
    assert b > 24


def test_a_deep_red_is_red_and_the_reds_keep_their_order() -> None:
    """Common practice: at 6 a red on white is red, no copper; lighter the family turns coppery and its order stays."""
    hues = {
        tone: [float(lch(lab(reflectance(on_white(Shade(d, tone)))))[2]) for d in (6, 7, 8, 9, 10)]
        for tone in ("red", "copper red", "copper", "gold")
    }
    assert 24 < hues["red"][0] < 35
    assert all((np.diff(row) > 0).all() for row in hues.values())
    assert (np.diff(list(hues.values()), axis=0) > 1.5).all()


@pytest.mark.parametrize("tone", TONES)
def test_porous_hair_comes_out_darker_and_resistant_hair_lighter_by_a_quarter_to_a_whole_level(
    tone: Tone,
) -> None:
    """Common practice: visible, and never two levels."""
    shade = Shade(6, tone)
    depths = [
        float(depth_seen(predict(HairState(6, 1.0, (), 0.0, p), Treatment(shade, 1), shade).seen.lab))
        for p in POROSITIES
    ]
    assert 0.15 < depths[0] - depths[1] < 1
    assert 0.15 < depths[1] - depths[2] < 1


def test_colour_over_the_same_colour_builds_up_with_every_pass() -> None:
    """Common practice: lengths that are coloured every time go darker, visibly by the third time, not by levels."""
    hair, shade = HairState(6), Shade(6, "neutral")
    layers: tuple[OldColour, ...] = ()
    lights = []
    for _ in range(4):
        layers = (*layers, OldColour(6, "neutral", 0, 0))
        lights.append(float(depth_seen(predict(HairState(6, 0, layers), None, shade).seen.lab)))
    assert (np.diff(lights) < -0.02).all()
    assert 0.25 < lights[0] - lights[3] < 1.5
    assert lights[0] == pytest.approx(hair.natural_depth, abs=0.25)


def test_a_demi_on_white_is_translucent_and_on_its_own_depth_a_little_deeper() -> None:
    """Common practice: a demi-permanent lifts nothing; white hair shows through it a level lighter at most."""
    shade = Shade(6, "neutral")
    white = predict(HairState(6, 1.0), Treatment(shade, 0, DEMI), shade).seen
    own = predict(HairState(6), Treatment(shade, 0, DEMI), shade).seen
    assert 0.2 < float(depth_seen(white.lab)) - 6 <= 1
    assert 0.2 < 6 - float(depth_seen(own.lab)) <= 1


def test_high_lift_leaves_natural_hair_lighter_than_any_other_shade_and_warm() -> None:
    """Common practice: four levels at most, and warm: natural 6 comes to a golden 9 to 10, never paler than hair born
    10, natural 4 to a gold under 8. The highest depth in the strongest developer brings natural 5 to a warm 7 to 8 at
    best, read to half a level."""
    shade = Shade(10, "ash")
    for natural, deepest, lightest in ((6, 8.5, 10), (5, 7.5, 9), (4, 6.5, 8)):
        seen = predict(HairState(natural), Treatment(shade, 4, HIGH_LIFT), shade).seen
        assert deepest < float(depth_seen(seen.lab)) < lightest
        assert seen.tone == "gold"
        assert warmth(HairState(natural), Treatment(shade, 4, HIGH_LIFT)) > 5
    highest = predict(HairState(5), Treatment(Shade(10, "neutral"), 4), shade).seen
    assert 7 <= float(depth_seen(highest.lab)) <= 8.5
    assert highest.tone == "gold"
    high, ordinary = (
        predict(HairState(6), Treatment(Shade(depth, "ash"), 4, uptake), shade).seen.lab
        for depth, uptake in ((10, HIGH_LIFT), (10, 1.0))
    )
    assert depth_seen(high) > depth_seen(ordinary)


def test_white_hairs_among_natural_ones_are_called_no_tone() -> None:
    """Common practice: white is told as a share, not as a tone."""
    for share in (0.1, 0.25, 0.5, 0.85, 1.0):
        assert predict(HairState(5, share), None, SIX).seen.tone == "neutral"
