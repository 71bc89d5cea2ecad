"""Memory over many page changes in a real terminal, and the fields that are still alive after as many questions.

Run from the project's folder: `python -m tests.hands.memory [CHANGES]`.
"""

import asyncio
import gc
import resource
import sys
import tempfile
from pathlib import Path
from typing import Final

from consult.interview import intake as steps
from consult.widgets.form import Field
from tests.baseline import baseline
from tests.hands.terminal import Terminal
from tests.screens.driver import driven, sitting

MOST_MEGABYTES: Final = 5.0
WARM_UP: Final = 300
"""Changes after which every page has been shown, the framework's caches are full and the collector has been round."""
ROUND: Final = (
    ("\t", ("question 2", "What is to be")),
    ("\x1bOQ", ("Review of all answers",)),
    ("\x1b", ("question 2", "What is to be")),
    ("\x1bOR", ("judged as of",)),
    ("\x1b", ("question 2", "What is to be")),
    ("\x1b[Z", ("question 1", "What name")),
)
"""Keys and what they show, the top line of it too, which is painted first: the second question, review, back,
result, back, the first question."""


def grown(changes: int) -> float:
    """Megabytes of resident memory gained in so many page changes."""
    with tempfile.TemporaryDirectory() as home, Terminal(Path(home), 80, 24, "demo", "ines") as terminal:
        terminal.sees("What name")
        _change(terminal, WARM_UP)
        before = _resident(terminal.child.pid)
        _change(terminal, changes)
        return _resident(terminal.child.pid) - before


def _change(terminal: Terminal, changes: int) -> None:
    for number in range(changes):
        keys, words = ROUND[number % len(ROUND)]
        terminal.child.send(keys)
        terminal.sees(*words)
    for keys, words in ROUND[changes % len(ROUND) :] if changes % len(ROUND) else ():
        terminal.child.send(keys)
        terminal.sees(*words)


def _resident(pid: int) -> float:
    """Megabytes, from proc(5): the second number of statm, in pages."""
    return int(Path(f"/proc/{pid}/statm").read_text().split()[1]) * resource.getpagesize() / 1e6


async def _fields_alive(changes: int) -> int:
    async with driven(session=sitting(baseline(), "client.name", keep=False)) as driver:
        for number in range(changes):
            path = ("client.age", "client.name")[number % 2]
            driver.session.change(steps.jump(driver.session.intake, path))
            driver.app.screen.show_question()  # type: ignore[attr-defined]
            await driver.settle()
        await driver.pilot.pause(0.3)  # The last ones are still being taken away.
        gc.collect()
        return sum(isinstance(thing, Field) for thing in gc.get_objects())


def fields_alive(changes: int) -> int:
    """Fields that are alive after so many typed questions; one of them is on the screen."""
    return asyncio.run(_fields_alive(changes))


def main(changes: int) -> int:
    alive, more = fields_alive(changes), grown(changes)
    print(f"{changes} typed questions: {alive} fields alive (1 is on the screen)")
    print(f"{changes} page changes: {more:+.1f} MB (at most {MOST_MEGABYTES})")
    return 0 if alive <= 2 and more <= MOST_MEGABYTES else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000))
