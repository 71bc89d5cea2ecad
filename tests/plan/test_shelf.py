"""The shelf: constraints first, then nearness; ties stay ties."""

import re
from pathlib import Path

import numpy as np
import pytest

from consult.answers.access import BadAnswer
from consult.answers.shelf import Developers, Shelf, shelf_from_data
from consult.colour.pigment import depth_seen
from consult.colour.prediction import predict
from consult.colour.values import HairState, Shade, Treatment
from consult.consultation import consult
from consult.plan.forecast import state_of
from consult.plan.shelf import Offer, ShelfChoice, best_first, developer_at_hand
from consult.products.kinds import lift_bound
from consult.records.codec import read_shelf
from consult.trade import TONES, Stretch
from tests.demo import judged, load

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


class TestBestFirst:
    """Of mixes that no eye tells apart the plainer ones are shown, and always the nearest."""

    def test_the_nearest_is_among_those_shown_whatever_it_takes(self) -> None:
        ties = list(range(20))
        effort = [(True, 12.0), *((False, 6.0) for _ in ties[1:])]
        shown = best_first(ties, effort)
        assert len(shown) == 6
        assert 0 in shown

    def test_plain_before_blended_and_weak_before_strong(self) -> None:
        assert best_first([7, 3, 5], [(True, 6.0), (False, 9.0), (False, 6.0)]) == [5, 3, 7]

    def test_one_alone_is_shown(self) -> None:
        assert best_first([4], [(True, 12.0)]) == [4]

    @pytest.mark.parametrize("seed", range(16))
    def test_of_24_tubes_the_best_by_prediction_is_shown(self, seed: int) -> None:
        """Tried one by one with the prediction: none beats the best of those shown by what an eye sees."""
        rng = np.random.default_rng(seed)
        shelf = read_shelf(SHELF)
        tube = next(p for p in shelf.product if p.kind == "tube and developer")
        shades = {
            (float(d), str(t))
            for d, t in zip(rng.integers(8, 13, 60) / 2, rng.choice(TONES, 60), strict=True)
        }
        tubes = tuple(
            tube.model_copy(update={"depth": depth, "tone": tone, "shade": f"{depth:g} {tone}"})
            for depth, tone in sorted(shades)[:24]
        )
        found = choice("tomas", shelf.model_copy(update={"product": tubes}))
        if not found.best:
            pytest.skip("nothing on this shelf may be used")
        head = judged("tomas").head
        assert head
        states = {state_of(b) for b in head.bands if b.stretch in (Stretch.SCALP, Stretch.NEW_GROWTH)}
        goal = Shade(5, "gold")

        def worst(parts: list[tuple[Shade, float]], developer: float) -> float:
            (first, _), *others = parts
            mixed = Treatment(first, lift_bound(developer), 1.0, tuple(others))
            return max(predict(state, mixed, goal).to_goal for state in states)

        def shades_of(offer: Offer) -> list[tuple[Shade, float]]:
            named = [(re.search(r"\((\S+) (.+)\)", label), share) for label, share in offer.shades]
            return [(Shade(float(m[1]), m[2]), share) for m, share in named if m]  # type: ignore[arg-type]

        out = " ".join(line.say.trade for line in found.refused)
        allowed = [t for t in tubes if f"{t.name} {t.shade}:" not in out]
        alone = min(worst([(Shade(t.depth, t.tone), 1.0)], 6.0) for t in allowed)  # type: ignore[arg-type]
        shown = [worst(shades_of(offer), offer.developer_percent) for offer in found.best]
        assert min(shown) <= alone + 0.05
        assert shown[0] <= min(shown) + 1.0


class TestBlends:
    @pytest.mark.parametrize("darker", [3, 4, 5, 6, 7, 8])
    @pytest.mark.parametrize("apart", [0.5, 1, 2])
    @pytest.mark.parametrize("share", [0.25, 0.5, 0.75])
    def test_depth_by_share_is_the_depth_that_comes_out(
        self, darker: float, apart: float, share: float
    ) -> None:
        """Common practice: halves of 6 and 8 are a 7. The dyes themselves are added up, to a third of a level."""
        blend = Treatment(Shade(darker, "neutral"), 2, 1.0, ((Shade(darker + apart, "neutral"), share),))
        seen = predict(HairState(6, 1.0), blend, Shade(6, "neutral")).seen
        assert float(depth_seen(seen.lab)) == pytest.approx(blend.depth, abs=0.34)


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
