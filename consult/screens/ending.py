"""How a run ends that the user has not ended: by a signal, or by a fault. One line is all that is said of it."""

import asyncio
import os
import signal
import sys
import threading
from collections.abc import Callable
from pathlib import Path

SIGNALS = ("SIGTERM", "SIGHUP", "SIGQUIT", "SIGINT")
HUNG_UP = 128 + 1
"""The exit code of a program whose terminal has gone: that of SIGHUP."""
GRACE = 0.1
"""Seconds in which what has been typed already reaches the disk."""
NOT_UTF8 = "the terminal sent a byte that is not UTF-8: set it to UTF-8"


def listen(ended: Callable[[int], None]) -> None:
    """Have `ended` called in the running event loop with the number of a signal that asks the program to end."""
    if sys.platform == "win32":
        return  # There a window that is closed ends the program without asking.
    loop = asyncio.get_running_loop()
    for name in SIGNALS:
        number = signal.Signals[name]
        loop.add_signal_handler(number, _end, number, ended)


def _end(number: int, ended: Callable[[int], None]) -> None:
    if not left_alone(128 + number):
        asyncio.get_running_loop().call_later(GRACE, ended, number)


def left_alone(code: int = HUNG_UP) -> bool:
    """Whether the terminal is gone, as when its window was closed.

    Then the program ends by itself: it cannot be left in the usual way, which waits for the terminal to take
    what is still painted.
    """
    try:
        os.get_terminal_size(sys.__stdin__.fileno() if sys.__stdin__ else 0)
    except OSError:
        threading.Timer(GRACE, os._exit, (code,)).start()
        return True
    return False


def exception_line(error: BaseException) -> str:
    """Kind and place of a fault; its words and its locals may hold health answers."""
    frame = error.__traceback__
    while frame and frame.tb_next:
        frame = frame.tb_next
    place = f"{Path(frame.tb_frame.f_code.co_filename).name}:{frame.tb_lineno}" if frame else "?"
    return f"{type(error).__name__} at {place}"


def panic_line(told: object) -> str:
    """The same of what the framework would print when one of its threads has failed."""
    from rich.traceback import Traceback

    kind = told.trace.stacks[0].exc_type if isinstance(told, Traceback) and told.trace.stacks else ""
    return NOT_UTF8 if kind == UnicodeDecodeError.__name__ else f"{kind or 'a fault'} in the terminal"
