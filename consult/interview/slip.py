"""A slip: a few questions about one thing, asked one after the other. Of a day that went wrong, of a pack in the shop.

It asks what its model declares with `ask(...)`, in the words and with the keys of any other question. Every transition
is a pure function from one slip to the next.
"""

from collections.abc import Callable, Sequence
from functools import cache
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from consult.answers.access import fitting
from consult.answers.base import Section
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, Question, questions_in
from consult.interview.pages import Picture
from consult.interview.rows import KEYS, MOMENT_KEY, TYPED, Option, Row, Usual, choice_options, row_of
from consult.trade import Voice

END: Final = ""
"""The place behind the last question."""


class Slip(Struct, frozen=True):
    """given: the answers; here: the name of the question in hand, or END; asks: which apply as things stand, in order;
    past: earlier answers and where they were given."""

    given: Section
    asks: Callable[[Any], Sequence[str]]
    here: str = END
    past: tuple[tuple[Section, str], ...] = ()

    @property
    def names(self) -> Sequence[str]:
        return self.asks(self.given)

    @property
    def question(self) -> Question:
        """The question in hand. Raises KeyError behind the last one."""
        return _questions(type(self.given))[self.here]

    @property
    def place(self) -> tuple[int, int]:
        """Which question is in hand, of how many as things stand."""
        names = list(self.names)
        return (names.index(self.here) + 1 if self.here in names else len(names)), len(names)


@cache
def _questions(model: type[Section]) -> dict[str, Question]:
    section = model.__name__.lower()
    return {question.path.name: question for question in questions_in(section, model).values()}


def begin(slip: Slip) -> Slip:
    """At the first question that has no answer yet."""
    return replace(slip, here=next((name for name in slip.names if getattr(slip.given, name) is None), END))


def answer(slip: Slip, value: Any) -> Slip:
    """Answer the question in hand and stay there; None takes it back. Raises BadAnswer."""
    fits = None if value is None else fitting(slip.question, value)
    if fits == getattr(slip.given, slip.here):
        return slip
    given = slip.given.model_copy(update={slip.here: fits})
    return replace(slip, given=given, past=(*slip.past, (slip.given, slip.here)))


def forward(slip: Slip) -> Slip:
    """To the next question that applies, or behind the last one."""
    names = list(slip.names)
    ahead = names[names.index(slip.here) + 1 :] if slip.here in names else []
    return replace(slip, here=ahead[0] if ahead else END)


def back(slip: Slip) -> Slip:
    """To the question before; at the first one it stays."""
    names = list(slip.names)
    at = names.index(slip.here) if slip.here in names else len(names)
    return replace(slip, here=names[max(at - 1, 0)])


def undo(slip: Slip) -> Slip:
    """Take the last answer back and stand where it was given."""
    if not slip.past:
        return slip
    given, here = slip.past[-1]
    return replace(slip, given=given, here=here, past=slip.past[:-1])


def row_in_hand(slip: Slip, voice: Voice) -> Row:
    """The question in hand as it is shown; "the same" is the answer to one like it before."""
    names = list(slip.names)
    above = [_row(slip, name, voice) for name in names[: names.index(slip.here)]]
    return _row(slip, slip.here, voice, above)


def _row(slip: Slip, name: str, voice: Voice, above: Sequence[Row] = ()) -> Row:
    question, value = _questions(type(slip.given))[name], getattr(slip.given, name)
    picture, depth = None, None
    if name.endswith("depth"):
        picture = Picture("ladder")
    elif name.endswith("tone"):
        picture, depth = Picture("tones"), getattr(slip.given, name.removesuffix("tone") + "depth")
    path = AnswerPath.parse(question.path)
    return row_of(question, path, value, voice, _options(question, value), above, picture, depth)


def _options(question: Question, value: Any) -> list[Option]:
    if question.kind is Kind.MOMENT:
        return [Option(MOMENT_KEY, "now", Usual("now"))]
    if question.kind in TYPED:
        letters = KEYS[KEYS.index("a") :]
        return [Option(key, word, Usual(word)) for key, word in zip(letters, question.literals, strict=False)]
    return choice_options(question, value)
