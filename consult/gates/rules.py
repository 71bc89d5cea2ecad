"""The rule tables: loaded, checked, and joined with a user's own salon rules.

Salon rules can add rules and raise a verdict. They cannot lower or remove one.
"""

import tomllib
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from consult.answers.questions import Kind, questions
from consult.cleaning import clean_text
from consult.gates.conditions import BadRule, Condition, read_condition
from consult.gates.facts import FACTS
from consult.gates.verdict import Verdict
from consult.sources import is_source

TABLES = ("client", "allergy", "health", "scalp", "history", "hair", "goal", "product")


@dataclass(frozen=True)
class Until:
    """The end of a wait: a computed moment, or days or months after a date or after now."""

    words: str
    fact: str | None = None
    field: str | None = None
    days: int = 0
    months: int = 0


@dataclass(frozen=True)
class Rule:
    """One rule. `unsure` is the verdict when it fires only because an answer is "not sure"."""

    id: str
    when: Condition
    verdict: Verdict
    unsure: Verdict
    until: Until | None
    trade: str
    plain: str
    remedy: str
    sources: tuple[str, ...]


_KEYS = {"id", "when", "verdict", "unsure", "until", "trade", "plain", "remedy", "sources"}
_NEEDED = _KEYS - {"unsure", "until"}
_TEXTS = ("id", "trade", "plain", "remedy")


def read_rules(text: str, name: str, beside: tuple[str, ...] = ()) -> tuple[list[Rule], dict[str, Verdict]]:
    """Rules of one table, and the verdicts it raises. Raises BadRule naming the place.

    `beside` are other parts of the file, for another reader.
    """
    try:
        data = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as fault:
        raise BadRule(f"{name}: {fault}") from None
    data = {key: value for key, value in data.items() if key not in beside}
    strange = set(data) - {"rule", "raise"}
    if strange or not all(isinstance(tables, list) for tables in data.values()):
        raise BadRule(f"{name}: only [[rule]] and [[raise]] belong here, not {sorted(strange or data)}")
    rules = [_read_rule(table, f"{name}, rule {n}") for n, table in enumerate(data.get("rule", []), 1)]
    raised: dict[str, Verdict] = {}
    for n, table in enumerate(data.get("raise", []), 1):
        where = f"{name}, raise {n}"
        if not isinstance(table, dict) or set(table) != {"id", "verdict"}:
            raise BadRule(f"{where}: a raise names the id of a rule and its new verdict")
        raised[str(table["id"])] = _verdict(table["verdict"], where)
    return rules, raised


def _verdict(word: object, where: str) -> Verdict:
    try:
        return Verdict.of(str(word))
    except ValueError as fault:
        raise BadRule(f"{where}: {fault}") from None


def _read_rule(table: Any, where: str) -> Rule:
    if not isinstance(table, dict):
        raise BadRule(f"{where}: a rule is a table")
    where = f"{where} ({table.get('id', 'without id')})"
    lacking, strange = _NEEDED - set(table), set(table) - _KEYS
    if lacking or strange:
        raise BadRule(f"{where}: missing {sorted(lacking)}, unknown {sorted(strange)}")
    verdict = _verdict(table["verdict"], where)
    unsure = _verdict(table.get("unsure", verdict.word), where)
    until = _read_until(table["until"], where) if "until" in table else None
    if (Verdict.WAIT in (verdict, unsure)) != (until is not None):
        raise BadRule(f"{where}: a wait, and only a wait, says 'until'")
    for key in _TEXTS:
        if not isinstance(table[key], str) or not clean_text(table[key]):
            raise BadRule(f"{where}: '{key}' is a text and is not empty")
    sources = _sources(table["sources"], where)
    return Rule(
        id=clean_text(table["id"]),
        when=read_condition(table["when"], where),
        verdict=verdict,
        unsure=unsure,
        until=until,
        trade=clean_text(table["trade"]),
        plain=clean_text(table["plain"]),
        remedy=clean_text(table["remedy"]),
        sources=sources,
    )


def _sources(names: Any, where: str) -> tuple[str, ...]:
    if not isinstance(names, list) or not names:
        raise BadRule(f"{where}: 'sources' is a list of at least one source")
    unknown = [name for name in names if not isinstance(name, str) or not is_source(name)]
    if unknown:
        raise BadRule(f"{where}: unknown sources {unknown}")
    return tuple(names)


def _read_until(table: Any, where: str) -> Until:
    kinds = {"words": str, "fact": str, "field": str, "days": int, "months": int}
    if (
        not isinstance(table, dict)
        or not set(table) <= set(kinds)
        or not all(isinstance(value, kinds[key]) for key, value in table.items())
        or not table.get("words")
    ):
        raise BadRule(f"{where}: 'until' is a table of words, and fact, field, days or months")
    until = Until(**table)
    if until.fact and (until.fact not in FACTS or FACTS[until.fact].unit != "moment"):
        raise BadRule(f"{where}: 'until' needs a fact that is a moment, not '{until.fact}'")
    dated = (Kind.DAY, Kind.MOMENT)
    if until.field and (until.field not in questions() or questions()[until.field].kind not in dated):
        raise BadRule(f"{where}: '{until.field}' is not a date")
    if not until.fact and not (until.days or until.months):
        raise BadRule(f"{where}: 'until' needs days, months or a fact, so that a date can be computed")
    return until


@cache
def builtin_rules() -> tuple[Rule, ...]:
    """The rules that ship with the program."""
    found: list[Rule] = []
    for name in TABLES:
        text = files("consult.gates").joinpath("rules", f"{name}.toml").read_text("utf-8")
        found += read_rules(text, f"{name}.toml")[0]
    _refuse_twins(found)
    return tuple(found)


def _refuse_twins(rules: list[Rule]) -> None:
    seen: set[str] = set()
    for rule in rules:
        if rule.id in seen:
            raise BadRule(f"rule id '{rule.id}' stands twice; give the newer one a name of its own")
        seen.add(rule.id)


def with_salon_rules(path: Path) -> tuple[Rule, ...]:
    """The program's rules and those of a salon-rule file. Raises BadRule or OSError."""
    try:
        text = path.read_text("utf-8")
    except UnicodeDecodeError:
        raise BadRule(f"{path.name}: not UTF-8 text") from None
    added, raised = read_rules(text, path.name, beside=("settings",))
    known = {rule.id: rule for rule in builtin_rules()}
    for id_, verdict in raised.items():
        if id_ not in known:
            raise BadRule(f"{path.name}: there is no rule '{id_}' to raise")
        rule = known[id_]
        if verdict < max(rule.verdict, rule.unsure):
            raise BadRule(f"{path.name}: '{id_}' is {rule.verdict.word}; a salon rule may only raise it")
        if verdict is Verdict.WAIT:
            raise BadRule(f"{path.name}: a raised verdict cannot be a wait; add a rule of your own")
        known[id_] = replace(rule, verdict=verdict, unsure=verdict, until=None)
    rules = [*known.values(), *added]
    _refuse_twins(rules)
    return tuple(rules)
