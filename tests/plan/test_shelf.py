"""The shelf: constraints first, then nearness; ties stay ties."""

from pathlib import Path

import pytest

from consult.answers.access import BadAnswer
from consult.answers.shelf import Developers, Shelf, shelf_from_data
from consult.consultation import consult
from consult.plan.shelf import ShelfChoice, developer_at_hand
from consult.records.codec import read_shelf
from tests.demo import load

SHELF = Path(__file__).parents[2] / "demo_clients" / "shelf.toml"


def choice(name: str, shelf: Shelf | None = None) -> ShelfChoice:
    loaded = load(name)
    assert loaded.consulted_at
    found = consult(loaded.answers, loaded.consulted_at, shelf=shelf or read_shelf(SHELF)).from_shelf
    assert found
    return found


def test_the_kit_made_for_this_head_is_among_the_nearest() -> None:
    found = choice("ines")
    assert any(offer.name == "Amberley colour kit" for offer in found.best)
    assert found.ties >= len(found.best)
    assert found.tried > found.ties


def test_white_hair_gets_20_volume_and_its_full_time() -> None:
    """20 vol (6 %) is the standard for white, never a shortened time (several trade sources)."""
    for offer in choice("agnes").best:
        if "kit" not in offer.name:
            assert offer.developer_percent == 6
            assert offer.minutes == 40


def test_blends_stay_within_one_name() -> None:
    """Different products are never mixed (FDA, Cosmetics Safety Q&A: Hair Dyes)."""
    for offer in choice("agnes").best:
        assert len(offer.shades) == 1 or offer.name == "Amberley cream colour"


def test_nothing_fits_is_said_with_the_reason_for_each() -> None:
    found = choice("jonas")
    assert found.best == ()
    assert all("does not give the wanted 8" in line.say.trade for line in found.refused)


def test_a_developer_over_12_percent_is_never_offered() -> None:
    """Annex III entry 12: 12 % at most."""
    shelf = read_shelf(SHELF)
    strong = shelf.product[0].model_copy(update={"developer_percent": 18.0})
    found = choice("tomas", shelf.model_copy(update={"product": (strong,)}))
    assert found.best == ()
    assert found.refused


def test_a_stopped_head_is_offered_nothing() -> None:
    loaded = load("piet")
    assert loaded.consulted_at
    assert consult(loaded.answers, loaded.consulted_at, shelf=read_shelf(SHELF)).from_shelf is None


@pytest.mark.parametrize("data", [{"product": 3}, {"product": [{"depth": 40}]}, {"shade": 1}])
def test_a_bad_shelf_is_refused_with_its_place(data: object) -> None:
    with pytest.raises(BadAnswer, match="expected"):
        shelf_from_data(data)


def test_an_entry_that_lacks_something_is_refused_not_guessed() -> None:
    shelf = read_shelf(SHELF)
    poor = shelf.product[0].model_copy(update={"minutes_max": None})
    found = choice("ines", shelf.model_copy(update={"product": (poor,)}))
    assert "lacks product.minutes_max" in found.refused[0].say.trade


class TestDeveloperAtHand:
    def test_it_is_made_by_alligation(self) -> None:
        """12 % and 3 % make 6 % as 1 to 2 (arithmetic of the published alligation examples)."""
        product = read_shelf(SHELF).product[1].model_copy(update={"developer_percent": 6.0})
        shelf = Shelf(product=(product,), developers=(Developers(name=product.name, percents=(3.0, 12.0)),))
        line = developer_at_hand(product, shelf, 90)
        assert line
        assert "30 g of 12 % and 60 g of 3 %" in line.say.trade

    def test_outside_its_two_strengths_it_is_refused(self) -> None:
        product = read_shelf(SHELF).product[1].model_copy(update={"developer_percent": 6.0})
        shelf = Shelf(product=(product,), developers=(Developers(name=product.name, percents=(9.0, 12.0)),))
        line = developer_at_hand(product, shelf, 90)
        assert line
        assert "cannot be made" in line.say.trade

    def test_nothing_is_said_when_it_is_there(self) -> None:
        shelf = read_shelf(SHELF)
        assert developer_at_hand(shelf.product[1], shelf, 90) is None
