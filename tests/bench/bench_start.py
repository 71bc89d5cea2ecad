"""Time from starting the program to its first words in a real terminal, and to the end of a plan without one.

A bare application of the same framework is the measure. Runs alternate, so that a busy machine slows
all of them alike. The program is compiled, as an installed one is: the first round, which is not counted, leaves its
bytecode, whatever the environment says. Run from the project's folder: `python -m tests.bench.bench_start [ROUNDS]`.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from typing import Final

import pexpect

from consult.records.demos import demo_files

TARGETS: Final = {"start page": 1.15, "demo client": 1.5}
BARE: Final = """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("Who is using it?")
Bare().run()
"""
SCRIPT: Final = "from consult.cli import run; run()"
"""What the installed command does."""
RUNS: Final = {
    "bare application": (["-c", BARE], "Who is using it"),
    "start page": (["-c", SCRIPT], "New consultation"),
    "demo client": (["-c", SCRIPT, "demo", "ines"], "Opening Ines"),
    "its first question": (["-c", SCRIPT, "demo", "ines"], "made-up name"),
}
"""What is started -> its arguments and the words that show it."""
PLAN_TARGET: Final = 250
"""Milliseconds of a whole plan command, wall time."""


def environment(home: str) -> dict[str, str]:
    as_installed = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return as_installed | {"CONSULT_HOME": home, "TERM": "xterm-256color", "COLORTERM": "truecolor"}


def whole_plan(home: str) -> float:
    """Milliseconds of `consult plan FILE`."""
    file = str(demo_files()["ines"])
    started = time.perf_counter()
    subprocess.run(
        [sys.executable, "-c", SCRIPT, "plan", file],
        env=environment(home),
        stdout=subprocess.DEVNULL,
        check=True,
    )
    return (time.perf_counter() - started) * 1000


def first_words(arguments: list[str], words: str, home: str) -> float:
    """Milliseconds from the start to the words on the screen."""
    started = time.perf_counter()
    child = pexpect.spawn(
        sys.executable,
        arguments,
        env=environment(home),
        dimensions=(24, 80),
        timeout=30,
    )
    # The words may be cut into pieces by colour codes; their last word comes last.
    child.expect(r".*?".join(words.split()).encode())
    taken = time.perf_counter() - started
    child.close(force=True)
    return taken * 1000


def main(rounds: int) -> None:
    with tempfile.TemporaryDirectory() as home:
        taken: dict[str, list[float]] = {name: [] for name in RUNS}
        plans = []
        for turn in range(rounds + 1):
            for name, (arguments, words) in RUNS.items():
                milliseconds = first_words(arguments, words, home)
                if turn:  # The first round only warms the disk.
                    taken[name].append(milliseconds)
            plans.append(whole_plan(home))
    bare = statistics.median(taken["bare application"])
    print(f"first words in a terminal, median of {rounds} alternating runs")
    for name, values in taken.items():
        middle = statistics.median(values)
        target = f"   target: at most {TARGETS[name]}" if name in TARGETS else ""
        print(
            f"  {name:<18} {middle:5.0f} ms   {middle / bare:4.2f} times bare   (best {min(values):.0f}){target}"
        )

    middle = statistics.median(plans[1:])
    print(
        f"  consult plan FILE  {middle:5.0f} ms   (best {min(plans):.0f})   target: at most {PLAN_TARGET} ms"
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
