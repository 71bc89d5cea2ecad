"""What would have to be different for colour to be mixed, with the values: found by trying them out.

What is wished for, and the product, can be chosen otherwise by anybody. Answers about the person cannot: they are
told to a class, never as a way round.
"""

from collections.abc import Sequence
from typing import Any

from msgspec import Struct

from consult.answers import Answers
from consult.answers.access import get, with_answer
from consult.answers.others import other_answers, values_words
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of
from consult.consultation import Consultation, consult
from consult.gates.explain import what_would_lift
from consult.head.build import build_head
from consult.judging import judge_head
from consult.plan.types import Held, Made

MOST_LIFTS = 6
_TOGETHER = (("goal.depth", "product.depth"), ("goal.tone", "product.tone"))
_ALONE = ("product.depth", "product.tone", "product.developer_percent", "goal.white", "goal.extent")
"""What is wished for, or in the product's hands: a shade goes with its goal, or alone for the goal as it is."""
_NO_WISH = ("there is none",)
"""What stands among the wishes and says how the hair is."""


class Otherwise(Struct, frozen=True):
    """Answers that would have to be different together, each with the values that would do; empty words where none
    was found by trying. `past` are those that nobody can change any more."""

    changes: tuple[tuple[str, str], ...]
    past: tuple[str, ...] = ()


def wishes(found: Consultation) -> tuple[Otherwise, ...]:
    """Other wishes, and other products, with which a plan that is held would be made."""
    plan = found.plan
    if not isinstance(plan, Held) or plan.ways is None or plan.ways.would_do({}, {}):
        return ()
    ways = []
    for paths in (*_TOGETHER, *((path,) for path in _ALONE)):
        tried = other_answers(question_of(paths[0]), get(found.answers, paths[0]), found.now)
        values = [value for value in tried if value not in _NO_WISH and _would_do(found, plan, paths, value)]
        if values:
            words = values_words(question_of(paths[0]), get(found.answers, paths[0]), values, tried)
            ways.append(Otherwise(tuple((path, words) for path in paths)))
    return tuple(ways)


def _would_do(found: Consultation, plan: Held, paths: tuple[str, ...], value: Any) -> bool:
    """Quickly by the rules of thumb, and then by the whole program, which foresees the colour too."""
    changed: dict[str, dict[str, Any]] = {"goal": {}, "product": {}}
    for place in map(AnswerPath.parse, paths):
        changed[place.section][place.name] = value
    if plan.ways is None or not plan.ways.would_do(changed["goal"], changed["product"]):
        return False
    answers = found.answers
    for path in paths:
        answers = with_answer(answers, path, value)
    other = consult(answers, found.now, found.salon).plan
    return isinstance(other, Made) or (isinstance(other, Held) and other.then is not None)


def facts(found: Consultation) -> tuple[Otherwise, ...]:
    """The smallest sets of answers on which the rules' holds rest, each with the values that would lift them."""
    lifts = what_would_lift(found.answers, found.now, found.salon.rules)[:MOST_LIFTS]
    return tuple(Otherwise(_values(found, lift.paths), lift.past) for lift in lifts)


def _values(found: Consultation, paths: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """(path, values in words): of each answer those that leave the fewest findings in the way."""
    told, answers = [], found.answers
    if any(AnswerPath.parse(path).list for path in paths):
        # Which entry of a list it would be is not known here.
        return tuple((path, "") for path in paths)
    for path in paths:
        question = question_of(path)
        tried = other_answers(question, get(found.answers, path), found.now)
        left = {
            number: _in_the_way(found, with_answer(found.answers, path, v)) for number, v in enumerate(tried)
        }
        fewest = min(left.values(), default=0)
        if not left or fewest >= _in_the_way(found, found.answers):
            return tuple((path, "") for path in paths)
        values = [tried[number] for number, count in left.items() if count == fewest]
        answers = with_answer(answers, path, values[0])
        told.append((path, values_words(question, get(found.answers, path), values, tried)))
    lifted = _in_the_way(found, answers) == 0
    return tuple(told) if lifted else tuple((path, "") for path in paths)


def _in_the_way(found: Consultation, answers: Answers) -> int:
    """How many findings of the rules keep colour from being mixed with these answers."""
    head = build_head(answers, found.now.date())
    judged = judge_head(answers, head, found.now, found.salon.rules)
    return sum(finding.verdict.blocks for finding in judged.findings)
