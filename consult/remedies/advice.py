"""What is advised when something went wrong: tables, checked and read.

    [[fault]]        what went wrong: its family, the least help it asks for, and how it is mended, if it is
    [[advice]]       one sentence, for some faults, on some conditions

A sentence's conditions are columns (`when`, `signs`, `skin`, `off_over`) and `if`, a condition on the record in the
gates' own words. `help` raises the help that is needed. A condition that nobody can answer counts as fulfilled: it can
only add a sentence and raise the help, never take either away.
"""

from functools import cache
from pathlib import Path
from typing import Any, Final, Literal, get_args

from msgspec import Struct
from msgspec.structs import replace

from consult.cleaning import clean_text
from consult.files import parse_toml
from consult.gates.conditions import BadRule, Condition, is_number, quoted, read_condition
from consult.gates.rules import shared_names
from consult.plan.lines import Line
from consult.plan.settings import Settings
from consult.remedies.day import SIGNS
from consult.remedies.help import Help
from consult.remedies.words import SKINS, WHATS, WHENS, What
from consult.sources import is_source
from consult.trade import Phrase

Family = Literal["body", "hair", "colour", "stain"]
FAMILIES: Final[tuple[Family, ...]] = get_args(Family)
Kind = Literal["now", "never", "then", "say", "mend"]
KINDS: Final[tuple[Kind, ...]] = get_args(Kind)
"""What to do now; what not to do; what comes later; what to tell and take along; how a mended plan is made up."""
TABLES: Final = ("body", "hair", "colour", "stain")
PLACES: Final = ("emergency", "poison")
"""Words in braces that a setting of the place fills."""
MOST_LEVELS: Final = 9
LONGEST_WAIT: Final = 90
LONGEST_TEXT: Final = 500
_FAULT = {"what", "family", "help", "correction", "mend"}
_MEND = {"product", "tone", "extent", "days"}
_ADVICE = {
    *("id", "for", "kind", "say", "plain", "because", "sources"),
    *("when", "signs", "skin", "off_over", "if", "help"),
}
_NEEDED = {"id", "for", "kind", "say", "because", "sources"}
MendProduct = Literal["the same", "demi-permanent", "direct"]
MEND_PRODUCTS: Final[tuple[MendProduct, ...]] = get_args(MendProduct)


class Way(Struct, frozen=True):
    """One way to mend: with which product, in which tone (None: the wished one), how far, after how many days."""

    product: MendProduct
    tone: str | None
    extent: str
    days: int


class Fault(Struct, frozen=True):
    """One thing that goes wrong. `correction` is true where putting it right is colour correction, a service of its
    own; `ways` are tried in their order, none where it is not mended at home."""

    what: What
    family: Family
    help: Help
    correction: bool
    ways: tuple[Way, ...]


class Advice(Struct, frozen=True):
    """One sentence with its conditions. `off_over`: further than so many levels from the goal."""

    id: str
    faults: tuple[What, ...]
    kind: Kind
    line: Line
    when: tuple[str, ...]
    signs: tuple[str, ...]
    skin: tuple[str, ...]
    off_over: float | None
    condition: Condition | None
    help: Help | None


class Book(Struct, frozen=True):
    """All faults and all advice that ship with the program."""

    faults: tuple[Fault, ...]
    advice: tuple[Advice, ...]

    def fault(self, what: What) -> Fault:
        return next(fault for fault in self.faults if fault.what == what)


@cache
def book() -> Book:
    """The tables that ship with the program. Raises BadRule."""
    found = [read_advice(_own_table(name), f"{name}.toml") for name in TABLES]
    whole = Book(tuple(f for b in found for f in b.faults), tuple(a for b in found for a in b.advice))
    _refuse_twins([fault.what for fault in whole.faults] + [advice.id for advice in whole.advice])
    return whole


def _own_table(name: str) -> dict[str, Any]:
    text = (Path(__file__).parent / "tables" / f"{name}.toml").read_text("utf-8")
    return parse_toml(text, f"{name}.toml")


def _refuse_twins(names: list[Any]) -> None:
    for name in names:
        if names.count(name) > 1:
            raise BadRule(f"{quoted(name)} stands twice")


def read_advice(data: dict[str, Any], name: str) -> Book:
    """Faults and advice out of TOML data. Raises BadRule naming the place."""
    if not set(data) <= {"fault", "advice"}:
        raise BadRule(f"{name}: only [[fault]] and [[advice]] belong here")
    return Book(
        tuple(_fault(table, f"{name}, fault {n}") for n, table in enumerate(data.get("fault", []), 1)),
        tuple(_advice(table, f"{name}, advice {n}") for n, table in enumerate(data.get("advice", []), 1)),
    )


def _fault(table: dict[str, Any], where: str) -> Fault:
    _keys(table, _FAULT, {"what", "family", "help"}, where)
    return Fault(
        _one(table["what"], WHATS, where),
        _one(table["family"], FAMILIES, where),
        _help(table["help"], where),
        table.get("correction") is True,
        tuple(_way(way, where) for way in table.get("mend", [])),
    )


def _way(table: dict[str, Any], where: str) -> Way:
    _keys(table, _MEND, {"product", "extent", "days"}, where)
    days = table["days"]
    if not is_number(days) or not 0 < days <= LONGEST_WAIT:
        raise BadRule(f"{where}: a mend waits 1 to {LONGEST_WAIT} days")
    # Tone and extent are answers; the models refuse strange ones when the plan is made, and a test makes each.
    return Way(
        _one(table["product"], MEND_PRODUCTS, where), table.get("tone"), str(table["extent"]), int(days)
    )


def _advice(table: dict[str, Any], where: str) -> Advice:
    where = f"{where} ({quoted(table.get('id', 'without id'))[1:-1]})"
    _keys(table, _ADVICE, _NEEDED, where)
    sources = table["sources"]
    if not sources or not all(isinstance(name, str) and is_source(name) for name in sources):
        raise BadRule(f"{where}: 'sources' is a list of known sources")
    say, because = _text(table["say"], where), _text(table["because"], where)
    plain = _text(table.get("plain", say), where)
    off = table.get("off_over")
    if off is not None and not (is_number(off) and 0 <= off <= MOST_LEVELS):
        raise BadRule(f"{where}: 'off_over' is 0 to {MOST_LEVELS} levels")
    return Advice(
        str(table["id"]),
        _some(table["for"], WHATS, where),
        _one(table["kind"], KINDS, where),
        Line(Phrase(say, plain), Phrase(because, because), tuple(sources), (str(table["id"]),)),
        _some(table["when"], WHENS, where) if "when" in table else (),
        _some(table["signs"], SIGNS, where) if "signs" in table else (),
        _some(table["skin"], SKINS, where) if "skin" in table else (),
        None if off is None else float(off),
        read_condition(table["if"], where, names=shared_names()) if "if" in table else None,
        _help(table["help"], where) if "help" in table else None,
    )


def _keys(table: dict[str, Any], known: set[str], needed: set[str], where: str) -> None:
    if not isinstance(table, dict) or not needed <= set(table) <= known:
        raise BadRule(f"{where}: needs {', '.join(sorted(needed))} and knows {', '.join(sorted(known))}")


def _text(value: object, where: str) -> str:
    text = clean_text(value) if isinstance(value, str) else ""
    if not text or len(text) > LONGEST_TEXT:
        raise BadRule(f"{where}: a text of 1 to {LONGEST_TEXT} characters")
    return text


def _one(value: Any, choices: tuple[Any, ...], where: str) -> Any:
    if value not in choices:
        raise BadRule(f"{where}: no choice {quoted(value)}")
    return value


def _some(values: object, choices: tuple[Any, ...], where: str) -> tuple[Any, ...]:
    if not isinstance(values, list) or not values:
        raise BadRule(f"{where}: a list of at least one choice")
    return tuple(_one(value, choices, where) for value in values)


def _help(word: object, where: str) -> Help:
    try:
        return Help.of(str(word))
    except ValueError as error:
        raise BadRule(f"{where}: {error}") from None


def placed(told: Line, settings: Settings, *, short: bool = False) -> Line:
    """A line of the tables with the numbers of the place filled in; `short` where it is told already whose they are."""
    emergency = settings.emergency_number if short else settings.emergency_words
    names = {"emergency": emergency, "poison": settings.poison_words}
    return replace(told, say=Phrase(told.say.trade.format(**names), told.say.plain.format(**names)))
