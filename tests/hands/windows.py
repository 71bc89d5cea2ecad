"""Two programs create, save and take over unfinished consultations in one folder, as fast as they can.

Run from the project's folder: `python -m tests.hands.windows [SECONDS]`.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from random import Random

from consult.files import BadFile
from consult.records.drafts import DraftFile, draft_folder
from consult.records.store import HOME_VARIABLE, PART

PROGRAMS = ("one", "two")
OPEN_AT_ONCE = 8


@dataclass
class Window:
    """A window's file, and what it holds: window -> the number of its last save, its own and those it goes on from."""

    name: str
    file: DraftFile = field(default_factory=DraftFile)
    holds: dict[str, int] = field(default_factory=dict)

    def save(self) -> None:
        self.holds[self.name] = self.holds.get(self.name, 0) + 1
        self.file.save(json.dumps(self.holds), datetime.now())


def work(program: str, seconds: float) -> None:
    """Open and save; at the end print the last save of every window there ever was. A window is closed by being
    forgotten: its file stays, or somebody goes on with it."""
    chance, ends = Random(program), time.monotonic() + seconds
    windows: list[Window] = []
    last: dict[str, int] = {}
    taken = 0
    while time.monotonic() < ends:
        if not windows or chance.random() < 0.3:
            window = _opened(f"{program} {len(last)}", chance)
            taken += window.file.path is not None
            windows = [*windows, window][-OPEN_AT_ONCE:]
        window = chance.choice(windows)
        window.save()
        last[window.name] = window.holds[window.name]
    print(json.dumps([taken, last]))


def _opened(name: str, chance: Random) -> Window:
    """One time in four a window that goes on with what is lying there, be it open elsewhere or not."""
    lying = os.listdir(draft_folder()) if draft_folder().is_dir() else []
    drafts = [entry for entry in lying if entry.endswith(".toml")]
    if drafts and chance.random() < 0.25:
        try:
            path = draft_folder() / chance.choice(drafts)
            if path.stat().st_size:  # Else its name has only just been taken.
                file = DraftFile.taken(path, datetime.now())
                if file.path:
                    return Window(name, file, json.loads(file.path.read_text()))
        except (BadFile, FileNotFoundError):
            pass  # The other was quicker.
    return Window(name)


def faults(seconds: float, folder: Path) -> tuple[str, list[str]]:
    """What was done, and what is wrong; the latter is empty when nothing is."""
    environment = {**os.environ, HOME_VARIABLE: str(folder)}
    command = [sys.executable, "-m", "tests.hands.windows", "--work"]
    runs = [
        subprocess.Popen(
            [*command, program, str(seconds)], env=environment, text=True, stdout=-1, stderr=subprocess.STDOUT
        )
        for program in PROGRAMS
    ]
    said = [run.communicate(timeout=seconds + 60)[0] for run in runs]
    if any(run.returncode for run in runs):
        return "", [f"a program failed: {text[-500:]}" for text in said]
    told = [json.loads(text) for text in said]
    last: dict[str, int] = {window: number for _, windows in told for window, number in windows.items()}
    files = [path for path in (folder / "unfinished").iterdir() if path.stat().st_size]
    found: dict[str, int] = {}
    for path in files:
        for window, number in json.loads(path.read_text()).items():
            found[window] = max(number, found.get(window, 0))
    wrong = [f"lost: save {number} of window {w}" for w, number in last.items() if found.get(w, 0) < number]
    wrong += [f"left behind: {path.name}" for path in files if path.name.startswith(PART)]
    done = f"{sum(last.values())} saves of {len(last)} windows, {sum(taken for taken, _ in told)} of them taken over"
    return f"{done}; {len(files)} files", wrong


def main(arguments: Sequence[str]) -> int:
    if arguments[:1] == ["--work"]:
        work(arguments[1], float(arguments[2]))
        return 0
    with tempfile.TemporaryDirectory() as folder:
        done, wrong = faults(float(arguments[0]) if arguments else 60, Path(folder))
    print("".join(f"{line}\n" for line in wrong[:20]), end="")
    print(f"two programs: {done}; {len(wrong)} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
