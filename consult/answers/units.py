"""Metric and US units at the boundary. Inside, everything is cm, ml, g and percent peroxide.

A bare number is metric. A text carries its unit: "12 in", "4 fl oz", "2 oz", "20 vol", "1:1.5".
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

_QUANTITY = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*([a-zA-Z%\"″ .]*?)\s*")


def percent_of_volume(volume: float) -> float:
    """Percent peroxide of a volume strength: the trade's round figure where there is one."""
    return NOMINAL_VOLUMES.get(volume, round(volume * PERCENT_PER_VOLUME, 2))


def volume_of_percent(percent: float) -> float:
    """Volume strength of a percent, rounded to the trade's figure when within 2 % of it."""
    exact = percent / PERCENT_PER_VOLUME
    return next((v for v in NOMINAL_VOLUMES if abs(exact - v) <= 0.02 * v), round(exact, 1))


def _reader(units: dict[str, Callable[[float], float]]) -> Callable[[object], object]:
    """A validator that turns "number unit" into the inner unit and leaves all else alone."""

    def read(value: object) -> object:
        if not isinstance(value, str):
            return value
        match = _QUANTITY.fullmatch(value)
        if not match:
            return value
        convert = units.get(match[2].strip().lower().replace(".", ""))
        return round(convert(float(match[1].replace(",", "."))), 2) if convert else value

    return read


def _same(value: float) -> float:
    return value


_LENGTH = {
    "": _same,
    "cm": _same,
    "mm": lambda v: v / 10,
    "in": lambda v: v * CM_PER_INCH,
    "inch": lambda v: v * CM_PER_INCH,
    "inches": lambda v: v * CM_PER_INCH,
    '"': lambda v: v * CM_PER_INCH,
    "″": lambda v: v * CM_PER_INCH,
}
_CAPACITY = {"": _same, "ml": _same, "fl oz": lambda v: v * ML_PER_US_FL_OZ}
_WEIGHT = {"": _same, "g": _same, "oz": lambda v: v * G_PER_OZ}
_STRENGTH = {"%": _same, "vol": percent_of_volume, "volume": percent_of_volume}
_SHARE = {"": _same, "%": _same}
_MINUTES = {"": _same, "min": _same, "minutes": _same}


def _ratio(value: object) -> object:
    """ "1:1.5" and "1+1.5" are 1.5 parts of developer to one part of colour; "2:1" is 0.5."""
    if isinstance(value, str):
        value = value.replace(",", ".")
        match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[:+]\s*(\d+(?:\.\d+)?)\s*", value)
        if match and float(match[1]):
            return round(float(match[2]) / float(match[1]), 3)
        if re.fullmatch(r"\s*\d+(?:\.\d+)?\s*", value):
            return float(value)
    return value


# What lies outside these is a slip of the pen, or another unit (common practice).
HairLength = Annotated[float, BeforeValidator(_reader(_LENGTH)), Field(ge=0.5, le=200)]
Cm = Annotated[float, BeforeValidator(_reader(_LENGTH)), Field(ge=0, le=200)]
PackMl = Annotated[float, BeforeValidator(_reader(_CAPACITY)), Field(ge=20, le=1000)]
TubeGrams = Annotated[float, BeforeValidator(_reader(_WEIGHT)), Field(ge=10, le=1000)]
PeroxidePercent = Annotated[float, BeforeValidator(_reader(_STRENGTH)), Field(ge=1, le=40)]
Percent = Annotated[float, BeforeValidator(_reader(_SHARE)), Field(ge=0, le=100)]
Minutes = Annotated[float, BeforeValidator(_reader(_MINUTES)), Field(ge=0, le=240)]
TotalMinutes = Annotated[float, BeforeValidator(_reader(_MINUTES)), Field(ge=5, le=240)]
LeafletMinutes = Annotated[float, BeforeValidator(_reader(_MINUTES)), Field(ge=5, le=120)]
Ratio = Annotated[float, BeforeValidator(_ratio), Field(ge=0.3, le=4)]
