"""A colour typed by hand: CIELAB as three numbers, or a screen's #rrggbb. Plain arithmetic, no numpy."""

import re
from typing import Annotated

from pydantic import AfterValidator, BeforeValidator, StringConstraints

from consult.cleaning import clean_text

COLOUR_UNIT = "L* a* b*, or #rrggbb"
COLOUR_WORDS = "three CIELAB numbers such as 41 12 20, or a colour as #rrggbb"

_HEX = re.compile(r"#([0-9a-fA-F]{6})")
_NUMBER = r"(-?\d{1,3}(?:\.\d+)?)"
_LAB = re.compile(rf"(?:lab\s*)?\(?\s*{_NUMBER}[\s,;]+{_NUMBER}[\s,;]+{_NUMBER}\s*\)?", re.IGNORECASE)
_WHITE = (0.95047, 1.0, 1.08883)  # iec-61966-2-1
_RGB_TO_XYZ = (  # iec-61966-2-1
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)


def lab_of_linear(rgb: tuple[float, float, float]) -> tuple[float, float, float]:
    """CIELAB under D65 of linear sRGB light, 1 for the perfect diffuser."""
    f = []
    for row, white in zip(_RGB_TO_XYZ, _WHITE, strict=True):
        ratio = sum(weight * light for weight, light in zip(row, rgb, strict=True)) / white
        f.append(ratio ** (1 / 3) if ratio > 216 / 24389 else (24389 / 27 * ratio + 16) / 116)
    return 116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])


def linear(channel: float) -> float:
    """Linear light 0..1 of an sRGB channel 0..1 (iec-61966-2-1)."""
    return float(channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4)


def typed_lab(text: str) -> tuple[float, float, float]:
    """CIELAB of a typed colour. Raises ValueError where it is none."""
    if found := _HEX.fullmatch(text.strip()):
        red, green, blue = (linear(int(found[1][i : i + 2], 16) / 255) for i in (0, 2, 4))
        return lab_of_linear((red, green, blue))
    if found := _LAB.fullmatch(text.strip()):
        light, a, b = (float(found[i]) for i in (1, 2, 3))
        if 0 < light < 100 and abs(a) <= 128 and abs(b) <= 128:
            return light, a, b
    raise ValueError("three CIELAB numbers (L* a* b*, L* over 0 and under 100) or #rrggbb")


def _readable(text: str) -> str:
    typed_lab(text)
    return text


def _clean(value: object) -> object:
    return clean_text(value) if isinstance(value, str) else value


TypedColour = Annotated[
    str, BeforeValidator(_clean), StringConstraints(min_length=5, max_length=40), AfterValidator(_readable)
]
