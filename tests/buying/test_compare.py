"""Candidates side by side, and the words of a pack as ranges."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.answers.shelf import Shelf, shelf_from_data
from consult.buying.compare import BadComparison, Candidate, chart_in_words, compare
from consult.buying.names import depth_of_picture, depth_of_words, tone_of_words
from consult.consultation import consult
from consult.plan.types import Made
from consult.plan.usual import as_if_tested
from consult.records.codec import read_shelf
from consult.records.demos import demo_folder
from consult.trade import DEPTH_NAMES
from tests.baseline import NOW, baseline
from tests.demo import load
from tests.plan.heads import head

SHELF = read_shelf(demo_folder() / "shelf.toml")
SIX = SHELF.model_copy(update={"product": SHELF.product[:6]})
FRONT = {"kind": "retail kit", "colour_class": "permanent", "white_claim": "full cover"}


def of(found: tuple[Candidate, ...], name: str) -> Candidate:
    return next(one for one in found if name in one.name)


def shelf(*products: dict[str, object], chart: object = ()) -> Shelf:
    return shelf_from_data({"product": list(products), "chart": list(chart)})  # type: ignore[call-overload]


def test_each_candidate_that_works_is_a_plan_of_the_whole_program() -> None:
    answers = load("ines").answers
    found = compare(answers, SIX, NOW).candidates
    assert len(found) == 6
    for one in found:
        product = next(p for p in SIX.product if f"{p.name} {p.shade}" == one.name)
        plan = consult(as_if_tested(answers.model_copy(update={"product": product}), NOW), NOW).plan
        if one.works:
            assert isinstance(plan, Made)
            assert one.packs == sum(p.packs for p in plan.purchases)
            assert one.passes == max(a.passes_after for a in plan.ledger)
    assert of(found, "5 gold").works is True
    assert of(found, "4 ash").works is False
    assert [one.works for one in found] == sorted((one.works for one in found), key=lambda w: w is not True)


def test_there_are_two_to_six() -> None:
    for products in (SHELF.product[:1], SHELF.product):
        with pytest.raises(BadComparison):
            compare(baseline(), SHELF.model_copy(update={"product": products}), NOW)


@pytest.mark.parametrize("name", ["hanna", "lotte", "piet", "kofi", "elif"])
def test_on_a_head_that_the_gates_hold_nothing_is_compared(name: str) -> None:
    found = compare(load(name).answers, SIX, NOW)
    assert found.candidates == ()
    assert found.against


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_numbers_stay_in_range(seed: int) -> None:
    for one in compare(head(seed), SIX, NOW).candidates:
        assert one.packs is None or 1 <= one.packs <= 30
        assert one.more is None or 0 <= one.more <= 2
        assert one.weeks is None or all(1 <= weeks <= 52 for weeks in one.weeks)
        assert one.off is None or 0 <= one.off < 120
        if one.works:
            assert one.against is None


def test_a_name_alone_never_counts_as_a_number() -> None:
    for names in DEPTH_NAMES.values():
        for name in names:
            meant = depth_of_words(name)
            assert meant
            assert meant.high - meant.low >= (0.5 if {meant.low, meant.high} & {1.0, 10.0} else 1)
    kit = shelf(
        {**FRONT, "name": "X", "shade": "golden light brown"}, {**FRONT, "name": "Y", "shade": "Nr 5"}
    )
    found = compare(baseline(), kit, NOW).candidates
    assert of(found, "X").works is not True
    assert any("look for a number" in doubt for doubt in of(found, "X").doubts)
    assert of(found, "Y").works is None
    assert "depth" in of(found, "Y").doubts[0]


@pytest.mark.parametrize(
    ("words", "low", "high", "tone"),
    [
        ("medium ash blonde", 6.5, 8.5, "ash"),  # 7 on the college scale, 8 on many packs
        ("dark blonde", 5.5, 7.5, None),
        ("light golden brown", 4.5, 5.5, "gold"),
        ("Black", 1.0, 1.5, None),
        ("brown", 1.5, 6.5, None),
        ("lightest blond", 9.5, 10.0, None),
    ],
)
def test_words_stand_for_every_depth_that_either_scale_calls_so(
    words: str, low: float, high: float, tone: str | None
) -> None:
    meant = depth_of_words(words)
    assert meant
    assert (meant.low, meant.high) == (low, high)
    assert tone_of_words(words) == tone
    assert depth_of_words("number 12/7") is None


def test_a_chart_in_words_holds_surely_only_what_its_doubt_leaves() -> None:
    kit = shelf(chart=[{"name": "X", "darkest": "dark brown", "lightest": "medium blonde"}])
    meant = chart_in_words(kit.chart[0])
    assert meant
    assert meant.surely_holds(5)
    assert not meant.surely_holds(3)
    assert meant.may_hold(3)
    assert not meant.may_hold(10)
    pictured = chart_in_words(shelf(chart=[{"name": "X", "before": "#4a3020"}]).chart[0])
    assert pictured
    assert pictured.high - pictured.low == 2


def test_a_darker_picture_means_darker_hair() -> None:
    assert depth_of_picture("#1a120e").high < depth_of_picture("#d9c08a").low


def test_what_the_pack_does_not_say_is_taken_as_usual_and_said() -> None:
    full, bare = SIX.product[0], {**FRONT, "name": "Z", "depth": 5.0, "tone": "gold"}
    both = shelf(full.model_dump(exclude_none=True), {**bare, "chart_from": 4.0, "chart_to": 7.0})
    found = compare(load("ines").answers, both, NOW).candidates
    assert of(found, "Amberley").works is True
    assert of(found, "Z").works is None
    assert any("look up" in doubt for doubt in of(found, "Z").doubts)
