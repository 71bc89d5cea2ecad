"""The simulated clock against the hand-worked example in the demo clients' README, minute by minute."""

import re
from pathlib import Path

import pytest

from consult.plan.brief import read_brief
from consult.plan.settings import Settings
from consult.plan.timeline import Timeline, bar, simulate
from consult.plan.types import Approach
from tests.demo import judged

README = Path(__file__).parents[2] / "demo_clients" / "README.md"


def timeline(name: str, **changes: object) -> Timeline:
    plan = judged(name, **changes).plan
    assert plan
    assert plan.timeline
    return plan.timeline


def by_hand() -> list[tuple[int, list[int]]]:
    """(minute, contact of each section in the order of application) of the worked table."""
    text = README.read_text("utf-8")
    rows = re.findall(r"^\| (-?\d+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \|", text, re.M)
    return [(int(minute), [int(cell) for cell in cells]) for minute, *cells in rows]


def test_the_table_by_hand_agrees_at_every_minute_it_names() -> None:
    table = by_hand()
    assert len(table) >= 12
    sections = [e for e in timeline("ines").exposures if e.stretch == "new growth"]
    for minute, contacts in table:
        assert [e.at(minute) for e in sections] == contacts, minute


def test_between_the_named_minutes_contact_grows_by_one_a_minute() -> None:
    for exposure in timeline("ines").exposures:
        for minute in range(exposure.applied_from, exposure.rinsed_at):
            assert exposure.at(minute + 1) - exposure.at(minute) == 1
        assert exposure.at(exposure.rinsed_at + 30) == exposure.contact


def test_a_home_user_alone_is_slower_than_a_trained_hand() -> None:
    salon = timeline("ines", client__applied_by="a licensed colourist")
    assert salon.working < timeline("ines").working
    assert salon.bowls == 1
    assert timeline("ines").bowls == 2


def test_too_long_a_round_asks_for_help_a_second_bowl_or_fewer_partings() -> None:
    said = " ".join(line.say for line in timeline("ines").lines)
    for word in ("2 bowls", "help", "thicker partings"):
        assert word in said


def test_five_sections_as_a_setting() -> None:
    found = judged("ines")
    assert found.strand
    brief = read_brief(found.answers, found.strand)
    five = simulate(brief, Approach.NEW_GROWTH, Settings(sections=5))
    assert len({e.section for e in five.exposures}) == 5


class TestLengthsFirst:
    """Never let any stretch pass the leaflet's longest time, whatever the head start (common practice)."""

    def test_roots_come_last_on_fresh_mix(self) -> None:
        line = timeline("jonas")
        lengths = [e for e in line.exposures if e.stretch == "lengths"]
        roots = [e for e in line.exposures if e.stretch == "roots"]
        assert max(e.applied_to for e in lengths) <= min(e.applied_from for e in roots)
        assert all(e.rinsed_at == roots[0].rinsed_at for e in line.exposures)

    @pytest.mark.parametrize("longest", [40, 45, 55, 60, 75, 90])
    def test_within_the_longest_time(self, longest: int) -> None:
        line = timeline("jonas", product__minutes_max=longest)
        assert all(e.clock <= longest for e in line.exposures)

    def test_without_room_it_is_done_by_the_leaflets_own_order(self) -> None:
        plan = judged("jonas", product__minutes_max=40).plan
        assert plan
        assert plan.timeline
        assert not plan.timeline.two_stages
        assert any("no room for two stages" in step.say for step in plan.steps)


def test_the_bar_shows_put_on_waiting_and_the_leaflets_clock() -> None:
    first = timeline("ines").exposures[0]
    drawn = bar(first, -40, 35)
    assert re.fullmatch(r":+-+=+", drawn)
    assert bar(timeline("ines").exposures[3], -40, 35).startswith(".")
