"""Plain text by the columns it takes: letters of some scripts are two wide, marks on a letter none."""

import unicodedata

COLUMNS = 80


def columns(text: str) -> int:
    """How many columns a text takes."""
    return sum(_width(letter) for letter in text)


def _width(letter: str) -> int:
    if unicodedata.combining(letter):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1


def wrapped(text: str, width: int) -> list[str]:
    """A text in lines of at most so many columns; a word that is longer is cut."""
    lines = [""]
    for word in text.split():
        for piece in _pieces(word, width):
            if lines[-1] and columns(lines[-1]) + 1 + columns(piece) > width:
                lines.append("")
            lines[-1] += f" {piece}" if lines[-1] else piece
    return lines


def _pieces(word: str, width: int) -> list[str]:
    pieces = [""]
    for letter in word:
        if columns(pieces[-1]) + _width(letter) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def filled(text: str, first: str = "", then: str | None = None) -> list[str]:
    """A text behind an opening, each further line behind `then`; as wide as a page of text, and none for none."""
    then = " " * len(first) if then is None else then
    lines = wrapped(text, COLUMNS - max(len(first), len(then))) if text else []
    return [f"{first if n == 0 else then}{line}" for n, line in enumerate(lines)]


def centred(text: str, width: int) -> str:
    """A text in the middle of so many columns."""
    free = max(0, width - columns(text))
    return " " * (free // 2) + text + " " * (free - free // 2)
