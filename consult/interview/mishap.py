"""Which questions are asked of a day that went wrong: what and the signs first, and no more than the advice needs."""

from collections.abc import Iterator
from typing import Final

from msgspec import Struct

from consult.answers import Answers
from consult.answers.access import as_data
from consult.remedies.advice import Family, book
from consult.remedies.day import DayLog
from consult.remedies.words import What

_TONES: Final[set[What]] = {
    *("too warm", "too ash or green", "hot roots", "bands", "patches", "ends grabbed"),
    "bleeds or washes out",
}
"""Of these the tone says more than the depth."""
_READ: Final = ("new_growth", "lengths", "ends")


class MishapOf(Struct, frozen=True):
    """Names of the questions for a day, in their order; `answers` are the record that it was done from, or empty."""

    answers: Answers

    def __call__(self, day: DayLog) -> tuple[str, ...]:
        return tuple(self._asked(day))

    @property
    def on_record(self) -> bool:
        return bool(as_data(self.answers))

    def _asked(self, day: DayLog) -> Iterator[str]:
        families: set[Family] = {book().fault(what).family for what in day.faults}
        yield from ("what", "signs", "skin")
        if "body" not in families or day.reacted:
            yield "when"
        if self.on_record or day.reacted:
            yield "done_at"
        if "body" in families or day.reacted:
            return  # Nothing is done to the hair then, and nothing more is asked.
        if families & {"hair", "colour"}:
            if self.answers.product.colour_class is None:
                yield "kind"
            yield "stretch"
        if "colour" in families and self.on_record:
            yield from self._of_the_colour(day)

    def _of_the_colour(self, day: DayLog) -> Iterator[str]:
        """What is compared with the forecast, which needs a record."""
        yield "minutes_new_growth"
        if day.stretch != "new growth":
            yield "minutes_lengths"
        yield from ("mixed_g", "overlap")
        for zone in _READ:
            yield f"{zone}_depth"
            if _TONES & set(day.faults):
                yield f"{zone}_tone"
        if "missed white" in day.faults:
            yield "white_left"
