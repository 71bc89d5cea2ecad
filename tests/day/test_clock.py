"""How long something has been on, whatever becomes of the computer."""

from dataclasses import replace

import pytest

from consult.day.clock import Reading, ahead, elapsed, points, read_clock
from consult.day.standing import What
from consult.day.told import notes
from consult.day.work import MINUTE
from tests.day.days import Played

START = Reading(1_790_000_000.0, 5_000.0, "first")
SECTIONS = (7, 8, 7, 7)


def later(reading: Reading, utc: float, up: float, boot: str | None = None) -> Reading:
    return Reading(reading.utc + utc, up if boot else reading.up + up, boot or reading.boot)


@pytest.mark.parametrize(
    ("what", "readings", "seconds"),
    [
        ("nothing", [later(START, 60, 60)], 60),
        ("sleep that is counted", [later(START, 3600, 3600)], 3600),
        ("sleep that is not counted", [later(START, 3600, 40)], 3600),
        ("the clock is set back", [later(START, -3000, 600)], 600),
        ("the clock is set ahead", [later(START, 4200, 600)], 4200),
        ("set ahead and back again", [later(START, 4200, 600), later(START, 900, 900)], 900),
        ("a restart", [later(START, 600, 600), later(START, 900, 200, "second")], 900),
        ("a restart after which the clock is wrong", [later(START, 600, 600), later(START, -9e6, 200, "second")], 800),
        ("a restart of a system that names none", [later(START, 600, 600), later(START, -50, 200, "first")], 800),
        ("two restarts", [later(START, -1, 100, "second"), later(START, -1, 50, "third")], 150),
    ],
)  # fmt: skip
def test_of_two_clocks_the_longer_time_counts(what: str, readings: list[Reading], seconds: float) -> None:
    seen = points([START, *readings])
    assert elapsed(seen[0], seen[-1]) == seconds, what


def test_the_time_of_one_section_does_not_lean_on_what_became_of_the_clock_before_it() -> None:
    """The clock is set ahead by an hour, a section is begun, and the clock is set right again."""
    seen = points([START, later(START, 4200, 600), later(START, 1200, 1200)])
    assert elapsed(seen[1], seen[2]) == 600


def test_the_machine_counts_on_while_nothing_is_done_and_names_its_start() -> None:
    first = read_clock()
    second = read_clock()
    assert second.up >= first.up > 0
    assert second.boot == first.boot
    assert abs(ahead(*points([first, second]))) < 1


def told(day: Played) -> str:
    return " ".join(note.plain for note in notes(day.stands))


def test_what_the_clocks_do_not_agree_on_is_told_in_a_line() -> None:
    day = Played.of("tomas").put_on(*SECTIONS).wait(5)
    assert "clock" not in told(day)
    day.utc += 600
    assert "went ahead 10:00" in told(day)
    day.utc -= 1200
    assert "was set back 10:00" in told(day)
    day.utc += 600
    day.boot, day.up = "second", 10.0
    day.utc += 300
    assert "started anew meanwhile" in told(day)
    day.utc -= 4000
    assert "perhaps longer" in told(day)


@pytest.mark.parametrize("minutes", [10, -10])
def test_a_clock_that_was_set_gives_nobody_longer(minutes: float) -> None:
    day = Played.of("tomas").put_on(*SECTIONS).wait(20)
    day.utc += MINUTE * minutes
    assert day.stays == 15 - max(0, minutes)
    day.wait(15)
    assert day.stands.now.what is What.MUST_RINSE


def test_sleep_past_the_longest_minutes_wakes_to_the_rinse() -> None:
    day = Played.of("tomas").put_on(*SECTIONS)
    awake = replace(day, acts=list(day.acts))
    awake.utc += 2 * 3600
    assert awake.stands.now.what is What.MUST_RINSE


def test_a_restart_in_the_middle_goes_on_where_the_hair_is() -> None:
    day = Played.of("tomas").put_on(*SECTIONS).wait(10)
    day.boot, day.up = "second", 30.0
    day.utc += MINUTE * 2
    assert day.stays == 35 - 12
