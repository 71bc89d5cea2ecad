"""Partings and minutes of a round, worked by hand.

52 cm of partings a head, 46 seconds a parting of a centimetre alone at home and 23 for a trained hand: assumptions.
"""

from dataclasses import replace
from typing import Any

import pytest

from consult.plan.case import Case
from consult.plan.sections import (
    Section,
    parting_cm,
    round_minutes,
    round_over,
    section_minutes,
    section_order,
    start_place,
    whitest,
)
from consult.plan.settings import BadSetting, Settings, read_settings
from consult.trade import Zone
from tests.plan.plans import made, said, with_bands

FIVE = Settings(sections=5)


def minutes(name: str, settings: Settings | None = None, *, lengths: bool = False, **changes: Any) -> int:
    return section_minutes(made(name, **changes).case, settings or Settings(), lengths=lengths)


def white(case: Case, front: float, temples: float, crown: float, nape: float) -> Case:
    """The same head with other white shares, 0 to 1."""
    shares = dict(zip(Zone, (front, temples, crown, nape), strict=True))
    return with_bands(case, lambda zone, band: replace(band, white_share=shares[zone]))


class TestMinutesOfASection:
    def test_alone_at_home(self) -> None:
        """13 cm at 1 cm a parting: 13 x 46 s = 598 s."""
        assert minutes("ines") == 10

    def test_a_trained_hand(self) -> None:
        """13 x 23 s = 299 s."""
        assert minutes("ines", client__applied_by="a licensed colourist") == 5

    def test_finer_partings_are_more_but_each_is_quicker(self) -> None:
        """13 cm at 0.6 cm: 22 partings, each 0.4 + 0.6 x 0.6 = 0.76 of 46 s (assumption): 769 s."""
        assert minutes("ines", hair__white_resists="yes") == 13

    def test_the_whole_length_of_a_parting_takes_longer(self) -> None:
        """1 % a centimetre (assumption): 34 cm make 598 s into 801 s."""
        assert minutes("ines", lengths=True) == 14

    def test_five_sections_are_smaller(self) -> None:
        """10.4 cm: 11 partings, 506 s."""
        assert minutes("ines", FIVE) == 9

    def test_ones_own_pace_counts(self) -> None:
        assert minutes("ines", Settings(seconds_a_parting=60)) == 13
        assert minutes("ines", Settings(seconds_a_parting=5)) == 2  # 65 s: whole minutes, rounded up


class TestARound:
    def test_two_people_do_two_sections_at_a_time(self) -> None:
        four = section_order(made("ines").case, Settings())
        assert round_minutes(four, 10, 1) == 40
        assert round_minutes(four, 10, 2) == 20
        assert round_minutes((*four, Section("top front", (Zone.FRONT,))), 10, 2) == 30

    def test_each_section_begins_when_a_hand_is_free(self) -> None:
        four = section_order(made("ines").case, Settings())
        assert [(t.start, t.end) for t in round_over(four, 10, 1, -40)] == [
            (-40, -30), (-30, -20), (-20, -10), (-10, 0),
        ]  # fmt: skip
        assert [(t.start, t.end) for t in round_over(four, 10, 2, 5)] == [
            (5, 15),
            (5, 15),
            (15, 25),
            (15, 25),
        ]


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
        assert parting_cm(plan.case) == cm
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
        assert start_place(case).say.trade == f"Begin at {where}"
        assert section_order(case, Settings())[0].name == first

    def test_lightening_begins_at_the_dark_back_and_darkening_at_the_light_front(self) -> None:
        lighter = made("jonas").case
        assert "at the back" in start_place(lighter).say.trade
        assert [s.name for s in section_order(lighter, Settings())] == [
            "back left", "back right", "front left", "front right",
        ]  # fmt: skip
        same = replace(lighter, wish=replace(lighter.wish, depth=lighter.head.natural_depth))
        assert "at the front" in start_place(same).say.trade
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
        """52 g at half a gram: 25.5 of each part, where whole grams make it 26."""
        from consult.plan.bowls import mix_bowls, write_recipes

        plan = made("jonas")
        recipes = write_recipes(plan.case, plan.applications)
        roots = mix_bowls(plan.case, recipes, Settings(scale_g=0.1))[-1]
        assert (roots.colour_g, roots.developer_g) == (25.5, 25.5)
