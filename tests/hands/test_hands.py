"""What hands and disks do to the program, in small numbers; the same on demand in large ones."""

import errno
from pathlib import Path

import pytest

from tests.hands import day, fast, faults, folder, kills, memory, resizes, signals, windows


@pytest.mark.parametrize("number", signals.SIGNALS, ids=lambda number: number.name)
def test_a_signal_ends_in_one_line_with_the_terminal_restored_and_nothing_lost(
    number: signals.Signals, tmp_path: Path
) -> None:
    assert signals.faults_of_signal(number, "half-typed answer", tmp_path) == []


def test_a_byte_that_is_not_utf8_ends_in_one_line_with_the_terminal_restored_and_nothing_lost(
    tmp_path: Path,
) -> None:
    assert signals.faults_of_bytes(b"\xff", "half-typed answer", tmp_path) == []


def test_a_terminal_that_goes_away_leaves_no_program_behind_and_loses_nothing(tmp_path: Path) -> None:
    assert signals.faults_of_a_hang_up("half-typed answer", tmp_path) == []


@pytest.mark.parametrize("seed", [4, 17])
def test_tiny_windows_and_random_keys_end_nothing(seed: int, tmp_path: Path) -> None:
    assert resizes.faults(60, seed, tmp_path) == []


@pytest.mark.parametrize("seed", range(1, 7))
def test_killed_anywhere_nothing_that_was_shown_is_lost(seed: int, tmp_path: Path) -> None:
    assert kills.faults(seed, tmp_path / "home") == []


def test_whatever_call_the_disk_refuses_is_told_and_loses_nothing() -> None:
    calls = faults.asked_without_a_fault()
    assert {"open", "write", "fsync", "replace", "stat", "flock", "mkdir", "unlink"} <= set(calls)
    errors = (errno.ENOSPC, errno.EACCES, errno.EINTR)
    wrong = {number: faults.faults(number, errors[number % 3]) for number in range(1, len(calls) + 1)}
    assert not [found for found in wrong.items() if found[1]]


def test_two_programs_in_one_folder_lose_no_save(tmp_path: Path) -> None:
    done, wrong = windows.faults(2, tmp_path)
    assert wrong == []
    assert ", 0 of them taken over" not in done


def test_a_hostile_folder_keeps_nobody_from_the_start_page(tmp_path: Path) -> None:
    assert folder.faults_of_the_start_page(tmp_path) == []


@pytest.mark.parametrize("name", ["pipe", "endless", "huge", "deep key", "deep headers"])
def test_a_hostile_file_is_one_line_soon_and_in_little_memory(name: str, tmp_path: Path) -> None:
    paths = {path.stem: path for path in folder.hostile(tmp_path / "files")}
    assert folder.faults_of_a_command(["plan", str(paths[name])]) == []


def test_a_typed_question_that_has_gone_has_left_no_field_behind() -> None:
    assert memory.fields_alive(30) <= 2


@pytest.mark.parametrize("seed", [4, 9])
def test_keys_faster_than_anybody_types_end_nothing_and_mean_what_slow_ones_mean(seed: int) -> None:
    assert fast.faults(seed, 80) == ""


@pytest.mark.parametrize("seed", [2, 5])
def test_a_day_that_is_killed_loses_no_act_and_every_clock_is_right(seed: int, tmp_path: Path) -> None:
    error, wrong = day.faults(seed, tmp_path, 2)
    assert wrong == []
    assert 0 <= error <= 1
