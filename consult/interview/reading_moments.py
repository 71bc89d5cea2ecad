"""Days and moments as people write them. No part is ever filled in but a year: without one, the last such day is meant.

All questions about a day or a moment are about the past.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta

from consult.answers.access import BadAnswer, fitting
from consult.answers.questions import Question
from consult.interview.reading_dates import (
    MONTHS,
    PARTS,
    WEEKDAYS,
    days_in,
    days_of_month_in,
    instants_in,
    plain,
    times_in,
)

MOST_WORDS = 12
HOURS_TOLD = 96
"""A moment is so many hours ago up to here: an allergy alert test is read after 48."""
DAYS_TOLD, WEEKS_TOLD, MONTHS_TOLD = 20, 26, 24
DAYS_A_YEAR = 365.25


def days(question: Question, text: str, now: datetime) -> list[tuple[date, str]]:
    """Each day that a text may mean, with the words that echo it. Raises BadAnswer."""
    local, said = now.astimezone(), plain(text)
    found = [at.date() for at in instants_in(said, local)]
    found += [day for day, _ in _split(said, local) if day is not None]
    found += days_of_month_in(said, local.date())
    if not found:
        raise BadAnswer(question.path, f"expected {question.expects()}; '6 weeks ago', 'May 2025' work too")
    today = local.date()
    return [(fitting(question, day), day_words(day, today)) for day in dict.fromkeys(found)]


def moments(question: Question, text: str, now: datetime) -> list[tuple[datetime, str]]:
    """Each moment that a text may mean, with the words that echo it.

    Its time of day is needed: an hour that nobody gave would let an allergy alert test pass early.
    Raises BadAnswer.
    """
    local, said = now.astimezone(), plain(text)
    found, lacking = instants_in(said, local), []
    for day, clock in _split(said, local):
        if clock is not None:
            found += _moments_at(day or local.date(), clock)
        elif day is not None:
            lacking.append(day)
    if found and lacking:
        ways = f"is it {moment_words(found[0], local)}, or {day_words(lacking[0], local.date())}? "
        raise BadAnswer(
            question.path, f"{ways}Type the day and the time of day, for example 'yesterday 9:30'"
        )
    if lacking:
        raise BadAnswer(question.path, "add the time of day, for example 'yesterday 9:30'")
    if not found:
        raise BadAnswer(question.path, f"expected {question.expects()}; '49 hours ago' works too")
    each = list(dict.fromkeys(found))
    shown = Counter(at.replace(tzinfo=None) for at in each)
    return [
        (fitting(question, at), moment_words(at, local, offset=shown[at.replace(tzinfo=None)] > 1))
        for at in each
    ]


def _split(said: str, now: datetime) -> Iterator[tuple[date | None, time | None]]:
    """The day and the time of day in a text, wherever it can be parted; either may be missing."""
    words = said.split()
    if len(words) > MOST_WORDS:
        return
    parted = [(words[:cut], words[cut:]) for cut in range(len(words) + 1)]
    parted += [(day, clock) for clock, day in parted[1:-1]]
    for named, clock_words in parted:
        day, clock = " ".join(named), " ".join(clock_words)
        clocks: list[time | None] = [*times_in(clock)] if clock and clock not in PARTS else [None]
        for at in clocks:
            passed = at is None or at <= now.time()
            latest = now.date() if passed else now.date() - timedelta(days=1)
            if day:
                yield from ((found, at) for found in days_in(day, now.date(), latest))
            else:
                yield None, at


def _moments_at(day: date, clock: time) -> list[datetime]:
    """The moment at which clocks showed that; two where they were put back, none where they were put forward."""
    wall = datetime.combine(day, clock)
    both = [wall.replace(fold=fold).astimezone() for fold in (0, 1)]
    shown = [at for at in both if at.replace(tzinfo=None) == wall]
    return sorted(set(shown))


def day_words(day: date, today: date) -> str:
    """ "Wed 14 October 2026, 6 weeks ago"."""
    return f"{_date_words(day)}, {_days_ago((today - day).days)}"


def moment_words(at: datetime, now: datetime, *, offset: bool = False) -> str:
    """ "Mon 23 November 2026, 18:00, 40 hours ago"; with its offset where clocks showed that twice."""
    minutes = int((now - at).total_seconds() // 60)
    if minutes < 0:
        ago = "still to come"
    elif minutes < 120:
        ago = f"{minutes} minutes ago" if minutes > 1 else "just now"
    elif minutes <= HOURS_TOLD * 60:
        ago = f"{minutes // 60} hours ago"
    else:
        ago = _days_ago(minutes // (24 * 60))
    return f"{_date_words(at)}, {at:%H:%M}{f' (UTC{at:%z})' if offset else ''}, {ago}"


def _date_words(day: date) -> str:
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day} {MONTHS[day.month - 1]} {day.year}"


def _days_ago(count: int) -> str:
    if count < 0:
        return "still to come"
    if count < 2:
        return "yesterday" if count else "today"
    if count <= DAYS_TOLD:
        return f"{count} days ago"
    if count <= 7 * WEEKS_TOLD:
        return f"{'about ' if count % 7 else ''}{round(count / 7)} weeks ago"
    years = count / DAYS_A_YEAR
    return (
        f"about {12 * years:.0f} months ago" if 12 * years <= MONTHS_TOLD else f"about {years:.0f} years ago"
    )
