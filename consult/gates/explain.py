"""Why not: the smallest sets of answers that would have to be different for the service to go on.

Facts of the past are marked: nobody can change them, and no remedy pretends to.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from itertools import product

from consult.answers import Answers
from consult.answers.questions import question_of
from consult.gates.conditions import AllOf, AnyEntry, AnyOf, Comparison, Condition, Not
from consult.gates.evaluate import Head, Truth
from consult.gates.facts import FACTS
from consult.gates.rules import Rule

Change = frozenset[str]
MOST_SETS = 64


@dataclass(frozen=True)
class Lift:
    """Answers that together would lift every holding finding; `past` ones can never change."""

    paths: tuple[str, ...]
    past: tuple[str, ...]


def what_would_lift(answers: Answers, now: datetime, rules: tuple[Rule, ...]) -> tuple[Lift, ...]:
    """The minimal sets, changeable ones first, then smaller ones; empty when nothing holds the service."""
    head = Head(answers, now, cautious=True)
    holding = [
        rule
        for rule in rules
        if max(rule.verdict, rule.unsure).blocks and head.outcome(rule.when).truth is Truth.TRUE
    ]
    sets = [frozenset[str]()]
    for rule in holding:
        sets = _minimal(a | b for a, b in product(sets, _falsify(rule.when, head)))
    lifts = [
        Lift(tuple(sorted(paths)), tuple(sorted(p for p in paths if question_of(p).past)))
        for paths in sets
        if paths
    ]
    return tuple(sorted(lifts, key=lambda lift: (len(lift.past) > 0, len(lift.paths), lift.paths)))


def _minimal(sets: Iterable[Change]) -> list[Change]:
    """Sets none of which contains another, the smallest first, not too many."""
    kept: list[Change] = []
    for candidate in sorted(set(sets), key=lambda s: (len(s), sorted(s))):
        if not any(smaller <= candidate for smaller in kept):
            kept.append(candidate)
    return kept[:MOST_SETS]


def _falsify(condition: Condition, head: Head) -> list[Change]:
    """Sets of answers any of which, changed, lets a holding condition no longer hold."""
    if isinstance(condition, Not):
        return _fulfil(condition.part, head)
    if isinstance(condition, AllOf):
        return _minimal(s for part in condition.parts for s in _falsify(part, head))
    if isinstance(condition, AnyOf):
        holding = [p for p in condition.parts if head.outcome(p).truth is Truth.TRUE]
        return _together([_falsify(part, head) for part in holding])
    return _subjects(condition)


def _fulfil(condition: Condition, head: Head) -> list[Change]:
    """Sets of answers any of which, changed, lets a condition hold that is false now."""
    if isinstance(condition, Not):
        return _falsify(condition.part, head)
    if isinstance(condition, AnyOf):
        return _minimal(s for part in condition.parts for s in _fulfil(part, head))
    if isinstance(condition, AllOf):
        failing = [p for p in condition.parts if head.outcome(p).truth is not Truth.TRUE]
        return _together([_fulfil(part, head) for part in failing])
    return _subjects(condition)


def _together(choices: list[list[Change]]) -> list[Change]:
    """One set out of each list, joined."""
    sets = [frozenset[str]()]
    for options in choices:
        sets = _minimal(a | b for a, b in product(sets, options))
    return sets


def _subjects(condition: Comparison | AnyEntry) -> list[Change]:
    if isinstance(condition, AnyEntry):
        return [frozenset([condition.path])]
    if condition.fact:
        return [frozenset([path]) for path in FACTS[condition.fact].reads]
    assert condition.field
    return [frozenset([condition.field])]
