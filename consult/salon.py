"""The salon: a salon's own rules and settings on top of the program's, from one TOML file."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

from consult.gates.conditions import BadRule
from consult.gates.rules import Rule, builtin_rules, with_salon_rules
from consult.plan.settings import BadSetting, Settings, read_settings


class BadConfig(ValueError):
    """A salon file that cannot be used; one line that names the place and the mend."""


@dataclass(frozen=True)
class SalonConfig:
    """Rules that can only add to or raise the program's own, and settings."""

    rules: tuple[Rule, ...]
    settings: Settings


def default_config() -> SalonConfig:
    """The program as it ships."""
    return SalonConfig(builtin_rules(), Settings())


def read_config(path: Path) -> SalonConfig:
    """A salon file with [[rule]], [[raise]] and [settings]. Raises BadConfig."""
    try:
        rules = with_salon_rules(path)
        table = tomllib.loads(path.read_text("utf-8")).get("settings", {})
        return SalonConfig(rules, read_settings(table))
    except BadRule as fault:
        raise BadConfig(str(fault)) from None
    except BadSetting as fault:
        raise BadConfig(f"{path.name}: settings: {fault}") from None
    except OSError as fault:
        raise BadConfig(f"{path}: {fault.strerror or 'cannot be read'}") from None
