"""Grades that have a word in tables and records."""

from enum import IntEnum
from typing import Self


class Grade(IntEnum):
    """A greater value is the stronger one; its word is its name in small letters."""

    @property
    def word(self) -> str:
        """The word used in tables and records: `see_doctor`."""
        return self.name.lower()

    @classmethod
    def of(cls, word: str) -> Self:
        """The grade of a table's word. Raises ValueError for any other word."""
        grade = cls.__members__.get(word.upper())
        if grade is None or grade.word != word:
            raise ValueError(f"no such {cls.__name__.lower()}; use one of: {', '.join(g.word for g in cls)}")
        return grade
