"""The one door for files: ordinary ones of a sane size and shape, and one short line for all others."""

import os
from pathlib import Path

import pytest

import consult.gates.rules
from consult.files import (
    DEEPEST,
    HEAD,
    LONGEST_ERROR,
    MOST_DOTS,
    MOST_IN_ALL,
    BadFile,
    parse_toml,
    read_head,
    read_toml,
)
from consult.gates.tables import MOST_RULES


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


@pytest.mark.parametrize("mark", MOST_IN_ALL)
def test_so_many_of_a_mark_in_a_file_are_read_and_not_one_more(mark: str) -> None:
    marks, most = MOST_IN_ALL[mark]
    full = "".join(f'a{number} = "{mark * 100}"\n' for number in range(most // 100))
    assert parse_toml(full, "marks")
    with pytest.raises(BadFile, match=f"marks: too many {marks}"):
        parse_toml(full + f'b = "{mark}"\n', "marks")


def test_a_salon_with_as_many_rules_as_are_read_is_far_from_too_many_of_a_mark() -> None:
    """The program's own tables, filled up to as many rules and with as long texts as a salon may write."""
    tables = list(Path(consult.gates.rules.__file__).parent.joinpath("rules").glob("*.toml"))
    text = "".join(table.read_text("utf-8") for table in tables)
    rules = text.count("[[rule]]")
    assert rules > 100
    for mark, (_, most) in MOST_IN_ALL.items():
        assert text.count(mark) * MOST_RULES / rules < most / 4


def test_a_head_is_read_down_to_its_last_table_and_no_further(tmp_path: Path) -> None:
    path = tmp_path / "file.toml"
    path.write_text('[record]\nshows = "x"\n[client]\nname = "Ines"\n\n[health]\nage = spoilt\n')
    assert read_head(path, "client") == {"record": {"shows": "x"}, "client": {"name": "Ines"}}
    assert read_head(path, "record") == {"record": {"shows": "x"}}
    path.write_text("# \n" * HEAD + "spoilt")
    assert read_head(path, "client") == {}
    path.write_text("spoilt")
    with pytest.raises(BadFile, match="file"):
        read_head(path, "client")


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
