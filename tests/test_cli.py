"""The command line: what it prints, and its exit codes 0, 2, 3 and 4."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from consult import cli, dates
from consult.cli import main
from consult.dates import when
from consult.exits import BAD_INPUT, HELD, PLAN_MADE, STOPPED, UNFINISHED
from consult.records.demos import demo_files
from tests.demo import load

DEMOS = demo_files()
HELD_WORDS = (
    "hold",
    "wait",
    "see a doctor",
    "see a colourist",
    "treat the hair first",
    "test first",
    "look it up first",
)


def code_for(shows: str) -> int:
    """The exit code that a demo client's own words about it ask for."""
    outcome = shows.partition(":")[0]
    return STOPPED if outcome == "stop" else HELD if outcome in HELD_WORDS else PLAN_MADE


def program(*arguments: str, **options: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "consult", *arguments], capture_output=True, text=True, timeout=60, **options
    )  # type: ignore[call-overload, no-any-return]


@pytest.mark.parametrize("name", DEMOS)
def test_each_demo_client_ends_as_its_file_says(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(DEMOS[name])]) == code_for(load(name).shows)
    printed = capsys.readouterr()
    assert printed.err == ""
    assert re.search(r"^VERDICT  \S", printed.out)
    assert "judged as of Wed 25 Nov 2026, 10:00" in printed.out


def test_the_demo_clients_show_every_outcome() -> None:
    assert {code_for(load(name).shows) for name in DEMOS} == {PLAN_MADE, HELD, STOPPED}


def test_a_stop_prints_no_plan(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(DEMOS["lotte"])]) == STOPPED
    out = capsys.readouterr().out
    assert "Stop: no colour" in out
    assert "STEP BY STEP" not in out
    assert "MIX" not in out


def test_why_prints_reason_and_source_under_each_line(capsys: pytest.CaptureFixture[str]) -> None:
    main(["plan", str(DEMOS["ines"])])
    short = capsys.readouterr().out
    main(["plan", "--why", str(DEMOS["ines"])])
    long = capsys.readouterr().out
    assert long.count("->") > short.count("->")
    assert "Regulation (EC)" in long
    assert "Regulation (EC)" not in short


def test_each_voice_prints_its_own_words(capsys: pytest.CaptureFixture[str]) -> None:
    for voice in ("home", "stylist"):
        main(["--voice", voice, "plan", str(DEMOS["hanna"])])
    main(["plan", str(DEMOS["hanna"])])
    home, stylist, usual = capsys.readouterr().out.split("VERDICT")[1:]
    assert home == usual != stylist


def test_out_writes_a_record_that_check_finds_true(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = tmp_path / "record.toml"
    assert main(["plan", str(DEMOS["ines"]), "--out", str(record)]) == PLAN_MADE
    assert f"The record is written: {record}" in capsys.readouterr().out
    assert main(["check", str(record), str(DEMOS["ines"])]) == PLAN_MADE
    first, second = capsys.readouterr().out.splitlines()
    assert first == f"{record}: valid record"
    assert second == f"{DEMOS['ines']}: valid answers"
    record.write_text(re.sub(r'(?<=\[result\]\nverdict = ")\w+', "stop", record.read_text()))
    main(["check", str(record)])
    assert "its result is not what this program computes" in capsys.readouterr().out


@pytest.mark.parametrize("place", [".", "record.toml/inside.toml"])
def test_a_record_that_cannot_be_written_is_one_line(
    place: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "record.toml").write_text("kept")
    assert main(["plan", str(DEMOS["ines"]), "--out", str(tmp_path / place)]) == BAD_INPUT
    printed = capsys.readouterr()
    assert len(printed.err.splitlines()) == 1
    assert printed.out == ""
    assert (tmp_path / "record.toml").read_text() == "kept"


def test_now_judges_by_the_clock_and_not_by_the_files_own_date(capsys: pytest.CaptureFixture[str]) -> None:
    clock = dates.clock()
    main(["plan", str(DEMOS["lotte"]), "--now"])
    out = capsys.readouterr().out
    assert "judged as of Wed 25 Nov 2026, 10:00" not in out
    assert f"judged as of {when(clock)[:-2]}" in out


def test_salon_rules_are_used_and_can_only_hold_more(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    salon = tmp_path / "salon.toml"
    salon.write_text(
        '[[rule]]\nid = "no-kits"\nwhen = { field = "product.kind", is = "retail kit" }\nverdict = "see_colourist"\n'
        'trade = "No kits in this salon."\nplain = "No kits in this salon."\nremedy = "Ask at the desk."\n'
        'sources = ["common practice"]\n'
    )
    assert main(["plan", str(DEMOS["ines"])]) == PLAN_MADE
    assert main(["--salon", str(salon), "plan", str(DEMOS["ines"])]) == HELD
    assert "No kits in this salon." in capsys.readouterr().out


@pytest.mark.parametrize(
    "text", [None, "[[rule]]\nid = 3\n", "[[rule\n", f"x = {'9' * 5000}\n", "x = " + "[" * 5000, "\xff"]
)
def test_a_bad_salon_file_is_one_line(
    text: str | None, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    salon = tmp_path / "salon.toml"
    if text is not None:
        salon.write_text(text, "latin-1")
    assert main(["--salon", str(salon), "plan", str(DEMOS["ines"])]) == BAD_INPUT
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_an_unknown_demo_client_is_told_who_there_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["demo", "nobody"]) == BAD_INPUT
    assert "ines, tomas" in capsys.readouterr().err


@pytest.mark.parametrize("arguments", [["plan"], ["paint", "x"], ["--voice", "parrot"], ["plan", "a", "b"]])
def test_a_wrong_command_is_exit_code_2(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    assert "usage: consult" in capsys.readouterr().err


def test_the_schema_is_json_that_names_every_section(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema"]) == 0
    schema = json.loads(capsys.readouterr().out)
    assert {"client", "health", "product", "allergy_test"} <= set(schema["properties"])
    assert schema["additionalProperties"] is False


@pytest.mark.parametrize(
    ("arguments", "code"), [([], UNFINISHED), (["demo", "ines"], PLAN_MADE), (["demo"], BAD_INPUT)]
)
def test_without_a_terminal_the_wizard_says_so_and_does_not_hang(arguments: list[str], code: int) -> None:
    run = program(*arguments, input="")
    assert run.returncode == code
    assert "consult: this is no terminal; " in run.stdout + run.stderr


def test_a_reader_that_has_gone_is_no_traceback() -> None:
    reader, writer = os.pipe()
    os.close(reader)
    with subprocess.Popen(
        [sys.executable, "-m", "consult", "schema"], stdout=writer, stderr=subprocess.PIPE, text=True
    ) as run:
        os.close(writer)
        _, err = run.communicate(timeout=60)
    assert err == ""
    assert run.returncode == 1


def test_a_full_disk_behind_the_output_is_one_line() -> None:
    with open("/dev/full", "w") as full:
        run = subprocess.run(
            [sys.executable, "-m", "consult", "schema"], stdout=full, stderr=subprocess.PIPE, text=True
        )
    assert run.returncode == 1
    assert len(run.stderr.splitlines()) == 1
    assert "Traceback" not in run.stderr


def test_an_old_terminal_without_these_letters_still_gets_its_plan(tmp_path: Path) -> None:
    name = tmp_path / "Ünes.toml"
    name.write_bytes(DEMOS["ines"].read_bytes())
    run = program("check", str(name), env={**os.environ, "PYTHONIOENCODING": "ascii"})
    assert (run.returncode, run.stderr) == (0, "")
    assert "valid answers" in run.stdout


def test_a_file_name_with_an_escape_code_reaches_the_terminal_without_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(tmp_path / "a\x1b[31m\nb.toml")]) == BAD_INPUT
    err = capsys.readouterr().err
    assert "\x1b" not in err
    assert len(err.splitlines()) == 1


@pytest.mark.parametrize(
    ("error", "code", "said"),
    [
        (KeyboardInterrupt(), 130, ""),
        (KeyError("zzsecretzz"), 1, "consult: KeyError: the program failed; nothing was changed\n"),
    ],
)
def test_no_traceback_and_no_answer_reaches_the_terminal(
    error: BaseException,
    code: int,
    said: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    def fails() -> int:
        raise error

    monkeypatch.setattr(cli, "main", fails)
    monkeypatch.setattr(cli.os, "_exit", sys.exit)
    with pytest.raises(SystemExit) as ended:
        cli.run()
    assert ended.value.code == code
    assert capsys.readouterr().err == said


def test_a_sheet_is_printed_or_written_for_its_owner_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["sheet", str(DEMOS["ines"]), "--start", "14:30"]) == PLAN_MADE
    assert "BY THE CLOCK: FIRST TOUCH AT 14:30" in capsys.readouterr().out
    for name, begins in (("sheet.html", "<!DOCTYPE html>"), ("sheet.txt", "Working sheet: Ines")):
        out = tmp_path / name
        assert main(["--voice", "stylist", "sheet", str(DEMOS["ines"]), "--out", str(out)]) == PLAN_MADE
        assert capsys.readouterr().out == f"The sheet is written: {out}\n"
        assert out.read_text("utf-8").startswith(begins)
        assert out.stat().st_mode & 0o077 == 0


def test_a_sheets_exit_code_and_voice_are_those_of_the_plan(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", str(DEMOS["elif"])]) == HELD
    assert "New colour does not make old colour lighter" in capsys.readouterr().out
    assert main(["sheet", "--voice", "stylist", str(DEMOS["elif"])]) == HELD
    assert "tint does not lift tint" in " ".join(capsys.readouterr().out.split())
    assert main(["sheet", "--for", "client", str(DEMOS["hanna"])]) == STOPPED
    assert "Client's copy" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (["--out", "sheet.pdf"], "--out: a sheet is written to a file that ends in .html or .txt"),
        (["--start", "25:00"], "--start: expected a time of day such as 14:30"),
        (["--out", "no-such-folder\0/x.html"], "no-such-folder"),
    ],
)
def test_what_a_sheet_cannot_be_asked_is_one_line(
    wrong: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["sheet", str(DEMOS["ines"]), *wrong]) == BAD_INPUT
    printed = capsys.readouterr()
    assert says in printed.err
    assert len(printed.err.splitlines()) == 1
    assert printed.out == ""
