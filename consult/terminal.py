"""What the terminal can do: whether pages can be painted on it, and how wide a line may be."""

import os
import shutil
import sys
from typing import Final

PIPE_WIDTH: Final = 80
NARROWEST, WIDEST = 24, 120
"""Narrower no word fits, and longer lines are hard to read (assumption)."""
_NO_CURSOR: Final = ("", "dumb", "unknown")
_PAINTS: Final = ("xterm", "screen", "tmux", "linux", "rxvt")
"""Beginnings of names of terminals that are known to move the cursor, for which no table is asked."""


def in_browser() -> bool:
    """Whether `consult serve` has started this program: pages are painted in a browser then."""
    return os.environ.get("TEXTUAL_DRIVER", "").endswith(":WebDriver")


def why_plain() -> str:
    """Why no pages can be painted here; empty where they can."""
    if in_browser():
        return ""
    if not all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout, sys.stderr)):
        return "this is no terminal"
    if sys.platform == "win32":
        return ""
    name = os.environ.get("TERM", "")
    if name in _NO_CURSOR or not (name.startswith(_PAINTS) or _moves_cursor(name)):
        return "this terminal moves no cursor"
    return ""


def _moves_cursor(name: str) -> bool:
    """What the system's table of terminals says; a terminal that it does not know is tried."""
    import curses

    try:
        curses.setupterm(name)
        return bool(curses.tigetstr("cup"))
    except curses.error:
        return True


def width() -> int:
    """How many columns a line may have: those of the terminal, 80 where there is none."""
    columns = shutil.get_terminal_size((PIPE_WIDTH, 24)).columns
    return min(max(columns, NARROWEST), WIDEST)
