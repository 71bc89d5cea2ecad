"""A few of the fuzzed files in the normal suite; the fuzzers themselves run as long as one likes."""

from pathlib import Path

import pytest

from tests.fuzz import answers, case, run, salon, shelf


def test_hundreds_of_answers_files_end_in_a_plan_or_in_one_line(tmp_path: Path) -> None:
    ended = run(answers.read, answers.sound_files(), 0, 300, tmp_path)
    assert {"refused", "held", "planned"} <= set(ended)


def test_hundreds_of_shelves_end_in_a_shelf_or_in_one_line(tmp_path: Path) -> None:
    ended = run(shelf.read, shelf.sound_files(), 1, 300, tmp_path)
    assert {"refused", "taken"} <= set(ended)


def test_hundreds_of_salon_files_end_in_rules_or_in_one_line(tmp_path: Path) -> None:
    ended = run(salon.read, salon.sound_files(), 2, 300, tmp_path)
    assert {"refused", "taken"} <= set(ended)


def test_a_case_is_the_same_each_time() -> None:
    sound = shelf.sound_files()
    assert [case(n, sound) for n in range(50)] == [case(n, sound) for n in range(50)]
    assert len({case(n, sound) for n in range(50)}) > 40


@pytest.mark.parametrize("error", [RuntimeError("zz"), ValueError("zz")])
def test_a_program_that_fails_on_a_file_is_told(error: Exception, tmp_path: Path) -> None:
    def fails(path: Path, number: int) -> str:
        raise error

    with pytest.raises(AssertionError, match="case 7: "):
        run(fails, shelf.sound_files(), 7, 1, tmp_path)
