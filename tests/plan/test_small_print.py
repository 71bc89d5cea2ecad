"""What is said and counted at the edges: exact packs, boundaries, words that belong to one way only."""

from typing import Any

import pytest
from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.access import with_answer
from consult.plan import checks, steps, timeline
from consult.plan.amounts import Need
from consult.plan.application import Act, Application
from consult.plan.bowls import Portion, Recipe, mix_bowls
from consult.plan.case import missing
from consult.plan.results import read_results
from consult.plan.settings import BadSetting, Settings
from consult.plan.usual import KINDS, usual
from consult.products.kinds import Auxiliary, Leaflet
from tests.plan.plans import held, made, rules, said
from tests.plan.test_cases import TestTwoProducts
from tests.plan.test_checks import TUBE

TWO = TestTwoProducts()


def colour(plan: Any) -> Application:
    """The first colour that is put on."""
    return next(a for a in plan.applications if not isinstance(a.bowl.product, Auxiliary))


def test_a_head_that_expects_exactly_one_pack_opens_one() -> None:
    case = made("tomas").case
    pack_ml = 110.0
    bowl = colour(made("tomas")).bowl
    portion = Portion(colour(made("tomas")), Need(pack_ml, 0.0))
    (mix,) = mix_bowls(case, (Recipe(bowl, (portion,)),), Settings())
    assert mix.packs == 1


def test_without_white_only_the_wish_for_white_is_not_missed() -> None:
    answers: Answers = made("tomas").ways.answers
    for zone in ("front", "temples", "crown", "nape"):
        answers = with_answer(answers, f"hair.white_{zone}", 0.0)
    answers = with_answer(with_answer(answers, "goal.white", None), "goal.depth", None)
    assert missing(answers) == ("goal.depth",)


class TestMinutesThatDoNotFit:
    def test_a_total_is_told_where_the_leaflet_has_one(self) -> None:
        product = made("tomas").case.product
        told = checks._allowed(replace(product, leaflet=replace(product.leaflet, total=45)))
        assert "and 45 from the first touch to the rinse" in told
        assert "to the rinse" not in checks._allowed(
            replace(product, leaflet=replace(product.leaflet, total=None))
        )

    @pytest.mark.parametrize(("hands", "on_for", "helps"), [(1, 40, True), (1, 41, False), (2, 40, False)])
    def test_a_second_pair_of_hands_is_offered_where_it_would_do(
        self, hands: int, on_for: int, helps: bool
    ) -> None:
        """Two people take half the time, one half of the head after the other half of that again: 40 in 10."""
        case = made("tomas").case
        case = replace(case, work=replace(case.work, hands=hands))
        leaflet = Leaflet(30, 30, 5, 25, 35, "the first touch")
        assert ("second pair of hands" in checks._would_fit(case, leaflet, on_for)) is helps


def test_a_strand_that_came_out_as_wanted_outranks_the_bound_of_a_developer() -> None:
    """3 % lifts a level at most (common practice); what this strand has shown is more than a rule of thumb."""
    weak = {
        **TUBE,
        "product__developer_percent": 3,
        "goal__depth": 7,
        "product__depth": 7,
        "hair__natural_depth": 5,
    }
    assert "developer-lifts-too-little" in rules(held("ines", **weak))
    shown = {
        **weak,
        "strand_test__done": "yes",
        "strand_test__hair": "sound",
        "strand_test__colour": "as wanted",
    }
    plan = made_or_held("ines", **shown)
    assert "developer-lifts-too-little" not in plan


def made_or_held(name: str, **changes: Any) -> set[str]:
    """The ids of what holds a plan; none where it is made."""
    try:
        return rules(held(name, **changes))
    except AssertionError:
        return set()


def test_of_two_products_the_untested_one_is_named() -> None:
    finding = next(
        f for f in held("ines", **TWO.two(allergy_test__covers_mix="no")).findings if f.rule == "mix-untested"
    )
    other = TWO.two()["lengths_product__name"]
    assert other in finding.trade
    reds = {"goal__tone": "red", "product__tone": "red"}
    natural = next(f for f in held("agnes", **reds).findings if f.rule == "mix-untested")
    own = made("agnes").case.product.label
    assert own not in natural.trade


def test_a_recorded_band_ends_at_fifty() -> None:
    """Over 50 no two hair colours lie apart; half a unit is less than anybody sees (assumption)."""
    one = {"predicted": "30 5 8", "seen": "31 5 8"}
    for band in (0.5, 50):
        assert read_results([{**one, "band": band}])[0].band == band
    for band in (0.4, 50.5):
        with pytest.raises(BadSetting):
            read_results([{**one, "band": band}])


class TestWords:
    def test_what_comes_before_the_clock_has_no_minute(self) -> None:
        plan = made("tomas")
        first = colour(plan)
        for start, told in ((-1, False), (0, True)):
            moved = first.later(start - first.start)
            say = steps._apply(plan.case.head, moved, (first,)).say.trade
            assert say.startswith(f"At minute {start}: ") is told

    def test_minutes_count_from_the_last_parting_or_from_the_comb(self) -> None:
        first = colour(made("tomas"))
        assert "last parting" in steps._counts(replace(first, act=Act.PAINT)).plain
        assert "combed through" in steps._counts(replace(first, act=Act.COMB_THROUGH)).plain

    def test_where_sections_are_rinsed_by_themselves_no_one_rinse_is_told(self) -> None:
        first = colour(made("tomas"))
        leaflet = Leaflet(30, 30, 5, 25, 35, "the first touch")
        assert "stop where you are and rinse 35 minutes after" in timeline._slack(first, leaflet)
        by_itself = replace(first, touches=tuple(replace(touch, off=40) for touch in first.touches))
        assert timeline._slack(by_itself, leaflet) == ""
        assert timeline._slack(first, replace(leaflet, counted_from="the end of application")) == ""


@pytest.mark.parametrize("kind", KINDS)
def test_a_usual_pack_says_what_its_kind_says(kind: Any) -> None:
    """Demi-permanent colour takes the weakest developer there is, 3 % (10 volume; common practice); colour without
    developer does not develop, so all its minutes are alike; only what is mixed is named together."""
    pack = usual(kind, 5, "gold")
    assert pack.minutes_min <= pack.minutes_new_growth <= pack.minutes_max  # type: ignore[operator]
    if kind == "direct (no developer)":
        assert (pack.named_together, pack.developer_percent) == (None, None)
        assert pack.minutes_refresh == pack.minutes_new_growth == pack.minutes_white
    else:
        assert pack.named_together == "yes"
        assert pack.developer_percent == (3 if kind == "demi-permanent" else 6)


def test_a_filler_is_put_on_and_colour_colours() -> None:
    """Rosa's lightened lengths are filled first; Tomas has nothing but colour."""
    filled, coloured = said(made("rosa").timeline), said(made("tomas").timeline)
    assert "Putting on the filler takes about" in filled
    assert "Colouring the lengths and ends takes about" in filled
    assert "filler" not in coloured
    assert "Colouring the new growth takes about" in coloured


def test_what_does_not_work_in_the_bowl_is_filled_once() -> None:
    """Colour without developer keeps, however long it takes to put it on."""
    assert len(made("sunniva", product__mix_minutes=10.0).mixes) == 1
    assert len(made("tomas", product__mix_minutes=10.0).mixes) > 1


@pytest.mark.parametrize(("total", "minutes"), [(5, 5), (12, 12), (60, 20)])
def test_a_total_limit_says_how_long_putting_on_may_take(total: int, minutes: int) -> None:
    """So many minutes more than the leaflet's shortest time; without that, twenty between first and last hair."""
    case = made("tomas").case
    leaflet = case.product.leaflet
    limited = replace(leaflet, counted_from="it does not say", total=leaflet.shortest + total)
    assert f"if putting on took {minutes} minutes at most" in checks._would_fit(case, limited, 40)
