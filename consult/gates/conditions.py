"""Conditions of a rule: checked when they are loaded, true, false or open when they are asked.

{ field = "scalp.signs", has = ["redness"] }      { fact = "lift", over = 2 }
{ entries = "history.services", where = { field = "kind", is = "perm" } }
{ all = [ ... ] }    { any = [ ... ] }    { not = { ... } }
"""

from dataclasses import dataclass
from datetime import date
from operator import ge, gt, le, lt
from typing import Any

from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, Question, questions
from consult.gates.facts import FACTS


class BadRule(ValueError):
    """A rule table that cannot be loaded; the text names the place and the mend."""


@dataclass(frozen=True)
class Comparison:
    """One comparison of an answer (`field`) or a computed fact (`fact`)."""

    field: str | None
    fact: str | None
    operator: str
    value: Any

    __test__ = False


@dataclass(frozen=True)
class AllOf:
    parts: tuple["Condition", ...]


@dataclass(frozen=True)
class AnyOf:
    parts: tuple["Condition", ...]


@dataclass(frozen=True)
class Not:
    part: "Condition"


@dataclass(frozen=True)
class AnyEntry:
    """True when one entry of a list answer fulfils `where`, whose fields are the entry's own."""

    path: str
    where: "Condition"


Condition = Comparison | AllOf | AnyOf | Not | AnyEntry

_COMPARISONS = {"under": lt, "over": gt, "at_least": ge, "at_most": le}
_NUMBER_OPERATORS = tuple(_COMPARISONS)
_OPERATORS = {
    Kind.CHOICE: ("is", "in", "unknown"),
    Kind.SEVERAL: ("has", "unknown"),
    Kind.NUMBER: (*_NUMBER_OPERATORS, "is", "unknown"),
    Kind.DAY: ("within_days", "unknown"),
    Kind.MOMENT: ("within_days", "unknown"),
    Kind.TEXT: ("unknown",),
    Kind.ENTRIES: ("has_entries", "unknown"),
}


def read_condition(table: object, where: str, inside: str = "") -> Condition:
    """A condition out of its TOML table; `inside` is the list whose entries are tested.

    Raises BadRule for an unknown field, fact, operator, choice or type of value.
    """
    if not isinstance(table, dict):
        raise BadRule(f"{where}: a condition is a table such as {{ field = ..., is = ... }}")
    if "all" in table or "any" in table:
        word = "all" if "all" in table else "any"
        if len(table) != 1 or not isinstance(table[word], list) or not table[word]:
            raise BadRule(f"{where}: '{word}' stands alone and holds a list of conditions")
        parts = tuple(read_condition(part, where, inside) for part in table[word])
        return AllOf(parts) if word == "all" else AnyOf(parts)
    if "not" in table:
        if len(table) != 1:
            raise BadRule(f"{where}: 'not' stands alone and holds one condition")
        return Not(read_condition(table["not"], where, inside))
    if "entries" in table:
        path = str(table["entries"])
        if path not in questions() or questions()[path].kind is not Kind.ENTRIES:
            raise BadRule(f"{where}: '{path}' is not a list of entries")
        if set(table) != {"entries", "where"}:
            raise BadRule(f"{where}: 'entries' goes with 'where' and nothing else")
        if inside:
            raise BadRule(f"{where}: a list of entries cannot stand inside another")
        return AnyEntry(path, read_condition(table["where"], where, path))
    return _read_test(table, where, inside)


def _read_test(table: dict[str, Any], where: str, inside: str) -> Comparison:
    subject = {"field", "fact"} & set(table)
    operators = set(table) - subject
    if len(subject) != 1 or len(operators) != 1:
        raise BadRule(f"{where}: a condition names one field or fact and one comparison")
    operator = operators.pop()
    value = table[operator]
    if "fact" in table:
        name = str(table["fact"])
        if name not in FACTS:
            raise BadRule(f"{where}: there is no fact '{name}'; known are {', '.join(FACTS)}")
        _check_fact(where, name, operator, value)
        return Comparison(None, name, operator, value)
    path = f"{inside}.{table['field']}" if inside else str(table["field"])
    question = questions().get(path)
    if question is None:
        raise BadRule(f"{where}: there is no question '{path}'")
    if question.entry_of and question.entry_of != inside:
        raise BadRule(f"{where}: '{path}' stands in a list; test it with 'entries' and 'where'")
    _check_field(where, question, operator, value)
    return Comparison(path, None, operator, value)


def _check_fact(where: str, name: str, operator: str, value: object) -> None:
    if FACTS[name].unit == "moment":
        raise BadRule(f"{where}: '{name}' is a moment; it can end a wait but not be compared")
    if FACTS[name].unit == "yes/no":
        if operator != "is" or value not in ("yes", "no"):
            raise BadRule(f"{where}: '{name}' is yes or no")
    elif operator not in _NUMBER_OPERATORS or not _is_number(value):
        raise BadRule(f"{where}: '{name}' is a number; compare it with {', '.join(_NUMBER_OPERATORS)}")


def _check_field(where: str, question: Question, operator: str, value: object) -> None:
    allowed = _OPERATORS[question.kind]
    if operator not in allowed:
        raise BadRule(f"{where}: '{question.path}' can be compared by {', '.join(allowed)}")
    if operator in ("is", "in", "has"):
        given = value if isinstance(value, list) else [value]
        known = question.choices or question.literals
        strange = [item for item in given if item not in known]
        if strange or not given:
            raise BadRule(f"{where}: '{question.path}' has no choice {strange or given}")
        if isinstance(value, list) == (operator == "is"):
            raise BadRule(f"{where}: 'is' takes one choice, 'in' and 'has' take a list of them")
    elif operator in (*_NUMBER_OPERATORS, "within_days"):
        if not isinstance(value, int | float) or isinstance(value, bool):
            unit = f" in {question.unit}" if question.unit else ""
            raise BadRule(f"{where}: '{operator}' takes a bare number{unit}")
        high = value if question.high is None else question.high
        if value < (question.low or 0) or value > high:
            raise BadRule(f"{where}: no answer to '{question.path}' lies beyond {value:g}")
    elif value is not True:
        raise BadRule(f"{where}: '{operator}' takes true")


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def compare(operator: str, given: Any, value: Any, today: date) -> bool:
    """The bare comparison of a known answer; a fixed word where a number is meant is False."""
    if operator == "is":
        return bool(given == value)
    if operator == "in":
        return given in value
    if operator == "has":
        return any(item in value for item in given)
    if operator == "has_entries":
        return bool(given)
    if operator == "unknown":
        return bool(given == NOT_SURE)
    if operator == "within_days":
        day = given.date() if hasattr(given, "hour") else given
        return bool((today - day).days < value)
    if not _is_number(given):
        return False
    return bool(_COMPARISONS[operator](given, value))
