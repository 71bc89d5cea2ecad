"""How fast a head is judged, against a general-purpose decision engine on the same rules in the same run.

Run: python -m tests.bench.bench_gates (one core, prints numbers). Both engines get the rules compiled before
the clock starts and a complete head; both tell with their answer why. The other engine gets the answers as
the JSON of the same head, and computed facts as ready numbers, so that its work is a little less than ours.

Beyond the program's own rules, larger sets are its rules once more, each numeric bound moved a little: real
rule sets grow in this way, by more cases of the same questions.
"""

import json
import random
import statistics
import sys
import time
from collections.abc import Callable, Iterable
from datetime import date, datetime
from typing import Any

import zen
from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.access import as_data
from consult.gates.conditions import AllOf, AnyEntry, AnyOf, Comparison, Condition, Not
from consult.gates.explain import what_would_lift
from consult.gates.judge import judge
from consult.gates.program import TRUE
from consult.gates.rule import Rule
from consult.gates.rules import RuleSet, builtin_rules
from tests.baseline import NOW
from tests.gates.heads import random_head

SIZES = (127, 1_000, 10_000)
HEADS = 12
_NUMERIC = {"under": "<", "over": ">", "at_least": ">=", "at_most": "<="}


def rules_of(size: int) -> RuleSet:
    """So many rules: the program's own, then copies of them with other bounds."""
    chance = random.Random(size)
    own = list(builtin_rules())[:size]
    copies = [
        replace(rule, id=f"{rule.id}-{number}", when=_moved(rule.when, chance))
        for number in range(size - len(own))
        for rule in (own[number % len(own)],)
    ]
    return RuleSet([*own, *copies])


def _moved(condition: Condition, chance: random.Random) -> Condition:
    match condition:
        case AllOf(parts):
            return AllOf(tuple(_moved(part, chance) for part in parts))
        case AnyOf(parts):
            return AnyOf(tuple(_moved(part, chance) for part in parts))
        case Not(part):
            return Not(_moved(part, chance))
        case AnyEntry(path, where):
            return AnyEntry(path, _moved(where, chance))
    value = condition.value
    if isinstance(value, bool) or not isinstance(value, int | float):
        return condition
    return replace(condition, value=value + round(chance.uniform(0, 5), 2))


def expression(condition: Condition, negated: bool = False, entry: str = "") -> str:
    """The condition in the other engine's language; a question that does not apply fulfils nothing."""
    match condition:
        case Not(part):
            return expression(part, not negated, entry)
        case AllOf(parts) | AnyOf(parts):
            word = " and " if isinstance(condition, AllOf) != negated else " or "
            return "(" + word.join(expression(part, negated, entry) for part in parts) + ")"
        case AnyEntry(path, where):
            inner = expression(where, negated, "#.")
            return f"{'all' if negated else 'some'}({path}, {inner})"
    return f"not({_bare(condition, entry)})" if negated else _bare(condition, entry)


def _bare(test: Comparison, entry: str) -> str:
    name = f"fact.{test.fact}" if test.fact else test.field or ""
    subject = entry + name.rpartition(".")[2] if entry else name
    if test.operator in _NUMERIC:
        return f"({subject} != null and {subject} {_NUMERIC[test.operator]} {test.value})"
    if test.operator == "within_days":
        return f"({subject}_days != null and {subject}_days < {test.value})"
    if test.operator == "in":
        return f"({subject} in {json.dumps(list(test.value))})"
    if test.operator == "has":
        return f"some({subject}, # in {json.dumps(list(test.value))})"
    if test.operator == "has_entries":
        return f"len({subject}) > 0"
    value = "not sure" if test.operator == "unknown" else test.value
    return f"({subject} == {json.dumps(value)})"


def decision(rules: Iterable[Rule]) -> str:
    """A decision table of the other engine that collects every rule that fires."""
    table = {
        "hitPolicy": "collect",
        "inputs": [{"id": "when", "name": "when", "type": "expression"}],
        "outputs": [{"id": "rule", "name": "rule", "type": "expression", "field": "rule"}],
        "rules": [
            {"_id": str(n), "when": expression(rule.when), "rule": json.dumps(rule.id)}
            for n, rule in enumerate(rules)
        ],
    }
    nodes = [
        {"id": "in", "name": "in", "type": "inputNode", "position": {"x": 0, "y": 0}},
        {"id": "t", "name": "t", "type": "decisionTableNode", "content": table, "position": {"x": 1, "y": 0}},
        {"id": "out", "name": "out", "type": "outputNode", "position": {"x": 2, "y": 0}},
    ]
    edges = [
        {"id": "1", "sourceId": "in", "targetId": "t", "type": "edge"},
        {"id": "2", "sourceId": "t", "targetId": "out", "type": "edge"},
    ]
    return json.dumps({"nodes": nodes, "edges": edges, "contentType": "application/vnd.gorules.decision"})


def plain_head(answers: Answers, rules: RuleSet) -> dict[str, Any]:
    """The head as JSON data: days as days ago, what does not apply as nothing, facts as numbers."""
    data: dict[str, Any] = {section: {} for section in type(answers).model_fields}
    given = as_data(answers)
    trace = rules.program.ask(answers, NOW)
    for reading in trace.readings.head:
        value = given.get(reading.path.section, {}).get(reading.path.name)
        known = reading.standing in (0, -1)
        _put(
            data[reading.path.section],
            reading.path.name,
            value if known or isinstance(value, tuple) else None,
        )
    data["fact"] = {name: fact.read(trace.readings, NOW)[1] for name, _, fact in rules.program._facts}
    return data


def _put(into: dict[str, Any], name: str, value: Any) -> None:
    if isinstance(value, list | tuple) and value and isinstance(value[0], dict):
        into[name] = [{} for _ in value]
        for entry, fields in zip(into[name], value, strict=True):
            for key, inner in fields.items():
                _put(entry, key, inner)
    elif isinstance(value, datetime | date):
        day = value.date() if isinstance(value, datetime) else value
        into[name], into[f"{name}_days"] = str(value), (NOW.date() - day).days
    else:
        into[name] = list(value) if isinstance(value, tuple) else value


def best(work: Callable[[], object], runs: int) -> float:
    """Milliseconds of the quickest of some runs: what else the machine does is not judged here."""
    taken = []
    for _ in range(runs):
        begin = time.perf_counter()
        work()
        taken.append(time.perf_counter() - begin)
    return min(taken) * 1000


def compared(rules: RuleSet, heads: list[Answers]) -> float:
    """Both engines on one set of rules; prints what was measured and gives ours as a share of the other."""
    begin = time.perf_counter()
    _ = rules.program
    compiled = (time.perf_counter() - begin) * 1000
    other = zen.ZenEngine().create_decision(decision(rules))
    runs = 20 if len(rules) < 5_000 else 5
    ours, theirs, agree, fired = [], [], 0, 0
    for answers in heads:
        data = plain_head(answers, rules)
        told = {row["rule"] for row in other.evaluate(data, {"trace": True})["result"] or []}
        states = rules.program.ask(answers, NOW).states
        certain = {rule.id for rule, state in zip(rules, states, strict=True) if state == TRUE}
        agree, fired = agree + len(told & certain), fired + len(told | certain)
        theirs.append(best(lambda data=data: other.evaluate(data, {"trace": True}), runs))
        ours.append(best(lambda answers=answers: judge(answers, NOW, rules), runs))
    mine, its = statistics.median(ours), statistics.median(theirs)
    print(
        f"{len(rules):6} rules  ours {mine:8.3f} ms  other {its:8.3f} ms  ratio {mine / its:.2f}"
        f"  compiled in {compiled:.0f} ms  same findings {agree} of {fired}"
    )
    return mine / its


def main() -> int:
    heads = [random_head(seed) for seed in range(HEADS)]
    ratios = [compared(rules_of(size), heads) for size in SIZES]
    worst = max(
        best(lambda a=a: what_would_lift(a, NOW, builtin_rules()), 1) for a in map(random_head, range(2_000))
    )
    print(f"why-not, the worst of 2,000 heads: {worst:.1f} ms")
    return 0 if max(ratios) <= 1 and worst <= 100 else 1


if __name__ == "__main__":
    sys.exit(main())
