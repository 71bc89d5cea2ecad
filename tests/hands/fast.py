"""Keys typed faster than anybody can: nothing dies of them, and they mean what they would mean typed slowly.

Run from the project's folder: `python -m tests.hands.fast [KEYS] [SEED]`. Most keys are sent as fast as the program
reads them, between resizes and pastes; one run in `COMPARED` is typed twice, fast and key by key, and the answers of
both must be the same.
"""

import os
import random
import select
import sys
import tempfile
import time
from pathlib import Path
from typing import Any, Final

import pexpect

from consult.files import BadFile
from consult.records.codec import dump_draft, read_file
from consult.records.wanted import Purpose
from consult.trade import Voice
from tests.baseline import NOW, baseline
from tests.hands.terminal import PATIENCE, Hangs, Terminal

ESCAPE: Final = "\x1b\x1b"
KEYS: Final = (
    *("\x1bOP", "\x1bOQ", "\x1bOR", "\x1bOS", "\x1b[20~", ESCAPE),  # F1 to F4, F9
    *("\x1b[5~", "\x1b[6~", "\x1b[H", "\x1b[F", "\x1b[A", "\x1b[B", "\x1b[C", "\x1b[D"),
    *("\r", "\r", "\r", "\t", "\x1b[Z", " ", "\x1a", "\x7f", "\x1b[3~"),
    *"0011223345678???===abcdnpyx[].:",
    *("1\r", "5\r", "6w\r", "49h\r", "\x1b[200~2026-11-20 9:00\x1b[201~"),
)
"""What is sent in one go; a paste is one event."""
SIZES: Final = ((1, 1), (40, 10), (80, 24), (80, 24), (120, 40), (200, 60))
RUN: Final = 250
COMPARED: Final = 4
STARTS: Final = ("empty", "half way", "complete", "wrong", "before buying")
PROGRAM: Final = """
import os, sys
from datetime import datetime, UTC
import consult.session, consult.screens.keyboard as keyboard
consult.session.clock = lambda: datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
pipe = sys.argv.pop(1)
if pipe:
    told = os.open(pipe, os.O_WRONLY)
    settled = keyboard.Keyboard._settled
    async def telling(self):
        await settled(self)
        os.write(told, b".")
    keyboard.Keyboard._settled = telling
from consult.cli import run
run()
"""
"""The program at a fixed moment; it tells through a pipe when a key has done all that it does."""


def _start(home: Path, name: str) -> list[str]:
    """The arguments that open a consultation in which so much is answered."""
    answers = baseline()
    if name == "empty":
        answers = baseline(dict.fromkeys(("client.age", "hair.length_cm", "scalp.signs"), None))
    if name == "half way":
        answers = baseline({"goal.depth": None, "product.depth": None, "history.services": [{}]})
    voice = {"empty": Voice.STYLIST, "complete": Voice.TRAINER}.get(name, Voice.HOME)
    purpose = {"wrong": Purpose.WRONG, "before buying": Purpose.BUY}.get(name, Purpose.COLOUR)
    folder = home / "unfinished"
    folder.mkdir(parents=True)
    path = folder / "2026-11-25-1000.toml"
    path.write_text(dump_draft(answers, voice, "client.name", "", purpose=purpose), "utf-8")
    return [str(path)]


def typed(keys: list[str], start: str, home: Path, *, slowly: bool, resizes: random.Random | None) -> str:
    """What went wrong when these keys were typed; empty when nothing did."""
    arguments = _start(home, start)
    pipe = home / "told"
    os.mkfifo(pipe)
    told = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    command = (sys.executable, "-c", PROGRAM, str(pipe) if slowly else "")
    with Terminal(home, 80, 24, *arguments, command=command) as terminal, os.fdopen(told, "rb", 0):
        try:
            terminal.sees("quit", "question")
            terminal.child.delaybeforesend = None  # It waits 50 ms before each key otherwise.
            for key in keys:
                terminal.child.send(key)
                if slowly:
                    _wait(terminal, told, _events(key))
                elif resizes and resizes.random() < 0.03:
                    terminal.resize(*resizes.choice(SIZES))
                if not slowly and len(key) == 1:
                    terminal.read(0)
            terminal.resize(80, 24)
            terminal.child.send("\x11")
            terminal.child.send("\x11")
            code = terminal.ends()
        except (AssertionError, pexpect.EOF, OSError) as error:
            return f"{'hangs' if isinstance(error, Hangs) else 'died'}: {_last(terminal)}"
    if b"Traceback" in terminal.output:
        return f"traceback: {_last(terminal)}"
    return f"exit code {code}: {_last(terminal)}" if code else ""


def _events(key: str) -> int:
    """How many key presses a text is."""
    return 1 if key.startswith("\x1b") or len(key) == 1 else len(key)


def _wait(terminal: Terminal, told: int, events: int) -> None:
    """Until so many keys have done all that they do."""
    deadline = time.monotonic() + PATIENCE
    for _ in range(events):
        while not select.select([told], [], [], 0.002)[0]:
            terminal.read(0.001)
            if time.monotonic() > deadline:
                raise Hangs(f"a key was never done:\n{terminal.screen}")
        os.read(told, 1)


def _last(terminal: Terminal) -> str:
    return terminal.output.rsplit(b"\x1b[?1004l", 1)[-1].decode("utf-8", "replace").strip()[-300:]


def answers_in(home: Path) -> list[Any]:
    """What was kept of the consultation, unfinished or as a record."""
    found = []
    for path in sorted([*home.glob("unfinished/*.toml"), *home.glob("records/*.toml")]):
        try:
            loaded = read_file(path, NOW)
            found.append((loaded.answers, loaded.day, loaded.candidates))
        except BadFile as error:
            found.append(str(error))
    return found


def faults(seed: int, count: int = RUN) -> str:
    """What is wrong with one run of so many random keys; empty when nothing is."""
    chance = random.Random(seed)
    start = STARTS[seed % len(STARTS)]
    compared = seed % COMPARED == 0
    # What comes right behind an Escape is one sequence with it for a terminal: only slow hands tell them apart.
    keys = chance.choices([key for key in KEYS if key != ESCAPE] if compared else KEYS, k=count)
    with tempfile.TemporaryDirectory() as folder:
        fast, slow = Path(folder) / "fast", Path(folder) / "slow"
        wrong = typed(keys, start, fast, slowly=False, resizes=None if compared else chance)
        if wrong or not compared:
            return wrong and f"seed {seed}, {start}: {wrong}"
        wrong = typed(keys, start, slow, slowly=True, resizes=None)
        if wrong:
            return f"seed {seed}, {start}, slowly: {wrong}"
        same = answers_in(fast) == answers_in(slow)
        return "" if same else f"seed {seed}, {start}: fast and slow hands gave other answers"


def main(keys: int, seed: int) -> int:
    done, runs, compared, failed = 0, 0, 0, 0
    while done < keys:
        wrong = faults(seed)
        done, runs, compared, failed = (
            done + RUN,
            runs + 1,
            compared + (seed % COMPARED == 0),
            failed + bool(wrong),
        )
        seed += 1
        if wrong:
            print(wrong, flush=True)
    print(f"{done} keys in {runs} runs, {failed} wrong; {compared} runs typed slowly as well")
    return 1 if failed else 0


if __name__ == "__main__":
    numbers = [int(number) for number in sys.argv[1:]]
    sys.exit(main(*(numbers + [10_000, 1][len(numbers) :])))
