"""Products out of their answers: what each kind needs, lifts, deposits and counts as."""

from typing import Any

import pytest

from consult.answers.product import Product as Answered
from consult.products.kinds import DemiPermanent, Direct, Filler, HighLift, Kit, Permanent, Tube, lift_bound
from consult.products.reading import missing, read_product

KIT = {
    "kind": "retail kit",
    "colour_class": "permanent",
    "depth": 5.0,
    "tone": "gold",
    "chart_from": 4.0,
    "chart_to": 7.0,
    "white_claim": "full cover",
    "developer_percent": 6.0,
    "ratio": 1.5,
    "minutes_new_growth": 30.0,
    "minutes_white": 40.0,
    "minutes_refresh": 5.0,
    "minutes_min": 25.0,
    "minutes_max": 45.0,
    "pack_ml": 110.0,
}


def answered(**changes: Any) -> Answered:
    given = {name: value for name, value in (KIT | changes).items() if value is not None}
    return Answered.model_validate(given)


def tube(colour_class: str, **changes: Any) -> Answered:
    return answered(
        kind="tube and developer", colour_class=colour_class, tube_g=60.0, chart_from=None, chart_to=None,
        pack_ml=None, **changes,
    )  # fmt: skip


def direct(**changes: Any) -> Answered:
    return tube("direct (no developer)", developer_percent=None, ratio=None, **changes)


@pytest.mark.parametrize(
    ("colour_class", "kind"),
    [("permanent", Permanent), ("demi-permanent", DemiPermanent), ("high-lift", HighLift)],
)
def test_each_class_becomes_its_kind(colour_class: str, kind: type) -> None:
    assert type(read_product(tube(colour_class))) is kind


def test_direct_colour_has_no_place_for_a_developer() -> None:
    product = read_product(direct())
    assert isinstance(product, Direct)
    assert not hasattr(product, "developer")
    assert missing(direct()) == ()


def test_a_powder_lightener_is_no_product_of_a_plan() -> None:
    assert read_product(tube("powder lightener")) is None


@pytest.mark.parametrize("lacking", KIT)
def test_a_kit_needs_every_one_of_its_answers(lacking: str) -> None:
    assert missing(answered()) == ()
    assert lacking in missing(answered(**{lacking: None}))
    assert (lacking in missing(answered(**{lacking: "not sure"}))) is (lacking not in NOT_PRINTED)


# Many kits do not print their developer's strength, nor numbers on their chart (common practice).
NOT_PRINTED = ("developer_percent", "chart_from", "chart_to")


def test_what_a_kit_does_not_print_is_unknown_and_may_be_as_strong_as_the_law_allows() -> None:
    kit = read_product(answered(developer_percent="not sure", chart_from="not sure"))
    assert isinstance(kit, Permanent)
    assert isinstance(kit.package, Kit)
    assert kit.package.chart is None
    assert (kit.developer.printed, kit.developer.at_most) == (False, 12)
    assert "developer_percent" in missing(tube("permanent", developer_percent="not sure"))


@pytest.mark.parametrize(
    ("answer", "read"),
    [("not sure", "the first touch"), (None, "it does not say"), ("the end of application",) * 2],
)
def test_how_a_leaflet_counts(answer: str | None, read: str) -> None:
    """Not sure is the stricter way; who was never asked, in an older record, gets the trade's habit."""
    product = read_product(answered(counted_from=answer))
    assert product
    assert product.leaflet.counted_from == read


def test_a_tube_needs_no_chart_and_a_kit_no_tube() -> None:
    assert missing(tube("permanent")) == ()
    assert "tube_g" in missing(answered(kind="tube and developer"))


def test_packages() -> None:
    kit, tubes = read_product(answered()), read_product(tube("permanent"))
    assert kit
    assert tubes
    assert kit.package == Kit(110.0, (4.0, 7.0))
    assert tubes.package == Tube(60.0)


def test_no_time_of_the_leaflet_lies_above_its_longest() -> None:
    product = read_product(answered(minutes_white=60.0))
    assert product
    assert product.leaflet.white == product.leaflet.longest == 45


@pytest.mark.parametrize(
    ("percent", "levels"), [(1.9, 0), (3, 0), (5.9, 0), (6, 2), (8.9, 2), (9, 3), (11.9, 3), (12, 4)]
)
def test_the_lift_a_developer_gives_at_most(percent: float, levels: float) -> None:
    """20 / 30 / 40 volume lift 2 / 3 / 4 levels at most, 10 volume deposits (taught tables, cautious end)."""
    assert lift_bound(percent) == levels


class TestWhatEachKindDoes:
    def test_only_permanent_covers_white_and_only_where_the_pack_claims_it(self) -> None:
        """Permanent covers, demi blends, semi blends a little (BCcampus, Hair Colour for Hairstylists)."""
        covers = {
            name: read_product(tube(name)).covers_white  # type: ignore[union-attr]
            for name in ("permanent", "demi-permanent", "high-lift")
        }
        assert covers == {"permanent": True, "demi-permanent": False, "high-lift": False}
        assert not read_product(direct()).covers_white  # type: ignore[union-attr]
        assert not read_product(answered(white_claim="blends white")).covers_white  # type: ignore[union-attr]

    def test_demi_and_direct_lift_nothing_whatever_the_developer(self) -> None:
        assert read_product(tube("demi-permanent", developer_percent=9.0)).lifts == 0  # type: ignore[union-attr]
        assert read_product(direct()).lifts == 0  # type: ignore[union-attr]
        assert read_product(tube("permanent", developer_percent=9.0)).lifts == 3  # type: ignore[union-attr]

    def test_peroxide_on_the_head_is_thinned_by_the_colour(self) -> None:
        """1 part of colour to 1.5 parts of 9 % is 5.4 % on the head (worked value of the legal limits)."""
        product = read_product(tube("permanent", developer_percent=9.0))
        assert product
        assert product.peroxide_on_head == pytest.approx(5.4)
        assert read_product(direct()).peroxide_on_head == 0  # type: ignore[union-attr]

    def test_oxidative_colour_counts_as_a_pass_and_direct_colour_does_not(self) -> None:
        assert read_product(tube("permanent")).passes == 1  # type: ignore[union-attr]
        assert read_product(direct()).passes == 0  # type: ignore[union-attr]

    def test_a_filler_and_direct_colour_deposit_less_than_full_colour(self) -> None:
        from consult.plan.writing import filler_for

        full, less = read_product(tube("permanent")), read_product(direct())
        assert full
        assert less
        filler = filler_for(6)
        assert isinstance(filler, Filler)
        assert full.deposit == 1 > less.deposit > 0
        assert full.deposit > filler.deposit > 0


@pytest.mark.parametrize(
    ("goal", "depth", "tone"),
    [
        (8, 9, "gold"),
        (7, 8, "gold"),
        (6, 7, "copper"),
        (5, 6, "copper red"),
        (4, 5, "red"),
        (3, 4, "red"),
        (10, 10, "gold"),
    ],
)
def test_the_filler_is_warm_and_a_level_lighter_than_the_goal(goal: float, depth: float, tone: str) -> None:
    """Goal 8 gold, 7 gold (to copper), 6 copper, 5 copper red, 4 and below red (common practice)."""
    from consult.plan.writing import filler_for

    assert (filler_for(goal).shade.depth, filler_for(goal).shade.tone) == (depth, tone)
