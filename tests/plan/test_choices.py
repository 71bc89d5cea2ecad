"""Which way is taken, what stands beside it, and how bowls and shelves are dealt out (common practice)."""

from datetime import date
from typing import Any

import pytest
from msgspec.structs import replace

from consult.answers.shelf import Developers, Shelf
from consult.consultation import consult
from consult.gates.verdict import Verdict
from consult.plan.alternatives import alternatives
from consult.plan.approach import change_of_lengths, choose_approach, colour_left, needs_filling
from consult.plan.case import Case
from consult.plan.developer import Dilution, OutsideStrengths, alligate
from consult.plan.shelf import ShelfChoice
from consult.plan.types import Held, Made, Stopped
from consult.records.codec import read_shelf
from consult.trade import Stretch
from tests.demo import judged, load
from tests.plan.plans import held, made, said, with_bands
from tests.plan.test_shelf import SHELF

NO_WHITE = {f"hair__white_{zone}": 0 for zone in ("front", "temples", "crown", "nape")}
DARKER = {"hair__natural_depth": 6, "hair__lengths_depth": 6, "hair__ends_depth": 6}


def lengths(case: Case, depth: float, *, lightened: bool = False, tone: str = "gold") -> Case:
    """The same case with lengths and ends of one depth."""
    colour = case.head.treated[0].colour
    assert colour
    seen = replace(colour, depth=depth, tone=tone)  # type: ignore[arg-type]
    beyond = (Stretch.LENGTHS, Stretch.ENDS)
    return with_bands(
        case,
        lambda _, band: replace(band, colour=seen, lightened=lightened) if band.stretch in beyond else band,
    )


class TestWhenLengthsAreColouredForGood:
    """Tomas wants depth 5 gold."""

    def change(self, depth: float, look: str = "faded", **more: Any) -> str:
        case = made("tomas").case
        case = replace(case, hair=replace(case.hair, lengths_look=look))  # type: ignore[arg-type]
        return change_of_lengths(lengths(case, depth, **more))

    def test_lightened_lengths_from_a_level_on(self) -> None:
        assert self.change(6, lightened=True) == "The lightened lengths go 1 level(s) darker."
        assert self.change(5.5, lightened=True) == ""

    def test_faded_lengths_over_a_level(self) -> None:
        assert self.change(6) == ""
        assert self.change(6.5) == "The lengths go 1.5 levels darker."

    def test_even_lengths_from_a_level_on(self) -> None:
        assert "even and a level lighter" in self.change(6, "even")
        assert self.change(5.5, "even") == ""

    def test_another_tone(self) -> None:
        case = lengths(made("tomas").case, 5)
        assert change_of_lengths(replace(case, hair=replace(case.hair, lengths_tone="copper"))) == ""
        red = replace(case, hair=replace(case.hair, lengths_tone="red"))
        assert change_of_lengths(red) == "The tone of the lengths changes from red to gold."

    def test_not_where_new_growth_alone_is_wished_for(self) -> None:
        case = lengths(made("tomas").case, 9, lightened=True)
        assert change_of_lengths(replace(case, wish=replace(case.wish, extent="new growth only"))) == ""

    @pytest.mark.parametrize(
        ("depth", "lightened", "filled"), [(7, True, True), (6.5, True, False), (8, False, False)]
    )
    def test_two_levels_darker_on_lightened_hair_wants_a_filler(
        self, depth: float, lightened: bool, filled: bool
    ) -> None:
        assert needs_filling(lengths(made("tomas").case, depth, lightened=lightened)) is filled


class TestTheWay:
    def test_short_hair_made_lighter_is_done_in_one_go(self) -> None:
        """Up to 4 cm all of it is warmed by the scalp (assumption)."""
        case = made("jonas").case

        def cut(cm: float) -> str:
            whole = with_bands(case, lambda _, band: replace(band, end_cm=cm) if band.end_cm == 22 else band)
            return choose_approach(whole).name

        assert cut(4) == "all over"
        assert cut(4.5) == "lengths first, roots last"

    def test_a_leaflet_without_a_refresh_leaves_the_lengths(self) -> None:
        plan = made("ines", product__minutes_refresh=0)
        assert plan.approach == "new growth only"
        assert "allows no refresh" in plan.because.because.trade
        assert made("ines", product__minutes_refresh=1).approach == "new growth, then refresh the lengths"

    def test_an_idle_wish_is_answered_and_only_then(self) -> None:
        told = "All over was wished for; these lengths need none."
        assert told in made("tomas", goal__extent="all over").because.because.trade
        assert told not in made("tomas").because.because.trade

    def test_how_much_colour_should_be_left_is_told_in_tens(self) -> None:
        """Tomas looks the same all over, six weeks and 18 washes after his colour: about 70 %."""
        told = made("tomas").because.because.trade
        assert "about 70 % of the colour should be left" in told
        case = made("tomas").case
        assert colour_left(case) == pytest.approx(0.70, abs=0.05)
        unknown = with_bands(
            case, lambda _, band: replace(band, colour=replace(band.colour, weeks=0)) if band.colour else band
        )
        assert colour_left(unknown) is None


LIGHTER = {"hair__lengths_depth": 7.0, "hair__ends_depth": 7.0}
LEFT_WHITE = {"hair__white_front": 20.0, "goal__white": "leave"}


class TestNewGrowthThatIsTheGoal:
    """Natural 5 without white, 5 neutral wished for: what has grown needs nothing, and no part says that it does."""

    @pytest.mark.parametrize(
        ("changes", "name", "says"),
        [
            (LIGHTER, "lengths only", "The lengths only; what has grown"),
            ({**LIGHTER, **LEFT_WHITE}, "lengths only", "The lengths only; what has grown"),
            (
                {**LIGHTER, **LEFT_WHITE, "goal__white": "cover"},
                "all over",
                "New growth and lengths together",
            ),
            (
                {"hair__lengths_look": "faded"},
                "refresh the lengths",
                "Refresh the faded lengths for 5 minutes",
            ),
        ],
    )
    def test_the_plan_is_called_what_it_is(self, changes: dict[str, Any], name: str, says: str) -> None:
        zones = {f"hair__white_{zone}": 0.0 for zone in ("front", "temples", "crown", "nape")}
        neutral = {f"{path}_tone": "neutral" for path in ("goal_", "product_", "hair__lengths")}
        plan = made("tomas", **{**zones, **neutral, "goal__white": "there is none", **changes})
        assert plan.approach == name
        assert says in plan.because.say.trade
        stretches = {stretch for a in plan.applications for stretch in a.target.stretches}
        assert (Stretch.SCALP in stretches) is (name == "all over")


class TestOtherWays:
    def ways(self, name: str, *, against: tuple[Verdict, ...] = (), **wish: Any) -> str:
        """Other ways for a demo client with another wish."""
        changes = {f"goal__{key}": value for key, value in wish.items()}
        found = judged(name, **changes)
        assert isinstance(found.plan, Made | Held)
        assert found.plan.ways
        return said(alternatives(replace(found.plan.ways, against=against)))

    def test_old_colour_under_a_lighter_wish(self) -> None:
        """Tomas' lengths are 5: from more than half a level lighter on they decide."""
        assert "Keep the lengths' depth 5" in self.ways("tomas", depth=6)
        assert "Keep the lengths' depth" not in self.ways("tomas", depth=5.5)
        assert "Keep the lengths' depth" not in self.ways("jonas")

    def test_a_goal_out_of_reach_names_the_nearest_shade(self) -> None:
        """Two levels at home, and three in the salon, are what one colouring is planned for."""
        assert "Choose a shade between depth 5 and 7" in self.ways("tomas", against=(Verdict.CHANGE_PRODUCT,))
        assert "and whose pack claims full cover" in self.ways("tomas", against=(Verdict.CHANGE_PRODUCT,))
        assert "claims full cover" not in self.ways("jonas", against=(Verdict.CHANGE_PRODUCT,))
        assert "between depth 6 and 9" in self.ways("jonas", against=(Verdict.CHANGE_PRODUCT,))
        assert "Choose a shade" not in self.ways("jonas")
        assert "lighten it, in stages" in self.ways("jonas", against=(Verdict.CHANGE_PRODUCT,))
        assert "lighten it, in stages" not in self.ways("agnes", against=(Verdict.CHANGE_PRODUCT,))

    def test_lighter_and_white_have_a_softer_way(self) -> None:
        assert "Stay at the natural depth 6" in self.ways("jonas", tone="gold")
        # To a neutral wish nature itself is that way.
        assert "Stay at the natural depth" not in self.ways("jonas")
        assert "Stay at the natural depth" not in self.ways("agnes")
        assert "Blend the white hair" in self.ways("ines")
        assert "Blend the white hair" not in self.ways("jonas")

    @pytest.mark.parametrize(("white", "offered"), [(40, True), (50, True), (55, False), (95, False)])
    def test_blending_is_for_whoever_is_half_white_at_the_most(self, white: float, offered: bool) -> None:
        """More than half white is covered by permanent colour: blended, most of it stays in sight (common practice)."""
        zones = {f"hair__white_{zone}": white for zone in ("front", "temples", "crown", "nape")}
        ways = made("tomas", **zones, goal__white="cover").ways
        assert ways
        assert ("Blend the white hair" in said(alternatives(ways))) is offered

    def test_what_would_be_refused_is_not_offered(self) -> None:
        """Metal on the hair bears no other colour, nor does hair that breaks; a blend lifts nothing."""
        assert said(held("kofi").alternatives) == "Wait and let it grow."
        assert said(held("yara").alternatives) == "Wait and let it grow."
        assert "Blend the white hair" not in self.ways("ines", depth=7.0)
        henna = {
            "kind": "plain henna",
            "on": judged("jonas").now.date().replace(year=2025),
            "stretch": "all over",
        }
        lifted = judged("jonas", history__services=[henna]).plan
        assert isinstance(lifted, Held)
        assert "lighten it" not in said(lifted.alternatives)
        assert "removing it is a service" not in said(lifted.alternatives)

    def test_waiting_is_always_one(self) -> None:
        assert "Leave it as it is" in self.ways("jonas")
        assert "let it grow" in self.ways("tomas")


class TestStoppedAndHeld:
    def test_a_stop_names_what_stops(self) -> None:
        plan = judged("piet").plan
        assert isinstance(plan, Stopped)
        assert plan.findings
        assert all(f.verdict is Verdict.STOP for f in plan.findings)

    def test_only_waiting_and_testing_leave_the_plan_to_be_prepared(self) -> None:
        assert held("mirela").then
        assert held("beata").then is None
        assert held("mirela", product__white_claim="no claim").then is None

    def test_a_product_out_of_reach_names_another(self) -> None:
        assert "Choose a shade between" in said(held("beata").alternatives)
        assert "Choose a shade between" not in said(held("mirela").alternatives)

    def test_where_a_doctor_is_seen_first_nothing_is_prepared(self) -> None:
        plan = judged("samira").plan
        assert isinstance(plan, Held)
        assert (plan.case, plan.applications, plan.then, plan.notes) == (None, (), None, ())

    def test_days_of_a_wait_are_told(self) -> None:
        """0.7 cm more at Ines' own 1.5 cm in 42 days."""
        (finding,) = [f for f in held("ines", hair__new_growth_cm=0.3).findings if f.rule == "too-early"]
        assert finding.until
        assert finding.until.date() > date(2026, 12, 9)


class TestBowls:
    def minutes(self, name: str, **changes: Any) -> list[int]:
        return [mix.minute for mix in made(name, **changes).mixes]

    def test_a_round_longer_than_a_mix_is_good_is_mixed_twice(self) -> None:
        """Half an hour, where the leaflet says nothing (common practice): at the start and half way."""
        assert self.minutes("ines") == [-29]
        assert self.minutes("agnes") == [-39, -20]
        assert self.minutes("agnes", product__mix_minutes=39) == [-39]
        assert self.minutes("sunniva") == [-29]  # nothing works in the bowl

    def test_each_bowl_has_its_own_minute(self) -> None:
        assert self.minutes("jonas") == [-29, 3]
        assert self.minutes("agnes", hair__white_resists="yes") == [-54, -39, -20]

    def test_a_fresh_bowl_for_a_refresh_is_mixed_when_its_turn_comes(self) -> None:
        by_tube = {
            "product__kind": "tube and developer",
            "product__tube_g": 60,
            "allergy_test__covers_mix": "yes",
        }
        assert self.minutes("ines", **by_tube) == [-29, 30]
        # A mix that is still good, or that does not work in the bowl, is used up first.
        assert self.minutes("ines", product__mix_minutes=60, **by_tube) == [-29]

    def test_a_pack_is_mixed_whole(self) -> None:
        whole = made("ines").mixes[0]
        assert (whole.packs, whole.colour_g, whole.developer_g) == (1, 55, 55)
        assert "1 pack, mixed" in whole.line.say.trade
        assert "Buy 1 pack of" in said(made("ines").amounts)

    def test_several_packs_in_one_bowl(self) -> None:
        """194 g expected and two hands: two packs of 110 ml mixed at once."""
        plan = made("wilma", client__helper="yes")
        assert [(mix.packs, mix.rest.packs) for mix in plan.mixes] == [(2, 1)]
        assert "2 packs, mixed" in plan.mixes[0].line.say.trade
        assert "Buy 3 packs of" in said(plan.amounts)

    def test_a_kit_at_one_to_one_and_a_half(self) -> None:
        """110 g in all: 44 of colour and 66 of developer, 3.6 % on the head."""
        mix = made("ines", product__ratio=1.5).mixes[0]
        assert (mix.colour_g, mix.developer_g) == (44, 66)
        assert "The mix holds 3.6 % on the head" in mix.line.because.trade

    def test_peroxide_minutes_are_kept_to_a_tenth(self) -> None:
        """6 % at one to 1.3 is 3.391 % on the head; 30 minutes of it."""
        assert made("tomas", product__ratio=1.3).ledger[0].peroxide_minutes_after == 101.7

    def test_shades_of_one_bowl_share_its_colour(self) -> None:
        plan = made("agnes", goal__tone="red", product__tone="red", allergy_test__covers_mix="yes")
        for mix in plan.mixes:
            natural, red = mix.colours
            assert natural.grams == -(-mix.colour_g * 3 // 4)
            assert natural.grams + red.grams == mix.colour_g
            assert "of the colour is natural shade" in mix.line.because.trade
        assert "natural shade" not in made("agnes").mixes[0].line.because.trade


class TestShelf:
    def found(self, name: str, shelf: Shelf, **changes: Any) -> ShelfChoice:
        loaded = load(name)
        assert loaded.consulted_at
        found = consult(judged(name, **changes).answers, loaded.consulted_at, shelf=shelf).from_shelf
        assert found
        return found

    def tubes(self, *shades: tuple[float, str], percents: tuple[float, ...] = (6.0,), **more: Any) -> Shelf:
        tube = read_shelf(SHELF).product[1]
        products = tuple(
            tube.model_copy(update={"depth": depth, "tone": tone, "shade": f"{depth:g} {tone}", **more})
            for depth, tone in shades
        )
        return Shelf(product=products, developers=(Developers(name=tube.name, percents=percents),))

    def test_on_mostly_white_hair_a_bright_shade_needs_three_quarters_natural(self) -> None:
        """Agnes is 87.5 % white. A copper goal: the larger part decides the tone, so no such blend is copper enough."""
        copper = {"goal__tone": "copper"}
        found = self.found("agnes", self.tubes((5, "gold"), (5, "copper")), **copper)
        assert [sorted(shade for shade, _ in offer.shades) for offer in found.best] == [
            ["depth 5 gold (5 gold)"]
        ]
        assert any("a bright shade alone on white hair" in line.say.trade for line in found.refused)

    def test_half_white_takes_two_thirds_natural(self) -> None:
        """Three quarters natural and a quarter of copper is allowed, a half is not."""
        half = {f"hair__white_{zone}": 60 for zone in ("front", "temples", "crown", "nape")}
        for order in (((5, "neutral"), (5, "copper")), ((5, "copper"), (5, "neutral"))):
            found = self.found("agnes", self.tubes(*order), **half)
            assert found.tried == 2  # neutral alone, and one blend

    def test_without_white_a_bright_shade_may_stand_alone(self) -> None:
        none = {f"hair__white_{zone}": 0 for zone in ("front", "temples", "crown", "nape")}
        copper = {"goal__tone": "copper", "goal__white": "there is none", **none}
        found = self.found("agnes", self.tubes((5, "copper")), **copper)
        assert [offer.shades for offer in found.best] == [(("depth 5 copper (5 copper)", 1.0),)]

    def test_three_quarters_a_half_and_a_quarter_are_tried(self) -> None:
        """Two shades of half a level to either side: alone, and three blends."""
        none = NO_WHITE | DARKER
        plain = {"goal__white": "there is none", **none}
        found = self.found("agnes", self.tubes((5, "neutral"), (4.5, "neutral")), **plain)
        assert found.tried == 5
        assert self.found("agnes", self.tubes((5, "neutral")), **plain).tried == 1

    def test_white_is_covered_with_6_percent_only(self) -> None:
        found = self.found("agnes", self.tubes((5, "neutral"), percents=(3.0, 6.0, 9.0)))
        assert {offer.developer_percent for offer in found.best} == {6}
        none = self.found("agnes", self.tubes((5, "neutral"), percents=(9.0,), developer_percent=9.0))
        assert none.best == ()
        assert "covered with 6 % developer" in said(none.refused)

    def test_among_equals_the_weaker_developer_comes_first(self) -> None:
        none = NO_WHITE | DARKER
        plain = {"goal__white": "there is none", **none}
        found = self.found("agnes", self.tubes((5, "neutral"), percents=(3.0, 6.0, 9.0)), **plain)
        assert [offer.developer_percent for offer in found.best] == sorted(
            o.developer_percent for o in found.best
        )
        assert len(found.best) == found.ties > 1

    def test_among_equals_a_shade_alone_comes_before_a_blend(self) -> None:
        none = NO_WHITE | DARKER
        shelf = self.tubes((5, "neutral"), (4.5, "neutral"), percents=(3.0, 6.0))
        found = self.found("agnes", shelf, **{"goal__white": "there is none", **none})
        blended = [len(offer.shades) for offer in found.best]
        assert blended == sorted(blended)
        assert set(blended) == {1, 2}

    def test_colour_without_developer_is_offered_without_one(self) -> None:
        direct = {
            "colour_class": "direct (no developer)", "developer_percent": None, "ratio": None,
            "named_together": None, "white_claim": "no claim", "minutes_new_growth": 20.0, "minutes_min": 15.0,
            "minutes_max": 30.0,
        }  # fmt: skip
        found = self.found("agnes", self.tubes((5, "neutral"), **direct), goal__white="blend")
        (offer,) = found.best
        assert offer.developer_percent == 0
        assert offer.minutes == 20

    def test_at_most_six_are_shown_and_ties_are_counted(self) -> None:
        shades = tuple((5, tone) for tone in ("neutral", "gold", "ash", "pearl", "violet"))
        none = NO_WHITE | DARKER
        found = self.found("agnes", self.tubes(*shades), **{"goal__white": "there is none", **none})
        assert len(found.best) == 6 <= found.ties <= found.tried

    def test_a_tube_brings_its_own_developer(self) -> None:
        shelf = self.tubes((5, "neutral"))
        alone = self.found("agnes", shelf.model_copy(update={"developers": ()}))
        assert [offer.developer_percent for offer in alone.best] == [6]

    def test_hair_that_gets_nothing_is_not_held_against_a_shade(self) -> None:
        """Lengths faded to 8 that are to be left: the shelf is judged on the new growth."""
        faded = {"hair__lengths_depth": 8, "hair__ends_depth": 8, "goal__extent": "new growth only"}
        for changes in ({}, faded):
            (offer, *_) = self.found("tomas", read_shelf(SHELF), **changes).best
            assert offer.nearness == "the goal, as far as can be told"


@pytest.mark.parametrize(("target", "strong_g", "weak_g"), [(3, 0, 60), (12, 60, 0)])
def test_either_developer_by_itself_is_its_own_mixture(target: float, strong_g: float, weak_g: float) -> None:
    assert alligate(12, 3, target, 60) == Dilution(strong_g, weak_g)
    with pytest.raises(OutsideStrengths):
        alligate(target, target, target, 60)
