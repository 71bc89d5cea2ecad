"""One run of the program in a terminal of its own: keys sent, the screen read, the end awaited."""

import os
import signal
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType

import pexpect
import pyte

PATIENCE = 20.0
"""Seconds after which a program that should have answered or ended hangs."""


class Hangs(AssertionError):
    """The program neither answered nor ended in time."""


class Terminal:
    """A pseudo-terminal with a program in it. As a context manager it leaves no process behind."""

    def __init__(
        self,
        home: Path,
        columns: int,
        rows: int,
        *arguments: str,
        command: Sequence[str] = (sys.executable, "-m", "consult"),
        **variables: str,
    ) -> None:
        self.display = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.display)
        self.output = b""
        kept = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "COLORTERM")}
        self.child = pexpect.spawn(
            command[0],
            [*command[1:], *arguments],
            env={**kept, "CONSULT_HOME": str(home), "TERM": "xterm-256color", **variables},
            # Whatever random keys write goes where it is thrown away.
            cwd=home if home.exists() else home.parent,
            dimensions=(rows, columns),
            timeout=PATIENCE,
        )

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.child.close(force=True)

    @property
    def screen(self) -> str:
        return "\n".join(self.display.display)

    def sees(self, *words: str) -> None:
        """Wait until all the words stand on the screen."""
        deadline = time.monotonic() + PATIENCE
        while not all(word in self.screen for word in words):
            if time.monotonic() > deadline:
                raise Hangs(f"{words} never came:\n{self.screen}")
            self.read()

    def read(self, seconds: float = 0.1) -> None:
        """Take what the program has written, waiting so long for the first of it."""
        try:
            self._feed(self.child.read_nonblocking(65536, timeout=seconds))
        except pexpect.TIMEOUT:
            pass
        except pexpect.EOF:
            raise AssertionError(f"the program has ended:\n{self.screen}") from None

    def read_for(self, seconds: float) -> None:
        """Take all that comes in so many seconds; a program that ends meanwhile has ended."""
        deadline = time.monotonic() + seconds
        while (left := deadline - time.monotonic()) > 0:
            try:
                self._feed(self.child.read_nonblocking(65536, timeout=left))
            except (pexpect.TIMEOUT, pexpect.EOF):
                return

    def _feed(self, data: bytes) -> None:
        self.output += data
        self._stream.feed(data)

    def ends(self) -> int:
        """Read to the end. The exit code as a shell tells it: 128 and the signal for one that was killed by it."""
        try:
            self._feed(self.child.read())
        except pexpect.TIMEOUT:
            raise Hangs(f"the program has not ended:\n{self.screen}") from None
        self.child.close()
        if self.child.signalstatus is not None:
            return 128 + int(self.child.signalstatus)
        assert self.child.exitstatus is not None
        return int(self.child.exitstatus)

    def resize(self, columns: int, rows: int) -> None:
        """What a window manager does; the program hears of it by SIGWINCH."""
        self.child.setwinsize(rows, columns)
        self.display.resize(max(rows, 2), max(columns, 2))

    def kill(self) -> None:
        """At once, without a chance to do anything; one that is dead already stays so."""
        if self.child.isalive():
            self.child.kill(signal.SIGKILL)
            self.child.wait()

    def signal(self, number: int) -> None:
        os.kill(self.child.pid, number)

    @property
    def restored(self) -> bool:
        """Whether the terminal was given back: its own screen, its cursor, and no more reports of the mouse."""
        return all(
            self.output.rfind(off) > self.output.rfind(on)
            for on, off in (
                (b"\x1b[?1049h", b"\x1b[?1049l"),
                (b"\x1b[?25l", b"\x1b[?25h"),
                (b"\x1b[?1003h", b"\x1b[?1003l"),
                (b"\x1b[?2004h", b"\x1b[?2004l"),
            )
        )
