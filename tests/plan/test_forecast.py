"""Head, plan and colour together: trade facts about what will be seen (common practice)."""

import pytest

from consult.plan.forecast import BandForecast, Forecast
from consult.trade import Stretch, Zone
from tests.demo import judged


def forecast(name: str, **changes: object) -> Forecast:
    found = judged(name, **changes).forecast
    assert found
    return found


def at(found: Forecast, stretch: Stretch, zone: Zone = Zone.CROWN) -> BandForecast:
    """The first band of a stretch in a zone."""
    return next(b for b in found.bands if b.stretch is stretch and zone in b.zones)


def test_a_sound_retouch_lands_on_its_goal_in_every_band() -> None:
    for band in forecast("tomas").bands:
        assert abs(band.last.seen.depth - 5) <= 0.5
        assert band.last.seen.tone == "gold"


def test_on_hair_much_too_dark_the_kit_changes_the_new_growth_hardly() -> None:
    """Natural 2 under a light brown kit: no visible change or a warm cast."""
    flat = {f"hair__white_{z}": 0 for z in ("front", "temples", "crown", "nape")}
    found = forecast("brigid", goal__white="there is none", **flat)
    assert at(found, Stretch.SCALP).last.seen.depth < 4


def test_old_dark_lengths_stay_dark_and_a_line_is_told() -> None:
    found = forecast("elif")
    assert found.only_if
    dark, light = at(found, Stretch.LENGTHS).last, at(found, Stretch.SCALP).last
    assert dark.seen.depth < light.seen.depth - 1.5
    told = [line.say.trade for line in found.warnings]
    assert any("A line will show" in say and "lengths would be darker" in say for say in told)


def test_the_filler_comes_before_the_colour_and_is_warm() -> None:
    lengths = at(forecast("rosa"), Stretch.ENDS)
    assert [stage.name for stage in lengths.stages] == ["today", "after the filler", "after colouring"]
    filled = lengths.stages[1].colour.seen
    assert filled.tone in ("copper", "copper red", "gold")
    assert lengths.stages[0].colour.seen.depth > filled.depth > lengths.last.seen.depth
    assert abs(lengths.last.seen.depth - 6) <= 1


def test_the_filler_goes_on_lightened_hair_only() -> None:
    """Her new growth is the goal already; a warmer wish colours it, without the filler."""
    assert len(at(forecast("rosa"), Stretch.SCALP).stages) == 1
    warmer = forecast("rosa", goal__tone="gold", product__tone="gold")
    assert [stage.name for stage in at(warmer, Stretch.SCALP).stages] == ["today", "after colouring"]


def test_zones_with_more_white_come_out_as_the_others_under_a_shade_of_their_depth() -> None:
    """Ines is 60 % white at the front and 15 % at the nape; a shade covers evenly at its own depth."""
    found = forecast("ines")
    front, nape = at(found, Stretch.SCALP, Zone.FRONT), at(found, Stretch.SCALP, Zone.NAPE)
    assert front.last.seen.lab[0] == pytest.approx(nape.last.seen.lab[0], abs=1)
    assert front.stages[0].colour.seen.lab[0] > nape.stages[0].colour.seen.lab[0] + 5
    assert front.last.white == nape.last.white


def test_white_and_pigmented_hairs_are_told_apart() -> None:
    """Half white on natural 5: even cover is easiest at the depth of the other hair, yet white is lighter."""
    band = at(forecast("ines"), Stretch.SCALP)
    assert band.last.white.depth >= band.last.pigmented.depth


def test_lifting_names_the_undertone_and_its_opposite() -> None:
    said = " ".join(line.say.trade for line in forecast("jonas").lines)
    assert "gold" in said
    assert "violet" in said


def test_blue_on_yellow_is_refused() -> None:
    """Pale blue on level 9 yellow turns green; violet instead (trade teaching, several sources)."""
    found = forecast("rosa", product__tone="ash", goal__tone="ash", strand_test__done="no")
    assert any("green" in line.say.trade and "violet" in line.say.trade for line in found.lines)


def test_lengths_left_alone_have_no_further_stage() -> None:
    for band in forecast("tomas").bands:
        left = band.stretch in (Stretch.LENGTHS, Stretch.ENDS)
        assert len(band.stages) == (1 if left else 2)


def test_it_says_what_it_cannot_know() -> None:
    assert any("measured" in words for words in forecast("ines").weaknesses)
