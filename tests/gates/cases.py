"""The case tables: for each rule, changes to the sound client that fire it or just miss it."""

import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

Changes = dict[str, Any]
CASES = Path(__file__).with_name("cases")


@dataclass(frozen=True)
class Case:
    """`source` is what a boundary rests on; most cases only show the rule at work.

    Each change in `fires` is needed; `context` are changes that stand beside it and beside
    `just_misses`. `also` holds answers, and `also_kinds` kinds of service, that fire the rule in
    place of its own; each set of changes in `alone` fires it by itself.
    """

    rule: str
    verdict: str
    fires: Changes
    just_misses: Changes
    name: str = ""
    source: str = ""
    context: Changes = field(default_factory=dict)
    also: dict[str, list[Any]] = field(default_factory=dict)
    also_kinds: list[str] = field(default_factory=list)
    alone: list[Changes] = field(default_factory=list)

    def firing(self) -> Changes:
        return {**self.context, **self.fires}

    def near(self) -> Changes:
        return {**self.context, **self.just_misses}

    def others(self) -> list[Changes]:
        """The other changes that fire the rule as well."""
        found = [{**self.firing(), path: value} for path, values in self.also.items() for value in values]
        services = self.fires.get("history.services", [])
        for kind in self.also_kinds:
            changed = [{**service, "kind": kind} for service in services]
            found.append({**self.firing(), "history.services": changed})
        return [*found, *({**self.context, **changes} for changes in self.alone)]

    def without_one(self) -> list[Changes]:
        """The firing changes with one of them left out."""
        less = [{k: v for k, v in self.fires.items() if k != path} for path in self.fires]
        return [{**self.context, **changes} for changes in less]

    def __str__(self) -> str:
        return f"{self.rule}: {self.name}" if self.name else self.rule


def cases() -> list[Case]:
    tables = [tomllib.loads(path.read_text("utf-8")) for path in sorted(CASES.glob("*.toml"))]
    return [Case(**case) for table in tables for case in table["case"]]
