"""The TOML of a rule table, checked and read: [[rule]], [[raise]], [group], [condition]."""

from collections.abc import Mapping
from typing import Any

from msgspec import Struct

from consult.answers.questions import Kind, questions
from consult.cleaning import clean_text
from consult.gates.conditions import BadRule, Names, is_number, quoted, read_condition
from consult.gates.facts import FACTS
from consult.gates.limits import NO_EFFECT, Effect
from consult.gates.rule import Rule, Until
from consult.gates.verdict import Verdict
from consult.sources import is_source
from consult.trade import CLASSES, GROUPS, Phrase, Stretch

MOST_RULES = 500
"""In one table; the program itself has some 130."""
LONGEST_TEXT = 600
LONGEST_ID = 60
LONGEST_WAIT = {"days": 3_660, "months": 120}
_KEYS = {"id", "when", "verdict", "unsure", "until", "trade", "plain", "remedy", "sources", "kinds", "effect"}
_NEEDED = _KEYS - {"unsure", "until", "kinds", "effect"}
_STEPS = ("before", "during", "after")
_FLAGS = ("no_lift", "off_scalp", "strand_test", "licensed")
_RANGES = {"developer_at_most": (0, 12), "test_hours": (48, 168)}
STRETCHES = {stretch.value: stretch for stretch in Stretch}


class Table(Struct, frozen=True):
    """What stands in one table: its rules, and the verdicts it raises."""

    rules: list[Rule]
    raised: dict[str, Verdict]


def read_table(data: Mapping[str, Any], name: str, names: Names) -> Table:
    """Rules and raises out of TOML data. Raises BadRule naming the place.

    `names` are the groups and conditions it may use beside its own.
    """
    strange = set(data) - {"rule", "raise", "group", "condition"}
    if strange:
        raise BadRule(
            f"{name}: only [[rule]], [[raise]], [group] and [condition] belong here, not {quoted(min(strange))}"
        )
    names = read_names(data, name, names)
    rules = [
        _read_rule(table, f"{name}, rule {number}", names)
        for number, table in enumerate(_tables(data, "rule", name), 1)
    ]
    raised: dict[str, Verdict] = {}
    for number, table in enumerate(_tables(data, "raise", name), 1):
        where = f"{name}, raise {number}"
        if set(table) != {"id", "verdict"}:
            raise BadRule(f"{where}: a raise names the id of a rule and its new verdict")
        id_ = clean_text(str(table["id"]))[:LONGEST_ID]
        if id_ in raised:
            raise BadRule(f"{where}: {quoted(id_)} is raised twice")
        raised[id_] = _verdict(table["verdict"], where)
    return Table(rules, raised)


def read_names(data: Mapping[str, Any], name: str, names: Names) -> Names:
    """The names of a table on top of others: `[group]` of choices and `[condition]`. Raises BadRule."""
    found = Names({**GROUPS, **names.groups}, dict(names.conditions))
    for key in ("group", "condition"):
        if not isinstance(data.get(key, {}), dict):
            raise BadRule(f"{name}: [{key}] is one table; each line in it is a name and what it stands for")
    for group, choices in data.get("group", {}).items():
        if not isinstance(choices, list) or not choices or not all(isinstance(c, str) for c in choices):
            raise BadRule(f"{name}: group {quoted(group)}: a list of choices in quotes")
        if found.groups.get(group, tuple(choices)) != tuple(choices):
            raise BadRule(f"{name}: there is a group {quoted(group)} already; choose another name")
        found.groups[group] = tuple(choices)
    for condition, table in data.get("condition", {}).items():
        if condition in found.conditions:
            raise BadRule(f"{name}: there is a condition {quoted(condition)} already; choose another name")
        where = f"{name}, condition {quoted(condition)}"
        found.conditions[condition] = read_condition(table, where, names=found)
    return found


def _tables(data: Mapping[str, Any], key: str, name: str) -> list[dict[str, Any]]:
    found = data.get(key, [])
    if not isinstance(found, list) or not all(isinstance(table, dict) for table in found):
        raise BadRule(f"{name}: '{key}' is written as [[{key}]], each a table")
    if len(found) > MOST_RULES:
        raise BadRule(f"{name}: at most {MOST_RULES} [[{key}]] in one table")
    return found


def _verdict(word: object, where: str) -> Verdict:
    try:
        return Verdict.of(str(word))
    except ValueError as error:
        raise BadRule(f"{where}: {error}") from None


def _read_rule(table: dict[str, Any], where: str, names: Names) -> Rule:
    where = f"{where} ({quoted(table.get('id', 'without id'))[1:-1]})"
    missing, strange = _NEEDED - set(table), set(table) - _KEYS
    if missing:
        raise BadRule(f"{where}: missing {', '.join(sorted(missing))}")
    if strange:
        raise BadRule(f"{where}: a rule has no key {quoted(min(strange))}")
    verdict = _verdict(table["verdict"], where)
    unsure = _verdict(table.get("unsure", verdict.word), where)
    until = _read_until(table["until"], where) if "until" in table else None
    if (Verdict.WAIT in (verdict, unsure)) != (until is not None):
        raise BadRule(f"{where}: a wait, and only a wait, says 'until'")
    return Rule(
        id=_text(table["id"], "id", where, LONGEST_ID),
        when=read_condition(table["when"], where, names=names),
        verdict=verdict,
        unsure=unsure,
        until=until,
        trade=_text(table["trade"], "trade", where),
        plain=_text(table["plain"], "plain", where),
        remedy=_text(table["remedy"], "remedy", where),
        sources=_sources(table["sources"], where),
        kinds=_kinds(table["kinds"], where, names) if "kinds" in table else (),
        effect=_read_effect(table["effect"], where) if "effect" in table else NO_EFFECT,
    )


def _text(value: object, key: str, where: str, longest: int = LONGEST_TEXT) -> str:
    text = clean_text(value) if isinstance(value, str) else ""
    if not text or len(text) > longest:
        raise BadRule(f"{where}: '{key}' is a text of 1 to {longest} characters")
    return text


def _sources(names: object, where: str) -> tuple[str, ...]:
    if not isinstance(names, list) or not names:
        raise BadRule(f"{where}: 'sources' is a list of at least one source")
    for name in names:
        if not isinstance(name, str) or not is_source(name):
            raise BadRule(
                f"{where}: there is no source {quoted(name)}; 'common practice' or 'assumption' will do"
            )
    return tuple(names)


def _kinds(kinds: object, where: str, names: Names) -> tuple[str, ...]:
    if isinstance(kinds, str):
        kinds = list(names.groups.get(kinds, ()))
    if not isinstance(kinds, list) or not kinds or not all(kind in CLASSES for kind in kinds):
        raise BadRule(f"{where}: 'kinds' is a list from: {', '.join(CLASSES)}; or a [group] of them")
    return tuple(kinds)


def _read_until(table: object, where: str) -> Until:
    kinds = {"words": str, "fact": str, "field": str, "days": int, "months": int}
    if (
        not isinstance(table, dict)
        or not set(table) <= set(kinds)
        or not all(isinstance(value, kinds[key]) for key, value in table.items())
        or not table.get("words")
    ):
        raise BadRule(f"{where}: 'until' is a table of words, and fact, field, days or months")
    for key, most in LONGEST_WAIT.items():
        if not 0 <= table.get(key, 0) <= most or isinstance(table.get(key), bool):
            raise BadRule(f"{where}: 'until' waits 0 to {most} {key}")
    until = Until(**{**table, "words": _text(table["words"], "until", where)})
    if until.fact and (until.fact not in FACTS or FACTS[until.fact].unit != "moment"):
        raise BadRule(f"{where}: 'until' needs a fact that is a moment, not {quoted(until.fact)}")
    dated = (Kind.DAY, Kind.MOMENT)
    if until.field and (until.field not in questions() or questions()[until.field].kind not in dated):
        raise BadRule(f"{where}: {quoted(until.field)} is not a date")
    if not until.fact and not (until.days or until.months):
        raise BadRule(f"{where}: 'until' needs days, months or a fact, so that a date can be computed")
    return until


def _read_effect(table: object, where: str) -> Effect:
    known = (*_RANGES, *_FLAGS, *_STEPS, "time", "leave")
    if not isinstance(table, dict) or not set(table) <= set(known):
        raise BadRule(f"{where}: 'effect' is a table of: {', '.join(known)}")
    if not table:
        return NO_EFFECT
    wanted = dict(table)
    for key, (low, high) in _RANGES.items():
        if key in table and not (is_number(table[key]) and low <= table[key] <= high):
            raise BadRule(f"{where}: effect '{key}' is a number from {low} to {high}")
    for key in _FLAGS:
        if table.get(key, True) is not True:
            raise BadRule(f"{where}: effect '{key}' can only be true")
    if table.get("time", "shortest") not in ("shortest", "longest"):
        raise BadRule(f"{where}: effect 'time' is shortest or longest")
    if "leave" in table:
        left = table["leave"]
        if not isinstance(left, list) or not left or not all(name in STRETCHES for name in left):
            raise BadRule(f"{where}: effect 'leave' is a list from: {', '.join(STRETCHES)}")
        wanted["leave"] = tuple(STRETCHES[name] for name in left)
    for key in set(_STEPS) & set(table):
        words = table[key]
        if not isinstance(words, dict) or set(words) != {"trade", "plain"}:
            raise BadRule(f"{where}: effect '{key}' has 'trade' and 'plain' words")
        wanted[key] = Phrase(*(_text(words[voice], key, where) for voice in ("trade", "plain")))
    return Effect(**wanted)
