"""What a salon or a person may set; everything has a careful default."""

from dataclasses import dataclass, fields
from typing import Any

from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

RUN_OUT_CHANCE = Number(0.02, "chance of running out", ASSUMPTION)
SECTIONS = Number(4, "sections", COMMON_PRACTICE)
WORKING_LIMIT = Number(30, "min of application from one bowl", COMMON_PRACTICE)
# An examined section of 2.5 cm new growth may take 10 minutes; a trained hand needs about half of that.
SECONDS_A_PARTING = Number(23, "s a parting of 1 cm, trained", ASSUMPTION)
SECONDS_A_PARTING_HOME = Number(46, "s a parting of 1 cm, alone at home", ASSUMPTION)


class BadSetting(ValueError):
    """A setting that cannot be used; the text names it and the mend."""


@dataclass(frozen=True)
class Settings:
    """run_out_chance 0 to 0.5; sections 4 or 5; seconds a parting for new growth; scale in grams."""

    run_out_chance: float = float(RUN_OUT_CHANCE)
    sections: int = int(SECTIONS)
    seconds_a_parting: float | None = None
    scale_g: float = 1.0

    def __post_init__(self) -> None:
        if not 0 < self.run_out_chance <= 0.5:
            raise BadSetting("run_out_chance: a chance above 0 and up to 0.5, such as 0.02")
        if self.sections not in (4, 5):
            raise BadSetting("sections: 4 or 5")
        if self.seconds_a_parting is not None and not 5 <= self.seconds_a_parting <= 600:
            raise BadSetting("seconds_a_parting: 5 to 600 seconds")
        if not 0.1 <= self.scale_g <= 10:
            raise BadSetting("scale_g: the step of the scale in grams, 0.1 to 10")

    def pace(self, at_home: bool) -> float:
        """Seconds a parting of new growth: the person's own, else a trained hand's or a home user's."""
        if self.seconds_a_parting is not None:
            return self.seconds_a_parting
        return float(SECONDS_A_PARTING_HOME if at_home else SECONDS_A_PARTING)


def read_settings(table: object) -> Settings:
    """Settings from a TOML table. Raises BadSetting naming the entry."""
    if not isinstance(table, dict):
        raise BadSetting("[settings] must be a table")
    known: dict[str, Any] = {f.name: f.type for f in fields(Settings)}
    for name, value in table.items():
        if name not in known:
            raise BadSetting(f"{str(name)[:40]}: there is no such setting; known are {', '.join(known)}")
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise BadSetting(f"{name}: expected a number")
    return Settings(**table)
