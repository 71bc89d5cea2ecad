"""What a salon or a person may set; everything has a careful default."""

import re

from msgspec import Struct

from consult.cleaning import clean_text
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

RUN_OUT_CHANCE = Number(0.02, "chance of running out", ASSUMPTION)
SECTIONS = Number(4, "sections", COMMON_PRACTICE)

RANGES = {
    "run_out_chance": (0.001, 0.5, "a chance such as 0.02,"),
    "sections": (4, 5, "sections"),
    "seconds_a_parting": (5, 600, "seconds"),
    "scale_g": (0.1, 10, "the step of the scale in grams,"),
}
"""Setting -> lowest, highest, and what it is."""
NUMBERS_TO_RING = ("emergency_number", "poison_centre")
_RINGS = re.compile(r"\+?[0-9][0-9 /()-]{1,23}")


class BadSetting(ValueError):
    """A setting that cannot be used; the text names it and what would be right."""


class Settings(Struct, frozen=True):
    """run_out_chance as a share; sections of the head; scale in grams; a person's own measured seconds a parting
    of 1.5 cm new growth, None where nobody measured; whom to ring in an emergency and after poisoning."""

    run_out_chance: float = float(RUN_OUT_CHANCE)
    sections: int = int(SECTIONS)
    seconds_a_parting: float | None = None
    scale_g: float = 1.0
    emergency_number: str = "112"
    poison_centre: str = ""

    @property
    def emergency_words(self) -> str:
        """The emergency number as it is told; 112 is the one of the EU, any other place sets its own."""
        own = self.emergency_number
        return f"{own} (in the EU; elsewhere the emergency number of the place)" if own == "112" else own

    @property
    def poison_words(self) -> str:
        """The poison centre as it is told; its number is left to the place."""
        return (
            f"the poison centre ({self.poison_centre})"
            if self.poison_centre
            else "the poison centre of the place"
        )

    def __post_init__(self) -> None:
        for name, (low, high, what) in RANGES.items():
            value = getattr(self, name)
            if value is not None and not low <= value <= high:
                raise BadSetting(f"{name}: {what} from {low:g} to {high:g}")


def read_settings(table: object) -> Settings:
    """Settings from a TOML table. Raises BadSetting naming the entry."""
    if not isinstance(table, dict):
        raise BadSetting("[settings] must be a table")
    for name, value in table.items():
        if name in NUMBERS_TO_RING:
            if not isinstance(value, str) or not _RINGS.fullmatch(value):
                raise BadSetting(f"{name}: a telephone number in quotes, of digits and spaces")
            continue
        if name not in RANGES:
            known = ", ".join((*RANGES, *NUMBERS_TO_RING))
            raise BadSetting(f"{clean_text(str(name))[:40]}: there is no such setting; known are {known}")
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise BadSetting(f"{name}: expected a number")
        if name == "sections" and not isinstance(value, int):
            raise BadSetting("sections: 4 or 5")
    return Settings(**table)
