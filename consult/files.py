"""The one door through which a file comes in: an ordinary TOML file of a sane size and shape.

Whatever is wrong is one line that names the file and what would be right, and repeats nothing of it.
"""

import os
import re
import stat
from pathlib import Path
from typing import Any

from consult.cleaning import clean_text

LARGEST_FILE = 1_000_000
HEAD = 8_192
"""Bytes that are read of a file of which only the first tables are wanted."""
MOST_DOTS = 200
"""In one line: a key with thousands of dots keeps the TOML reader busy for minutes."""
MOST_IN_ALL = {".": ("dots", 50_000), ",": ("commas", 50_000), "[": ("brackets", 20_000)}
"""What may stand in one file of the marks that cost the TOML reader most, told by counting before it begins: a dot of
a key half a kilobyte, an entry of a list or a table some microseconds. The longest record of a demo client has 1,200
dots, 500 commas and 500 brackets; a salon's file with as many rules as are read, some 6,000 commas and 3,000 brackets.
"""
DEEPEST = 40
"""Tables and lists inside each other; rules nest some ten deep, a record less."""
LONGEST_ERROR = 290
_LONGEST_NAME = 110
_HINT = "texts stand in quotes, dates bare, each name once"


class BadFile(ValueError):
    """A file that cannot be used; one line that names the place and what would be right."""

    def __init__(self, name: str, hint: str) -> None:
        name = clean_text(name)
        shown = name if len(name) <= _LONGEST_NAME else "..." + name[3 - _LONGEST_NAME :]
        line = f"{shown}: {clean_text(hint)}"
        super().__init__(short_error(line))


def short_error(line: str) -> str:
    """The line of an error, cut where it is too long to be read."""
    return line if len(line) <= LONGEST_ERROR else line[: LONGEST_ERROR - 3] + "..."


def read_toml(path: Path) -> dict[str, Any]:
    """The tables of a file. Raises BadFile."""
    return parse_toml(text_of(_bytes(path, LARGEST_FILE + 1), str(path)), str(path))


def text_of(raw: bytes, name: str) -> str:
    """The text of a file's first LARGEST_FILE + 1 bytes; `name` stands at the head of errors. Raises BadFile."""
    if len(raw) > LARGEST_FILE:
        raise BadFile(name, "larger than 1 MB; a file of this program is smaller")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise BadFile(name, f"line {line}: not UTF-8 text; save the file as UTF-8") from None


def read_head(path: Path, last: str) -> dict[str, Any]:
    """The tables of a file down to the one named `last`, however long the file is. Raises BadFile."""
    raw = _bytes(path, HEAD)
    text = raw.decode("utf-8", "replace")
    end = re.search(rf"^\[{last}\].*?(?=^\[)", text, re.MULTILINE | re.DOTALL)
    if end:
        text = text[: end.end()]
    elif len(raw) == HEAD:
        text = text[: text.rfind("\n") + 1]
    return parse_toml(text, str(path))


def read_lines(path: Path) -> dict[str, Any]:
    """The tables of a file to which whole lines are added: what a kill has left of the last one is not read. Raises
    BadFile."""
    raw = _bytes(path, LARGEST_FILE + 1)
    return parse_toml(text_of(raw[: raw.rfind(b"\n") + 1], str(path)), str(path))


def _bytes(path: Path, most: int) -> bytes:
    try:
        mode = os.stat(path).st_mode
        if not stat.S_ISREG(mode) and not stat.S_ISDIR(mode):
            raise BadFile(str(path), "this is no ordinary file")
        with path.open("rb") as file:
            return file.read(most)
    except BadFile:
        raise
    except (OSError, ValueError) as error:
        raise BadFile(str(path), getattr(error, "strerror", None) or "cannot be read") from None


def parse_toml(text: str, name: str) -> dict[str, Any]:
    """The tables in a text; `name` stands at the head of errors. Raises BadFile."""
    import tomli

    for number, line in enumerate(text.split("\n"), 1):
        if line.count(".") > MOST_DOTS:
            raise BadFile(name, f"line {number}: too many dots in one line")
    for mark, (marks, most) in MOST_IN_ALL.items():
        if text.count(mark) > most:
            raise BadFile(name, f"too many {marks}; a file of this program has fewer")
    try:
        data = tomli.loads(text)
    except tomli.TOMLDecodeError as error:
        raise BadFile(name, f"{error}; {_HINT}") from None
    except RecursionError:
        raise BadFile(name, "nested too deeply") from None
    except ValueError:
        raise BadFile(name, "a number has too many digits") from None
    if _nested_deeper(data, DEEPEST):
        raise BadFile(name, "nested too deeply")
    return data


def _nested_deeper(data: object, levels: int) -> bool:
    """Whether anything stands in more than so many tables and lists; looked at level by level."""
    level = [data]
    for _ in range(levels + 1):
        level = [
            item
            for table in level
            if isinstance(table, dict | list)
            for item in (table.values() if isinstance(table, dict) else table)
        ]
        if not level:
            return False
    return True
