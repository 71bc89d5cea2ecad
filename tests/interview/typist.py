"""What a person types into a field, read at one known moment: Wednesday 2026-11-25, 10:00."""

from datetime import UTC, datetime
from typing import Any

from consult.answers.access import BadAnswer
from consult.answers.questions import Kind, question_of, questions
from consult.interview.reading import Reading, readings

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
DAY, MOMENT = "history.services.on", "allergy_test.applied_at"
TYPED = [path for path, q in questions().items() if q.kind in (Kind.NUMBER, Kind.TEXT, Kind.DAY, Kind.MOMENT)]


def read(path: str, text: str) -> list[Reading]:
    return readings(question_of(path), text, NOW)


def typed(path: str, text: str) -> Any:
    """The one answer in a text; None for none."""
    found = read(path, text)
    assert len(found) < 2, found
    return found[0].value if found else None


def read_or_refused(path: str, text: str) -> list[Reading]:
    """The readings; none where it is refused, in one line."""
    try:
        return read(path, text)
    except BadAnswer as error:
        refused = str(error)
    assert len(refused) <= 300
    return []


def both(path: str, text: str) -> list[Any]:
    return [reading.value for reading in read(path, text)]
