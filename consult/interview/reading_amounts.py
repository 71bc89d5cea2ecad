"""Numbers as people write them, with whatever unit, in every way in which they can be meant."""

import re
from datetime import datetime
from typing import Any, Final

from consult.answers.access import BadAnswer, fitting
from consult.answers.format import format_answer
from consult.answers.questions import Question
from consult.answers.units import NOMINAL_VOLUMES, Units, number_in, quantity, times, volume_of_percent

FIRST_VOLUME = min(NOMINAL_VOLUMES)
DECIMALS: Final = 3
LONGEST_ECHO = 20
_YEARS_AGO = re.compile(r"([0-9]{1,3}) ?(?:y|years?) ago")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}(?![0-9])")
_HALVES = re.compile(r"([0-9]{1,4}) ?/ ?([0-9]{1,4})")
_YEAR_WORDS = ("y", "yr", "yrs", "year", "years")

COUNTED: Final[dict[str, Units]] = {
    "years": times(1, "", *_YEAR_WORDS, "years old"),
    "months": times(1, "", "month", "months") | times(12, *_YEAR_WORDS),
    "weeks": times(1, "", "w", "week", "weeks"),
    "hours": times(1, "", "h", "hour", "hours") | times(24, "d", "day", "days"),
    "a week": times(1, "", "a week", "per week", "times a week", "x a week", "x", "times"),
    "": times(1, "", "level", "depth"),
}
"""Unit of a question -> the words that a count of it may carry; amounts have theirs in the answer models."""


def amounts(question: Question, text: str, now: datetime) -> list[tuple[Any, str]]:
    """Each answer that a text without characters to be cleaned away may mean, with the words that echo it.

    Raises BadAnswer when it is no answer to this question.
    """
    found: dict[Any, str] = {}
    refused: BadAnswer | None = None
    for meant in _meanings(question, text, now):
        try:
            value = fitting(question, _number(question, meant))
        except BadAnswer as error:
            refused = refused or error
        else:
            found.setdefault(value, _words(question, value, meant))
    if refused and not found:
        raise refused
    return list(found.items())


def _meanings(question: Question, text: str, now: datetime) -> list[str]:
    """The text, or where it has two meanings, a text for each that has one."""
    for word in question.literals:
        if text.lower() == word.lower():
            return [word]
    if question.path.name == "year" and (year := _year(text.lower(), now)):
        return [str(year)]
    number = number_in(text)
    if question.path.name == "developer_percent" and number is not None and number >= FIRST_VOLUME:
        # 20 on a bottle may be volumes or per cent, and one is three times the other.
        return [f"{text} vol", f"{text} %"]
    if part := _HALVES.fullmatch(text):
        if question.path.name == "ratio":
            return [f"{part[1]}:{part[2]}", f"{part[2]}:{part[1]}"]
        if question.unit == "%" and number is not None and number < 1:
            return [f"{number:.10g}", f"{100 * number:.10g}"]
    if _THOUSANDS.search(text):
        return [text, _THOUSANDS.sub(lambda shown: re.sub("[.,]", "", shown[0]), text)]
    return [text]


def _year(text: str, now: datetime) -> int | None:
    if text in ("this year", "last year"):
        return now.year - (text == "last year")
    ago = _YEARS_AGO.fullmatch(text)
    return now.year - int(ago[1]) if ago else None


def _number(question: Question, text: str) -> object:
    """The number of a text where it is plain or a count; what carries another unit is left to the answer model."""
    if text in question.literals:
        return text
    number = number_in(text)
    if number is None and question.unit in COUNTED:
        number = quantity(text, COUNTED[question.unit])
    if number is None:
        return text
    number = round(number, DECIMALS)
    return int(number) if question.whole and number.is_integer() else number


def _words(question: Question, value: Any, typed: str) -> str:
    """An answer as it is read back; where a unit was turned into another, with what was typed."""
    shown = format_answer(question, value)
    if isinstance(value, str):
        return shown
    if question.path.name == "ratio":
        return f"{value:.10g} {'part' if value == 1 else 'parts'} developer to 1 part colour"
    as_typed = re.search("[0-9]+(?:[.,][0-9]+)?", typed)
    first = float(as_typed[0].replace(",", ".")) if as_typed else None
    if question.path.name == "developer_percent":
        if "v" in typed.lower():
            return f"{first:.10g} vol ({shown})"
        return f"{shown} ({volume_of_percent(value):.10g} vol)"
    return shown if first == value or number_in(typed) is not None else f"{shown} ({typed[:LONGEST_ECHO]})"
