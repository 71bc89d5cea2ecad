"""The log of a day on the disk: what was shown is there, whatever became of the program."""

import errno
import os
import stat
from datetime import UTC, datetime
from pathlib import Path

import pytest

from consult.day import kept
from consult.day.acts import Act, Did
from consult.day.clock import Reading
from consult.day.kept import Kept, keep_day
from consult.files import LONGEST_ERROR, BadFile
from consult.records.store import HOME_VARIABLE

JUDGED = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
MARK = "0123456789abcdef"
NOW = Reading(1_790_000_000.5, 5_000.25, "6c1e-aa")


@pytest.fixture(autouse=True)
def _home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(HOME_VARIABLE, str(tmp_path))


def act(did: Did = Did.LOOK, of: str = "", minutes: int = 0, seconds: float = 0) -> Act:
    return Act(did, Reading(NOW.utc + seconds, NOW.up + seconds, NOW.boot), of, minutes)


ACTS = (
    act(Did.OPEN),
    act(Did.STEP, "0"),
    act(Did.BEGIN, "0", seconds=1.123456789),
    act(Did.DONE, "0.0", seconds=400),
    act(Did.ADD, "59", 5, seconds=500),
    act(Did.LATER, "take off 0.0 0.1", seconds=600),
    act(Did.OFF, "0.0 0.1", seconds=700),
)


def opened() -> Kept:
    return keep_day(MARK, JUDGED, NOW)


def filled(acts: tuple[Act, ...] = ACTS) -> Path:
    log = opened()
    for one in acts:
        log.add(one)
    log.close()
    assert log.error == ""
    assert log.path
    return log.path


def test_what_was_done_is_there_again_to_the_last_digit() -> None:
    filled()
    again = opened()
    assert again.acts == ACTS
    assert again.judged == JUDGED


def test_only_its_owner_reads_it_and_no_name_stands_in_its_path() -> None:
    path = filled()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert path.name == f"{MARK}.toml"


@pytest.mark.parametrize("cut", [1, 5, 40, 70])
def test_a_line_torn_by_a_kill_is_the_only_one_that_is_gone(cut: int) -> None:
    path = filled()
    whole = path.read_bytes()
    assert len(whole.splitlines()[-1]) > cut
    path.write_bytes(whole[:-cut])
    again = opened()
    assert again.acts == ACTS[:-1]
    again.add(act(Did.STOP))
    again.close()
    assert opened().acts == (*ACTS[:-1], act(Did.STOP))


def test_what_is_added_leaves_what_stood_there_as_it_was() -> None:
    path = filled()
    before = path.read_bytes()
    log = opened()
    log.add(act(Did.BACK))
    assert path.read_bytes().startswith(before)


def test_of_two_windows_the_second_sees_everything_and_writes_nothing_until_the_first_is_gone() -> None:
    first = opened()
    first.add(ACTS[0])
    second = opened()
    assert not second.writes
    first.add(ACTS[1])
    second.look_again()
    assert second.acts == ACTS[:2]
    first.close()
    second.look_again()
    assert second.writes
    second.add(ACTS[2])
    second.close()
    assert opened().acts == ACTS[:3]


def test_a_disk_that_refuses_is_told_and_gets_everything_when_it_takes_something_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    log = opened()
    log.add(ACTS[0])

    def full(handle: int, data: bytes) -> int:
        real(handle, data[:10])
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    real = os.write
    with monkeypatch.context() as changed:
        changed.setattr(os, "write", full)
        log.add(ACTS[1])
        assert "not saved" in log.error
        assert "No space left" in log.error
    log.add(ACTS[2])
    assert log.error == ""
    log.close()
    assert opened().acts == ACTS[:3]


@pytest.mark.parametrize(
    "line",
    [
        '7 = { did = "fly", utc = 1.0, up = 1.0, boot = "" }',
        '7 = { did = "look", utc = nan, up = 1.0, boot = "" }',
        '7 = { did = "look", utc = "1", up = 1.0, boot = "" }',
        '7 = { did = "add", minutes = 100000, utc = 1.0, up = 1.0, boot = "" }',
        '7 = { did = "look", of = "../../x", utc = 1.0, up = 1.0, boot = "" }',
        '9 = { did = "look", utc = 1.0, up = 1.0, boot = "" }',
        "7 = [1, 2",
        "7 = 7",
    ],
)
def test_a_log_that_somebody_wrote_in_is_one_line(line: str) -> None:
    path = filled()
    path.write_text(path.read_text() + line + "\n")
    with pytest.raises(BadFile) as error:
        opened()
    assert len(str(error.value)) <= LONGEST_ERROR + 3
    assert "\n" not in str(error.value)


def test_the_next_day_begins_a_log_of_its_own_and_what_is_on_the_head_is_never_left() -> None:
    first = filled((*ACTS, act(Did.END, seconds=800)))
    tomorrow = Reading(NOW.utc + kept.A_DAY + 900, 9e5, NOW.boot)
    assert keep_day(MARK, JUDGED, NOW).path == first
    assert keep_day(MARK, JUDGED, tomorrow).path != first
    unended = filled_as("fedcba", ACTS)
    assert keep_day("fedcba", JUDGED, tomorrow).path == unended
    never_begun = filled_as("abcdef", ACTS[:2])
    assert keep_day("abcdef", JUDGED, tomorrow).path != never_begun


def filled_as(mark: str, acts: tuple[Act, ...]) -> Path:
    log = keep_day(mark, JUDGED, NOW)
    for one in acts:
        log.add(one)
    log.close()
    assert log.path
    return log.path
