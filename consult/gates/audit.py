"""The engine audits its own tables: what no rule mentions, what can never fire, what is redundant.

The last two rest on `can_hold`: is there any head on which these conditions hold together? It knows
the choices, the bounds and which questions apply, and it takes each fact as a value of its own. So
it may take too much for possible, never too little: what the audits report is certain.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from typing import Any

from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, Question, questions
from consult.gates.conditions import AllOf, AnyEntry, AnyOf, Comparison, Condition, Not, compare
from consult.gates.facts import FACTS
from consult.gates.rule import Rule, comparisons
from consult.gates.rules import builtin_rules

_APPLIES = "applies"
_NO_ANSWER = None
_STEP = 0.001
Wanted = tuple[Condition, bool]
"""A condition, and True when it is to fail."""


def unmentioned(rules: Iterable[Rule] | None = None) -> list[str]:
    """Questions and choices that no rule, no fact in use and no "clear" mark mentions."""
    rules = builtin_rules() if rules is None else tuple(rules)
    read = {path for rule in rules for path in rule.paths}
    named: defaultdict[str, set[str]] = defaultdict(set)
    for test in (test for rule in rules for test in comparisons(rule.when)):
        if test.field and test.operator in ("is", "in", "has"):
            named[test.field] |= {test.value} if isinstance(test.value, str) else set(test.value)
    found: list[str] = []
    for path, question in questions().items():
        if question.same_as:
            continue
        listed = question.choices + question.literals
        forgotten = [c for c in listed if not question.is_clear(c) and c not in named[path]]
        found += [f"{path} = {choice}" for choice in forgotten]
        inside = question.kind is Kind.ENTRIES and any(p.startswith(path + ".") for p in read)
        if not question.choices and not question.is_clear("") and path not in read and not inside:
            found.append(path)
    return found


def never_firing(rules: Iterable[Rule] | None = None) -> list[str]:
    """Ids of the rules whose condition contradicts itself."""
    rules = builtin_rules() if rules is None else rules
    return [rule.id for rule in rules if not can_hold((rule.when, False))]


def redundant(rules: Iterable[Rule] | None = None) -> list[tuple[str, str]]:
    """(rule, other): both fire on exactly the same heads, and the other says at least as much.

    A rule that only sharpens another one for some heads is not redundant: it has its own remedy.
    """
    rules = builtin_rules() if rules is None else tuple(rules)
    subjects = [rule.paths for rule in rules]
    return [
        (rule.id, other.id)
        for rule, its in zip(rules, subjects, strict=True)
        for other, theirs in zip(rules, subjects, strict=True)
        if rule is not other
        and other.verdict >= rule.verdict
        and other.unsure >= rule.unsure
        and its & theirs
        and not can_hold((rule.when, False), (other.when, True))
        and not can_hold((other.when, False), (rule.when, True))
    ]


def can_hold(*wanted: Wanted) -> bool:
    """False when no head can fulfil all the wanted conditions at once."""
    return _search(list(wanted), [], [])


def _search(
    pending: list[Wanted], tests: list[tuple[Comparison, bool]], lists: list[tuple[AnyEntry, bool]]
) -> bool:
    """Break the conditions down, one way after the other, until single tests can be checked."""
    if not pending:
        return _entries_exist(lists)
    (condition, failing), *rest = pending
    match condition:
        case Not():
            return _search([(condition.part, not failing), *rest], tests, lists)
        case AllOf() | AnyOf():
            parts = [(part, failing) for part in condition.parts]
            if isinstance(condition, AllOf) != failing:
                return _search([*parts, *rest], tests, lists)
            return any(_search([part, *rest], tests, lists) for part in parts)
        case AnyEntry():
            return _search(rest, tests, [*lists, (condition, failing)])
        case Comparison():
            ways = ([*tests, *way] for way in _ways(condition, failing))
            return any(_search(rest, way, lists) for way in ways if _values_exist(way))


def _ways(test: Comparison, failing: bool) -> Iterator[list[tuple[Comparison, bool]]]:
    """A test needs its questions to apply; it fails as well when one of them does not."""
    paths = FACTS[test.fact].reads if test.fact else (test.field or "",)
    conditions = [condition for path in paths for condition in _applying(path)]
    yield [(test, failing), *((condition, False) for condition in conditions)]
    if failing:
        for condition in conditions:
            yield [(condition, True)]


def _applying(path: str) -> Iterator[Comparison]:
    only_if = questions()[path].only_if
    if only_if:
        yield Comparison(only_if[0], None, _APPLIES, only_if[1])
        yield from _applying(only_if[0])


def _values_exist(tests: list[tuple[Comparison, bool]]) -> bool:
    by_subject: defaultdict[tuple[str | None, str | None], list[tuple[Comparison, bool]]] = defaultdict(list)
    for test, failing in tests:
        by_subject[test.field, test.fact].append((test, failing))
    return all(
        any(all(_fits(value, *one) for one in about) for value in _values(field, fact, about))
        for (field, fact), about in by_subject.items()
    )


def _entries_exist(lists: list[tuple[AnyEntry, bool]]) -> bool:
    """Each entry that must be there, beside all those that must not."""
    return all(
        can_hold(
            (entry.where, False),
            *((other.where, True) for other, out in lists if out and other.path == entry.path),
        )
        for entry, failing in lists
        if not failing
    )


def _values(field: str | None, fact: str | None, about: list[tuple[Comparison, bool]]) -> list[Any]:
    """Values among which one fits the tests, if any value at all does."""
    if fact:
        optional = any(questions()[path].optional for path in FACTS[fact].reads)
        known = ["yes", "no"] if FACTS[fact].unit == "yes/no" else _around(about, _STEP)
        return [*known, _NO_ANSWER] if optional else known
    question = questions()[field or ""]
    values = [*_answers(question, about), NOT_SURE]
    return [*values, _NO_ANSWER] if question.optional else values


def _answers(question: Question, about: list[tuple[Comparison, bool]]) -> list[Any]:
    if question.kind is Kind.CHOICE:
        return list(question.choices)
    if question.kind is Kind.SEVERAL:
        # The largest answer without what must be missing fulfils whatever can be fulfilled.
        out = {c for test, failing in about if failing and test.operator != "unknown" for c in test.value}
        return [tuple(choice for choice in question.choices if choice not in out)]
    if question.kind is Kind.NUMBER:
        near = _around(about, 1 if question.whole else _STEP, question.low or 0)
        high = question.high if question.high is not None else max(near)
        return [*(n for n in near if (question.low or 0) <= n <= high), *question.literals]
    if question.kind is Kind.ENTRIES:
        return [(), ("an entry",)]
    return _around(about, 1)


def _around(about: list[tuple[Comparison, bool]], step: float, least: float = 0) -> list[float]:
    """Each number of the tests and the least there is, and one on either side of it."""
    bounds = {test.value for test, _ in about if isinstance(test.value, int | float)}
    return sorted({bound + side for bound in bounds | {least} for side in (-step, 0, step)})


def _fits(value: Any, test: Comparison, failing: bool) -> bool:
    if value is _NO_ANSWER:
        return failing
    if value == NOT_SURE:
        return test.operator in ("unknown", _APPLIES) and not failing
    if test.operator == _APPLIES:
        given = value if isinstance(value, tuple) else (value,)
        return any(item in test.value for item in given) != failing
    if test.operator == "within_days":
        return bool(value < test.value) != failing
    return compare(test.operator, value, test.value, date.min) != failing
