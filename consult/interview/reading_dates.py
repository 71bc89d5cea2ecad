"""The words of dates and clocks: a day, a time of day, a time ago, each in every way in which it can be meant.

Each function takes plain text (`plain`), and finds nothing in what it does not know.
"""

import re
from calendar import monthrange
from datetime import UTC, date, datetime, time, timedelta
from typing import Final

from consult.dates import MONTHS, WEEKDAYS

PARTS: Final = ("morning", "afternoon", "evening")
"""Of a day; they are no time of day."""
YEARS: Final = range(1900, 2201)
LEAP_YEARS_APART: Final = 8

_NAMED = {"today": 0, "yesterday": 1, "day before yesterday": 2, "the day before yesterday": 2}
_COUNTS = (
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_COUNT = rf"([0-9]{{1,4}}|an?|{'|'.join(_COUNTS)})"
_DECIMAL = "[0-9]{1,3}[.,][0-9]{1,2}"
_HOURS, _MINUTES = r"(?:h|hrs?|hours?)", r"(?:m|mins?|minutes?)"
_SPAN = re.compile(rf"{_COUNT} ?(d|days?|w|wks?|weeks?|m|months?|y|yrs?|years?)(?: ago)?")
_PASSED = (
    re.compile(
        rf"(?:(?P<days>[0-9]{{1,3}}) ?(?:d|days?) (?:and )?)?(?P<hours>{_COUNT}|{_DECIMAL}) ?{_HOURS}(?: ago)?"
    ),
    re.compile(
        rf"(?P<hours>[0-9]{{1,3}}) ?{_HOURS} ?(?:and )?(?P<minutes>[0-5]?[0-9]) ?{_MINUTES}?(?: ago)?"
    ),
    re.compile(r"(?P<minutes>[0-9]{1,5}) ?(?:min|mins|minutes?)(?: ago)?"),
)
_STAMP = re.compile(r"[0-9-]{10} [0-9]{1,2}:[0-9]{2}(?::[0-9]{2})? ?(?:z|[+-][0-9]{2}:?[0-9]{2})")
_WEEKDAY = re.compile(
    r"(last )?(mon|tue|wed|thu|fri|sat|sun)(?:day|s|sday|nesday|r|rs|rsday|urday)?\.?(?: (.+))?"
)
_YEAR_FIRST = re.compile(r"([0-9]{4})([-/.])([0-9]{1,2})\2([0-9]{1,2})")
_NUMBERS = re.compile(r"([0-9]{1,2})([-/.])([0-9]{1,2})(?:\2([0-9]{4}|[0-9]{2})?)?")
_DAY_MONTH = re.compile(r"([0-9]{1,2})(?:st|nd|rd|th)?\.?[ -]?(?:of )?([a-z]{3,9})\.?(?:[ -]?([0-9]{4}))?")
_MONTH_DAY = re.compile(r"([a-z]{3,9})\.?[ -]?([0-9]{1,2})(?:st|nd|rd|th)?(?:[ -]([0-9]{4}))?")
_MONTH = re.compile(r"(?:in )?(?:([a-z]{3,9})\.? |([0-9]{1,2})[/.-])(?:of )?([0-9]{4})")
_CLOCK = re.compile(
    r"(?P<at>at )?(?:(?P<before>morning|afternoon|evening) (?:at )?)?"
    r"(?P<hour>[0-9]{1,2})(?:[:.h](?P<minute>[0-5][0-9])(?::[0-5][0-9])?)?"
    r"(?P<sharp> ?o'?clock|h)?(?: ?(?P<half>am|pm))?"
    r"(?: (?:in the )?(?P<after>morning|afternoon|evening))?"
)


def plain(text: str) -> str:
    """Small letters and single spaces, without commas between words; "this morning" is one of today."""
    text = re.sub(r",(?=\s|$)", " ", text.lower().replace("’", "'"))
    text = re.sub(r"(?<![a-z])([ap])\.? ?m\b\.?", r"\1m", text)
    text = re.sub(r"(?<=[0-9])t(?=[0-9])", " ", text)
    return re.sub(r"^this (?=morning|afternoon|evening)", "today ", " ".join(text.split()))


def times_in(text: str) -> list[time]:
    """A time of day: 9:30, 9.30, 9am, noon, evening 8; "9 o'clock" is one of two."""
    if text in ("noon", "midday", "at noon", "12 noon"):
        return [time(12)]
    found = _CLOCK.fullmatch(text)
    if not found:
        return []
    hour, minute = int(found["hour"]), int(found["minute"] or 0)
    part, half = found["before"] or found["after"], found["half"]
    if half and not part and 1 <= hour <= 12:
        return [time(hour % 12 + 12 * (half == "pm"), minute)]
    if half or hour > 23:
        return []
    if part:
        late = part != "morning"
        fits = 1 <= hour <= 23 if part == "afternoon" else hour != 12 and hour >= late
        return [time(hour + 12 * (late and hour < 12), minute)] if fits and (late or hour < 12) else []
    if found["minute"] or found["sharp"] == "h" or (hour > 12 and (found["at"] or found["sharp"])):
        return [time(hour, minute)]
    if found["at"] or found["sharp"]:
        return [time(hour % 12), time(hour % 12 + 12)]
    return []


def instants_in(text: str, now: datetime) -> list[datetime]:
    """A moment told by how long ago it was, or with its offset from universal time."""
    if text in ("now", "just now"):
        return [now]
    if text in ("half an hour ago", "an hour ago"):
        return [_before(now, minutes=30 if text.startswith("half") else 60)]
    if _STAMP.fullmatch(text):
        try:
            return [datetime.fromisoformat(text.upper().replace(" +", "+").replace(" -", "-")).astimezone()]
        except (ValueError, OverflowError):
            return []
    for pattern in _PASSED:
        if found := pattern.fullmatch(text):
            parts = {unit: _number(number) for unit, number in found.groupdict().items() if number}
            return [_before(now, **parts)]
    return []


def days_in(text: str, today: date, latest: date) -> list[date]:
    """A day that is named whole, but for its year; without one, the last such day up to `latest`."""
    text = text.removeprefix("on ")
    if text in _NAMED:
        return [today - timedelta(days=_NAMED[text])]
    if span := _SPAN.fullmatch(text):
        return _present(_back(today, _count(span[1]), span[2][0]))
    if named := _WEEKDAY.fullmatch(text):
        number = [name[:3].lower() for name in WEEKDAYS].index(named[2])
        if named[3]:
            return [day for day in _dates(named[3], latest) if day.weekday() == number and not named[1]]
        return _weekdays(number, today, latest, last=bool(named[1]))
    return _dates(text, latest)


def days_of_month_in(text: str, today: date) -> list[date]:
    """A month with its year is no day: its first, its middle and its last day are offered."""
    found = _MONTH.fullmatch(text)
    month = (_month(found[1]) if found[1] else int(found[2])) if found else 0
    if not found or not 1 <= month <= 12 or int(found[3]) not in YEARS:
        return []
    year = int(found[3])
    days = [date(year, month, day) for day in (1, 15, monthrange(year, month)[1])]
    return [day for day in days if day <= today] or days[:1]


def _weekdays(number: int, today: date, latest: date, *, last: bool) -> list[date]:
    """The day of today's name may be today or a week ago; "last Tuesday" said on a Wednesday, either as well."""
    newest = latest - timedelta(days=(latest.weekday() - number) % 7)
    before = newest - timedelta(days=7)
    if last:
        return [before] if newest == today else [newest, before]
    return [newest, before] if newest == today else [newest]


def _dates(text: str, latest: date) -> list[date]:
    if found := _YEAR_FIRST.fullmatch(text):
        return _present(_date(int(found[1]), int(found[3]), int(found[4])))
    if found := _NUMBERS.fullmatch(text):
        first, second = int(found[1]), int(found[3])
        # With dots the day comes first; with strokes it depends on where somebody has learnt to write.
        orders = [(first, second)] if found[2] == "." else [(first, second), (second, first)]
        days = [_in_year(day, month, found[4], latest) for day, month in orders]
        if found[2] == "-" and found[4] and len(found[4]) == 2:
            # As in 26-11-23, which begins with its year or with its day.
            days.append(_in_year(int(found[4]), second, found[1].zfill(2), latest))
        return list(dict.fromkeys(_present(*days)))
    if found := _DAY_MONTH.fullmatch(text):
        return _present(_in_year(int(found[1]), _month(found[2]), found[3], latest))
    if found := _MONTH_DAY.fullmatch(text):
        return _present(_in_year(int(found[2]), _month(found[1]), found[3], latest))
    return []


def _in_year(day: int, month: int, year: str | None, latest: date) -> date | None:
    if year is None:
        years = range(latest.year, latest.year - LEAP_YEARS_APART - 1, -1)
        return next(
            (found for found in (_date(y, month, day) for y in years) if found and found <= latest), None
        )
    number = int(year)
    if len(year) == 2:
        number += 2000 if 2000 + number <= latest.year else 1900
    return _date(number, month, day)


def _month(word: str) -> int:
    """The number of a month by its name or the beginning of it; 0 for no month."""
    word = "sep" if word == "sept" else word
    return next((number for number, name in enumerate(MONTHS, 1) if name.lower().startswith(word)), 0)


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day) if year in YEARS else None
    except ValueError:
        return None


def _present(*days: date | None) -> list[date]:
    return [day for day in days if day is not None]


def _count(word: str) -> int:
    if word in ("a", "an"):
        return 1
    return _COUNTS.index(word) + 1 if word in _COUNTS else int(word)


def _number(word: str) -> float:
    return float(word.replace(",", ".")) if re.fullmatch(_DECIMAL, word) else _count(word)


def _back(today: date, count: int, unit: str) -> date | None:
    """The day so many days, weeks, months or years ago; of a shorter month, its last."""
    if unit in "dw":
        days = count * (7 if unit == "w" else 1)
        return today - timedelta(days=days) if today.year - days // 365 in YEARS else None
    months = today.year * 12 + today.month - 1 - count * (12 if unit == "y" else 1)
    year, month = months // 12, months % 12 + 1
    return _date(year, month, min(today.day, monthrange(year, month)[1])) if year in YEARS else None


def _before(now: datetime, **span: float) -> datetime:
    """Reckoned in universal time: an hour is an hour also where clocks were put back."""
    return (now.astimezone(UTC) - timedelta(**span)).astimezone()
