"""Notes, words for differences, and the time line: common practice, unless it says otherwise."""

from typing import Any

import pytest
from msgspec.structs import replace

from consult.plan.application import Application, Touch
from consult.plan.case import Case
from consult.plan.clock import checks, full_minutes
from consult.plan.ledger import Account, ledger_lines
from consult.plan.notes import plan_notes
from consult.plan.phrasing import level_words, nearness, other_tone
from consult.plan.timeline import bars, timeline_lines, working_minutes
from consult.products.kinds import Product
from consult.trade import Stretch, Zone
from tests.plan.plans import made, said, with_bands


def noted(case: Case, *, white: float | None = None, **wish: Any) -> str:
    """What is noted of a case with another wish, and evenly so much white."""
    if white is not None:
        case = with_bands(case, lambda _, band: replace(band, white_share=white))
    return said(plan_notes(replace(case, wish=replace(case.wish, **wish))))


def with_product(case: Case, *, percent: float | None = None, **shade: Any) -> Case:
    product: Product = replace(case.product, shade=replace(case.product.shade, **shade))
    if percent is not None:
        product = replace(product, developer=replace(product.developer, percent=percent))  # type: ignore[union-attr, call-arg]
    return replace(case, product=product, lengths_product=product)


class TestBrightTonesOnWhite:
    """From about a third of white on, red and copper come out brighter there."""

    @pytest.mark.parametrize(("share", "told"), [(0.29, False), (0.30, True), (1.0, True)])
    def test_from_three_tenths_white(self, share: float, told: bool) -> None:
        assert (
            "comes out brighter" in noted(with_product(made("agnes").case, tone="red"), white=share)
        ) is told

    def test_muted_tones_do_not_and_white_that_is_left_is_another_matter(self) -> None:
        assert "brighter" not in noted(made("agnes").case)
        red = with_product(made("agnes").case, tone="red")
        assert "brighter" not in said(plan_notes(replace(red, wish=replace(red.wish, white="leave"))))

    def test_only_what_is_weighed_can_be_mixed_with_a_natural_shade(self) -> None:
        assert "therefore holds a share" in noted(with_product(made("agnes").case, tone="red"))
        assert "cannot be mixed" in noted(with_product(made("ines").case, tone="red"), white=0.5)
        assert "cannot be mixed" in noted(with_product(made("sunniva").case, tone="red"), white=0.5)


class TestTwoKindsOfHair:
    """White takes the shade's own depth, the rest lands half way between nature and the shade."""

    @pytest.mark.parametrize(
        ("natural", "shade", "words"),
        [
            (5, 7, "come out lighter than the others"),
            (5, 6, "come out lighter than the others"),
            (5, 5.5, ""),
            (5, 5, ""),
            (5, 4, ""),
        ],
    )
    def test_told_when_they_are_half_a_level_apart(self, natural: float, shade: float, words: str) -> None:
        case = with_product(made("agnes").case, depth=shade)
        case = with_bands(case, lambda _, band: replace(band, natural_depth=natural))
        text = noted(case)
        assert words in text
        assert ("come out lighter than the others" in text) is bool(words)

    @pytest.mark.parametrize(("goal", "more"), [(7, False), (7.5, True), (3, False)])
    def test_more_than_two_levels_shows_as_two_colours(self, goal: float, more: bool) -> None:
        case = with_product(made("agnes").case, depth=7)
        assert ("two colours" in noted(case, depth=goal)) is more


class TestLightShadesOnWhite:
    @pytest.mark.parametrize(
        ("goal", "natural", "white", "told"),
        [
            (8, 6, 0.5, True),
            (7.5, 6, 0.5, False),
            (8, 7, 0.5, False),
            (8, 6.5, 0.5, True),
            (8, 6, 0.05, False),
        ],
    )
    def test_depth_8_and_above_on_hair_that_is_not_blonde(
        self, goal: float, natural: float, white: float, told: bool
    ) -> None:
        case = with_bands(made("agnes").case, lambda _, band: replace(band, natural_depth=natural))
        assert ("cover white hair poorly" in noted(case, white=white, depth=goal)) is told


class TestTheWishForWhite:
    def test_left_blended_or_covered(self) -> None:
        case = made("agnes").case

        def wish(white: str) -> str:
            return said(plan_notes(replace(case, wish=replace(case.wish, white=white))))  # type: ignore[arg-type]

        assert "cannot be left as it is" in wish("leave")
        assert "covers rather than blends" in wish("blend")
        assert "covers rather than blends" not in wish("cover")
        assert "covers rather than blends" not in said(made("sunniva").notes)

    def test_without_white_there_is_nothing_to_say(self) -> None:
        case = with_bands(made("agnes").case, lambda _, band: replace(band, white_share=0.0))
        assert "left as it is" not in said(plan_notes(replace(case, wish=replace(case.wish, white="leave"))))


class TestDeveloper:
    """6 % for white hair; where nothing is lifted or covered the weaker one."""

    def test_white_hair_takes_6_percent(self) -> None:
        assert "usually covered with 6 %" in noted(with_product(made("agnes").case, percent=9.0))
        assert "usually covered with 6 %" in noted(with_product(made("agnes").case, percent=3.0))
        assert "usually covered" not in noted(made("agnes").case)

    def test_without_lift_the_weaker_one(self) -> None:
        plain = with_bands(made("agnes").case, lambda _, band: replace(band, white_share=0.0))
        assert "weaker developer than 9 %" in noted(with_product(plain, percent=9.0))
        assert "weaker developer" not in noted(with_product(plain, percent=6.0))
        assert "weaker developer" not in noted(with_product(plain, percent=9.0), depth=6)

    def test_a_kit_brings_its_own(self) -> None:
        assert "usually covered" not in noted(with_product(made("tomas").case, percent=9.0))
        assert "developer" not in said(made("sunniva").notes)


@pytest.mark.parametrize(
    ("levels", "words"),
    [
        (0.0, "by a trace"),
        (0.29, "by a trace"),
        (0.3, "by about half a level"),
        (0.74, "by about half a level"),
        (0.75, "by about a level"),
        (1.49, "by about a level"),
        (1.5, "by about 2 levels"),
        (3.4, "by about 3 levels"),
    ],
)
def test_differences_of_depth_in_words(levels: float, words: str) -> None:
    assert level_words(levels) == words


@pytest.mark.parametrize(
    ("difference", "words"),
    [
        (2.4, "the goal, as far as can be told"),
        (2.5, "near the goal"),
        (5.9, "near the goal"),
        (6.0, "clearly off the goal"),
    ],
)
def test_nearness_to_the_goal_in_words(difference: float, words: str) -> None:
    """Half a level is about 2.5 and a level about 6 units of colour difference (assumption)."""
    assert nearness(difference) == words


def test_tones_that_pass_into_one_another_are_not_another_colour() -> None:
    assert not other_tone("gold", "copper")
    assert not other_tone("copper", "gold")
    assert other_tone("gold", "red")
    assert not other_tone("red", "red")
    assert not other_tone(None, "red")
    assert not other_tone("red", None)


class TestClock:
    def test_checks_every_five_minutes_and_at_the_end(self) -> None:
        assert checks(0, 30) == (5, 10, 15, 20, 25, 30)
        assert checks(0, 12) == (5, 10, 12)
        assert checks(30, 35, 2) == (32, 34, 35)
        assert checks(0, 4) == (4,)

    def test_white_sets_the_time_only_where_it_is_covered_and_a_strand_that_was_right_sets_it_always(
        self,
    ) -> None:
        """Agnes' leaflet: 35 minutes for new growth, 40 for white, 30 to 45 at all."""
        case = made("agnes").case
        assert full_minutes(case, case.product) == 40
        blended = replace(case, wish=replace(case.wish, white="blend"))
        assert full_minutes(blended, case.product) == 35
        for strand, minutes in ((None, 35), (32, 32), (10, 30), (60, 45)):
            tested = replace(blended, tests=replace(case.tests, strand_minutes=strand))
            assert full_minutes(tested, case.product) == minutes
            with_strand = 40 if strand is None else minutes
            assert full_minutes(replace(case, tests=tested.tests), case.product) == with_strand


class TestTimeLine:
    def painted(self, minutes: int) -> Application:
        """Tomas' new growth, put on in two sections within so many minutes."""
        (only,) = made("tomas").applications
        half = minutes // 2
        touches = (Touch("front", -minutes, half - minutes), Touch("back", half - minutes, 0))
        return replace(only, touches=touches)

    @pytest.mark.parametrize(("minutes", "bowls"), [(30, 0), (32, 2), (60, 2), (62, 3)])
    def test_a_bowl_works_for_half_an_hour(self, minutes: int, bowls: int) -> None:
        text = said(timeline_lines((self.painted(minutes),)))
        assert ("is long for one bowl" in text) is bool(bowls)
        assert not bowls or f"mix {bowls} bowls" in text

    def test_colour_that_does_not_work_in_the_bowl_needs_no_second(self) -> None:
        only = self.painted(60)
        product = made("sunniva").applications[0].bowl.product
        direct = replace(only, bowl=replace(only.bowl, product=product))
        assert "one bowl" not in said(timeline_lines((direct,)))

    def test_the_first_and_the_last_hairs_minutes_are_told(self) -> None:
        assert "The first hair has it on 64 minutes in the end, the last 35" in said(made("ines").timeline)
        text = said(timeline_lines((self.painted(30),)))
        assert (
            "about 30 minutes (21 to 39). The first hair has it on 60 minutes in the end, the last 30" in text
        )

    def test_the_longest_round_of_painting_counts(self) -> None:
        first, second = made("ines").applications
        assert working_minutes((first, second)) == 29
        assert working_minutes((second,)) == 0

    def test_bars_by_hand(self) -> None:
        """40 cells over 60 minutes put on and 20 on the clock: two minutes a cell."""
        only = replace(self.painted(60), until=20)
        assert [bar.cells for bar in bars((only,))] == [
            ":" * 15 + "-" * 15 + "=" * 10,
            "." * 15 + ":" * 15 + "=" * 10,
        ]


class TestLedger:
    def account(self, before: int, after: int, zones: tuple[Zone, ...] = tuple(Zone)) -> Account:
        return Account(zones, 0, 5, Stretch.LENGTHS, before, after, 90.0, 180.0)

    @pytest.mark.parametrize(
        ("before", "after", "warned"),
        [(1, 2, False), (2, 3, True), (3, 4, True), (3, 3, False), (0, 1, False)],
    )
    def test_damage_becomes_clear_with_the_third_pass(self, before: int, after: int, warned: bool) -> None:
        """Repeated dyeing: clear damage from the third cycle (repeat-dyeing-2024)."""
        text = said(ledger_lines((self.account(before, after),)))
        assert ("third pass" in text) is warned

    def test_passes_and_zones_in_words(self) -> None:
        (told,) = ledger_lines((self.account(1, 2, (Zone.NAPE,)),))
        assert told.say.trade.startswith(
            "0 to 5 cm (lengths, nape): 1 oxidative pass so far, 2 after this plan"
        )
        assert "peroxide-minutes 90, then 180" in told.say.trade
        (several,) = ledger_lines((self.account(0, 4),))
        assert "(lengths): 0 oxidative passes" in several.say.trade
        assert "coloured with developer never so far, 4 times after this" in several.say.plain
        assert "coloured with developer once so far, twice after" in told.say.plain

    def test_minutes_times_percent_on_the_head(self) -> None:
        """Tomas: 6 % one to one is 3 % on the head, for 30 minutes: 90 at the scalp, nothing beyond."""
        scalp, *beyond = made("tomas").ledger
        assert scalp.peroxide_minutes == 0
        assert scalp.peroxide_minutes_after == 90
        assert all(a.peroxide_minutes_after == a.peroxide_minutes for a in beyond)
        assert scalp.zones == tuple(Zone)
