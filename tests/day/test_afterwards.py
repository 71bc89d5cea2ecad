"""What a day leaves for the record and for the next plan."""

from datetime import datetime
from pathlib import Path

import pytest
from msgspec.structs import replace

from consult.answers.access import with_answer
from consult.consultation import consult
from consult.day.acts import Did
from consult.day.afterwards import day_log, timed
from consult.day.clock import Reading
from consult.day.day import NoDay, open_day
from consult.plan.counting import from_first_touch
from consult.plan.types import Made
from consult.records.codec import read_text
from consult.records.record import dump_record
from consult.records.wanted import Origin, Wanted
from consult.remedies.after import paced
from consult.remedies.causes import causes
from consult.remedies.day import DayLog, day_from_data
from consult.session import open_session
from consult.trade import Voice
from tests.day.days import Played
from tests.demo import NOW, judged, load
from tests.plan.plans import made

SECTIONS = (7, 8, 7, 7)


def gone(name: str, *minutes: float, then: float) -> tuple[Made, DayLog]:
    plan = made(name)
    day = Played.plan(plan).put_on(*minutes).wait(then)
    day.does(Did.OFF, " ".join(section.key for section in day.stands.sections))
    return plan, day_log(plan, load(name).answers, day.stands.progress)


def test_the_record_is_told_when_where_and_for_how_long() -> None:
    _, log = gone("tomas", *SECTIONS, then=30)
    assert log.done_at == datetime.fromtimestamp(1_790_000_000).astimezone().replace(second=0)
    assert log.kind == "permanent colour"
    assert log.stretch == "new growth"
    assert (log.minutes_new_growth, log.minutes_lengths) == (30, 0)
    assert log.mixed_g is None


def test_lengths_that_were_refreshed_have_their_own_minutes() -> None:
    plan = made("ines")
    day = Played.plan(plan).put_on(*SECTIONS).wait(30).begin().wait(5).done()
    log = day_log(plan, load("ines").answers, day.stands.progress)
    assert (log.stretch, log.minutes_new_growth, log.minutes_lengths) == ("new growth and lengths", 35, 5)


def test_what_somebody_wrote_about_that_day_stays_and_another_day_goes() -> None:
    plan, log = gone("tomas", *SECTIONS, then=30)
    day = Played.plan(plan).put_on(*SECTIONS).wait(30).done()
    mine = log.model_copy(update={"mixed_g": 55.0})
    other = mine.model_copy(update={"done_at": NOW})
    answers = load("tomas").answers
    assert day_log(plan, answers, day.stands.progress, mine).mixed_g == 55
    assert day_log(plan, answers, day.stands.progress, other).mixed_g is None


def test_it_is_read_again_from_the_record_that_it_was_written_to() -> None:
    _, log = gone("tomas", *SECTIONS, then=30)
    text = dump_record(judged("tomas"), log)
    assert read_text(text, "record", NOW).day == log


def test_minutes_short_of_the_plan_are_a_cause_that_the_log_speaks_for() -> None:
    """Rinsed after 10 of 30 minutes, and white still shows."""
    _, log = gone("tomas", *SECTIONS, then=10)
    log = log.model_copy(update={"what": ("missed white",), "white_left": 60.0})
    found = causes(load("tomas").answers, log, NOW)
    minutes = next(c for c in found.ranked if c.id == "minutes")
    assert minutes.weight.name == "LOGGED"


# --- the pace --------------------------------------------------------------------------------------


@pytest.mark.parametrize("times", [0.7, 1, 1.5])
def test_who_took_so_many_times_as_long_is_planned_so_many_times_as_long_next_time(times: float) -> None:
    plan = made("ines")
    day = Played.plan(plan).put_on(*(times * minutes for minutes in SECTIONS))
    log = day_log(plan, load("ines").answers, day.stands.progress)
    again = consult(paced(load("ines").answers, log), load("ines").consulted_at or NOW).plan
    assert isinstance(again, Made)
    planned, next_time = (from_first_touch(p).applications[0].on_by for p in (plan, again))
    assert next_time == pytest.approx(times * planned, abs=1)


def test_a_round_that_was_broken_off_says_nothing_of_the_pace() -> None:
    plan = made("ines")
    assert timed(plan, Played.plan(plan).put_on(7, 8).stands.progress) is None


@pytest.mark.parametrize(("took", "kept"), [(0.1, 9.1), (20.0, 20.0), (240.0, 72.8)])
def test_one_day_moves_the_next_plan_within_bounds_only(took: float, kept: float) -> None:
    """A trained hand takes 18.2 minutes: half of that at least, four times that at most."""
    log = day_from_data({"minutes_putting_on": took})
    assert paced(load("ines").answers, log).client.minutes_new_growth == kept


def test_the_pace_becomes_an_answer_once_and_whoever_changes_it_keeps_it(tmp_path: Path) -> None:
    _, log = gone("tomas", *(2 * minutes for minutes in SECTIONS), then=30)
    first, second = tmp_path / "first.toml", tmp_path / "second.toml"
    first.write_text(dump_record(judged("tomas"), log))
    session = open_session(Wanted(Origin.FILE, Voice.HOME, first))
    assert session.answers.client.minutes_new_growth == log.minutes_putting_on
    changed = with_answer(session.answers, "client.minutes_new_growth", 30.0)
    session.change(replace(session.intake, answers=changed))
    session.export(second, new=True)
    again = open_session(Wanted(Origin.FILE, Voice.HOME, second))
    assert again.answers.client.minutes_new_growth == 30
    assert again.day is not None
    assert again.day.minutes_new_growth == 30


def test_a_press_that_was_forgotten_for_hours_leaves_no_minutes_at_all() -> None:
    plan = made("tomas")
    day = Played.plan(plan).put_on(*SECTIONS).wait(600).done()
    assert day_log(plan, load("tomas").answers, day.stands.progress).minutes_new_growth is None


def test_no_day_where_no_plan_is_made_as_of_now() -> None:
    clock = lambda: Reading(NOW.timestamp(), 1.0, "")  # noqa: E731
    assert open_day(load("ines").answers, None, load("ines").consulted_at or NOW, keep=False, clock=clock)
    with pytest.raises(NoDay):
        open_day(load("lotte").answers, None, load("lotte").consulted_at or NOW, keep=False, clock=clock)
