"""Grams worked by hand for the demo heads. What is a free assumption says so, and what follows for a plan.

Ines: 110,000 hairs of 55 um, one length, 34 cm. Agnes: the same hair at 28 cm, almost white. Jonas: 22 cm.
"""

import math
from dataclasses import replace
from typing import Any

import pytest

from consult.plan.amounts import (
    Need,
    head_mass,
    mean_beyond,
    need_of,
    need_of_hair,
    target_mass,
    together,
)
from consult.plan.application import Target, Which
from consult.plan.bowls import write_recipes
from consult.plan.case import Case
from consult.plan.settings import Settings
from consult.plan.shopping import amount_lines, chance_words, rule_of_thumb
from consult.plan.writing import new_growth
from consult.trade import Stretch, Zone
from tests.plan.plans import made, said, with_bands

SQUARE_CM = math.pi * 0.0055**2 / 4  # of a fibre of 55 um
WHITE = ("front", "temples", "crown", "nape")


def needed(name: str, **changes: Any) -> list[int]:
    """Whole grams that each application of a plan is expected to take."""
    plan = made(name, **changes)
    return [round(need_of(plan.case, a).mean) for a in plan.applications]


def all_white(share: float) -> dict[str, float]:
    return {f"hair__white_{zone}": share for zone in WHITE}


def every(case: Case, *stretches: Stretch, **more: Any) -> float:
    return target_mass(case, Target(stretches or tuple(Stretch), **more))


class TestGramsOfHair:
    def test_a_shoulder_length_head_by_hand(self) -> None:
        """One length: the mean strand is 0.7 of the longest (assumption), so 23.8 of 34 cm."""
        assert head_mass(made("ines").case) == pytest.approx(110_000 * SQUARE_CM * 1.32 * 23.8, rel=1e-6)
        assert round(head_mass(made("ines").case)) == 82

    def test_layers_are_taken_as_0_85_of_the_longest_and_weigh_more(self) -> None:
        """Assumption: a one-length cut has its short strands at the nape, layers are about even from the scalp."""
        layers = made("ines", hair__cut="layers").case
        assert mean_beyond(layers, 0) == pytest.approx(28.9)
        assert round(head_mass(layers)) == 100

    @pytest.mark.parametrize(
        ("density", "thickness", "grams"),
        [("low", "fine", 67), ("high", "fine", 112), ("normal", "medium", 133), ("normal", "coarse", 174)],
    )
    def test_dense_and_thick_hair_by_hand(self, density: str, thickness: str, grams: int) -> None:
        """90, 110 or 150 thousand hairs; thickness counts by its square: 70 um is 1.62 times 55 um."""
        case = made("ines").case
        hair = replace(case.hair, density=density, thickness=thickness)  # type: ignore[arg-type]
        assert round(head_mass(replace(case, hair=hair))) == grams

    @pytest.mark.parametrize("cm", [0, 5, 13.6, 20, 23.8, 33])
    def test_beyond_a_distance_only_strands_that_reach_it_count(self, cm: float) -> None:
        """Strands spread evenly from 13.6 to 34 cm, added one by one."""
        lengths = [13.6 + 20.4 * (i + 0.5) / 20_000 for i in range(20_000)]
        beyond = sum(max(0.0, length - cm) for length in lengths) / len(lengths)
        assert mean_beyond(made("ines").case, cm) == pytest.approx(beyond, abs=1e-3)

    def test_nothing_lies_beyond_the_longest_strand(self) -> None:
        case = made("ines").case
        assert mean_beyond(case, 34) == 0
        assert mean_beyond(case, 40) == 0

    def test_the_stretches_of_a_head_add_up_to_all_of_it(self) -> None:
        case = made("ines").case
        parts = [every(case, stretch) for stretch in Stretch]
        assert sum(parts) == pytest.approx(every(case))
        assert every(case) == pytest.approx(head_mass(case))
        assert every(case, Stretch.SCALP) == pytest.approx(head_mass(case, 0, 1.5))
        assert round(head_mass(case, 0, 1.5)) == 5

    def test_a_zone_is_a_quarter_of_the_head(self) -> None:
        case = made("ines").case
        assert every(case, zones=(Zone.NAPE,)) == pytest.approx(head_mass(case) / 4)
        assert every(case, zones=(Zone.FRONT, Zone.CROWN)) == pytest.approx(head_mass(case) / 2)

    def test_of_white_hair_only_the_white_share_is_meant(self) -> None:
        """Ines is 60, 60, 25 and 15 % white: 40 % of her hair."""
        case = made("ines").case
        assert every(case, which=Which.WHITE) == pytest.approx(0.4 * head_mass(case))


class TestGramsOfMix:
    """1 to 2 g a gram of hair, mostly 1.5 (published), and 7 % that stays in bowl and brush (assumption)."""

    def test_sixty_grams_of_hair_take_ninety_and_what_sticks_to_the_brush(self) -> None:
        assert need_of_hair(60).mean == pytest.approx(60 * 1.5 + 6.3)

    def test_thinned_with_water_it_goes_further(self) -> None:
        """A quarter of a gram less (assumption): 1 to 1.5 g, mostly 1.25."""
        assert need_of_hair(60, thinned=True).mean == pytest.approx(60 * 1.25 + 5.25)

    def test_its_spread_is_that_of_its_inputs_together(self) -> None:
        """A triangle spreads by its half width over root six; 7, 6 and 7 % of the hair itself (assumption)."""
        for thinned, mode, half in ((False, 1.5, 0.5), (True, 1.25, 0.25)):
            need = need_of_hair(60, thinned=thinned)
            parts = (half / math.sqrt(6) / mode, 0.07, 0.06, 0.07)
            assert need.deviation / need.mean == pytest.approx(math.hypot(*parts))

    def test_needs_of_one_head_are_large_together(self) -> None:
        assert together([Need(40, 5), Need(100, 18)]) == Need(140, 23)

    def test_no_bowl_is_empty(self) -> None:
        """A gram of hair at least (assumption), however little is meant."""
        case = made("ines").case
        (roots, _) = made("ines").applications
        nothing = replace(roots, target=Target((Stretch.NEW_GROWTH,)))
        assert need_of(case, nothing).mean == pytest.approx(1.605)

    @pytest.mark.parametrize(("chance", "packs"), [(0.5, 1), (0.02, 2)])
    def test_a_pack_of_100_g_is_as_likely_too_little_as_too_much_for_a_need_of_just_over_100_g(
        self, chance: float, packs: int
    ) -> None:
        """A log-normal's middle lies under its mean: 101 with 20 around it is 99 at even odds."""
        assert Need(101, 20).packs(100, chance) == packs
        assert Need(1, 0.1).packs(100, chance) == 1


class TestWettingTheScalp:
    """Scalp and partings take 40 g, 60 g on dense or mostly white hair (common practice)."""

    @pytest.mark.parametrize(
        ("changes", "grams"),
        [
            ({}, 40),
            (all_white(49), 40),
            (all_white(50), 60),
            ({"hair__density": "high"}, 60),
            ({"hair__density": "low"}, 40),
        ],
    )
    def test_new_growth_by_class(self, changes: dict[str, Any], grams: int) -> None:
        assert needed("tomas", **changes) == [grams]

    def test_the_floor_is_sure_to_an_eighth(self) -> None:
        """Assumption. For Tomas it makes 40 g expected into 50.8 g, which are enough in 98 of 100."""
        plan = made("tomas")
        need = need_of(plan.case, plan.applications[0])
        assert need.quantile(0.02) == pytest.approx(50.8, abs=0.05)

    def test_hair_that_needs_more_than_its_scalp_gets_more(self) -> None:
        """68 g of hair take 109 g all over, far above the 60 g that wet the scalp."""
        assert needed("agnes") == [109]

    def test_lengths_have_no_scalp_to_wet(self) -> None:
        """A thinned refresh of 77 g of lengths: 103 g."""
        assert needed("ines") == [40, 103]

    def test_some_zones_take_their_quarter_of_the_floor(self) -> None:
        plan = made("tomas")
        front = Target(plan.applications[0].target.stretches, (Zone.FRONT,))
        assert need_of(plan.case, replace(plan.applications[0], target=front)).mean == pytest.approx(10)

    def test_developer_for_resistant_white_goes_by_the_white_hair(self) -> None:
        """87.5 % of Agnes' 68 g are white: 59 g of hair, 95 g of developer."""
        assert needed("agnes", hair__white_resists="yes")[0] == 95


class TestWhatIsBought:
    def test_jonas_by_hand(self) -> None:
        """78 g expected for lengths and 40 g for roots: 111 and 51 g are enough, so two tubes of 60 g."""
        plan = made("jonas")
        assert [(mix.colour_g, mix.developer_g) for mix in plan.mixes] == [(56, 56), (26, 26)]
        (purchase,) = plan.purchases
        assert purchase.pieces == (("depth 9 neutral", 2),)
        assert (purchase.developer_g, purchase.mix_g, purchase.expected_g) == (82, 164, 118)

    def test_two_bowls_share_what_is_needed(self) -> None:
        """Agnes: 109 g expected, 155 g are enough in 98 of 100: 77.5 g a bowl, 39 g of either part."""
        plan = made("agnes")
        assert [(mix.colour_g, mix.developer_g, mix.grams) for mix in plan.mixes] == [(39, 39, 78)] * 2

    def test_a_tube_makes_its_grams_and_its_developer(self) -> None:
        """60 g one to one are 120 g of mix: one tube is almost even odds for 118 g, two are surely enough."""
        one, two = made("jonas").purchases[0].run_out
        assert 0.35 < one < 0.5
        assert two < 0.001

    def test_a_price_is_told_for_all_packs(self) -> None:
        plan = made("jonas", product__price=7.5)
        assert plan.purchases[0].cost == 15
        assert "Together 15.00." in said(plan.amounts)
        assert made("jonas").purchases[0].cost is None
        assert "Together" not in said(made("jonas").amounts)

    def test_at_one_to_two_a_tube_goes_further(self) -> None:
        """A third of the mix is colour: 111 and 51 g take 54 g of it, one tube of 60 g."""
        plan = made("jonas", product__ratio=2.0)
        assert [(mix.colour_g, mix.developer_g) for mix in plan.mixes] == [(37, 74), (17, 34)]
        assert plan.purchases[0].pieces == (("depth 9 neutral", 1),)

    @pytest.mark.parametrize(
        ("chance", "words"),
        [
            (0.004, "hardly any"),
            (0.005, "about 0 %"),
            (0.02, "about 2 %"),
            (0.995, "about 100 %"),
            (0.999, "certain"),
        ],
    )
    def test_chances_are_told_without_decimals(self, chance: float, words: str) -> None:
        assert chance_words(chance) == words

    def test_the_amounts_name_the_hair_and_what_is_mixed(self) -> None:
        text = said(made("ines").amounts)
        assert (
            "About 82 g of hair on the head; expected 143 g (new growth 40 g, lengths and ends 103 g)" in text
        )
        assert "220 g weighed out to be safe" in text


class TestRuleOfThumb:
    """1 short, 2 mid-length fine, one more if long, one more if thick or dense (common practice)."""

    @pytest.mark.parametrize(
        ("length", "thickness", "density", "packs"),
        [
            (19.9, "coarse", "high", 1),
            (20, "fine", "normal", 2),
            (20, "medium", "normal", 3),
            (20, "fine", "high", 3),
            (20, "coarse", "high", 3),
            (43.9, "fine", "low", 2),
            (44, "fine", "normal", 3),
            (44, "coarse", "high", 4),
        ],
    )
    def test_each_class(self, length: float, thickness: str, density: str, packs: int) -> None:
        case = made("ines").case
        case = with_bands(case, lambda _, band: replace(band, end_cm=length) if band.end_cm == 34 else band)
        hair = replace(case.hair, density=density, thickness=thickness)  # type: ignore[arg-type]
        assert rule_of_thumb(replace(case, hair=hair)) == packs

    def test_it_is_told_as_more_less_or_the_same(self) -> None:
        assert "says 2 as well" in said(made("ines").amounts)
        assert "would be 2; new growth alone needs less" in said(made("tomas").amounts)
        fewer = made("agnes", product__tube_g=100)
        assert "says 2" in said(fewer.amounts)
        purchase = replace(made("ines").purchases[0], packs=1)
        plan = made("ines")
        told = amount_lines(plan.case, write_recipes(plan.case, plan.applications), (purchase,))
        assert "says 2; 1 are computed" in said(told)

    def test_a_softener_on_white_lengths_is_not_colour_for_them(self) -> None:
        """Only what colours the lengths makes it a whole head's work."""
        plan = made("agnes", hair__white_resists="yes")
        softener = plan.applications[0]
        roots = new_growth(plan.case, Settings())[-1]
        told = amount_lines(plan.case, write_recipes(plan.case, (softener, roots)), plan.purchases)
        assert "new growth alone needs less" in said(told)
