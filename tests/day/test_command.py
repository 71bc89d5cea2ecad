"""`consult day` where no day can be: one line that says why, and what to do instead."""

from pathlib import Path

import pytest

import consult.cli
from consult.cli import main
from consult.exits import BAD_INPUT, HELD, STOPPED
from consult.records.demos import demo_files


@pytest.mark.parametrize(("name", "code"), [("mirela", HELD), ("lotte", STOPPED), ("piet", STOPPED)])
def test_no_plan_no_day(
    name: str, code: int, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setattr(consult.cli, "why_plain", lambda: "")
    assert main(["day", str(demo_files()[name])]) == code
    error = capsys.readouterr().err
    assert "no day without a plan" in error
    assert error.count("\n") == 1
    assert len(error) <= 301


def test_a_terminal_that_paints_nothing_has_the_sheet(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["day", str(demo_files()["ines"])]) == BAD_INPUT
    assert "consult sheet FILE" in capsys.readouterr().err


def test_a_file_that_is_not_there_is_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setattr(consult.cli, "why_plain", lambda: "")
    assert main(["day", str(tmp_path / "none.toml")]) == BAD_INPUT
    assert capsys.readouterr().err.count("\n") == 1
