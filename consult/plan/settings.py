"""What a salon or a person may set; everything has a careful default."""

from dataclasses import dataclass

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


class BadSetting(ValueError):
    """A setting that cannot be used; the text names it and what would be right."""


@dataclass(frozen=True)
class Settings:
    """run_out_chance as a share; sections of the head; scale in grams; a person's own measured seconds a parting
    of 1.5 cm new growth, None where nobody measured."""

    run_out_chance: float = float(RUN_OUT_CHANCE)
    sections: int = int(SECTIONS)
    seconds_a_parting: float | None = None
    scale_g: float = 1.0

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
        if name not in RANGES:
            raise BadSetting(
                f"{clean_text(str(name))[:40]}: there is no such setting; known are {', '.join(RANGES)}"
            )
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise BadSetting(f"{name}: expected a number")
        if name == "sections" and not isinstance(value, int):
            raise BadSetting("sections: 4 or 5")
    return Settings(**table)
