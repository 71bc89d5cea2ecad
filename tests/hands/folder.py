"""Files made to hurt: pipes, devices, files and keys without end. One line, soon, in little memory.

Run from the project's folder: `python -m tests.hands.folder`.
"""

import os
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Final

from consult.answers import Answers
from consult.records.codec import dump_draft
from consult.records.demos import demo_files
from consult.trade import Voice
from tests.hands.terminal import Terminal

MOST_SECONDS: Final = 2.0
"""For a command with one such file, while other programs run too; alone the slowest takes half of it."""
MOST_MEGABYTES: Final = 250
"""Peak memory of a command; a plan of a sound client takes about 90."""
DRAFTS: Final = 900
LARGE: Final = 200_000_000
FULL: Final = 999_000
"""Bytes of the largest files that are read at all."""


def _lines(line: Callable[[int], str]) -> str:
    made: list[str] = []
    size = number = 0
    while size < FULL:
        made.append(line(number))
        size, number = size + len(made[-1]), number + 1
    return "".join(made[:-1])


TEXTS: Final[dict[str, Callable[[], str]]] = {
    "deep key": lambda: "a." * 60_000 + "a = 1\n",
    "deep keys": lambda: _lines(lambda number: f"k{number}." + "a." * 198 + "a = 1\n"),
    "one deep key each time": lambda: _lines(lambda number: "a." * 190 + f"k{number} = 1\n"),
    "deep headers": lambda: _lines(lambda number: f"[k{number}." + "a." * 198 + "a]\n"),
    "deep list": lambda: "x = " + "[" * 60_000,
    "deep tables": lambda: "x = " + "{a=" * 60_000,
    "many keys": lambda: _lines(lambda number: f"k{number} = 1\n"),
    "many tables": lambda: _lines(lambda number: f"[k{number}]\n"),
    "many entries": lambda: _lines(lambda _: "[[history.services]]\n"),
    "long list": lambda: "x = [" + "1," * (FULL // 2 - 10) + "]\n",
    "many lists": lambda: _lines(
        lambda number: (
            f"k{number} = [{'1,' * 20 * (number < 2_400)}]\n" if number < 19_000 else f"k{number} = 1\n"
        )
    ),
    "long number": lambda: f"x = {'9' * (FULL - 10)}\n",
    "long text": lambda: f'[client]\nname = "{"x" * (FULL - 30)}"\n',
    "escapes": lambda: 'x = "' + r"\n" * (FULL // 2 - 10) + '"\n',
    "open quote": lambda: 'x = """' + "\n" * (FULL - 10),
    "spaces": lambda: "x =" + " " * FULL,
}
"""Texts of files that are ordinary in all but what stands in them."""


def hostile(folder: Path) -> list[Path]:
    """Files that no reader should touch, or not for long."""
    folder.mkdir(parents=True)
    made = []
    for name, text in TEXTS.items():
        made.append(folder / f"{name}.toml")
        made[-1].write_text(text())
    os.mkfifo(folder / "pipe.toml")
    (folder / "endless.toml").symlink_to("/dev/zero")
    (folder / "noise.toml").symlink_to("/dev/urandom")
    (folder / "terminal.toml").symlink_to("/dev/tty")
    (folder / "round.toml").symlink_to(folder / "round.toml")
    (folder / "folder.toml").mkdir()
    (folder / "binary.toml").write_bytes(bytes(range(256)) * 1000)
    with (folder / "huge.toml").open("wb") as huge:
        huge.truncate(LARGE)
    (folder / "closed.toml").write_text("x = 1\n")
    (folder / "closed.toml").chmod(0)
    (folder / "a\x1b[31m\nb.toml").write_text("spoilt")
    made += [path for path in folder.glob("*.toml") if path not in made]
    return sorted(made)


def faults_of_a_command(arguments: list[str]) -> list[str]:
    """What is wrong with the end of a command that was given a hostile file."""
    started = time.monotonic()
    reader, writer = os.pipe()
    pid = os.posix_spawn(
        sys.executable,
        [sys.executable, "-m", "consult", *arguments],
        os.environ,
        file_actions=[(os.POSIX_SPAWN_DUP2, writer, 2), (os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0)],
    )
    os.close(writer)
    while not (ended := os.wait4(pid, os.WNOHANG))[0]:
        if time.monotonic() - started > 10 * MOST_SECONDS:
            os.kill(pid, 9)
        time.sleep(0.01)
    seconds, megabytes = time.monotonic() - started, ended[2].ru_maxrss / 1000
    with os.fdopen(reader, "rb") as errors:
        said = errors.read().decode("utf-8", "replace")
    code = os.waitstatus_to_exitcode(ended[1])
    wrong = [] if code == 2 else [f"exit code {code}"]
    wrong += [f"not one line: {said[:200]!r}"] * (
        len(said.splitlines()) != 1 or len(said) > 301 or "\x1b" in said
    )
    wrong += [f"{seconds:.1f} s"] * (seconds > MOST_SECONDS)
    return wrong + [f"{megabytes:.0f} MB"] * (megabytes > MOST_MEGABYTES)


def faults_of_the_start_page(home: Path) -> list[str]:
    """What is wrong when the program is started over such a folder, with hundreds of sound drafts in it too."""
    hostile(home / "unfinished")
    text = dump_draft(Answers(), Voice.HOME, "client.name")
    for number in range(DRAFTS):
        (home / "unfinished" / f"{number}.toml").write_text(text)
    os.mkfifo(home / "unfinished" / ".consult-writing-pipe")
    started = time.monotonic()
    with Terminal(home, 80, 24) as terminal:
        terminal.sees("New consultation")
        seconds = time.monotonic() - started
        terminal.child.send("\x11")
        code = terminal.ends()
    wrong = [f"exit code {code}"] * bool(code) + ["traceback"] * (b"Traceback" in terminal.output)
    return wrong + [f"{seconds:.1f} s to the start page"] * (seconds > MOST_SECONDS)


def main() -> int:
    failed, tried, slowest = 0, 0, 0.0
    with tempfile.TemporaryDirectory() as folder:
        for path in hostile(Path(folder) / "files"):
            for how in (["plan"], ["check"], ["--salon"], ["--shelf"]):
                given = [*how, str(path)] + (
                    ["plan", str(demo_files()["ines"])] if how[0].startswith("--") else []
                )
                started = time.monotonic()
                wrong = faults_of_a_command(given)
                slowest = max(slowest, time.monotonic() - started)
                tried, failed = tried + 1, failed + bool(wrong)
                if wrong:
                    print(f"{how[0]} {path.name!r}: {'; '.join(wrong)}", flush=True)
        wrong = faults_of_the_start_page(Path(folder) / "home")
    told = f"{tried} commands, {failed} wrong, the slowest {slowest:.1f} s"
    print(f"hostile files: {told}; start page: {'; '.join(wrong) or 'sound'}")
    return 1 if failed or wrong else 0


if __name__ == "__main__":
    sys.exit(main())
