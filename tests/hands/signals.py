"""Signals from outside, a terminal that goes away, and bytes that are no UTF-8: one line, the terminal restored.

Run from the project's folder: `python -m tests.hands.signals [ROUNDS]`.
"""

import os
import random
import re
import sys
import tempfile
import time
from pathlib import Path
from signal import SIGHUP, SIGINT, SIGQUIT, SIGTERM, Signals
from typing import Final

from consult.dates import clock
from consult.records.codec import read_file
from tests.hands.terminal import PATIENCE, Hangs, Terminal

SIGNALS = (SIGTERM, SIGHUP, SIGQUIT, SIGINT)
BYTES = (b"\xff", b"\xe9a", b"\xc3(", b"\xf5\x80\x80\x80", b"\xed\xa0\x80", b"a\x80b")
"""Not UTF-8: a byte that never occurs, Latin-1, a start without its rest, above U+10FFFF, a surrogate, a rest
without its start (RFC 3629, section 3)."""
WHERE: Final = {
    "start": ((), [("", "")]),
    "start page": ((), [("", "New consultation")]),
    "opening page": ((), [("", "New consultation"), ("\t1", "")]),
    "half-typed answer": (
        (),
        [
            ("", "New consultation"),
            ("\t1", "made-up"),
            ("Ines\r", "What is to be"),
            ("1\r", "Who will put"),
            ("3", "How old"),
            ("4", "= 4 years"),
        ],
    ),
    "result": (("demo", "ines"), [("", "made-up"), ("\x1bOR", "judged as of")]),
}
"""Where -> arguments, and the keys that lead there, each with the words that show that they have arrived."""


def opened(home: Path, where: str) -> Terminal:
    arguments, steps = WHERE[where]
    terminal = Terminal(home, 80, 24, *arguments)
    for keys, words in steps:
        terminal.child.send(keys)
        terminal.sees(words)
    if not words:
        terminal.read_for(random.uniform(0.1, 0.4))
    return terminal


def told_in_one_line(terminal: Terminal) -> str:
    """What the program said after it had given the terminal back; the lines of it."""
    last = terminal.output.rsplit(b"\x1b[?1004l", 1)[-1].decode("utf-8", "replace")
    return re.sub(r"\x1b\[[?<>=0-9;]*[a-zA-Z]", "", last).strip()


def faults_of_signal(number: Signals, where: str, home: Path) -> list[str]:
    """What is wrong after a signal; empty when nothing is."""
    with opened(home, where) as terminal:
        terminal.signal(number)
        return _wrong(terminal, 128 + number) + _lost(home, where)


def faults_of_bytes(data: bytes, where: str, home: Path) -> list[str]:
    with opened(home, where) as terminal:
        os.write(terminal.child.child_fd, data)
        return _wrong(terminal, 1) + _lost(home, where)


def faults_of_a_hang_up(where: str, home: Path) -> list[str]:
    """The window is closed: there is no terminal to restore, but the program must end, and soon."""
    with opened(home, where) as terminal:
        os.close(terminal.child.child_fd)
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:
            pid, status = os.waitpid(terminal.child.pid, os.WNOHANG)
            if pid:
                terminal.child.ptyproc.terminated = terminal.child.terminated = True
                terminal.child.closed = terminal.child.ptyproc.closed = True
                code = os.waitstatus_to_exitcode(status)
                wrong = [] if code in (128 + SIGHUP, -SIGHUP) else [f"exit code {code}"]
                return wrong + _lost(home, where)
            time.sleep(0.02)
        terminal.kill()
        return ["hangs"]


def _wrong(terminal: Terminal, expected: int) -> list[str]:
    try:
        code = terminal.ends()
    except Hangs:
        return ["hangs"]
    if b"\x1b[?1049h" not in terminal.output:
        # The terminal had not been taken: there is nothing to restore, and the shell tells of the signal.
        return ["traceback"] if b"Traceback" in terminal.output else []
    said = told_in_one_line(terminal)
    wrong = [] if code == expected else [f"exit code {code}, not {expected}"]
    if not terminal.restored:
        wrong.append("terminal not restored")
    if b"Traceback" in terminal.output:
        wrong.append("traceback")
    if len(said.splitlines()) != 1 or not said.startswith("consult: ") or len(said) > 300:
        wrong.append(f"not one line: {said[:200]!r}")
    return wrong


def _lost(home: Path, where: str) -> list[str]:
    if where != "half-typed answer":
        return []
    found = [read_file(path, clock()) for path in (home / "unfinished").glob("*.toml")]
    kept = [(file.answers.client.name, file.typed) for file in found]
    return [] if kept == [("Ines", "4")] else [f"lost: {kept}"]


def main(rounds: int) -> int:
    failed = tried = 0
    for turn in range(rounds):
        for where in WHERE:
            cases = [(number.name, faults_of_signal, number) for number in SIGNALS]
            picked = BYTES if turn == 0 else [bytes([random.Random(turn).randrange(0x80, 0xC0)])]
            cases += [(repr(data), faults_of_bytes, data) for data in picked]
            for name, ask, what in cases:
                with tempfile.TemporaryDirectory() as folder:
                    wrong = ask(what, where, Path(folder))
                tried += 1
                failed += bool(wrong)
                if wrong:
                    print(f"{name} at the {where}: {'; '.join(wrong)}")
            with tempfile.TemporaryDirectory() as folder:
                wrong = faults_of_a_hang_up(where, Path(folder))
            tried += 1
            failed += bool(wrong)
            if wrong:
                print(f"the terminal goes at the {where}: {'; '.join(wrong)}")
    print(f"signals, bytes, terminals gone: {tried} tried, {failed} wrong")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 1))
