"""Results that were recorded: what had been predicted, what was seen, how wide the stated band was.

A salon keeps them in its own file, one table each, and its forecasts become as wide as they deserve:

    [[seen]]
    predicted = "30 10 16"
    seen = "31.5 9 15"
    band = 7
"""

from collections.abc import Mapping

from msgspec import Struct

from consult.answers.typed_colour import typed_lab
from consult.colour.values import Lab
from consult.plan.settings import BadSetting

MOST = 1000
_NAMES = {"predicted", "seen", "band"}


class Result(Struct, frozen=True):
    """One result: two CIELAB colours, and the colour difference that had been stated as the limit."""

    predicted: Lab
    seen: Lab
    band: float


def read_results(tables: object) -> tuple[Result, ...]:
    """Results from [[seen]] tables. Raises BadSetting naming the entry."""
    if not isinstance(tables, list) or len(tables) > MOST:
        raise BadSetting(f"[[seen]] must be a list of at most {MOST} tables")
    return tuple(_result(number, table) for number, table in enumerate(tables, 1))


def _result(number: int, table: object) -> Result:
    place = f"seen {number}"
    if not isinstance(table, Mapping) or set(table) != _NAMES:
        raise BadSetting(f"{place}: needs predicted, seen and band, and nothing else")
    band = table["band"]
    if isinstance(band, bool) or not isinstance(band, int | float) or not 0.5 <= band <= 50:
        raise BadSetting(f"{place}: band: a colour difference from 0.5 to 50")
    return Result(_colour(place, table, "predicted"), _colour(place, table, "seen"), float(band))


def _colour(place: str, table: Mapping[object, object], name: str) -> Lab:
    typed = table[name]
    try:
        if isinstance(typed, str):
            return typed_lab(typed)
    except ValueError:
        pass
    raise BadSetting(f"{place}: {name}: expected three CIELAB numbers or #rrggbb, in quotes")
