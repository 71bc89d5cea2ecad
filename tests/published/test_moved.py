"""No constant of the colour model stands outside the list of those that are moved and those that are free."""

import re

from tests.published.moved import FREE, MOVES, PACKAGE

NAMED = re.compile(r"^(_?[A-Z][A-Z_0-9]*)(?:: [^=\n]+)? = (?:Number\(|\{[^}]*Number\()", re.M)


def test_every_constant_is_moved_or_marked_free() -> None:
    """Moved with a check that notices (`python -m tests.published.moved`), or free with its reason."""
    moved = {
        f"{move.module}.{name}" for move in MOVES for name in re.findall(r"^(_?[A-Z][A-Z_0-9]*)", move.before)
    }
    known = moved | set(FREE)
    unknown = [
        f"{path.stem}.{name}"
        for path in sorted((PACKAGE / "colour").glob("*.py"))
        for name in NAMED.findall(path.read_text("utf-8"))
        if f"{path.stem}.{name}" not in known
    ]
    assert unknown == []


def test_every_constant_that_is_moved_stands_there_once() -> None:
    for move in MOVES:
        text = (PACKAGE / "colour" / f"{move.module}.py").read_text("utf-8")
        assert text.count(move.before) == 1, move
        assert move.after not in text, move
