"""The path of an answer: `hair.length_cm`, or `history.services.0.kind` inside a list.

Nothing else in the program takes such a text apart.
"""

import re
from functools import lru_cache
from typing import Final, Self

_NUMBER = re.compile("[0-9]{1,9}")


class AnswerPath(str):
    """A path is its own text, taken apart once. It equals the plain text and may stand wherever one does.

    section   the section: `history`
    name      the name of the question in its group of fields: `kind`
    list      the list question that the answer stands in, `history.services`, or None
    entry     the number of the list entry, or None
    question  the path of the question itself, without a number: `history.services.kind`

    A text that is no question's path has parts too; looking its question up raises KeyError.
    """

    __slots__ = ("entry", "list", "name", "question", "section")

    def __init__(self, text: str) -> None:
        section, *rest = text.split(".")
        numbered = len(rest) > 1 and _NUMBER.fullmatch(rest[1]) is not None
        self.section: Final = section
        self.entry: Final = int(rest[1]) if numbered else None
        self.list: Final = f"{section}.{rest[0]}" if len(rest) > 1 else None
        names = [rest[0], *rest[2:]] if numbered else rest
        self.name: Final = names[-1] if names else ""
        self.question: Final = ".".join([section, *names])

    @classmethod
    @lru_cache(maxsize=4096)
    def parse(cls, text: str) -> Self:
        """The path of a text; the same text is taken apart once."""
        return text if isinstance(text, cls) else cls(text)

    @property
    def group(self) -> str:
        """What the question stands in: its section, or the entry of a list."""
        if self.list is None:
            return self.section
        return self.list if self.entry is None else f"{self.list}.{self.entry}"

    def beside(self, name: str) -> "AnswerPath":
        """The path of another question of the same group: `history.services.0.on`."""
        return AnswerPath.parse(f"{self.group}.{name}")

    def inside(self, entry: int, name: str) -> "AnswerPath":
        """The path of a question of one entry of this list."""
        return AnswerPath.parse(f"{self}.{entry}.{name}")

    def same_entry(self, other: "AnswerPath") -> bool:
        """True when both stand in the same entry of the same list."""
        return self.list is not None and (self.list, self.entry) == (other.list, other.entry)
