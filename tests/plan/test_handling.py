"""Every hair within its leaflet's minutes: how it is counted, and what a colourist does to make it fit.

Which means there are, and in which order they are tried: common practice. Ines and Tomas put 1.5 cm of new
growth on in 29 minutes alone at home, a trained hand in 18; their leaflet allows 25 to 35 minutes.
"""

from typing import Any

import pytest
from msgspec.structs import replace

from consult.plan.application import Touch
from consult.plan.approach import choose_approach
from consult.plan.clock import minutes_after, room_after
from consult.plan.contact import contact_of, counted, fits, misses_by
from consult.plan.handling import carry_out
from consult.plan.settings import Settings
from consult.plan.types import Held
from consult.products.kinds import Leaflet
from consult.trade import Zone
from tests.plan.plans import held, made, rules, said

FIRST, END, SILENT = "the first touch", "the end of application", "it does not say"
SALON = {"client__applied_by": "a licensed colourist"}


def leaflet(counted_from: Any, total: int | None = None) -> Leaflet:
    return Leaflet(30, 30, 5, 25, 35, counted_from, total)


class TestRoom:
    """Minutes from the end of an application to the rinse."""

    @pytest.mark.parametrize(
        ("counts", "total", "on_for", "room"),
        [
            (END, None, 29, 35),
            (SILENT, None, 29, 35),
            (FIRST, None, 8, 27),
            (END, 50, 20, 30),
            (FIRST, 33, 8, 25),
        ],
    )
    def test_by_the_way_of_counting(self, counts: str, total: int | None, on_for: int, room: int) -> None:
        assert room_after(leaflet(counts, total), on_for) == room

    def test_what_is_aimed_at(self) -> None:
        """30 minutes of white hair by the leaflet; from the first touch application is part of them, but the last
        hair gets the shortest time."""
        case = made("tomas").case

        def after(on_for: int, counts: str, total: int | None = None) -> int:
            product = replace(case.product, leaflet=leaflet(counts, total))
            return minutes_after(case, product, on_for)

        assert (after(29, END), after(29, SILENT)) == (30, 30)
        assert (after(4, FIRST), after(8, FIRST)) == (26, 25)
        assert after(20, END, 48) == 28


class TestTheWorstHair:
    def test_by_the_way_of_counting(self) -> None:
        """Two sections of 5 minutes, rinsed together 30 after the last: 40 on the first hair, 30 on the last."""
        (only,) = made("tomas").applications
        only = replace(only, touches=(Touch("front", -10, -5), Touch("back", -5, 0)), until=30)
        assert (contact_of(only).longest, contact_of(only).shortest) == (40, 30)
        for counts, total, by in ((END, None, -5), (FIRST, None, 5), (SILENT, None, -5), (END, 38, 2)):
            product = replace(only.bowl.product, leaflet=leaflet(counts, total))  # type: ignore[arg-type]
            one = replace(only, bowl=replace(only.bowl, product=product))
            assert misses_by(one) == by, counts
            assert fits((one,)) is (by <= 0)

    def test_too_short_is_as_wrong_as_too_long(self) -> None:
        (only,) = made("tomas").applications
        assert misses_by(replace(only, until=24)) == 1
        assert misses_by(replace(only, until=25)) == 0
        assert misses_by(replace(only, until=36)) == 1

    def test_a_section_rinsed_by_itself_counts_by_itself(self) -> None:
        (only,) = made("tomas").applications
        touches = (Touch("front", -10, -5, 25), Touch("back", -5, 0, 30))
        product = replace(only.bowl.product, leaflet=leaflet(FIRST))  # type: ignore[arg-type]
        one = replace(only, bowl=replace(only.bowl, product=product), touches=touches, until=30)
        assert counted(one) == 35
        assert misses_by(one) == 0


class TestMeans:
    def test_a_leaflet_that_counts_from_the_end_needs_none(self) -> None:
        plan = made("tomas")
        assert len(plan.applications) == 1
        assert "half of the head" not in said(plan.sections)

    def test_in_a_salon_sections_are_rinsed_in_the_order_of_application(self) -> None:
        """Each section takes 4 to 5 minutes: 30 from its first touch, 25 from its last."""
        (only,) = made("tomas", product__counted_from=FIRST, **SALON).applications
        assert [only.off(t) - t.start for t in only.touches] == [30, 30, 30, 30]
        assert all(only.off(t) - t.end >= 25 for t in only.touches)
        assert "Rinse section by section" in said(
            made("tomas", product__counted_from=FIRST, **SALON).sections
        )

    def test_at_home_nobody_rinses_section_by_section(self) -> None:
        found = held("tomas", product__counted_from=FIRST)
        assert rules(found) == {"minutes-do-not-fit"}
        (finding,) = found.findings
        assert "putting on took 10 minutes at most" in finding.remedy

    def test_one_half_after_the_other_each_from_a_fresh_bowl(self) -> None:
        """29 minutes are more than first and last hair may lie apart; a half takes 15."""
        front, back = made("tomas", product__counted_from=SILENT).applications
        assert front.target.zones == (Zone.FRONT, Zone.TEMPLES)
        assert back.target.zones == (Zone.CROWN, Zone.NAPE)
        assert front.bowl != back.bowl
        assert back.start == front.until + 15
        plan = made("tomas", product__counted_from=SILENT)
        assert "Rinse this half" in said(plan.steps)
        assert [mix.minute for mix in plan.mixes] == [front.start, back.start]
        assert plan.ledger[0].passes_after == 1

    def test_two_people_need_no_halves(self) -> None:
        assert len(made("tomas", product__counted_from=SILENT, client__helper="yes").applications) == 1

    def test_wider_partings_where_no_white_shows_come_first(self) -> None:
        """A total limit of 52 leaves 27 minutes beside the shortest 25; without white 1.5 cm partings save the rest."""
        none = {f"hair__white_{zone}": 0 for zone in ("front", "temples", "crown", "nape")}
        plan = made("tomas", product__minutes_total=52, goal__white="there is none", **none)
        assert len(plan.applications) == 1
        assert "Wider partings where no white shows" in said(plan.sections)
        assert "about 1.5 cm" in said(plan.sections)
        assert contact_of(plan.applications[0]).longest <= 52

    def test_where_nothing_fits_the_hold_names_the_time_and_the_help(self) -> None:
        """14 minutes from 39 and 25: a half takes 15, two people take 15 for all and 8 for a half."""
        found = held("tomas", product__counted_from=FIRST, product__minutes_max=39)
        (finding,) = found.findings
        assert "14 minutes at most" in finding.remedy
        assert made("tomas", product__counted_from=FIRST, product__minutes_max=39, client__helper="yes")

    def test_what_nobody_is_sure_of_counts_from_the_first_touch(self) -> None:
        assert isinstance(held("tomas", product__counted_from="not sure"), Held)

    def test_the_plain_way_stands_where_nothing_fits(self) -> None:
        case = held("tomas", product__counted_from=FIRST).case
        assert case
        handling = carry_out(case, choose_approach(case), Settings())
        assert handling.why is None
        assert not fits(handling.applications)
