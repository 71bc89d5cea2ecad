"""Days as people say them, the same in every language setting."""

from datetime import date, datetime
from typing import Final

MONTHS: Final = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
WEEKDAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def day_name(day: date) -> str:
    """ "Fri 27 Nov 2026"."""
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day} {MONTHS[day.month - 1][:3]} {day.year}"


def clock() -> datetime:
    """The moment now, aware of its offset, in whole minutes."""
    return datetime.now().astimezone().replace(second=0, microsecond=0)


def when(at: datetime | None) -> str:
    """ "Fri 27 Nov 2026, 10:00"; nothing for no moment."""
    return f"{day_name(at)}, {at:%H:%M}" if at else ""
