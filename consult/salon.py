"""The salon: a salon's own rules and settings on top of the program's, from one TOML file."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from msgspec import Struct, field

from consult.files import BadFile, read_toml, short_error
from consult.gates.conditions import BadRule
from consult.gates.rules import RuleSet, builtin_rules, with_salon_rules
from consult.plan.results import Result, read_results
from consult.plan.settings import BadSetting, Settings, read_settings


class BadConfig(ValueError):
    """A salon file that cannot be used; one line that names the place and what would be right."""

    def __init__(self, line: str) -> None:
        super().__init__(short_error(line))


class SalonConfig(Struct, frozen=True):
    """Rules that can only add to or raise the program's own, settings, and results that were recorded.

    `own` is what the salon wrote, as plain data, for a record to take along.
    """

    rules: RuleSet
    settings: Settings
    own: Mapping[str, Any] = field(default_factory=dict)
    results: tuple[Result, ...] = ()


def default_config() -> SalonConfig:
    """The program as it ships."""
    return SalonConfig(builtin_rules(), Settings())


def config_from_data(data: Mapping[str, Any], name: str) -> SalonConfig:
    """The salon of plain data with `rule`, `raise`, `group`, `condition`, `settings` and `seen`. Raises BadConfig."""
    rules = {key: value for key, value in data.items() if key not in ("settings", "seen")}
    try:
        settings, results = read_settings(data.get("settings", {})), read_results(data.get("seen", []))
        return SalonConfig(with_salon_rules(rules, name), settings, data, results)
    except BadRule as error:
        raise BadConfig(str(error)) from None
    except BadSetting as error:
        raise BadConfig(f"{name}: settings: {error}") from None


def read_config(path: Path) -> SalonConfig:
    """A salon file with [[rule]], [[raise]], [group], [condition], [settings] and [[seen]]. Raises BadConfig."""
    try:
        data = read_toml(path)
    except BadFile as error:
        raise BadConfig(str(error)) from None
    return config_from_data(data, path.name[-60:])
