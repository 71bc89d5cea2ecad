"""Partings and minutes of a round, worked by hand; where to begin and where to stop.

52 cm of partings a head; a trained hand lifts a parting in 12 s, paints 6 s a cm up to 3 cm and draws the rest
out at 0.2 s a cm; alone at home it takes 1.6 times that: assumptions.
"""

from typing import Any

import pytest
from msgspec.structs import replace

from consult.plan.bowls import mix_bowls, write_recipes
from consult.plan.case import Case
from consult.plan.rounds import Working, in_sections, section_order, whitest
from consult.plan.sections import partings_words, start_place
from consult.plan.settings import BadSetting, Settings, read_settings
from consult.trade import AT_THE_SCALP, BEYOND, Stretch, Zone
from tests.plan.plans import made, said, with_bands

FIVE = Settings(sections=5)


def working(case: Case, settings: Settings | None = None, **changes: Any) -> Working:
    return replace(in_sections(case, settings or Settings()), **changes)


def seconds(
    name: str, stretches: tuple[Stretch, ...] = AT_THE_SCALP, settings: Settings | None = None, **changes: Any
) -> int:
    """Seconds of the first section."""
    case = made(name, **changes).case
    each = working(case, settings)
    return round(each.pace(case, stretches) * each.partings(case, each.sections[0]))


def minutes(cm: float) -> int:
    """Minutes of a whole retouch of so much new growth, by a trained hand."""
    case = made("tomas", client__applied_by="a licensed colourist").case
    scalp = case.head.bands[0]
    case = with_bands(case, lambda _, band: replace(band, end_cm=cm) if band.start_cm == 0 else band)
    assert scalp.stretch is Stretch.SCALP
    return working(case).minutes(case, AT_THE_SCALP)


def white(case: Case, front: float, temples: float, crown: float, nape: float) -> Case:
    """The same head with other white shares, 0 to 1."""
    shares = dict(zip(Zone, (front, temples, crown, nape), strict=True))
    return with_bands(case, lambda zone, band: replace(band, white_share=shares[zone]))


class TestTimeOfASection:
    def test_a_trained_hand(self) -> None:
        """13 cm at 1 cm a parting; 1.5 cm of new growth are 12 + 9 = 21 s: 13 x 21 s."""
        assert seconds("ines", client__applied_by="a licensed colourist") == 273

    def test_alone_at_home(self) -> None:
        assert seconds("ines") == round(273 * 1.6)

    def test_finer_partings_are_more_but_each_is_quicker(self) -> None:
        """13 cm at 0.6 cm: 22 partings, each 0.4 + 0.6 x 0.6 = 0.76 of 33.6 s (assumption)."""
        assert seconds("ines", hair__white_resists="yes") == round(22 * 0.76 * 33.6)

    def test_wider_partings_only_where_no_white_shows(self) -> None:
        """13 cm at 1.5 cm: 9 partings, each 0.4 + 0.6 x 1.5 = 1.3 of 33.6 s."""
        case = white(made("ines").case, 0.6, 0.6, 0, 0)
        wide = working(case, wide=True)
        assert [wide.parting_cm(case, section) for section in wide.sections] == [1, 1, 1.5, 1.5]
        assert round(wide.pace(case, AT_THE_SCALP) * wide.partings(case, wide.sections[-1])) == round(
            9 * 1.3 * 33.6
        )
        assert "about 1.5 cm (back left, back right)" in partings_words(case, wide)

    def test_what_is_drawn_out_takes_longer_than_what_is_not_touched(self) -> None:
        """32.5 cm of lengths: 12 + 18 + 0.2 x 29.5 = 35.9 s a parting, 1.6 times that at home."""
        assert seconds("ines", BEYOND) == round(13 * 35.9 * 1.6)

    def test_five_sections_are_smaller(self) -> None:
        """10.4 cm: 11 partings of 33.6 s."""
        assert seconds("ines", settings=FIVE) == round(11 * 33.6)

    def test_ones_own_pace_counts(self) -> None:
        """Measured on 1.5 cm of new growth: 13 partings of 60 s, and of 5 s."""
        assert seconds("ines", settings=Settings(seconds_a_parting=60)) == 13 * 60
        assert seconds("ines", settings=Settings(seconds_a_parting=5)) == 13 * 5

    def test_whoever_timed_it_is_taken_at_their_word(self) -> None:
        """25 minutes for 1.5 cm, by the same hands: alone or two together."""
        assert made("tomas", client__minutes_new_growth=25).applications[0].start == -25
        assert made("tomas", client__minutes_new_growth=25, client__helper="yes").applications[0].start == -25
        assert made("tomas", client__minutes_new_growth=0).applications[0].start == -29

    def test_a_longer_growth_takes_longer_and_a_crop_is_quick(self) -> None:
        """A retouch of 1.5 cm in 18 minutes, within the 15 to 25 that a trained hand is said to take (assumption);
        a crop of 3 cm is not parted hair by hair."""
        assert minutes(1.5) == 18
        assert minutes(0.8) < minutes(1.5) < minutes(4) < minutes(15)
        crop = made("agnes", hair__length_cm=3).case
        assert working(crop).minutes(crop, (*AT_THE_SCALP, *BEYOND)) < 25


class TestARound:
    def test_each_section_begins_when_a_hand_is_free(self) -> None:
        """13 partings of 33.6 s are 7.28 minutes: the sections end at 7, 15, 22 and 29 whole minutes."""
        case = made("ines").case
        assert [(t.start, t.end) for t in working(case).touches(case, AT_THE_SCALP)] == [
            (0, 7), (7, 15), (15, 22), (22, 29),
        ]  # fmt: skip
        assert [(t.start, t.end) for t in working(case, hands=2).touches(case, AT_THE_SCALP, 5)] == [
            (5, 12), (5, 12), (12, 20), (12, 20),
        ]  # fmt: skip

    def test_two_people_need_half_the_minutes(self) -> None:
        case = made("ines").case
        assert working(case).minutes(case, AT_THE_SCALP) == 29
        assert working(case, hands=2).minutes(case, AT_THE_SCALP) == 15

    def test_a_half_of_the_head_has_its_own_sections_and_zones(self) -> None:
        front = working(made("ines").case).half(back=False)
        assert [section.name for section in front.sections] == ["front left", "front right"]
        assert front.zones == (Zone.FRONT, Zone.TEMPLES)


class TestPartings:
    """About 1 cm; finer on dense, resistant or mostly white hair (common practice)."""

    @pytest.mark.parametrize(
        ("changes", "cm"),
        [
            ({}, 1.0),
            ({"hair__density": "high"}, 0.6),
            ({"hair__white_resists": "yes"}, 0.6),
            ({f"hair__white_{z}": 50 for z in ("front", "temples", "crown", "nape")}, 0.6),
            ({f"hair__white_{z}": 49 for z in ("front", "temples", "crown", "nape")}, 1.0),
        ],
    )
    def test_width(self, changes: dict[str, Any], cm: float) -> None:
        plan = made("tomas", **changes)
        assert partings_words(plan.case, working(plan.case)) == f"about {cm:g} cm"
        assert ("finer here" in " ".join(line.because.trade for line in plan.sections)) is (cm < 1)


class TestWhereToBegin:
    def test_where_most_white_is_and_among_equals_where_it_shows_most(self) -> None:
        case = made("ines").case
        assert whitest(white(case, 0.3, 0.3, 0.3, 0.3)) is Zone.FRONT
        assert whitest(white(case, 0.3, 0.6, 0.6, 0.6)) is Zone.TEMPLES
        assert whitest(white(case, 0.3, 0.2, 0.1, 0.4)) is Zone.NAPE

    @pytest.mark.parametrize(
        ("shares", "where", "first"),
        [
            ((0.6, 0.2, 0.2, 0.2), "the front hairline.", "front left"),
            ((0.2, 0.6, 0.2, 0.2), "the front hairline and the temples.", "front left"),
            ((0.2, 0.2, 0.6, 0.2), "the crown.", "back left"),
            ((0.2, 0.2, 0.2, 0.6), "the nape.", "back left"),
        ],
    )
    def test_white_gets_the_longest_contact(
        self, shares: tuple[float, float, float, float], where: str, first: str
    ) -> None:
        case = white(made("ines").case, *shares)
        assert start_place(case, working(case)).say.trade == f"Begin at {where}"
        assert section_order(case, Settings())[0].name == first

    def test_lightening_begins_at_the_dark_back_and_darkening_at_the_light_front(self) -> None:
        lighter = made("jonas").case
        assert "at the back" in start_place(lighter, working(lighter)).say.trade
        assert [s.name for s in section_order(lighter, Settings())] == [
            "back left", "back right", "front left", "front right",
        ]  # fmt: skip
        same = replace(lighter, wish=replace(lighter.wish, depth=lighter.head.natural_depth))
        assert "at the front" in start_place(same, working(same)).say.trade
        assert section_order(same, Settings())[0].name == "front left"

    def test_where_white_is_covered_it_decides_even_when_hair_is_lightened(self) -> None:
        case = made("ines").case
        lighter = replace(case, wish=replace(case.wish, depth=6))
        assert section_order(lighter, Settings())[0].name == "front left"

    def test_five_sections_have_a_top_front_of_their_own(self) -> None:
        names = [s.name for s in section_order(made("ines").case, FIVE)]
        assert names == ["top front", "front left", "front right", "back left", "back right"]


class TestWhereToStop:
    def test_at_the_line_of_demarcation_where_lengths_are_coloured_already(self) -> None:
        assert "Stop at the line of demarcation, 1.5 cm" in said(made("tomas").sections)
        assert "Stop at the line" not in said(made("agnes").sections)  # all over, never coloured

    def test_porous_ends_last(self) -> None:
        over = {"hair__lengths_depth": 6, "hair__ends_depth": 6}
        porous = made("tomas", hair__porosity_ends="high", **over)
        assert "Porous ends last" in said(porous.sections)
        assert "Porous ends last" not in said(made("tomas", **over).sections)
        assert "Porous ends last" not in said(made("tomas", hair__porosity_lengths="high", **over).sections)
        assert "Porous ends last" not in said(
            made("ines", hair__porosity_ends="high").sections
        )  # thinned there


class TestSettings:
    """A wrong setting is refused by name; the ends of each range are still right."""

    @pytest.mark.parametrize(
        "table",
        [
            {"run_out_chance": 0.5}, {"run_out_chance": 0.001}, {"sections": 4}, {"sections": 5},
            {"seconds_a_parting": 5}, {"seconds_a_parting": 600}, {"scale_g": 0.1}, {"scale_g": 10},
        ],
    )  # fmt: skip
    def test_within(self, table: dict[str, float]) -> None:
        (name, value) = next(iter(table.items()))
        assert getattr(read_settings(table), name) == value

    @pytest.mark.parametrize(
        "table",
        [
            {"run_out_chance": 0}, {"run_out_chance": 0.51}, {"sections": 3}, {"sections": 6},
            {"seconds_a_parting": 4.9}, {"seconds_a_parting": 601}, {"scale_g": 0.09}, {"scale_g": 10.1},
            {"scale_g": True}, {"scale_g": "1"}, {"scales": 1},
        ],
    )  # fmt: skip
    def test_outside(self, table: dict[str, Any]) -> None:
        with pytest.raises(BadSetting, match=next(iter(table))):
            read_settings(table)

    def test_a_table_is_needed(self) -> None:
        with pytest.raises(BadSetting, match="must be a table"):
            read_settings([1])

    def test_a_finer_scale_weighs_finer(self) -> None:
        """Jonas' lengths: 59 g one to one are 29.5 g of either part, 30 g where the scale knows whole grams only."""
        plan = made("jonas")
        recipes = write_recipes(plan.case, plan.applications)
        for scale, colour in ((1, 30), (0.5, 29.5)):
            lengths = mix_bowls(plan.case, recipes, Settings(scale_g=scale))[0]
            assert (lengths.colour_g, lengths.developer_g) == (colour, colour)
