"""The rules: those that ship with the program, and a salon's own on top of them.

A salon can add rules and raise a verdict. It cannot lower or remove one.
"""

from collections.abc import Iterable, Mapping
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from consult.files import parse_toml
from consult.gates.conditions import BadRule, Names
from consult.gates.evaluate import Program
from consult.gates.rule import Rule
from consult.gates.tables import read_names, read_table
from consult.gates.verdict import Verdict

SHARED = "shared"
"""The table of groups and conditions that all others may name."""
TABLES = ("client", "allergy", "health", "scalp", "history", "hair", "goal", "product")


class RuleSet(tuple[Rule, ...]):
    """Rules that are asked together; they are compiled once, when they are first asked."""

    @classmethod
    def of(cls, rules: Iterable[Rule]) -> "RuleSet":
        return rules if isinstance(rules, cls) else cls(rules)

    @cached_property
    def program(self) -> Program:
        """Their conditions, compiled."""
        ends = [rule.until for rule in self if rule.until]
        return Program(
            [rule.when for rule in self],
            also=[end.field for end in ends if end.field],
            facts=[end.fact for end in ends if end.fact],
        )

    @cached_property
    def about_the_product(self) -> "RuleSet":
        """Those that look at the product; the others say of every product what they say of the head."""
        return RuleSet(rule for rule in self if any(path.startswith("product.") for path in rule.paths))


@cache
def shared_names() -> Names:
    """The groups and conditions that every table may name."""
    return read_names(_own_table(SHARED), f"{SHARED}.toml", Names())


@cache
def builtin_rules() -> RuleSet:
    """The rules that ship with the program."""
    found: list[Rule] = []
    for name in TABLES:
        found += read_table(_own_table(name), f"{name}.toml", shared_names()).rules
    refuse_twins(found)
    return RuleSet(found)


def _own_table(name: str) -> dict[str, Any]:
    text = (Path(__file__).parent / "rules" / f"{name}.toml").read_text("utf-8")
    return parse_toml(text, f"{name}.toml")


def refuse_twins(rules: Iterable[Rule]) -> None:
    """Raises BadRule when two rules have one id."""
    seen: set[str] = set()
    for rule in rules:
        if rule.id in seen:
            raise BadRule(f"rule id '{rule.id}' stands twice; give the newer one a name of its own")
        seen.add(rule.id)


def with_salon_rules(data: Mapping[str, Any], name: str) -> RuleSet:
    """The program's rules and those in a salon's tables; `name` stands at the head of errors. Raises BadRule."""
    if not data:
        return builtin_rules()
    own = read_table(data, name, shared_names())
    known = {rule.id: rule for rule in builtin_rules()}
    for id_, verdict in own.raised.items():
        if id_ not in known:
            raise BadRule(f"{name}: there is no rule '{id_}' to raise")
        rule = known[id_]
        if verdict < max(rule.verdict, rule.unsure):
            raise BadRule(f"{name}: '{id_}' is {rule.verdict.word}; a salon rule may only raise it")
        if verdict is Verdict.WAIT:
            raise BadRule(f"{name}: a raised verdict cannot be a wait; add a rule of your own")
        known[id_] = replace(rule, verdict=verdict, unsure=verdict, until=None)
    rules = [*known.values(), *own.rules]
    refuse_twins(rules)
    return RuleSet(rules)
