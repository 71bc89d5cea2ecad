"""The command line among other tools: pipes, JSON, widths, options in any place, completion."""

import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pexpect
import pytest

from consult import arguments
from consult.cli import main
from consult.exits import BAD_INPUT, HELD, PLAN_MADE, STOPPED
from consult.records.demos import demo_files
from consult.terminal import NARROWEST, WIDEST, why_plain

DEMOS = demo_files()
PROGRAM = [sys.executable, "-m", "consult"]


def piped(*arguments: str, data: bytes = b"", **variables: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*PROGRAM, *arguments], input=data, capture_output=True, timeout=60, env={**os.environ, **variables}
    )


@pytest.mark.parametrize(("name", "code"), [("ines", PLAN_MADE), ("mirela", HELD), ("lotte", STOPPED)])
def test_a_dash_reads_standard_input(name: str, code: int, capsys: pytest.CaptureFixture[str]) -> None:
    run = piped("plan", "-", data=DEMOS[name].read_bytes())
    assert (run.returncode, run.stderr) == (code, b"")
    assert main(["plan", str(DEMOS[name])]) == code
    assert run.stdout.decode() == capsys.readouterr().out


def test_check_reads_standard_input_too() -> None:
    run = piped("check", "-", str(DEMOS["ines"]), data=DEMOS["tomas"].read_bytes())
    assert run.stdout.decode().splitlines() == [
        "standard input: valid answers",
        f"{DEMOS['ines']}: valid answers",
    ]


@pytest.mark.parametrize(
    "data", [b"\xff", b"[client\n", b"x = 1\n", b"#" * 1_000_001, b"[client]\nage = 'forty'\n"], ids=range(5)
)
def test_bad_standard_input_is_one_line(data: bytes) -> None:
    for command in ("plan", "check"):
        run = piped(command, "-", data=data)
        assert run.returncode == BAD_INPUT
        assert run.stderr.startswith(b"consult: standard input: ")
        assert run.stderr.count(b"\n") == 1


def test_json_is_the_record(tmp_path: Path) -> None:
    record = tmp_path / "record.toml"
    run = piped("plan", "--json", str(DEMOS["ines"]), "--out", str(record))
    assert run.returncode == PLAN_MADE
    printed = json.loads(run.stdout)
    assert printed == _iso(tomllib.loads(record.read_text("utf-8")))
    assert printed["record"]["consulted_at"].startswith("2026-11-25T10:00")
    assert b"The record is written" in run.stderr


def test_an_endless_standard_input_is_not_read_to_its_end() -> None:
    with open("/dev/zero", "rb") as endless:
        run = subprocess.run([*PROGRAM, "check", "-"], stdin=endless, capture_output=True, timeout=20)
    assert run.returncode == BAD_INPUT
    assert b"larger than 1 MB" in run.stderr


def _iso(value: Any) -> Any:
    """As RFC 8259 has no days, ISO 8601."""
    if isinstance(value, dict):
        return {name: _iso(one) for name, one in value.items()}
    if isinstance(value, list):
        return [_iso(one) for one in value]
    return value.isoformat() if isinstance(value, date) else value


def test_out_says_which_folder_it_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    record = tmp_path / "clients" / "2026" / "ines.toml"
    main(["plan", str(DEMOS["ines"]), "--out", str(record)])
    made = f"The record is written: {record} (the folder {tmp_path / 'clients'} was made for it)"
    assert made in capsys.readouterr().out
    main(["plan", str(DEMOS["ines"]), "--out", str(record)])
    assert f"The record is written: {record}\n" in capsys.readouterr().out


@pytest.mark.parametrize("columns", [30, 60, 80, 119])
def test_lines_are_as_wide_as_the_terminal(columns: int) -> None:
    run = piped("plan", "--why", str(DEMOS["ines"]), COLUMNS=str(columns))
    lines = run.stdout.decode().splitlines()
    assert columns - 20 < max(map(len, lines)) <= columns


@pytest.mark.parametrize(("columns", "widest"), [("9", NARROWEST), ("500", WIDEST), ("", 80)])
def test_no_line_is_too_narrow_for_words_or_too_long_to_read(columns: str, widest: int) -> None:
    run = piped("plan", "--why", str(DEMOS["ines"]), COLUMNS=columns)
    assert max(map(len, run.stdout.decode().splitlines())) <= widest
    assert b"\x1b" not in run.stdout


@pytest.mark.parametrize(
    "words",
    [
        ["--voice", "trainer", "plan", "FILE"],
        ["plan", "--voice", "trainer", "FILE"],
        ["plan", "FILE", "--voice=trainer"],
        ["--voice", "home", "plan", "FILE", "--voice", "trainer"],
    ],
)
def test_the_voice_is_taken_before_and_behind_the_command(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    main([str(DEMOS["mirela"]) if word == "FILE" else word for word in words])
    assert "WHAT WOULD HAVE TO BE DIFFERENT" in capsys.readouterr().out


def test_salon_and_shelf_are_taken_behind_the_command_too() -> None:
    options = arguments.parse(["--shelf", "a", "plan", "x.toml", "--salon", "b"])
    assert (options.shelf, options.salon, options.voice) == ("a", "b", None)


@pytest.mark.parametrize(
    ("words", "opened"),
    [
        (["record.toml"], "record.toml"),
        (["--voice", "stylist", "a/b"], "a/b"),
        (["--voice=stylist", "./plan"], "./plan"),
        (["open", "plan"], "plan"),
    ],
)
def test_a_file_alone_is_opened(words: list[str], opened: str) -> None:
    options = arguments.parse(words)
    assert (options.command, options.file) == ("open", opened)


def test_a_file_alone_is_opened_in_the_wizard(tmp_path: Path) -> None:
    file = tmp_path / "ines.toml"
    file.write_bytes(DEMOS["ines"].read_bytes())
    child = pexpect.spawn(
        PROGRAM[0], [*PROGRAM[1:], str(file)], env={**os.environ, "TERM": "xterm-256color"},
        dimensions=(30, 100), timeout=30, encoding="utf-8",
    )  # fmt: skip
    child.expect("Ines")
    child.send("\x11")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


def test_a_file_that_cannot_be_opened_is_one_line(tmp_path: Path) -> None:
    run = piped(str(tmp_path / "none.toml"))
    assert run.returncode == BAD_INPUT
    assert run.stderr.count(b"\n") == 1


def test_every_example_in_the_help_is_a_right_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    shown = capsys.readouterr().out
    examples = re.findall(r"^  consult ?(.*?)(?:  .*| [<|>].*)?$", shown, re.MULTILINE)
    assert len(examples) > 8
    for example in examples:
        arguments.parse(example.split())


def test_each_exit_code_stands_in_the_help(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    shown = " ".join(capsys.readouterr().out.split())
    for code, words in enumerate(
        ("plan made", "the program failed", "bad input", "held", "stopped", "questions asked line by line")
    ):
        assert f"{code} {words}" in shown


def _complete(words: list[str], folder: Path) -> list[str]:
    """What bash offers for the last word, with the printed script sourced and nothing of the program in reach."""
    script = piped("completion", "bash").stdout.decode()
    lines = [
        script,
        f"COMP_WORDS=({' '.join(repr(word) for word in ['consult', *words])})",
        f"COMP_CWORD={len(words)}",
        "_shtab_consult",
        'printf "%s\\n" "${COMPREPLY[@]}"',
    ]
    run = subprocess.run(
        [shutil.which("bash") or "", "--norc", "-c", "\n".join(lines)],
        capture_output=True,
        text=True,
        cwd=folder,
        env={"PATH": "/nowhere"},
    )
    assert run.stderr == ""
    return run.stdout.split()


@pytest.mark.skipif(not shutil.which("bash"), reason="needs bash")
def test_bash_completes_commands_options_choices_and_files(tmp_path: Path) -> None:
    (tmp_path / "record.toml").touch()
    assert _complete(["pl"], tmp_path) == ["plan"]
    assert _complete(["plan", "--j"], tmp_path) == ["--json"]
    assert _complete(["plan", "--voice", "tr"], tmp_path) == ["trainer"]
    assert _complete(["plan", "rec"], tmp_path) == ["record.toml"]
    assert _complete(["demo", "tom"], tmp_path) == ["tomas"]


@pytest.mark.parametrize("shell", arguments.SHELLS)
def test_each_shell_has_a_script_that_names_every_command(shell: str) -> None:
    run = piped("completion", shell)
    assert run.returncode == 0
    for command in arguments.commands_of(arguments.parser()):
        assert command in run.stdout.decode()
    if shutil.which(shell):
        assert subprocess.run([shell, "-n"], input=run.stdout, capture_output=True).returncode == 0


def test_completion_is_loaded_by_its_command_alone() -> None:
    code = "import sys; from consult.cli import main; main(['check', sys.argv[1]]); print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code, str(DEMOS["ines"])], capture_output=True, text=True)
    assert "consult.arguments" in run.stdout
    assert "shtab" not in run.stdout


def test_a_plan_that_is_only_printed_loads_neither_the_store_nor_the_wizard() -> None:
    code = "import sys; from consult.cli import main; main(['plan', sys.argv[1]]); print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code, str(DEMOS["ines"])], capture_output=True, text=True)
    loaded = run.stdout.splitlines()[-1].split()
    assert "consult.plan" in loaded
    assert not {"consult.records.store", "platformdirs", "textual", "rich"} & set(loaded)


def test_what_is_printed_is_whole_though_the_program_ends_at_once() -> None:
    """The same text through a pipe, which keeps words back until it is full, as to a file."""
    piped_text = piped("plan", str(DEMOS["ines"]), PYTHONUNBUFFERED="").stdout
    code = "import sys; from consult.cli import main; sys.exit(main(['plan', sys.argv[1]]))"
    run = subprocess.run([sys.executable, "-c", code, str(DEMOS["ines"])], capture_output=True)
    assert piped_text == run.stdout
    assert len(piped_text) > 5_000


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("dumb", "this terminal moves no cursor"),
        ("", "this terminal moves no cursor"),
        ("xterm-256color", ""),
        ("a-terminal-that-no-table-knows", ""),
    ],
)
def test_a_terminal_that_moves_no_cursor_is_found_out(
    name: str, why: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for stream in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(getattr(sys, stream), "isatty", lambda: True)
    monkeypatch.setenv("TERM", name)
    assert why_plain() == why
