"""Plain mode as a program of its own: through pipes, in simple terminals, cut short, and with hostile input."""

import os
import subprocess
import sys
import time
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pexpect
import pytest

from consult.answers import Answers
from consult.answers.access import as_data, from_data
from consult.ask.console import Console
from consult.ask.talk import Talk
from consult.cleaning import UNPRINTABLE
from consult.consultation import consult
from consult.dates import clock
from consult.exits import BAD_INPUT, HELD, INTERRUPTED, PLAN_MADE, STOPPED, UNFINISHED
from consult.records.codec import read_file
from consult.records.drafts import draft_folder
from consult.records.record import dump_record
from consult.session import Session
from consult.trade import Voice
from tests.ask.person import Person, at_the_wizard
from tests.demo import NOW, load

PROGRAM = [sys.executable, "-m", "consult"]


def piped(*arguments: str, typed: str | bytes = "", **variables: str) -> subprocess.CompletedProcess[str]:
    data = typed if isinstance(typed, bytes) else typed.encode()
    run = subprocess.run(
        [*PROGRAM, *arguments], input=data, capture_output=True, timeout=60, env={**os.environ, **variables}
    )
    return subprocess.CompletedProcess(run.args, run.returncode, run.stdout.decode(), run.stderr.decode())


def only_draft() -> Path:
    (draft,) = draft_folder().glob("*.toml")
    return draft


def moved(answers: Answers, days: int) -> Answers:
    """The same answers, every day and moment in them so many days later."""

    def later(value: Any) -> Any:
        if isinstance(value, dict):
            return {name: later(one) for name, one in value.items()}
        if isinstance(value, list | tuple):
            return [later(one) for one in value]
        return value + timedelta(days=days) if isinstance(value, date) else value

    return from_data(later(as_data(answers)))


def test_a_whole_consultation_through_a_pipe_writes_the_wizards_record(tmp_path: Path) -> None:
    """Byte for byte, at the moment that stands in it."""
    answers = moved(load("tomas").answers, (clock() - NOW).days)
    session = Session(Voice.STYLIST, keep=False)
    person = Person(answers, session)
    with open(os.devnull, "w") as nowhere:
        Talk(session, Console(person, nowhere)).run()
    record = tmp_path / "record.toml"
    run = piped(
        "ask", "--voice", "stylist", "--out", str(record), typed="\n".join([*person.typed, ""]), COLUMNS="40"
    )
    assert run.stderr == ""
    assert run.returncode in (PLAN_MADE, HELD, STOPPED)
    written = read_file(record, clock())
    assert written.consulted_at
    wizard = at_the_wizard(answers, session)
    assert record.read_text("utf-8") == dump_record(consult(wizard, written.consulted_at))
    assert not list(draft_folder().glob("*"))
    wide = [line for line in run.stdout.splitlines() if len(line) > 40 and " " in line.strip()]
    assert [line for line in wide if str(record) not in line] == []
    assert not UNPRINTABLE.search(run.stdout.replace("\n", ""))


def test_the_end_of_the_input_leaves_a_draft_and_its_own_exit_code() -> None:
    run = piped("ask", typed="Ines\n1\n\n3\n47")
    assert (run.returncode, run.stderr) == (UNFINISHED, "")
    draft = only_draft()
    assert f"consult ask {draft}" in run.stdout
    answers = read_file(draft, clock()).answers
    assert (answers.client.name, answers.client.age) == ("Ines", 47)
    again = piped("ask", str(draft), typed="1\n")
    assert "Question 5 of about" in again.stdout
    assert read_file(only_draft(), clock()).answers.client.gloves == "yes"


def test_without_a_terminal_the_wizards_questions_are_asked_line_by_line() -> None:
    run = piped(typed="")
    assert run.returncode == UNFINISHED
    said = run.stdout.splitlines()
    assert said[0].startswith("consult: this is no terminal; ")
    assert "Question 1 of about" in run.stdout
    assert not draft_folder().exists()


@pytest.mark.parametrize("name", ["none.toml", "round.toml", "pipe.toml", "endless.toml", ".", "x" * 5000])
def test_a_file_that_cannot_be_read_is_one_line(name: str, tmp_path: Path) -> None:
    (tmp_path / "round.toml").symlink_to(tmp_path / "round.toml")
    (tmp_path / "endless.toml").symlink_to("/dev/zero")
    os.mkfifo(tmp_path / "pipe.toml")
    run = piped("ask", str(tmp_path / name))
    assert run.returncode == BAD_INPUT
    assert len(run.stderr.splitlines()) == 1


def test_a_place_that_is_taken_is_told_before_anything_is_asked(tmp_path: Path) -> None:
    (tmp_path / "taken.toml").write_text("kept")
    run = piped("ask", "--out", str(tmp_path / "taken.toml"), typed="Ines\n")
    assert run.returncode == BAD_INPUT
    assert "Question" not in run.stdout
    assert (tmp_path / "taken.toml").read_text() == "kept"


HOSTILE = [
    b"\x1b[31mInes\x1b]0;title\x07\n1\n\n",
    b"\xff\xfe\x00\x9b31m\n\x1b[2J\n",
    "\u202eIne\u2066s\ud7ff\n".encode() + b"\x07" * 500 + b"\n",
    b"A" * 3_000_000 + b"\nhelp\nreview\n",
    b"\x00\n" * 200,
    b"go " + b"9" * 6000 + b"\nremove \x1b\nundo\nclear\n<\n>\n",
    b"?\n?\n?\n?\n?\n?\n?\n?\n?\n" * 20,
]


@pytest.mark.parametrize("typed", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_input_neither_fails_nor_reaches_the_terminal(typed: bytes) -> None:
    run = piped("ask", typed=typed)
    assert run.stderr == ""
    assert run.returncode in (UNFINISHED, PLAN_MADE, HELD, STOPPED)
    assert not UNPRINTABLE.search(run.stdout.replace("\n", ""))


def dumb(*arguments: str, **variables: str) -> pexpect.spawn:
    return pexpect.spawn(
        PROGRAM[0], [*PROGRAM[1:], *arguments], env={**os.environ, "TERM": "dumb", **variables},
        dimensions=(24, 60), timeout=30, encoding="utf-8",
    )  # fmt: skip


def test_a_terminal_that_moves_no_cursor_is_asked_line_by_line_without_a_code() -> None:
    child = dumb()
    child.expect("this terminal moves no cursor")
    child.expect("Question 1 of about")
    child.expect("> ")
    child.sendline("Ines")
    child.expect("Question 2 of about")
    child.sendline("stop")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == UNFINISHED
    assert "\x1b" not in child.before


def test_ctrl_c_keeps_what_was_answered() -> None:
    child = dumb("ask")
    child.expect("> ")
    child.sendline("Ines")
    child.expect("Question 2 of about")
    child.sendintr()
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == INTERRUPTED
    assert "Traceback" not in child.before
    assert only_draft().name in child.before
    assert read_file(only_draft(), clock()).answers.client.name == "Ines"


def test_a_killed_program_has_lost_nothing_and_is_offered_again() -> None:
    child = dumb("ask")
    child.expect("> ")
    child.sendline("Ines")
    child.expect("Question 2 of about")
    child.kill(9)
    child.wait()
    again = dumb("ask")
    again.expect("1  Ines, saved ")
    again.sendline("1")
    again.expect("Question 2 of about")
    again.sendline("stop")
    again.expect(pexpect.EOF)
    again.close()


def test_a_moment_typed_is_the_moment_of_the_clock_on_the_wall(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "America/New_York")
    time.tzset()
    now = datetime.now()
    early = now.replace(hour=9, minute=0, second=0, microsecond=0) - timedelta(days=1)
    run = piped("ask", typed="\n1\n\n3\n47\n1\n1\n1\n1\n2\nyesterday 9am\n", TZ="America/New_York")
    assert run.returncode == UNFINISHED
    stored = read_file(only_draft(), clock()).answers.allergy_test.applied_at
    assert isinstance(stored, datetime)
    assert stored == early.astimezone()


def test_plain_mode_loads_no_painter() -> None:
    code = "import sys, consult.ask.opening; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert "consult.ask.talk" in loaded
    assert not {"textual", "rich", "curses"} & set(loaded.split())
