"""An answer as a reader sees it."""

from datetime import datetime
from typing import Any

from consult.answers.questions import Kind, Question


def format_answer(question: Question, value: Any, *, unit: bool = True) -> str:
    """An answer as a reader sees it in a list; without its unit it can be typed again as it stands."""
    if value is None:
        return ""
    if isinstance(value, datetime):
        return f"{value:%Y-%m-%d %H:%M}"
    if isinstance(value, tuple):
        if question.kind is Kind.ENTRIES:
            return f"{len(value)} entered" if value else "none"
        return ", ".join(value) if value else "none"
    if question.kind is not Kind.NUMBER or isinstance(value, str):
        return str(value)
    number = f"{value:.10g}"
    if question.path.name == "ratio":
        return f"1:{number}"
    short_unit = question.unit.partition(" (")[0]
    # A bare strength may be volumes as well.
    unit = unit or question.path.name == "developer_percent"
    return f"{number} {short_unit}" if unit and short_unit else number
