"""Many at once say what each says alone, and what the screen shows."""

import numpy as np
import pytest

from consult.colour.cie import hex_colours, lab_from_xyz, srgb, xyz, xyz_from_lab
from consult.colour.dyes import amount
from consult.colour.hair import hair_of
from consult.colour.prediction import (
    NO_LIFT_THROUGH_COLOUR,
    UNMEASURED,
    VIVID_ON_WHITE,
    predict,
    predict_all,
)
from consult.colour.search import Candidates, _ties, search
from consult.colour.values import HairState, OldColour, Shade, Treatment
from tests.colour.optics import lch

GOAL = Shade(6, "copper red")
CASES = [
    (HairState(6, 0.3), Treatment(GOAL, 1)),
    (HairState(3), None),
    (HairState(5, 1.0, (OldColour(4, "red", 6, 18),)), Treatment(Shade(7, "ash"), 2, 0.5)),
    (HairState(9), Treatment(Shade(10, "violet"), 3)),
]


def test_predictions_of_a_whole_head_are_those_of_its_stretches() -> None:
    for one, (hair, treatment) in zip(predict_all(CASES, GOAL), CASES, strict=True):
        alone = predict(hair, treatment, GOAL)
        for mine, other in (
            (one.pigmented, alone.pigmented), (one.white, alone.white), (one.seen, alone.seen),
            (one.spread.low, alone.spread.low), (one.spread.high, alone.spread.high),
        ):  # fmt: skip
            assert mine.lab == pytest.approx(other.lab)
            assert (mine.hex, mine.depth, mine.tone, mine.in_gamut) == (
                other.hex, other.depth, other.tone, other.in_gamut,
            )  # fmt: skip
        assert (one.lift, one.weaknesses, one.spread.words) == (
            alone.lift,
            alone.weaknesses,
            alone.spread.words,
        )
        assert one.to_goal == pytest.approx(alone.to_goal)
        assert one.spread.levels == pytest.approx(alone.spread.levels)
    assert predict_all([], GOAL) == []


class TestOnTheScreen:
    """sRGB (iec-61966-2-1): primaries, grey and white by the published figures."""

    @pytest.mark.parametrize(
        ("colour", "shown"),
        [
            ((100, 0, 0), "#ffffff"), ((0, 0, 0), "#000000"), ((53.585, 0, 0), "#808080"),
            ((53.24, 80.09, 67.20), "#ff0000"), ((87.73, -86.18, 83.18), "#00ff00"),
            ((32.30, 79.19, -107.86), "#0000ff"), ((2.74, 0, 0), "#0a0a0a"),
        ],
    )  # fmt: skip
    def test_published_pairs(self, colour: tuple[float, float, float], shown: str) -> None:
        """CIELAB of the primaries under D65, as published to two decimals."""
        found = srgb(np.array(colour))
        rgb = [round(float(v) * 255) for v in found.rgb]
        wanted = [int(shown[i : i + 2], 16) for i in (1, 3, 5)]
        assert rgb == [pytest.approx(v, abs=1) for v in wanted]

    def test_colours_side_by_side_do_not_touch_one_another(self) -> None:
        """One the screen can show, one it cannot."""
        both = np.array([(50.0, 20.0, 20.0), (50.0, 150.0, 0.0)])
        found = srgb(both)
        assert list(found.in_gamut) == [True, False]
        for i in range(2):
            np.testing.assert_allclose(found.rgb[i], srgb(both[i]).rgb, atol=1e-12)

    def test_out_of_reach_it_keeps_lightness_and_hue_and_the_most_chroma(self) -> None:
        wanted = np.array((50.0, 150.0, 20.0))
        rgb = srgb(wanted).rgb
        assert rgb.max() == pytest.approx(1, abs=1e-3) or rgb.min() == pytest.approx(0, abs=1e-3)
        nearer = wanted * (1, 0.4, 0.4)
        assert bool(srgb(nearer).in_gamut)
        assert rgb[0] > srgb(nearer).rgb[0]

    def test_lighter_than_white_is_white_and_darker_than_black_is_black(self) -> None:
        assert hex_colours(srgb(np.array([(120.0, 0, 0)])).rgb) == ["#ffffff"]
        assert hex_colours(srgb(np.array([(-5.0, 0, 0)])).rgb) == ["#000000"]

    @pytest.mark.parametrize("wrong", [(0.5, 0.5), (1.01, 0, 0), (-0.01, 0, 0)])
    def test_nothing_is_clipped_on_the_way_to_a_code(self, wrong: tuple[float, ...]) -> None:
        with pytest.raises(ValueError, match="between 0 and 1"):
            hex_colours([wrong])
        assert hex_colours([(0, 1, 0.5)]) == ["#00ff80"]

    def test_a_swatch_is_hair_in_good_light_without_its_shine(self) -> None:
        """Assumptions: 2.4 per cent of shine left out, the rest shown 1.8 times as light; white hair is about 0.9."""
        white = predict(HairState(6, 1.0), None, GOAL).white
        shown = [int(white.hex[i : i + 2], 16) for i in (1, 3, 5)]
        y = ((white.lab[0] + 16) / 116) ** 3
        wanted = 1.8 * (y - 0.024)
        linear = [((v / 255 + 0.055) / 1.055) ** 2.4 for v in shown]
        assert np.dot((0.2126, 0.7152, 0.0722), linear) == pytest.approx(wanted, abs=0.01)
        black = predict(HairState(1), None, GOAL).seen.hex
        assert all(int(black[i : i + 2], 16) < 40 for i in (1, 3, 5))  # black, not slate


class TestColourSpaces:
    @pytest.mark.parametrize("colour", [(50, 20, -30), (5, 1, 1), (0.5, 0.1, 0.2), (8.1, 0, 0), (7.9, 0, 0)])
    def test_there_and_back_also_in_the_dark(self, colour: tuple[float, float, float]) -> None:
        white = np.array((0.95047, 1.0, 1.08883))
        np.testing.assert_allclose(lab_from_xyz(xyz_from_lab(colour, white), white), colour, atol=1e-9)

    def test_the_straight_foot_by_hand(self) -> None:
        """CIE 15: under Y 0.008856 L* is 903.3 x Y."""
        white = np.ones(3)
        assert lab_from_xyz((0.005, 0.005, 0.005), white)[0] == pytest.approx(903.296 * 0.005, abs=1e-4)
        assert lab_from_xyz((0.125, 0.125, 0.125), white)[0] == pytest.approx(116 / 2 - 16)

    def test_hue_is_an_angle_from_red_over_yellow_green_and_blue(self) -> None:
        hues = [float(lch((50, a, b))[2]) for a, b in ((10, 0), (0, 10), (-10, 0), (0, -10), (10, -10))]
        assert hues == [0, 90, 180, 270, 315]
        assert float(lch((50, 3, 4))[1]) == 5

    def test_a_spectrum_has_31_samples(self) -> None:
        for count in (30, 32):
            with pytest.raises(ValueError, match="31 samples"):
                xyz(np.ones(count))


class TestSearch:
    def one(self, count: int, **columns: float) -> Candidates:
        values = {"share": 0.25, "lift": 1.0, "uptake": 0.8} | columns
        return Candidates(
            (GOAL, Shade(8.3, "ash")), np.zeros(count, int), np.ones(count, int),
            *(np.full(count, values[name]) for name in ("share", "lift", "uptake")),
        )  # fmt: skip

    @pytest.mark.parametrize("lift", [0.0, 1.03, 1.337, 2.49, 9.99, 10.0])
    def test_any_lift_is_the_lift_of_a_prediction(self, lift: float) -> None:
        """Also between the twentieths of a level that are made ready."""
        hair = HairState(3.3, 0.2)
        found = search(self.one(1, lift=lift, share=1.0), [hair], GOAL)
        alone = predict(hair, Treatment(Shade(8.3, "ash"), lift, 0.8), GOAL)
        assert found.worst[0] == pytest.approx(alone.to_goal, abs=0.01)

    def test_a_ranking_falls_into_as_many_groups_as_there_are_steps(self) -> None:
        worst = np.array([0.0, 2.5, 2.6, 5.0, 5.2, 9.0])
        assert [list(group) for group in _ties(np.arange(6), worst, 2.5)] == [[0, 1], [2, 3], [4], [5]]

    def test_ends_of_the_scale_are_allowed_and_beyond_is_not(self) -> None:
        for columns in ({"share": 0.0}, {"share": 1.0}, {"uptake": 0.0}, {"uptake": 1.0}, {"lift": 10.0}):
            assert len(self.one(2, **columns)) == 2
        for wrong in (
            {"share": -0.01},
            {"share": 1.01},
            {"uptake": -0.01},
            {"uptake": 1.01},
            {"lift": 10.1},
            {"lift": -0.1},
        ):
            with pytest.raises(ValueError, match="between 0 and"):
                self.one(2, **wrong)

    def test_a_shade_that_is_not_on_the_list(self) -> None:
        good = self.one(2)
        for first in (np.array([0, 2]), np.array([-1, 0])):
            with pytest.raises(ValueError, match="not in the list"):
                Candidates(good.shades, first, good.second, good.share, good.lift, good.uptake)
            with pytest.raises(ValueError, match="not in the list"):
                Candidates(good.shades, good.first, first, good.share, good.lift, good.uptake)

    def test_no_candidates_no_groups(self) -> None:
        found = search(self.one(0), [HairState(6)], GOAL)
        assert found.groups == ()
        assert len(found.order) == 0


class TestWhatIsSaidBeside:
    """Warnings begin exactly where their reason does."""

    def said(self, hair: HairState, treatment: Treatment | None) -> tuple[str, ...]:
        return predict(hair, treatment, GOAL).weaknesses

    def test_any_developer_that_could_lift_does_not_lift_colour(self) -> None:
        coloured = HairState(6, 0, (OldColour(5, "neutral", 4, 10),))
        assert NO_LIFT_THROUGH_COLOUR in self.said(coloured, Treatment(GOAL, 0.5))
        assert NO_LIFT_THROUGH_COLOUR not in self.said(coloured, Treatment(GOAL, 0))

    def test_a_tenth_white_is_enough_for_a_vivid_tone_to_show(self) -> None:
        red = Treatment(Shade(6, "red"), 1)
        assert VIVID_ON_WHITE in self.said(HairState(6, 0.1), red)
        assert VIVID_ON_WHITE not in self.said(HairState(6, 0.09), red)
        assert VIVID_ON_WHITE not in self.said(HairState(6, 0.5), Treatment(Shade(6, "red"), 1, 0.0))

    def test_what_was_measured_ends_with_natural_dark_blonde(self) -> None:
        """vrhel-hair: the lightest sample is L* 39.1. Natural depth 6 is L* 37, depth 6.5 is 40."""
        assert UNMEASURED not in self.said(HairState(6), None)
        assert UNMEASURED in self.said(HairState(6.5), None)
        assert UNMEASURED in self.said(HairState(3), Treatment(GOAL, 1))


class TestOldColourUnderNew:
    """Each colouring went into what room the earlier ones had left on its day."""

    RED = OldColour(5, "red", 6, 18)

    def test_a_day_after_the_first_only_a_quarter_goes_in(self) -> None:
        """A full head still exchanges a little: a quarter (assumption)."""
        once = hair_of(HairState(6, 0, (OldColour(5, "red", 0, 0),))).old
        twice = hair_of(HairState(6, 0, (OldColour(5, "red", 0, 0), OldColour(5, "red", 0, 0)))).old
        np.testing.assert_allclose(twice, 1.25 * once)

    def test_porous_hair_holds_more_at_first_and_less_later(self) -> None:
        def held(porosity: str, weeks: float) -> tuple[float, float]:
            """In the white hairs, and in the pigmented ones."""
            red = OldColour(5, "red", weeks, 3 * weeks)
            hair = hair_of(HairState(6, 0, (red,), 0, porosity))  # type: ignore[arg-type]
            return float(amount(hair.old_white)), float(amount(hair.old))

        (porous, porous_own), (normal, normal_own) = held("high", 0), held("normal", 0)
        assert porous == pytest.approx(1.15 * normal)
        assert (
            porous_own > 1.15 * normal_own
        )  # as a darker shade: where less of the dye shows, more of it is added
        assert all(a < b for a, b in zip(held("high", 30), held("normal", 30), strict=True))

    def test_coloured_hair_was_lifted_once_unless_it_was_lightened_more(self) -> None:
        assert hair_of(HairState(5)).level == 5
        fresh = hair_of(HairState(5, 0, (OldColour(5, "red", 0, 0),)))
        assert fresh.level == pytest.approx(6, abs=0.05)
        assert 5.8 < hair_of(HairState(5, 0, (self.RED,))).level < fresh.level
        assert hair_of(HairState(5, 0, (self.RED,), 3.0)).level == 8


@pytest.mark.parametrize("beyond", [-0.01, 1.01])
def test_a_share_is_no_less_than_nothing_and_no_more_than_all(beyond: float) -> None:
    for wrong in (
        lambda: Treatment(GOAL, 1, beyond),
        lambda: Treatment(GOAL, 1, 1.0, ((GOAL, beyond),)),
        lambda: HairState(6, beyond),
    ):
        with pytest.raises(ValueError, match="must lie between 0 and 1"):
            wrong()
    assert Treatment(GOAL, 0, 0.0, ((GOAL, 1.0),)).share == 0
