"""What is told in an emergency, before anything is asked: the sentences of the tables, by what is seen."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from consult.files import parse_toml
from consult.gates.conditions import BadRule
from consult.plan.lines import Line
from consult.plan.settings import Settings
from consult.remedies.advice import Advice, Kind, book, placed

_KEYS = {"name", "for", "now", "never", "say"}


@dataclass(frozen=True)
class Emergency:
    """What is seen, and what is done now, what is not done, and what to tell whoever helps."""

    name: str
    now: tuple[Line, ...]
    never: tuple[Line, ...]
    say: tuple[Line, ...]


def emergencies(settings: Settings) -> tuple[Emergency, ...]:
    """All of them, the gravest first, with the numbers of the place filled in; the page says whose they are. Raises
    BadRule."""
    text = (Path(__file__).parent / "tables" / "emergency.toml").read_text("utf-8")
    return read_emergencies(parse_toml(text, "emergency.toml"), settings)


def read_emergencies(data: dict[str, Any], settings: Settings) -> tuple[Emergency, ...]:
    """Emergencies out of TOML data. Raises BadRule where a sentence does not exist or is none of that kind."""
    sentences = {advice.id: advice for advice in book().advice}
    return tuple(_emergency(table, sentences, settings) for table in data["emergency"])


def _emergency(table: dict[str, Any], sentences: dict[str, Advice], settings: Settings) -> Emergency:
    if set(table) != _KEYS:
        raise BadRule(f"emergency: needs {', '.join(sorted(_KEYS))}")

    def told(kind: Kind) -> tuple[Line, ...]:
        found = []
        for name in table[kind]:
            advice = sentences.get(name)
            if advice is None or advice.kind != kind or table["for"] not in advice.faults:
                raise BadRule(f"emergency {table['name']}: {name} is no sentence of '{kind}' for it")
            found.append(placed(advice.line, settings, short=True))
        return tuple(found)

    return Emergency(str(table["name"]), told("now"), told("never"), told("say"))
