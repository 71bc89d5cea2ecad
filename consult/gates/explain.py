"""Why not: the smallest sets of answers that would have to be different for the service to go on.

Facts of the past are marked: nobody can change them, and no remedy pretends to.
"""

from collections.abc import Iterable
from datetime import datetime

from msgspec import Struct

from consult.answers import Answers
from consult.answers.base import known
from consult.answers.questions import question_of
from consult.gates.evaluate import Trace
from consult.gates.facts import FACTS
from consult.gates.program import DOUBT, Branch, EntryLeaf, Leaf, Node
from consult.gates.rule import Rule
from consult.gates.rules import RuleSet

MOST_SETS = 64
Change = int
"""A set of answers, one bit for each."""


class Lift(Struct, frozen=True):
    """Answers that together would lift every holding finding; `past` ones can never change."""

    paths: tuple[str, ...]
    past: tuple[str, ...]


def what_would_lift(answers: Answers, now: datetime, rules: Iterable[Rule]) -> tuple[Lift, ...]:
    """The minimal sets, changeable ones first, then smaller ones; empty when nothing holds the service."""
    rules = RuleSet.of(rules)
    search = _Search(rules.program.ask(answers, now))
    known_class = known(answers.product.colour_class)
    changes = [
        search.ends(rules.program.roots[number])
        for number, (rule, state) in enumerate(zip(rules, search.trace.states, strict=True))
        if state >= DOUBT and max(rule.verdict, rule.unsure).blocks and rule.looks_at(known_class)
    ]
    lifts = []
    for change in _one_of_each(changes) if changes else []:
        paths = search.paths(change)
        lifts.append(Lift(paths, tuple(path for path in paths if question_of(path).past)))
    return tuple(sorted(lifts, key=lambda lift: (len(lift.past) > 0, len(lift.paths), lift.paths)))


class _Search:
    """Which answers, changed, would end what holds on one head."""

    def __init__(self, trace: Trace) -> None:
        self.trace = trace
        self._bits: dict[str, Change] = {}

    def ends(self, node: Node) -> list[Change]:
        """Sets of answers any of which, changed, lets a condition that holds no longer hold."""
        if isinstance(node, Branch):
            parts = [self.ends(part) for part in node.parts if self.trace.holds(part)]
            return (
                _minimal(change for part in parts for change in part) if node.every else _one_of_each(parts)
            )
        if isinstance(node, EntryLeaf):
            return [self._bit(node.test.path)]
        return [self._bit(path) for path in self._subjects(node)]

    def _subjects(self, leaf: Leaf) -> Iterable[str]:
        """The answers of a comparison; where a fact is in doubt, those that are."""
        fact = leaf.test.fact
        if fact is None:
            return (leaf.test.field or "",)
        if self.trace.all_states[leaf.slot] == DOUBT:
            return dict.fromkeys(path.question for path in self.trace.used[fact])
        return FACTS[fact].reads

    def paths(self, change: Change) -> tuple[str, ...]:
        """The answers of a set, in alphabetical order."""
        return tuple(sorted(path for path, bit in self._bits.items() if change & bit))

    def _bit(self, path: str) -> Change:
        return self._bits.setdefault(path, 1 << len(self._bits))


def _one_of_each(choices: list[list[Change]]) -> list[Change]:
    """The smallest sets that hold at least one choice out of each list."""
    sets = [0]
    # What leaves the fewest ways open comes first: it is what all sets must hold.
    for options in sorted({tuple(sorted(options)) for options in choices}, key=lambda o: (len(o), o)):
        met = [kept for kept in sets if any(kept & option == option for option in options)]
        unmet = set(sets).difference(met)
        sets = _minimal([*met, *(kept | option for kept in unmet for option in options)])
    return sets


def _minimal(sets: Iterable[Change]) -> list[Change]:
    """Sets none of which contains another, the smallest first, not too many."""
    kept: list[Change] = []
    for candidate in sorted(set(sets), key=lambda change: (change.bit_count(), change)):
        if not any(smaller & candidate == smaller for smaller in kept):
            kept.append(candidate)
            if len(kept) == MOST_SETS:
                break
    return kept
