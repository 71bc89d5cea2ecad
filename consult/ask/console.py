"""Lines out and lines in, with no cursor moved and no colour: for screen readers, simple terminals and pipes."""

from textwrap import fill
from typing import TextIO

from consult.cleaning import clean_text
from consult.terminal import width

LONGEST_LINE = 10_000
"""Characters of one typed line; what stands behind them is let go."""
PROMPT = "> "


class Console:
    """What is said and what is heard."""

    def __init__(self, source: TextIO, sink: TextIO) -> None:
        self._source = source
        self._sink = sink

    def say(self, text: str = "", first: str = "", then: str | None = None) -> None:
        """One paragraph, wrapped; `first` and `then` indent its first and its other lines."""
        rest = " " * len(first) if then is None else then
        wrapped = fill(
            clean_text(text), width(), initial_indent=first, subsequent_indent=rest, break_on_hyphens=False
        )
        self.line(wrapped or first.rstrip())

    def line(self, text: str) -> None:
        """Lines that are laid out already."""
        print(text, file=self._sink)

    def hear(self) -> str:
        """The next typed line, made harmless. Raises EOFError at the end of the input."""
        print(PROMPT, end="", file=self._sink, flush=True)
        typed = self._source.readline(LONGEST_LINE)
        rest = typed
        while rest and not rest.endswith("\n"):
            rest = self._source.readline(LONGEST_LINE)
        heard = clean_text(typed)
        if not self._source.isatty():
            # Nobody's terminal has shown what came through a pipe.
            print(heard[: width()], file=self._sink)
        if not typed:
            raise EOFError
        return heard
