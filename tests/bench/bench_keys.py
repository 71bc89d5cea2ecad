"""How long a key takes until its page is painted, in a real terminal. Run: python -m tests.bench.bench_keys [ROUNDS].

From the key sent to the first byte of what it paints, and to the last; a pause of `QUIET` without output ends a
painting and does not count. One line a page.
"""

import statistics
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Final

import pexpect

from consult.records.codec import dump_draft
from consult.trade import Voice
from tests.baseline import baseline
from tests.hands.terminal import Terminal

KEPT: Final = "unfinished/2026-11-25-1000.toml"
TARGET_MS: Final = 16.0
QUIET: Final = 0.06
PAGES: Final = {
    "question to question, home": (
        ("--voice", "home", "demo", "ines"),
        "",
        ("\t",) * 3 + ("\x1b[Z",) * 3,
    ),
    "row to row, stylist": (
        ("--voice", "stylist", "demo", "ines"),
        "",
        ("\x1b[B", "\x1b[B", "\x1b[A", "\x1b[A"),
    ),
    "page to page, stylist": (("--voice", "stylist", "demo", "ines"), "", ("\t",) * 5 + ("\x1b[Z",) * 5),
    "an answer, kept on the disk": ((KEPT,), "", ("1", "\x1b[Z", "2", "\x1b[Z")),
    "typing": (("--voice", "stylist", "demo", "ines"), "", ("a", "b", "c", "\x7f", "\x7f", "\x7f")),
    "review, line to line": (("demo", "ines"), "\x1bOQ", ("\x1b[B", "\x1b[B", "\x1b[A", "\x1b[A")),
    "result, part to part": (("demo", "ines"), "\x1bOR", ("\x1b[B", "\x1b[B", "\x1b[A", "\x1b[A")),
    "lines, line to line": (("demo", "ines"), "\x1bORl", ("\x1b[B", "\x1b[B", "\x1b[A", "\x1b[A")),
    "lines, page to page": (("demo", "ines"), "\x1bORl", ("\x1b[6~", "\x1b[5~")),
    "start page": ((), "", ("\x1b[B", "\x1b[A")),
}
"""Page -> how it is reached: arguments, keys to get there, keys that are measured."""


def painted(terminal: Terminal, key: str) -> tuple[float, float]:
    """Milliseconds from a key to the beginning and to the end of its painting."""
    begin = first = last = time.perf_counter()
    terminal.child.send(key)
    while time.perf_counter() - last < QUIET or last == begin:
        try:
            terminal.child.read_nonblocking(65536, timeout=QUIET)
        except pexpect.TIMEOUT:
            if time.perf_counter() - begin > 1:
                break
        else:
            last = time.perf_counter()
            first = last if first == begin else first
    return (first - begin) * 1000, (last - begin) * 1000


def measured(page: str, rounds: int) -> list[tuple[float, float]]:
    arguments, way, keys = PAGES[page]
    with tempfile.TemporaryDirectory() as home:
        kept = Path(home, KEPT)
        kept.parent.mkdir()
        kept.write_text(dump_draft(baseline(), Voice.STYLIST, "hair.porosity_root", ""), "utf-8")
        return in_terminal(Path(home), arguments, way, keys, rounds)


def in_terminal(
    home: Path, arguments: Sequence[str], way: str, keys: Sequence[str], rounds: int
) -> list[tuple[float, float]]:
    with Terminal(home, 80, 24, *arguments) as terminal:
        terminal.sees("quit")
        terminal.child.delaybeforesend = None  # It waits 50 ms before each key otherwise.
        terminal.read_for(1.5)  # The rest is loaded meanwhile.
        if way:
            terminal.child.send(way)
            terminal.read_for(1.0)
        for key in keys:
            painted(terminal, key)
        return [painted(terminal, key) for _ in range(rounds) for key in keys]


def main(rounds: int) -> int:
    late = 0
    print(f"{'milliseconds to':<28} the first byte    the last byte     target: last, p95 {TARGET_MS:g}")
    print(f"{'':<28} median    p95    median    p95")
    for page in PAGES:
        first, last = zip(*measured(page, rounds), strict=True)
        begun, ended = (statistics.quantiles(values, n=20)[-1] for values in (first, last))
        late += ended > TARGET_MS
        print(
            f"{page:<28} {statistics.median(first):6.1f} {begun:6.1f}    "
            f"{statistics.median(last):6.1f} {ended:6.1f}"
        )
    return 1 if late else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 30))
