"""The house: a salon's own rules and settings on top of the program's, from one TOML file."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

from consult.gates.conditions import BadRule
from consult.gates.rules import Rule, own_rules, with_house_rules
from consult.plan.settings import BadSetting, Settings, read_settings


class BadHouse(ValueError):
    """A house file that cannot be used; one line that names the place and the mend."""


@dataclass(frozen=True)
class House:
    """Rules that can only add to or raise the program's own, and settings."""

    rules: tuple[Rule, ...]
    settings: Settings


def usual_house() -> House:
    """The program as it ships."""
    return House(own_rules(), Settings())


def read_house(path: Path) -> House:
    """A house file with [[rule]], [[raise]] and [settings]. Raises BadHouse."""
    try:
        rules = with_house_rules(path)
        table = tomllib.loads(path.read_text("utf-8")).get("settings", {})
        return House(rules, read_settings(table))
    except BadRule as fault:
        raise BadHouse(str(fault)) from None
    except BadSetting as fault:
        raise BadHouse(f"{path.name}: settings: {fault}") from None
    except OSError as fault:
        raise BadHouse(f"{path}: {fault.strerror or 'cannot be read'}") from None
