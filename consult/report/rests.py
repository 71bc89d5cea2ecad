"""On which answers a sentence of a result rests: found by giving each answer otherwise, and looking which sentences
are another then.

Only results of the same kind are compared: where another answer would stop or hold it all, every sentence hangs on it.
"""

import re
from collections.abc import Callable
from functools import partial
from typing import Final

from consult.answers import Answers
from consult.answers.access import BadAnswer, answer_paths, get, with_answer
from consult.answers.others import other_answers
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of
from consult.consultation import Consultation, consult
from consult.report import report
from consult.trade import Voice

MOST_TRIES: Final = 3
"""Other answers that are tried of each question: those nearest to the one given."""
_NUMBER = re.compile(r"^\d+\. ")


class Rests:
    """The answers behind each sentence of one result, in one voice."""

    def __init__(
        self, found: Consultation, voice: Voice, stopped: Callable[[], bool] = lambda: False
    ) -> None:
        """Tries it all out, which takes a second or two; `stopped` is asked now and then, and ends it."""
        # A class is told every finding; what is put on is the same.
        self._voice = Voice.STYLIST if voice is Voice.TRAINER else voice
        self._found = found
        said = self._said(found)
        self._paths: dict[str, list[AnswerPath]] = {}
        for path in answer_paths(found.answers):
            if stopped():
                return
            for sentence in said - self._kept(path, said):
                self._paths.setdefault(sentence, []).append(path)

    def behind(self, sentence: str) -> tuple[AnswerPath, ...]:
        """The answers that a sentence rests on, in the order of the consultation."""
        return tuple(self._paths.get(plain(sentence), ()))

    def _kept(self, path: AnswerPath, said: set[str]) -> set[str]:
        """The sentences that stay whatever of a few other answers is given."""
        value, question = get(self._found.answers, path), question_of(path)
        if value is None:
            return said
        tried = other_answers(question, value, self._found.now)
        if isinstance(value, int | float):
            tried.sort(key=partial(_far, value))
        kept = said
        for other in tried[:MOST_TRIES]:
            changed = self._with(path, other)
            found = changed and consult(changed, self._found.now, self._found.salon, self._found.shelf)
            if found and type(found.plan) is type(self._found.plan):
                kept = kept & self._said(found)
        return kept

    def _with(self, path: AnswerPath, value: object) -> Answers | None:
        try:
            return with_answer(self._found.answers, path, value)
        except BadAnswer:
            return None

    def _said(self, found: Consultation) -> set[str]:
        return {plain(row.say) for block in report(found, self._voice, otherwise=False) for row in block.rows}


def _far(value: float, other: object) -> float:
    return abs(other - value) if isinstance(other, int | float) else float("inf")


def plain(sentence: str) -> str:
    """Without the number of a step, which moves with the steps before it."""
    return _NUMBER.sub("", sentence)
