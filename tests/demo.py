"""The demo clients as the tests use them: loaded, changed, judged at their own moment."""

from datetime import UTC, datetime
from typing import Any

from consult.answers.access import with_answer
from consult.consultation import Consultation, consult
from consult.records.codec import Loaded, read_file
from consult.records.demos import demo_files

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)


def load(name: str) -> Loaded:
    return read_file(demo_files()[name], NOW)


def judged(name: str, **changes: Any) -> Consultation:
    """A demo client at its own moment; `hair__length_cm=20` changes one answer."""
    loaded = load(name)
    answers = loaded.answers
    for key, value in changes.items():
        answers = with_answer(answers, key.replace("__", "."), value)
    assert loaded.consulted_at
    return consult(answers, loaded.consulted_at)
