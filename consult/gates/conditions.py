"""Conditions of a rule: checked when they are loaded, true, false or open when they are asked.

{ field = "scalp.signs", has = ["redness"] }      { fact = "lift", over = 2 }
{ entries = "history.services", where = { field = "kind", is = "perm" } }
{ all = [ ... ] }    { any = [ ... ] }    { not = { ... } }    { condition = "strand test held" }

A string where a list is expected names a group of choices; where a number is expected it names one of the
trade's thresholds, so that rules and plan never differ in it.
"""

from datetime import date
from operator import ge, gt, le, lt
from typing import Any

from msgspec import Struct, field

from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, Question, questions
from consult.cleaning import clean_text
from consult.files import short_error
from consult.gates.facts import FACTS
from consult.trade import THRESHOLDS

DEEPEST = 20
"""Conditions within conditions; far more than a person can follow."""
LONGEST_SPAN = 36_500
"""Days of `within_days`: a hundred years."""
HUGE = 1e9
"""No answer and no fact is a number as large as this."""


class BadRule(ValueError):
    """A rule table that cannot be loaded; the text names the place and what would be right."""

    def __init__(self, line: str) -> None:
        super().__init__(short_error(line))


class Comparison(Struct, frozen=True):
    """One comparison of an answer (`field`) or a computed fact (`fact`)."""

    field: str | None
    fact: str | None
    operator: str
    value: Any

    __test__ = False


class AllOf(Struct, frozen=True):
    parts: tuple["Condition", ...]


class AnyOf(Struct, frozen=True):
    parts: tuple["Condition", ...]


class Not(Struct, frozen=True):
    part: "Condition"


class AnyEntry(Struct, frozen=True):
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


THRESHOLD_VALUES = {name: float(number) for name, number in THRESHOLDS.items()}


class Names(Struct):
    """What a table's conditions may call by name: groups of choices, and conditions that rules share."""

    groups: dict[str, tuple[str, ...]] = field(default_factory=dict)
    conditions: dict[str, "Condition"] = field(default_factory=dict)


def quoted(value: object) -> str:
    """A word of a table as an error may repeat it: cleaned, short, in quotes."""
    return f"'{clean_text(str(value)[:60])[:40]}'"


def read_condition(
    table: object, where: str, inside: str = "", names: Names | None = None, depth: int = 0
) -> Condition:
    """A condition out of its TOML table; `inside` is the list whose entries are tested.

    Raises BadRule for an unknown field, fact, name, operator, choice or type of value.
    """
    if not isinstance(table, dict):
        raise BadRule(f"{where}: a condition is a table such as {{ field = ..., is = ... }}")
    if depth > DEEPEST:
        raise BadRule(f"{where}: conditions stand within conditions more than {DEEPEST} deep")
    names = names or Names()
    if "all" in table or "any" in table:
        word = "all" if "all" in table else "any"
        if len(table) != 1 or not isinstance(table[word], list) or not table[word]:
            raise BadRule(f"{where}: '{word}' stands alone and holds a list of conditions")
        parts = tuple(read_condition(part, where, inside, names, depth + 1) for part in table[word])
        return AllOf(parts) if word == "all" else AnyOf(parts)
    if "not" in table:
        if len(table) != 1:
            raise BadRule(f"{where}: 'not' stands alone and holds one condition")
        return Not(read_condition(table["not"], where, inside, names, depth + 1))
    if "entries" in table:
        path = table["entries"]
        if not isinstance(path, str) or path not in questions() or questions()[path].kind is not Kind.ENTRIES:
            raise BadRule(f"{where}: {quoted(path)} is not a list of entries")
        if set(table) != {"entries", "where"}:
            raise BadRule(f"{where}: 'entries' goes with 'where' and nothing else")
        if inside:
            raise BadRule(f"{where}: a list of entries cannot stand inside another")
        return AnyEntry(path, read_condition(table["where"], where, path, names, depth + 1))
    if "condition" in table:
        name = table["condition"]
        if len(table) != 1 or inside:
            raise BadRule(f"{where}: 'condition' stands alone, and not inside 'where'")
        if not isinstance(name, str) or name not in names.conditions:
            raise BadRule(f"{where}: there is no [condition] {quoted(name)}")
        return names.conditions[name]
    return _read_comparison(table, where, inside, names)


def _read_comparison(table: dict[str, Any], where: str, inside: str, names: Names) -> Comparison:
    subject = {"field", "fact"} & set(table)
    operators = set(table) - subject
    if len(subject) != 1 or len(operators) != 1:
        raise BadRule(f"{where}: a condition names one field or fact and one comparison")
    (subject_kind,), (operator,) = subject, operators
    name, value = table[subject_kind], table[operator]
    if not isinstance(name, str):
        raise BadRule(f"{where}: '{subject_kind}' is a name in quotes")
    if operator in _NUMBER_OPERATORS or operator == "within_days":
        value = THRESHOLD_VALUES.get(value, value) if isinstance(value, str) else value
    if subject_kind == "fact" and inside:
        raise BadRule(f"{where}: a fact is of the whole head; it stands beside 'entries', not inside 'where'")
    if subject_kind == "fact":
        if name not in FACTS:
            raise BadRule(
                f"{where}: there is no fact {quoted(name)}; see consult/gates/facts.py for the names"
            )
        _check_fact(where, name, operator, value)
        return Comparison(None, name, operator, value)
    path = f"{inside}.{name}" if inside else name
    question = questions().get(path)
    if question is None:
        raise BadRule(f"{where}: there is no question {quoted(path)}")
    if question.entry_of and question.entry_of != inside:
        raise BadRule(f"{where}: '{path}' stands in a list; test it with 'entries' and 'where'")
    if operator in ("in", "has") and isinstance(value, str):
        if value not in names.groups:
            raise BadRule(f"{where}: 'in' and 'has' take a list of choices or a [group], not {quoted(value)}")
        value = names.groups[value]
    value = tuple(value) if isinstance(value, list) else value
    _check_field(where, question, operator, value)
    return Comparison(path, None, operator, value)


def _check_fact(where: str, name: str, operator: str, value: object) -> None:
    if FACTS[name].unit == "moment":
        raise BadRule(f"{where}: '{name}' is a moment; it can end a wait but not be compared")
    if FACTS[name].unit == "yes/no":
        if operator != "is" or value not in ("yes", "no"):
            raise BadRule(f"{where}: '{name}' is yes or no")
    elif operator not in _NUMBER_OPERATORS or not is_number(value):
        raise BadRule(f"{where}: '{name}' is a number; compare it with {', '.join(_NUMBER_OPERATORS)}")


def _check_field(where: str, question: Question, operator: str, value: object) -> None:
    allowed = _OPERATORS[question.kind]
    if operator not in allowed:
        raise BadRule(f"{where}: '{question.path}' can be compared by {', '.join(allowed)}")
    if operator in ("is", "in", "has"):
        given = value if isinstance(value, tuple) else (value,)
        known = question.choices or question.literals
        strange = [item for item in given if item not in known]
        if strange or not given:
            named = quoted(strange[0]) if strange else "in an empty list"
            raise BadRule(f"{where}: '{question.path}' has no choice {named}")
        if isinstance(value, tuple) == (operator == "is"):
            raise BadRule(f"{where}: 'is' takes one choice, 'in' and 'has' take a list of them")
    elif operator in (*_NUMBER_OPERATORS, "within_days"):
        if not is_number(value):
            unit = f" in {question.unit}" if question.unit else ""
            raise BadRule(f"{where}: '{operator}' takes a bare number{unit}, or the name of a threshold")
        assert isinstance(value, int | float)
        high = LONGEST_SPAN if question.high is None else question.high
        if value < (question.low or 0) or value > high:
            raise BadRule(f"{where}: no answer to '{question.path}' lies beyond {value:g}")
    elif value is not True:
        raise BadRule(f"{where}: '{operator}' takes true")


def is_number(value: object) -> bool:
    """A finite number that is small enough to be anything a head can have."""
    return isinstance(value, int | float) and not isinstance(value, bool) and -HUGE < value < HUGE


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
    if not is_number(given):
        return False
    return bool(_COMPARISONS[operator](given, value))
