"""What hands and disks do to the program, in small numbers; the same on demand in large ones."""

from pathlib import Path

import pytest

from tests.hands import resizes, signals


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


@pytest.mark.parametrize("seed", [1, 4, 17])
def test_tiny_windows_and_random_keys_end_nothing(seed: int, tmp_path: Path) -> None:
    assert resizes.faults(60, seed, tmp_path) == []
