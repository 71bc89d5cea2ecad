"""The one door for files: ordinary ones of a sane size and shape, and one short line for all others."""

import os
from pathlib import Path

import pytest

from consult.files import DEEPEST, LONGEST_ERROR, MOST_DOTS, BadFile, parse_toml, read_toml


def nested(levels: int) -> str:
    """Tables inside each other, the innermost holding a number."""
    return ".".join(["a"] * levels) + " = 1\n"


def test_so_many_levels_are_read_and_not_one_more() -> None:
    assert parse_toml(nested(DEEPEST), "deep")
    with pytest.raises(BadFile, match="deep: nested too deeply"):
        parse_toml(nested(DEEPEST + 1), "deep")


def test_so_many_dots_in_a_line_are_read_and_not_one_more() -> None:
    assert parse_toml(f'a = "{"." * MOST_DOTS}"\n', "dots")
    with pytest.raises(BadFile, match="line 2: too many dots"):
        parse_toml(f'\na = "{"." * (MOST_DOTS + 1)}"\n', "dots")


def test_a_pipe_and_a_device_are_refused_without_waiting_for_them(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", Path("/dev/zero")):
        with pytest.raises(BadFile, match="this is no ordinary file"):
            read_toml(path)


def test_an_error_is_short_and_keeps_the_end_of_a_long_name() -> None:
    with pytest.raises(BadFile) as bad:
        parse_toml("a = ", "folder/" * 200 + "client.toml")
    assert str(bad.value).startswith("...")
    assert "/client.toml: " in str(bad.value)
    assert len(str(bad.value)) < 200
    assert len(str(BadFile("name", "what would be right " * 50))) == LONGEST_ERROR <= 290
    assert len(str(BadFile("name", "two\nlines")).splitlines()) == 1
