"""What a person types, read as an answer in every way in which it can be meant."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any, Final

from msgspec import Struct

from consult.answers.access import fitting
from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, Question
from consult.cleaning import clean_text
from consult.interview.reading_amounts import amounts
from consult.interview.reading_moments import days, moments

UNSURE: Final = ("?", NOT_SURE, "unsure", "don't know", "do not know", "no idea", "unknown")


class Reading(Struct, frozen=True):
    """One way to read a typed text: the answer, and how it is read back before it counts."""

    value: Any
    words: str


def readings(question: Question, text: str, now: datetime) -> list[Reading]:
    """Every way in which a typed text can be read as an answer to this question; none for an empty text.

    Raises BadAnswer when it is no answer at all. Two readings are never chosen between: whoever typed says which.
    Each value is one that the answer model takes where it stands alone.
    """
    text = clean_text(text)
    if not text:
        return []
    if text.lower().replace("’", "'") in (UNSURE[:2] if question.kind is Kind.TEXT else UNSURE):
        return [Reading(NOT_SURE, NOT_SURE)]
    found: Sequence[tuple[Any, str]]
    if question.kind is Kind.DAY:
        found = days(question, text, now)
    elif question.kind is Kind.MOMENT:
        found = moments(question, text, now)
    elif question.kind is Kind.NUMBER:
        found = amounts(question, text, now)
    else:
        found = [(fitting(question, text), text)]
    return [Reading(value, words) for value, words in found]
