"""Windows made tiny and large again under random keys, none of them waited for.

Run from the project's folder: `python -m tests.hands.resizes [STEPS] [SEED]`.
"""

import random
import sys
import tempfile
from pathlib import Path
from typing import Final

import pexpect

from tests.hands.terminal import Hangs, Terminal

KEYS: Final = (
    *("\x1b[5~", "\x1b[6~") * 4,  # PgUp, PgDn
    *("\x1b[H", "\x1b[F", "\x1b[A", "\x1b[B", "\t", "\r", " ", "\x1a"),  # Home, End, arrows, Tab, Enter, undo
    *("\x1bOP", "\x1bOQ", "\x1bOR", "\x1bOS", "\x1b\x1b"),  # F1 to F4, Escape
    *"012379nx[]?",
)
SIZES: Final = ((1, 1), (2, 2), (5, 24), (20, 6), (75, 22), (76, 21), (76, 22), (80, 3), (80, 24), (200, 60))
STARTS: Final = ((), ("demo",), ("demo", "ines"), ("demo", "hanna"))


def faults(steps: int, seed: int, home: Path) -> list[str]:
    """What went wrong in so many steps of one run; empty when nothing did."""
    chance = random.Random(seed)
    with Terminal(home, 80, 24, *STARTS[seed % len(STARTS)]) as terminal:
        terminal.sees("quit")
        try:
            for _ in range(steps):
                if chance.random() < 0.5:
                    terminal.resize(*chance.choice(SIZES))
                terminal.child.send("".join(chance.choices(KEYS, k=chance.randint(0, 3))))
                terminal.read(chance.choice((0, 0.01, 0.05)))
            terminal.resize(80, 24)
            terminal.read_for(0.3)
            terminal.sees("quit")
            terminal.child.send("\x11")
            # A window about the export may be open: then it is closed first.
            code = terminal.ends()
        except (AssertionError, pexpect.EOF, OSError) as error:
            said = "hangs" if isinstance(error, Hangs) else "has ended"
            lines = terminal.output.rsplit(b"\x1b[?1004l", 1)[-1].decode("utf-8", "replace").strip()
            return [f"seed {seed}: {said}: {lines[-300:]}"]
        traced = ["traceback"] if b"Traceback" in terminal.output else []
        return traced + ([f"seed {seed}: exit code {code}"] if code else [])


def main(steps: int, seed: int) -> int:
    run_of, done, failed = 100, 0, 0
    while done < steps:
        with tempfile.TemporaryDirectory() as folder:
            wrong = faults(run_of, seed, Path(folder))
        done, seed, failed = done + run_of, seed + 1, failed + bool(wrong)
        print("".join(f"{line}\n" for line in wrong), end="", flush=True)
    print(f"resizes: {done} steps, {failed} runs wrong")
    return 1 if failed else 0


if __name__ == "__main__":
    numbers = [int(number) for number in sys.argv[1:]]
    sys.exit(main(*(numbers + [1000, 1][len(numbers) :])))
