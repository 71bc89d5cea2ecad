"""Metric and US units at the boundary. Inside, everything is cm, ml, g and percent peroxide.

A bare number is metric. A text carries its unit: "12 in", "1½ fl oz", "2 oz", "20 vol", "1h30", "1:1.5".
"""

import re
from collections.abc import Callable
from typing import Annotated

from pydantic import BeforeValidator, Field

from consult.sources import Number

CM_PER_INCH = Number(2.54, "cm/in", "international-yard")
ML_PER_US_FL_OZ = Number(29.5735295625, "ml/fl oz", "nist-hb44")
G_PER_OZ = Number(28.349523125, "g/oz", "international-yard")
# One volume of solution gives n volumes of oxygen at 0 °C, 1 atm; M = 34.0147, Vm = 22.41397.
PERCENT_PER_VOLUME = Number(0.303513, "% w/v per volume", "volume-strength")
NOMINAL_VOLUMES = {10.0: 3.0, 20.0: 6.0, 30.0: 9.0, 40.0: 12.0}
"""The trade's round figures, volume -> percent (common practice)."""

_FRACTIONS = str.maketrans(
    {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3", "⅛": " 1/8", "⁄": "/"}
)
# Digits are bounded: no text of any length makes an infinite number.
_DECIMAL = r"[0-9]{1,9}(?:[.,][0-9]{1,9})?|[.,][0-9]{1,9}"
_MIXED = re.compile(r"(?:([0-9]{1,4}) +)?([0-9]{1,4}) ?/ ?([0-9]{1,4})")
_NUMBER = r"(?:(?:[0-9]{1,4} +)?[0-9]{1,4} ?/ ?[0-9]{1,4}|" + _DECIMAL + ")"
_UNIT = r"[a-zA-Z%\"″'. ]{0,20}"
_QUANTITY = re.compile(rf"(?P<before>[a-zA-Z.]{{0,10}} *)(?P<number>{_NUMBER}) *(?P<after>{_UNIT})")
_HOURS_MINUTES = re.compile(
    r"([0-9]{1,2}) *(?:h|hours?) *([0-5]?[0-9]) *(?:m|mins?|minutes?)?", re.IGNORECASE
)
_RATIO = re.compile(rf"({_NUMBER}) *(?:[:+]|to) *({_NUMBER})", re.IGNORECASE)

Units = dict[str, Callable[[float], float]]
"""The words of a unit, in small letters -> what turns a number of it into the inner unit."""


def number_in(text: str) -> float | None:
    """A number alone, as people write it: 12, 12.5, 12,5, 1/2, 1 1/2, 1½; None when it is none.

    Of fractions only proper ones: 9/3 is how a shade may be written, and no depth of 3.
    """
    text = text.translate(_FRACTIONS).strip()
    if mixed := _MIXED.fullmatch(text):
        above, below = int(mixed[2]), int(mixed[3])
        return int(mixed[1] or 0) + above / below if 0 < above < below else None
    return float(text.replace(",", ".")) if re.fullmatch(_DECIMAL, text) else None


def percent_of_volume(volume: float) -> float:
    """Percent peroxide of a volume strength: the trade's round figure where there is one."""
    return NOMINAL_VOLUMES.get(volume, round(volume * PERCENT_PER_VOLUME, 2))


def volume_of_percent(percent: float) -> float:
    """Volume strength of a percent, rounded to the trade's figure when within 2 % of it."""
    exact = percent / PERCENT_PER_VOLUME
    return next((v for v in NOMINAL_VOLUMES if abs(exact - v) <= 0.02 * v), round(exact, 1))


def quantity(text: str, units: Units) -> float | None:
    """A number with its unit behind or before it, in the inner unit, to two decimals; None when it is none."""
    found = _QUANTITY.fullmatch(text.translate(_FRACTIONS).strip())
    if not found or (found["before"].strip() and found["after"]):
        return None
    unit = " ".join((found["before"] + found["after"]).lower().replace(".", "").split())
    number, convert = number_in(found["number"]), units.get(unit)
    return None if number is None or convert is None else round(convert(number), 2)


def _reader(units: Units) -> Callable[[object], object]:
    """A validator that turns "number unit" into the inner unit and leaves all else alone."""

    def read(value: object) -> object:
        found = quantity(value, units) if isinstance(value, str) else None
        return value if found is None else found

    return read


def times(factor: float, *words: str) -> Units:
    """A unit of which one is `factor` of the inner unit, under each of its words."""
    return dict.fromkeys(words, lambda value: value * factor)


_LENGTH = (
    times(1, "", "cm")
    | times(0.1, "mm")
    | times(100, "m")
    | times(CM_PER_INCH, "in", "inch", "inches", '"', "″", "''")
)
_CAPACITY = times(1, "", "ml") | times(ML_PER_US_FL_OZ, "fl oz", "floz", "fluid ounce", "fluid ounces")
_WEIGHT = times(1, "", "g", "gram", "grams") | times(G_PER_OZ, "oz", "ounce", "ounces")
_SHARE = times(1, "", "%", "percent", "per cent")
_STRENGTH = times(1, "%", "percent", "per cent") | dict.fromkeys(
    ("vol", "vols", "volume", "volumes"), percent_of_volume
)
_MINUTES = times(1, "", "min", "mins", "minute", "minutes") | times(60, "h", "hour", "hours")


def _minutes(value: object) -> object:
    """ "1h30" beside what the units say."""
    found = _HOURS_MINUTES.fullmatch(value.strip()) if isinstance(value, str) else None
    return 60.0 * int(found[1]) + int(found[2]) if found else _reader(_MINUTES)(value)


def _ratio(value: object) -> object:
    """ "1:1.5", "1+1.5" and "1 to 1.5" are 1.5 parts of developer to one part of colour; "2:1" is 0.5."""
    if not isinstance(value, str):
        return value
    found = _RATIO.fullmatch(value.translate(_FRACTIONS).strip())
    colour, developer = (number_in(found[1]), number_in(found[2])) if found else (1, number_in(value))
    return round(developer / colour, 3) if colour and developer is not None else value


# What lies outside these is a slip of the pen, or another unit (common practice).
HairLength = Annotated[float, BeforeValidator(_reader(_LENGTH)), Field(ge=0.5, le=200)]
Cm = Annotated[float, BeforeValidator(_reader(_LENGTH)), Field(ge=0, le=200)]
PackMl = Annotated[float, BeforeValidator(_reader(_CAPACITY)), Field(ge=20, le=1000)]
TubeGrams = Annotated[float, BeforeValidator(_reader(_WEIGHT)), Field(ge=10, le=1000)]
PeroxidePercent = Annotated[float, BeforeValidator(_reader(_STRENGTH)), Field(ge=1, le=40)]
Percent = Annotated[float, BeforeValidator(_reader(_SHARE)), Field(ge=0, le=100)]
Minutes = Annotated[float, BeforeValidator(_minutes), Field(ge=0, le=240)]
TotalMinutes = Annotated[float, BeforeValidator(_minutes), Field(ge=5, le=240)]
LeafletMinutes = Annotated[float, BeforeValidator(_minutes), Field(ge=5, le=120)]
Ratio = Annotated[float, BeforeValidator(_ratio), Field(ge=0.3, le=4)]
