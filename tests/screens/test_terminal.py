"""The program in a real terminal: drawn in a pseudo-terminal, killed, and started again."""

import os
import signal
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.hands.terminal import PATIENCE, Terminal


def written(folder: Path, word: str) -> None:
    """Wait until the word has reached the disk, some milliseconds after the screen."""
    deadline = time.monotonic() + PATIENCE
    while not any(word in path.read_text() for path in folder.glob("*.toml")):
        assert time.monotonic() < deadline, f"{word} was never written"
        time.sleep(0.01)


@pytest.fixture
def started() -> Iterator[list[Terminal]]:
    terminals: list[Terminal] = []
    yield terminals
    for terminal in terminals:
        terminal.child.close(force=True)


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (120, 40)])
def test_after_a_kill_every_answer_is_there_again(
    columns: int, rows: int, tmp_path: Path, started: list[Terminal]
) -> None:
    first = Terminal(tmp_path / "home", columns, rows)
    started.append(first)
    first.sees("Who is using it?", "New consultation")
    for keys, then in (
        ("\t1", "What name should stand"),
        ("Ines\r", "What is to be coloured"),
        ("1\r", "Who will put the colour on"),
        ("3", "How old is the person"),
    ):
        first.child.send(keys)
        first.sees(then)
    os.kill(first.child.pid, signal.SIGKILL)
    first.child.wait()

    again = Terminal(tmp_path / "home", columns, rows)
    started.append(again)
    again.sees("Go on with Ines")
    again.child.send("2")
    again.sees("How old is the person")
    again.child.send("\x1bOQ")
    again.sees("Review of all answers", "Ines", "scalp hair", "myself at home")
    again.child.send("\x11")
    assert again.ends() == 0
    assert b"unfinished, kept in" in again.output.rsplit(b"\x1b[?1049l", 1)[-1]


def test_a_half_typed_answer_survives_the_kill(tmp_path: Path, started: list[Terminal]) -> None:
    first = Terminal(tmp_path / "home", 80, 24)
    started.append(first)
    first.sees("New consultation")
    first.child.send("\t1")
    first.sees("What name should stand")
    first.child.send("Philip")
    first.sees("Philip")
    written(tmp_path / "home" / "unfinished", "Philip")
    os.kill(first.child.pid, signal.SIGKILL)
    first.child.wait()
    again = Terminal(tmp_path / "home", 80, 24)
    started.append(again)
    again.sees("Go on with no name yet")
    again.child.send("2")
    again.sees("What name should stand", "Philip")


def test_ctrl_c_leaves_the_consultation_where_it_was(tmp_path: Path, started: list[Terminal]) -> None:
    terminal = Terminal(tmp_path / "home", 80, 24, "demo", "ines")
    started.append(terminal)
    terminal.sees("What name should stand")
    terminal.child.send("\x03")
    terminal.child.send("\x1bOR")
    terminal.sees("Result", "judged as of Wed 25 Nov 2026")
    terminal.child.send("\x11")
    assert terminal.ends() == 0
    assert "Traceback" not in terminal.screen
    assert b"kept in" not in terminal.output, "of a demo client nothing is kept"


def test_without_colour_the_verdict_still_has_its_mark_and_its_words(
    tmp_path: Path, started: list[Terminal]
) -> None:
    terminal = Terminal(tmp_path / "home", 80, 24, "demo", "hanna", NO_COLOR="1")
    started.append(terminal)
    terminal.sees("What name should stand", "[X] Stop: no colour")
