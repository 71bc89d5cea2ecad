"""What a person types, read as an answer: numbers with units, dates in everyday words, "?"."""

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any

from consult.answers.access import BadAnswer
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.questions import Kind, Question
from consult.answers.units import NOMINAL_VOLUMES, percent_of_volume
from consult.cleaning import clean_text

FIRST_VOLUME = min(NOMINAL_VOLUMES)
_CLOCK = re.compile(r"\d:\d\d|now|\d\s*h(our)?s?\b")
_SPANS = {"hour": 1, "day": 24, "week": 24 * 7}
_AGO = re.compile(r"(\d+)\s*(hour|day|week|month|year|h|d|w|m|y)s?(?:\s+ago)?(?:[\s,]+(\d{1,2}:\d{2}))?")
_SHORT = {"h": "hour", "d": "day", "w": "week", "m": "month", "y": "year"}
_NAMED = re.compile(r"(today|yesterday|now)(?:[\s,]+(\d{1,2}:\d{2}))?")
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})(?:[\s,]+(\d{1,2}:\d{2}))?")
_DOTTED = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})(?:[\s,]+(\d{1,2}:\d{2}))?")


@dataclass(frozen=True)
class Reading:
    """One way to read a typed text: the answer, and how it is read back before it counts."""

    value: Any
    words: str


def readings(question: Question, text: str, now: datetime) -> list[Reading]:
    """Every way in which a typed text can be read as an answer to this question; none for an empty text.

    Raises BadAnswer when it is no answer at all. Two readings are never chosen between: whoever typed says which.
    """
    value = read_typed(question, text, now)
    return [] if value is None else [Reading(value, format_answer(question, value))]


def read_typed(question: Question, text: str, now: datetime) -> Any:
    """The answer in a typed text; None for an empty one. "?" means not sure.

    Dates may be typed as 2026-05-31, 31.5.2026, "today", "yesterday 9:30", "6 weeks ago". A moment needs its
    time of day: an hour that nobody gave would let an allergy alert test pass early.
    Raises BadAnswer when the text is no answer to this question; a number's range and unit are
    checked later, when the answer is put in its place.
    """
    text = clean_text(text)
    if not text:
        return None
    if text.lower() in ("?", NOT_SURE):
        return NOT_SURE
    if question.kind in (Kind.DAY, Kind.MOMENT):
        moment = _read_moment(text.lower(), now)
        if moment is None:
            raise BadAnswer(question.path, f"expected {question.expects()}; 'today', '6 weeks ago' work too")
        if question.kind is Kind.DAY:
            return moment.date()
        if not _CLOCK.search(text):
            raise BadAnswer(question.path, "add the time of day, for example 'yesterday 9:30'")
        return moment
    if question.kind is Kind.NUMBER:
        return _read_number(question, text)
    return text


def _read_number(question: Question, text: str) -> Any:
    for word in question.literals:
        if text.lower() == word.lower():
            return word
    bare = text.replace(",", ".")
    _ask_which_strength(question, bare)
    if question.whole:
        if re.fullmatch(r"\d{1,9}", bare):
            return int(bare)
        raise BadAnswer(question.path, f"expected {question.expects()}")
    return float(bare) if re.fullmatch(r"\d+(\.\d+)?", bare) else text


def _ask_which_strength(question: Question, bare: str) -> None:
    """A bare 20 on a bottle may be volumes or per cent, and one is three times the other."""
    if question.path.name != "developer_percent" or not re.fullmatch(r"\d+(\.\d+)?", bare):
        return
    if float(bare) >= FIRST_VOLUME:
        given = f"{float(bare):g}"
        vol = f"{percent_of_volume(float(bare)):g} %"
        raise BadAnswer(
            question.path, f"is it {given} vol ({vol}) or {given} %? Type '{given} vol' or '{given} %'"
        )


def _read_moment(text: str, now: datetime) -> datetime | None:
    try:
        named = _NAMED.fullmatch(text)
        if named:
            back = timedelta(days=named[1] == "yesterday")
            return _at(now - back, named[2])
        ago = _AGO.fullmatch(text)
        if ago:
            return _ago(int(ago[1]), _SHORT.get(ago[2], ago[2]), ago[3], now)
        dotted = _DOTTED.fullmatch(text)
        if dotted:
            day = date(int(dotted[3]), int(dotted[2]), int(dotted[1]))
            return _at(_midnight(day), dotted[4])
        iso = _ISO.fullmatch(text)
        if iso:
            return _at(_midnight(date(int(iso[1]), int(iso[2]), int(iso[3]))), iso[4])
        found = datetime.fromisoformat(text)
    except (ValueError, OverflowError):
        return None
    return found if found.tzinfo else found.astimezone()


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time()).astimezone()


def _at(moment: datetime, clock: str | None) -> datetime:
    if not clock:
        return moment.replace(second=0, microsecond=0)
    hour, minute = (int(part) for part in clock.split(":"))
    # The offset of that day may differ from today's, so the wall clock is read anew.
    return datetime.combine(moment.date(), time(hour, minute)).astimezone()


def _ago(count: int, unit: str, clock: str | None, now: datetime) -> datetime:
    if unit in ("month", "year"):
        months = count * (12 if unit == "year" else 1)
        month = now.month - 1 - months
        year, month = now.year + month // 12, month % 12 + 1
        day = min(now.day, 28)
        return _at(now.replace(year=year, month=month, day=day), clock)
    return _at(now - timedelta(hours=count * _SPANS[unit]), clock)
