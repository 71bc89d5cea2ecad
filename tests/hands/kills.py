"""The program is killed at random moments, half of the times inside a save, and started again: what was shown is there.

Run from the project's folder: `python -m tests.hands.kills [KILLS] [SEED]`.
"""

import os
import random
import stat
import sys
import tempfile
import time
from pathlib import Path
from typing import Final

from consult.answers.access import get
from consult.dates import clock
from consult.files import BadFile
from consult.records.codec import read_file
from consult.records.drafts import offered
from consult.records.store import HOME_VARIABLE, PART
from tests.hands.terminal import Hangs, Terminal

ANSWERS: Final = (
    ("What name", "Ines\r", "client.name", "Ines"),
    ("What is to be", "1\r", "goal.areas", ("scalp hair",)),
    ("Who will put", "3", "client.applied_by", "myself at home"),
    ("How old", "41\r", "client.age", 41),
    ("Are there gloves", "1", "client.gloves", "yes"),
)
"""Words of a question, keys that answer it, its path, and the answer."""
KILLED_INSIDE: Final = """
import os, random, signal, sys
from consult.records import store
CALLS = ("open", "close", "fsync", "replace", "fdopen", "fstat", "stat")
at, calls, real = int(sys.argv.pop(1)), 0, {name: getattr(os, name) for name in CALLS}
def counted(name):
    def call(*a, **k):
        global calls
        if sys._getframe(1).f_code.co_filename.endswith(("store.py", "drafts.py", "tempfile.py")):
            calls += 1
            if calls == at:
                os.kill(os.getpid(), signal.SIGKILL)
        return real[name](*a, **k)
    return call
for name in CALLS:
    setattr(os, name, counted(name))
from consult.cli import run
run()
"""
"""The program, killed before the call of that number which its store makes of the system."""


def faults(seed: int, home: Path) -> list[str]:
    """Kill one run somewhere, look at the disk, start again, look at the disk; what is wrong, or nothing."""
    chance = random.Random(seed)
    inside = seed % 2 == 0
    command: tuple[str, ...] = (sys.executable, "-m", "consult")
    if inside:
        command = (sys.executable, "-c", KILLED_INSIDE, str(chance.randint(1, 90)))
    shown = 0
    with Terminal(home, 80, 24, command=command) as terminal:
        try:
            terminal.sees("New consultation")
            terminal.child.send("\t1")
            for question, keys, _, _ in ANSWERS:
                terminal.sees(question)
                # The next question stands on the screen: the answer before it has been taken and shown.
                shown += bool(question != ANSWERS[0][0])
                terminal.child.send(keys)
                if not inside and chance.random() < 0.2:
                    break
            terminal.read_for(chance.uniform(0, 0.15))
        except Hangs as error:
            return [f"seed {seed}: hangs: {error}"]
        except AssertionError:
            if not inside or b"Traceback" in terminal.output:
                return [f"seed {seed}: ended by itself"]
        terminal.kill()
    wrong = _what_is_missing(home, shown)
    wrong += _again(home, shown) if seed % 5 == 0 else _looked_at(home, shown)
    return [f"seed {seed}: {line}" for line in wrong]


def _what_is_missing(home: Path, shown: int) -> list[str]:
    wrong = []
    files = [path for path in (home / "unfinished").glob("*.toml") if path.stat().st_size]
    if shown and len(files) != 1:
        return [f"{len(files)} unfinished consultations after {shown} answers"]
    for path in files:
        try:
            answers = read_file(path, clock()).answers
        except BadFile:
            return ["spoilt file"]
        for _, _, question, value in ANSWERS[:shown]:
            if get(answers, question) != value:
                wrong.append(f"lost: {question}")
    for path in home.rglob("*"):
        if stat.S_IMODE(path.stat().st_mode) & 0o077:
            wrong.append(f"open to others: {path.name}")
    return wrong


def _looked_at(home: Path, shown: int) -> list[str]:
    """The same as a new start, without its terminal: what would be offered, and what is cleaned on the way."""
    os.environ[HOME_VARIABLE] = str(home)
    names = [draft.name for draft in offered().drafts]
    wrong = [] if not shown or names == ["Ines"] else [f"offered: {names}"]
    return wrong + _left(home)


def _left(home: Path) -> list[str]:
    left = [path.name for path in home.rglob(f"{PART}*")]
    return [f"left behind: {left}"] if left else []


def _again(home: Path, shown: int) -> list[str]:
    """Started again it offers the consultation, and what the kill left half written is gone."""
    with Terminal(home, 80, 24) as terminal:
        terminal.sees("New consultation", *(["Go on with Ines"] if shown else []))
        terminal.child.send("\x11")
        code = terminal.ends()
    return [f"exit code {code}"] * bool(code) + _left(home)


def main(kills: int, seed: int) -> int:
    failed, started = 0, time.monotonic()
    for number in range(seed, seed + kills):
        with tempfile.TemporaryDirectory() as folder:
            wrong = faults(number, Path(folder) / "home")
        failed += bool(wrong)
        print("".join(f"{line}\n" for line in wrong), end="", flush=True)
    print(f"kills: {kills}, half of them inside a save; {failed} wrong; {time.monotonic() - started:.0f} s")
    return 1 if failed else 0


if __name__ == "__main__":
    numbers = [int(number) for number in sys.argv[1:]]
    sys.exit(main(*(numbers + [1000, 1][len(numbers) :])))
