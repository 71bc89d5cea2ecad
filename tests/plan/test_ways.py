"""Every way of applying with its clock worked by hand, and how much colour each stretch gets from it.

A trained hand lifts a parting in 12 s and paints 6 s a cm for 3 cm, 0.2 s for what is drawn out beyond
(assumptions); 52 partings a head. So 1.3 cm at the scalp take 52 x 19.8 s = 17 minutes, 20.7 cm of lengths
52 x 33.5 s = 29.
"""

from typing import Any

import pytest
from msgspec.structs import replace

from consult.colour.difference import ciede2000
from consult.colour.values import Shade
from consult.plan.application import Application, Target, Which, span
from consult.plan.bowls import shade_name
from consult.plan.case import Case
from consult.plan.clock import refresh_joins
from consult.plan.forecast import Stage, _named, _near_goal, forecast, state_of, treatment_of, uptake_of
from consult.plan.foreseen import held_by_forecast
from consult.plan.results import Result
from consult.plan.rounds import Working, in_sections
from consult.plan.settings import Settings
from consult.plan.steps import Step
from consult.plan.targets import name_of, part_of, where_of
from consult.plan.types import Made
from consult.plan.writing import base_share, colour_bowl, lengths_first, refresh
from consult.trade import Porosity, Stretch, Zone
from tests.demo import judged
from tests.plan.plans import clocked, held, made, rules, said, with_bands
from tests.plan.test_cases import TestLongNewGrowthToBeLightened

LONG = TestLongNewGrowthToBeLightened.CHANGES


def clock(*applications: Application) -> list[tuple[int, int, int]]:
    """First touch, last touch and end of each."""
    return [(a.start, a.on_by, a.until) for a in applications]


def by(case: Case) -> Working:
    """The whole head, by whoever works."""
    return in_sections(case, Settings())


class TestClocks:
    def test_new_growth_then_a_refresh(self) -> None:
        """Ines: 29 minutes to put on; 30 by the leaflet, then 5 for the lengths."""
        assert clock(*made("ines").applications) == [(-29, 0, 35), (30, 30, 35)]

    def test_a_refresh_never_pushes_the_new_growth_past_the_longest_time(self) -> None:
        case = made("ines").case
        for longest, joins in ((35, 30), (34, 29), (60, 30)):
            product = replace(case.product, leaflet=replace(case.product.leaflet, longest=longest))
            assert refresh_joins(case, product, 29) == joins
            own = replace(case, product=product, lengths_product=product)
            steps = refresh(own, by(own))
            assert ("the lengths join at minute" in steps[1].reason.because.trade) is (joins < 30)

    def test_lengths_first_then_the_roots(self) -> None:
        """Jonas: lengths in 29 minutes, roots in 17. Roots need 17 + 35; begun 3 minutes after the lengths they end 20
        behind: 55 in all."""
        assert clock(*made("jonas").applications) == [(-29, 0, 55), (3, 20, 55)]

    @pytest.mark.parametrize(
        ("longest", "expected"),
        [
            (90, [(-29, 0, 55), (3, 20, 55)]),
            (52, [(-29, 0, 52), (0, 17, 52)]),
            # All in one go takes hardly longer than the lengths alone: a parting is lifted once.
            (51, [(-29, 0, 35)]),
        ],
    )
    def test_without_room_for_both_it_is_one_round(
        self, longest: int, expected: list[tuple[int, int, int]]
    ) -> None:
        case = made("jonas").case
        product = replace(case.product, leaflet=replace(case.product.leaflet, longest=longest))
        own = replace(case, product=product, lengths_product=product)
        assert clock(*lengths_first(own, by(own))) == expected

    def test_quick_hands_wait_until_the_lengths_are_twenty_minutes_ahead(self) -> None:
        """Two people put the roots on in 9 minutes: they begin 11 minutes after the lengths."""
        case = made("jonas").case
        two = replace(case, work=replace(case.work, hands=2))
        assert clock(*lengths_first(two, by(two))) == [(-15, 0, 55), (11, 20, 55)]
        tight = replace(case.product, leaflet=replace(case.product.leaflet, longest=48))
        two = replace(two, product=tight, lengths_product=tight)
        assert clock(*lengths_first(two, by(two))) == [(-15, 0, 48), (4, 13, 48)]

    def test_long_new_growth_in_two_goes(self) -> None:
        """2.7 cm off the scalp in 24 minutes, 1.3 at it in 17; half way into 35 would be 17, but 60 - 30 - 17 leaves
        13."""
        assert clock(*made("jonas", **LONG).applications) == [(-24, 0, 60), (13, 30, 60)]

    def test_two_goes_with_more_room_begin_half_way(self) -> None:
        off, at = made("jonas", **LONG, product__minutes_max=90).applications
        assert clock(off, at) == [(-24, 0, 64), (17, 34, 64)]

    def test_two_goes_without_room_are_one(self) -> None:
        """30 at least and 17 to put on do not fit into 46."""
        assert len(made("jonas", **LONG, product__minutes_max=47).applications) == 2
        assert len(made("jonas", **LONG, product__minutes_max=46).applications) == 1

    @pytest.mark.parametrize(("grown", "goes"), [(2.5, 1), (2.6, 2)])
    def test_from_an_inch_on(self, grown: float, goes: int) -> None:
        """Longer than about 2.5 cm new growth passes the scalp's warm zone (common practice)."""
        assert len(made("jonas", **{**LONG, "hair__new_growth_cm": grown}).applications) == goes

    def test_a_filler_stays_a_quarter_of_an_hour_and_is_blotted_before_the_colour(self) -> None:
        """Rosa: both rounds take 31 minutes; the colour begins at -31, so the filler lies from -46 to -31. Her strand
        test was right at 30 minutes."""
        plan = made("rosa")
        assert clock(*plan.applications) == [(-77, -46, -31), (-31, 0, 30)]
        fill, colour = clocked(plan)
        assert fill.clock == (-46, -31)
        assert "15 minutes, check a strand, then blot dry" in fill.say.trade
        assert colour.clock == (0, 30)

    def test_a_softener_takes_five_minutes_to_dab_on_and_ten_to_work(self) -> None:
        """Before the colour, which Agnes' 39 minutes begin at -39; resistant white has the leaflet's longest, 45."""
        plan = made("agnes", hair__white_resists="yes")
        assert clock(*plan.applications) == [(-54, -49, -39), (-39, 0, 45)]
        softener = plan.applications[0]
        assert softener.target.which is Which.WHITE
        assert softener.target.zones == tuple(Zone)
        front = made("agnes", hair__white_resists="yes", hair__white_nape=0)
        assert Zone.NAPE not in front.applications[0].target.zones

    def test_two_products_end_together(self) -> None:
        """Odile with help: 9 minutes of roots; lengths in 16, 20 minutes before the end of the roots' 40."""
        assert clock(*made("odile").applications) == [(-9, 0, 40), (4, 20, 40)]

    def test_a_slow_second_product_lengthens_the_first(self) -> None:
        """16 minutes to put on and 30 of its own are more than the roots' 40."""
        plan = made(
            "odile", product__minutes_max=60, lengths_product__minutes_max=40,
            lengths_product__minutes_new_growth=30, lengths_product__minutes_white=30,
        )  # fmt: skip
        assert clock(*plan.applications) == [(-9, 0, 46), (0, 16, 46)]


class TestNaturalShareOnWhite:
    """Up to a quarter white none, a third to a half a half, to two thirds two thirds, beyond three quarters."""

    @pytest.mark.parametrize(
        ("white", "share"),
        [
            (0, 0),
            (0.29, 0),
            (0.30, 1 / 2),
            (0.49, 1 / 2),
            (0.50, 2 / 3),
            (0.74, 2 / 3),
            (0.75, 3 / 4),
            (1.0, 3 / 4),
        ],
    )
    def test_by_white_share(self, white: float, share: float) -> None:
        assert base_share(white) == share

    def bowl(self, name: str, tone: str, wish: str = "cover", **product: Any) -> list[tuple[str, float]]:
        case = made(name).case
        shade = Shade(case.product.shade.depth, tone)  # type: ignore[arg-type]
        case = replace(case, wish=replace(case.wish, white=wish))  # type: ignore[arg-type]
        return [
            (shade_name(s), share)
            for s, share in colour_bowl(case, replace(case.product, shade=shade), 1).shades
        ]

    def test_tubes_on_white_hair(self) -> None:
        assert self.bowl("agnes", "copper") == [("depth 5 neutral", 0.75), ("depth 5 copper", 0.25)]
        assert self.bowl("agnes", "copper", "blend") == [("depth 5 neutral", 0.75), ("depth 5 copper", 0.25)]

    def test_not_where_white_is_left_nor_in_a_kit_nor_in_what_is_natural_already(self) -> None:
        assert self.bowl("agnes", "copper", "leave") == [("depth 5 copper", 1)]
        assert self.bowl("agnes", "neutral") == [("depth 5 neutral", 1)]
        assert self.bowl("ines", "copper") == [("depth 5 copper", 1)]
        assert self.bowl("sunniva", "copper", "blend")[-1][1] == 1


class TestShareOfFullUptake:
    """The square root of the time (published); four fifths when thinned, three when porous as well (assumptions)."""

    def lengths(self, name: str, **changes: Any) -> float:
        plan = made(name, **changes)
        through = plan.applications[-1]
        return uptake_of(plan.case, through, plan.case.head.treated[0].porosity)

    def test_five_minutes_of_thirty_thinned(self) -> None:
        assert self.lengths("ines") == pytest.approx(0.8 * (5 / 30) ** 0.5)

    def test_on_porous_lengths_it_goes_in_faster_and_is_thinned_more(self) -> None:
        """1.65 times as fast, three fifths of it: about the same again."""
        assert self.lengths("thea") == pytest.approx(0.6 * 1.65 * (5 / 30) ** 0.5)

    def test_full_time_is_full_and_colour_without_developer_and_fillers_give_less(self) -> None:
        plan = made("rosa")
        fill, colour = plan.applications
        assert uptake_of(plan.case, colour, "normal") == 1
        assert uptake_of(plan.case, fill, "normal") == pytest.approx(0.6)
        direct = made("sunniva")
        assert uptake_of(direct.case, direct.applications[0], "normal") == pytest.approx(0.6)

    @pytest.mark.parametrize(("porosity", "share"), [("low", 0.4), ("normal", 0.5), ("high", 0.825)])
    def test_a_quarter_of_the_time(self, porosity: Porosity, share: float) -> None:
        plan = made("agnes")
        (only,) = plan.applications
        assert uptake_of(plan.case, replace(only, until=10), porosity) == pytest.approx(share)

    def test_what_was_put_on_just_before_is_a_quarter_of_the_colour(self) -> None:
        """Assumption: the filler joins the colour over it."""
        plan = made("rosa")
        fill, colour = plan.applications
        ends = plan.case.head.treated[-1]
        before = treatment_of(plan.case, fill, ends)
        assert before
        after = treatment_of(plan.case, colour, ends, before)
        assert after
        assert [(shade_name(s), share) for s, share in after.shades] == [
            ("depth 6 neutral", 0.75), ("depth 7 copper", 0.25),
        ]  # fmt: skip
        assert treatment_of(plan.case, colour, ends).shades == ((Shade(6, "neutral"), 1.0),)  # type: ignore[union-attr]

    def test_developer_alone_colours_nothing(self) -> None:
        plan = made("agnes", hair__white_resists="yes")
        assert treatment_of(plan.case, plan.applications[0], plan.case.head.bands[0]) is None


class TestHairAsTheModelTakesIt:
    def test_lightened_hair_counts_by_what_it_looks_lighter(self) -> None:
        """Rosa: natural 6, looks like 9."""
        ends = made("rosa").case.head.treated[-1]
        assert state_of(ends).lightened_levels == 3
        assert state_of(ends).old_colours == ()
        assert ends.colour
        level = replace(ends, colour=replace(ends.colour, depth=6))
        assert (state_of(level).lightened_levels, state_of(level).old_colours) == (0, ())
        darker = replace(ends, colour=replace(ends.colour, depth=5))
        assert state_of(darker).lightened_levels == 0
        assert state_of(darker).old_colours[0].depth == 5

    def test_what_the_eye_has_read_has_not_faded_since(self) -> None:
        seen = made("ines").case.head.treated[0]
        assert seen.colour
        assert seen.colour.seen
        assert state_of(seen).old_colours[0].weeks == 0
        told = replace(seen, colour=replace(seen.colour, seen=False, weeks=6, washes=18))
        (old,) = state_of(told).old_colours
        assert (old.weeks, old.washes) == (6, 18)


class TestWhatTheForecastTells:
    def test_a_line_between_stretches_names_the_darker_side(self) -> None:
        told = [w.say.trade for w in judged("elif").forecast.warnings]  # type: ignore[union-attr]
        assert told[0] == (
            "A line will show 2.2 cm from the scalp: the lengths would be darker than the new growth, by about 3 "
            "levels."
        )
        assert judged("sunniva").forecast.warnings == ()  # type: ignore[union-attr]

    def test_of_one_place_one_line_is_told_and_how_much_where_zones_differ(self) -> None:
        told = [w.say.trade for w in judged("noor").forecast.warnings]  # type: ignore[union-attr]
        assert [say for say in told if "will show" in say] == [
            "A line will show 6 cm from the scalp: the lengths would be darker than the new growth, by about half a "
            "level (front hairline, temples, crown), by a trace (nape)."
        ]

    def test_a_goal_that_is_near_is_told_and_one_that_is_missed_warns(self) -> None:
        near = judged("ines").forecast
        assert near
        assert near.warnings == ()
        assert "near the goal" in said(near.lines)
        off = judged("elif").forecast
        assert off
        assert "clearly off the goal" in said(off.warnings)
        assert "furthest from the goal" not in said(off.lines)

    @pytest.mark.parametrize(("difference", "missed"), [(5.99, False), (6.0, True)])
    def test_a_level_away_is_missed(self, difference: float, missed: bool) -> None:
        """Six units of colour difference (assumption), as the words say it."""
        band = judged("tomas").forecast.bands[0]  # type: ignore[union-attr]
        off = replace(band, stages=(Stage("then", replace(band.last, to_goal=difference)),))
        told, found = _near_goal((off,))
        assert found is missed
        assert ("clearly off the goal" in told.say.trade) is missed

    def test_today_has_the_name_that_the_eye_gave_it(self) -> None:
        """Of dark hair many tones look alike: violet at 4 is what the colourist says it is."""
        found = judged("tomas", hair__lengths_depth=4.0, hair__lengths_tone="violet").forecast
        assert found
        today = {band.stretch: band.stages[0].colour.seen for band in found.bands}
        assert (today[Stretch.LENGTHS].depth, today[Stretch.LENGTHS].tone) == (4.0, "violet")
        measured = judged("tomas", hair__lengths_tone="violet", hair__lengths_measured="20, 5, 5").forecast
        assert measured
        assert measured.bands[1].stages[0].colour.seen.tone != "violet"

    @pytest.mark.parametrize(("difference", "tone"), [(2.49, "violet"), (2.5, "gold")])
    def test_what_cannot_be_told_from_the_goal_has_its_tone(self, difference: float, tone: str) -> None:
        """2.5 units of colour difference (assumption), as the words say it."""
        plan = made("tomas")
        band = plan.case.head.areas[0].strand.bands[0]
        last = judged("tomas").forecast.bands[0].last  # type: ignore[union-attr]
        off = replace(last, to_goal=difference, seen=replace(last.seen, tone="gold"))
        named = _named(off, "after colouring", band, Shade(5.0, "violet"))
        assert (named.seen.tone, named.seen.depth) == (tone, last.seen.depth)

    def told(self, name: str, **changes: Any) -> str:
        found = judged(name, **changes).forecast
        assert found
        return said(found.lines)

    def test_an_undertone_is_told_only_where_hair_is_lifted_to_a_cool_or_neutral_goal(self) -> None:
        assert "Gold shows at 8" in self.told("jonas")
        assert "does not cancel all the warmth" not in self.told("agnes")
        warm = {"goal__tone": "gold", "product__tone": "gold"}
        assert "does not cancel all the warmth" not in self.told("jonas", **warm)
        # What cancels it itself is told of no more of it.
        violet = {"goal__tone": "violet", "product__tone": "violet"}
        assert "does not cancel all the warmth" not in self.told("jonas", **violet)

    def test_blue_on_yellow_is_refused_on_what_will_be_lifted(self) -> None:
        ash = {"goal__tone": "ash", "product__tone": "ash"}
        assert rules(held("jonas", **ash)) == {"cool-turns-green"}
        assert "Blue on yellow turns green" in held("jonas", **ash).findings[0].trade
        assert made("agnes", **ash, allergy_test__covers_mix="yes")

    @pytest.mark.parametrize(("depth", "holds"), [(3.5, True), (4, False), (6, False), (6.5, True)])
    def test_more_than_a_level_from_the_promise_is_another_colour(self, depth: float, holds: bool) -> None:
        """Tomas wishes for 5; a strand test that came out as wanted outranks what is computed."""
        strand = {
            "strand_test__done": "yes",
            "strand_test__hair": "sound",
            "strand_test__colour": "as wanted",
        }
        for changes, counts in (({}, True), (strand, False)):
            found = judged("tomas", **changes)
            assert found.forecast
            first, *others = found.forecast.bands
            last = replace(first.last, seen=replace(first.last.seen, depth=depth))
            stages = (*first.stages[:-1], replace(first.stages[-1], colour=last))
            foreseen = replace(found.forecast, bands=(replace(first, stages=stages), *others))
            assert isinstance(found.plan, Made)
            held_back = held_by_forecast(found.plan, foreseen)
            assert (held_back is not None) is (holds and counts)
            if held_back:
                assert rules(held_back) == {"another-colour-foreseen"}
                assert f"new growth about depth {depth:g}" in held_back.findings[0].plain

    def test_cool_on_porous_lightened_hair_is_warned_of(self) -> None:
        cool = {"goal__tone": "ash", "product__tone": "ash"}
        porous = {"hair__porosity_lengths": "high", "hair__porosity_ends": "high"}
        assert "Porous hair takes cool tones fast" in self.told("rosa", **cool, **porous)
        assert "Porous hair takes cool tones fast" not in self.told("rosa", **cool)

    def test_roots_run_hot_where_all_goes_on_at_once_and_not_where_they_wait(self) -> None:
        """Common practice: what the scalp warms lifts further; so lengths are done first."""
        plan = made("agnes")
        (at_once,) = plan.applications
        scalp, *_, ends = plan.case.head.bands
        warm, cool = (treatment_of(plan.case, at_once, band) for band in (scalp, ends))
        assert warm
        assert cool
        assert warm.lift_levels == pytest.approx(1.25 * cool.lift_levels)
        waiting = made("jonas")
        last = treatment_of(waiting.case, waiting.applications[-1], waiting.case.head.bands[0])
        assert last
        assert last.lift_levels == waiting.case.product.lifts

    def test_recorded_results_make_the_strip_as_wide_as_it_deserves(self) -> None:
        """Seven right on the spot: root of 7/14, so 0.7 times; seven off by all that was stated: root of 5/2."""
        found = judged("tomas")
        assert isinstance(found.plan, Made)
        case = found.plan.case
        widths = []
        for seen in ((30.0, 10.0, 16.0), (40.0, 10.0, 16.0)):
            band = max(0.5, float(ciede2000((30.0, 10.0, 16.0), seen)))
            results = (Result((30.0, 10.0, 16.0), seen, band),) * 7
            drawn = forecast(case, found.plan.applications, only_if=False, results=results)
            assert "After 7 recorded results" in said(drawn.lines)
            widths.append(drawn.bands[0].last.spread.difference)
        usual = forecast(case, found.plan.applications, only_if=False).bands[0].last.spread.difference
        assert widths[0] < 0.8 * usual < usual < 1.3 * usual < widths[1]

    def test_stages_have_names(self) -> None:
        bands = judged("rosa").forecast.bands  # type: ignore[union-attr]
        assert [stage.name for stage in bands[-1].stages] == ["today", "after the filler", "after colouring"]


class TestTargetsInWords:
    @pytest.mark.parametrize(
        ("target", "name", "where"),
        [
            (Target(tuple(Stretch)), "all over", "the hair from scalp to ends"),
            (Target((Stretch.SCALP, Stretch.NEW_GROWTH)), "new growth", "the new growth, 4 cm"),
            (
                Target((Stretch.LENGTHS, Stretch.ENDS)),
                "lengths and ends",
                "the lengths and ends, from 1.5 cm off the scalp",
            ),
            (Target((Stretch.SCALP,)), "roots", "the last 4 cm at the scalp"),
            (
                Target((Stretch.NEW_GROWTH,)),
                "new growth off the scalp",
                "the new growth off the scalp, from 1.5 cm off the scalp",
            ),
            (Target((Stretch.ENDS,)), "ends", "the ends, from 1.5 cm off the scalp"),
            (Target((Stretch.ENDS,), which=Which.LIGHTENED), "lightened hair", "the lightened hair only"),
            (
                Target((Stretch.SCALP,), (Zone.FRONT, Zone.NAPE), Which.WHITE),
                "white hair that resists: front hairline, nape",
                "the white hair that resists: front hairline, nape only",
            ),
        ],
    )
    def test_names(self, target: Target, name: str, where: str) -> None:
        assert name_of(target) == name
        assert where_of(target, 1.5, 4).trade == where

    def test_the_scalp_is_told_as_new_growth(self) -> None:
        assert [part_of(stretch) for stretch in Stretch] == ["new growth", "new growth", "lengths", "ends"]

    def test_a_target_spans_its_bands(self) -> None:
        head = made("ines").case.head
        assert span(head, Target((Stretch.SCALP,))) == (0, 1.5)
        assert span(head, Target((Stretch.LENGTHS, Stretch.ENDS))) == (1.5, 34)
        assert span(head, Target((Stretch.NEW_GROWTH,))) == (0, 0)


class TestSteps:
    def step(self, name: str, start: str, **changes: Any) -> Step:
        return next(s for s in made(name, **changes).steps if s.say.trade.startswith(start))

    def test_the_first_round_has_no_minute_and_later_ones_do(self) -> None:
        assert self.step("jonas", "Colour on the lengths").say.trade.startswith(
            "Colour on the lengths and ends"
        )
        roots = self.step(
            "jonas", "At minute 3: Colour on the last 1.3 cm at the scalp, quickly, with fresh mix."
        )
        assert roots.stretch == "roots"

    def test_the_colour_over_a_filler_is_put_on_thoroughly(self) -> None:
        """Minutes before 0 are not told as minutes of the clock."""
        assert "both sides of every parting" in self.step("rosa", "Colour on").say.trade
        assert (
            "both sides of every parting" in self.step("rosa", "Filler on the lightened hair only").say.trade
        )

    def test_bowls_are_asked_for_when_they_are_first_used(self) -> None:
        assert (
            "each further one when the one before is used up"
            in self.step("agnes", "Mix the first bowl of the colour for the whole head").say.trade
        )
        assert self.step("jonas", "Mix the colour for the roots now; not in metal")
        assert self.step("odile", "Mix Amberley")
        assert self.step("rosa", "Mix the first bowl of the filler now")
        assert self.step("sunniva", "Fill the colour into a bowl")

    def test_a_fresh_bowl_is_thinned_and_a_rest_emulsified(self) -> None:
        assert "emulsify the colour on the new growth" in said(made("ines").steps)
        by_tube = {
            "product__kind": "tube and developer",
            "product__tube_g": 60,
            "allergy_test__covers_mix": "yes",
        }
        assert "thin the fresh bowl" in said(made("ines", **by_tube).steps)
        assert "on damp lengths" in said(made("thea").steps)

    def test_thinned_colour_is_watched_every_two_minutes(self) -> None:
        roots, lengths = clocked(made("ines"))
        assert roots.checks == (5, 10, 15, 20, 25, 30)
        assert lengths.checks == (32, 34, 35)
        assert (roots.minutes, lengths.minutes) == (30, 5)

    def test_why_so_long(self) -> None:
        assert "leaflet says 30 minutes on white hair" in clocked(made("ines"))[0].because.trade
        strand = {
            "strand_test__done": "yes",
            "strand_test__hair": "sound",
            "strand_test__colour": "as wanted",
        }
        by_strand = clocked(made("jonas", **strand, strand_test__minutes=31))[-1]
        assert "strand test and the leaflet allow 31 minutes" in by_strand.because.trade
        assert "leaflet says 35 minutes" in clocked(made("jonas"))[-1].because.trade
        assert "own leaflet" in clocked(made("rosa"))[0].because.trade
        white = clocked(made("ines", **strand, strand_test__minutes=28))[0]
        assert white.clock == (0, 28)
        assert "strand test and the leaflet allow 28 minutes on white hair" in white.because.trade

    def test_only_peroxide_asks_for_gloves_as_peroxide(self) -> None:
        gloves = "Gloves on"
        assert "Peroxide products" in self.step("ines", gloves).because.trade
        assert "Dye must not touch" in self.step("sunniva", gloves).because.trade


def test_white_of_a_head_reaches_the_forecast_zone_by_zone() -> None:
    case: Case = with_bands(made("ines").case, lambda _, band: replace(band, white_share=0.3))
    assert state_of(case.head.bands[0]).white_share == 0.3
