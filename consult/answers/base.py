"""The building blocks of a question: `ask`, the answer "not sure", cleaned text, dates and times.

An answer is one of three things: a value, `NOT_SURE`, or None. None means nobody asked. Neither
"not sure" nor None is ever read as "no".
"""

from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import Annotated, Any, Final, Literal, TypeAlias, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints

from consult.cleaning import clean_text
from consult.trade import DARKEST, LIGHTEST

NOT_SURE: Final = "not sure"
NotSure = Literal["not sure"]

T = TypeVar("T")
Asked: TypeAlias = T | NotSure | None


def known(value: T | NotSure | None) -> T | None:
    """The answer, or None when it is unasked or not sure."""
    return None if value == NOT_SURE else value


def _clean(value: object) -> object:
    return clean_text(value) if isinstance(value, str) else value


def _local(value: object) -> object:
    """A time without an offset is the wall clock of this machine; seconds do not matter here."""
    if isinstance(value, datetime):
        try:
            aware = value if value.tzinfo else value.astimezone()
        except OverflowError:
            raise ValueError("a date at the edge of the calendar") from None
        return aware.replace(second=0, microsecond=0)
    return value


def _day(value: object) -> object:
    return value.date() if isinstance(value, datetime) else value


def _tuple(value: object) -> object:
    """TOML and forms give lists; a repeated choice counts once."""
    if isinstance(value, list | tuple) and all(isinstance(item, str) for item in value):
        return tuple(dict.fromkeys(value))
    return tuple(value) if isinstance(value, list) else value


Text = Annotated[str, BeforeValidator(_clean), StringConstraints(min_length=1, max_length=120)]
Day = Annotated[date, BeforeValidator(_day)]
Moment = Annotated[datetime, BeforeValidator(_local)]
Several: TypeAlias = Annotated[tuple[T, ...], BeforeValidator(_tuple)]
Depth = Annotated[float, Field(ge=DARKEST, le=LIGHTEST, multiple_of=0.5)]

Level = Literal["low", "normal", "high"]
YesNo = Literal["yes", "no"]

ALL: Final = "all"

SCHEMA: Final = 4
"""The version of the questions and of the files that hold their answers."""


class Section(BaseModel):
    """One frozen group of answers. Unknown names are refused, values are never coerced."""

    # Built when first used: the start page then does not wait for it.
    model_config = ConfigDict(
        strict=True, extra="forbid", frozen=True, hide_input_in_errors=True, defer_build=True
    )


def ask(
    trade: str,
    plain: str,
    *,
    short: str,
    how_to_tell: str = "",
    unit: str = "",
    hints: Mapping[str, str] | None = None,
    only_if: tuple[str, Iterable[str]] | None = None,
    past: bool = False,
    sensitive: bool = False,
    optional: bool = False,
    since: int = 1,
    clear: str | Iterable[str] = (),
) -> Any:
    """Declare one question as the default of a model field; the answer starts as "not asked".

    trade, plain  the question in the stylist's and in everyday words
    short         its name in a list of answers
    how_to_tell   what to look at or to ask, to tell the answer
    hints         choice -> what that choice means
    only_if       (question, answers that make this question apply); a name without a dot is a
                  question of the same section, or of the same list entry
    past          a fact of the past: no remedy can change it
    sensitive     health data
    optional      most people cannot know it; leaving it out holds nothing up, and what hangs on
                  it does not apply then
    since         the version of the questions in which this one is asked for the first time
    clear         the choices (or ALL) that need no rule, named so that none is forgotten
    """
    extra: dict[str, Any] = {
        "short": short,
        "plain": plain,
        "how_to_tell": how_to_tell,
        "unit": unit,
        "hints": dict(hints or {}),
        "only_if": [only_if[0], list(only_if[1])] if only_if else None,
        "past": past,
        "sensitive": sensitive,
        "optional": optional,
        "since": since,
        "clear": clear if isinstance(clear, str) else list(clear),
    }
    return Field(default=None, description=trade, json_schema_extra=extra)
