"""The clock of the applications against the hand-worked example in the demo clients' README, minute by minute."""

import re
from pathlib import Path

import pytest

from consult.plan.application import Application
from consult.plan.bowls import goes, write_recipes
from consult.plan.rounds import in_sections
from consult.plan.settings import Settings
from consult.plan.timeline import bars, working_minutes
from consult.plan.writing import new_growth
from consult.trade import Stretch
from tests.plan.plans import made, said

README = Path(__file__).parents[2] / "demo_clients" / "README.md"


def by_hand() -> list[tuple[int, list[int]]]:
    """(minute, contact of each section in the order of application) of the worked table."""
    text = README.read_text("utf-8")
    rows = re.findall(r"^\| (-?\d+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \|", text, re.M)
    return [(int(minute), [int(cell) for cell in cells]) for minute, *cells in rows]


def roots(name: str, **changes: object) -> Application:
    return made(name, **changes).applications[0]


def bowls(name: str, **changes: object) -> int:
    plan = made(name, **changes)
    return sum(len(goes(recipe)) for recipe in write_recipes(plan.case, plan.applications))


def test_the_table_by_hand_agrees_at_every_minute_it_names() -> None:
    table = by_hand()
    assert len(table) >= 12
    first = roots("ines")
    for minute, contacts in table:
        assert [first.contact(touch, minute) for touch in first.touches] == contacts, minute


def test_between_the_named_minutes_contact_grows_by_one_a_minute() -> None:
    first = roots("ines")
    for touch in first.touches:
        for minute in range(touch.start, first.until):
            assert first.contact(touch, minute + 1) - first.contact(touch, minute) == 1
        assert first.contact(touch, first.until + 30) == first.until - touch.start


def test_a_home_user_alone_is_slower_than_a_trained_hand() -> None:
    salon = made("ines", client__applied_by="a licensed colourist").applications
    assert working_minutes(salon) < working_minutes(made("ines").applications)


def test_the_range_of_a_pace_is_told() -> None:
    """A third either way (assumption)."""
    assert "takes about 29 minutes (20 to 38)" in said(made("ines").timeline)


def test_a_bowl_is_mixed_anew_when_the_mix_would_outlast_itself() -> None:
    """30 minutes where the leaflet says nothing (common practice), else what it says."""
    assert bowls("ines") == 1
    assert bowls("ines", product__mix_minutes=15) == 2
    assert bowls("agnes") == 2
    assert bowls("agnes", product__mix_minutes=60) == 1
    assert "mix 2 bowls one after the other" in said(made("agnes").timeline)


def test_five_sections_as_a_setting() -> None:
    case = made("ines").case
    (application,) = new_growth(case, in_sections(case, Settings(sections=5)))
    assert len({touch.section for touch in application.touches}) == 5


class TestLengthsFirst:
    """Never let any stretch pass the leaflet's longest time, whatever the head start (common practice)."""

    def test_roots_come_last_on_fresh_mix(self) -> None:
        lengths, scalp = made("jonas").applications
        assert Stretch.LENGTHS in lengths.target.stretches
        assert scalp.target.stretches == (Stretch.SCALP,)
        assert lengths.on_by <= scalp.start
        assert lengths.bowl != scalp.bowl
        assert lengths.until == scalp.until

    def test_the_lengths_run_ahead_by_twenty_minutes_at_most(self) -> None:
        lengths, scalp = made("jonas", product__minutes_max=90).applications
        assert scalp.on_by - lengths.on_by == 20

    @pytest.mark.parametrize("longest", [40, 45, 55, 60, 75, 90])
    def test_within_the_longest_time(self, longest: int) -> None:
        assert all(a.minutes <= longest for a in made("jonas", product__minutes_max=longest).applications)

    def test_without_room_it_is_done_by_the_leaflets_own_order(self) -> None:
        plan = made("jonas", product__minutes_max=40)
        assert len(plan.applications) == 1
        assert "All in one go" in said(plan.steps)
        assert any("no stretch may stay on longer" in step.because.trade for step in plan.steps)

    def test_a_leaflet_that_has_it_done_at_once_is_followed(self) -> None:
        plan = made("jonas", product__first_time_order="all at once")
        assert len(plan.applications) == 1


def test_the_bar_shows_put_on_waiting_and_the_leaflets_clock() -> None:
    first, *_, last, _ = bars(made("ines").applications)
    assert re.fullmatch(r":+-+=+", first.cells)
    assert re.fullmatch(r"\.+:+=+", last.cells)
    assert len(first.cells) == 40
