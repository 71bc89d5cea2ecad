"""What is told in an emergency, before anything is asked: the sentences of the tables, by what is seen."""

from pathlib import Path
from typing import Any

from msgspec import Struct

from consult.answers.base import NOT_SURE
from consult.files import parse_toml
from consult.gates.conditions import BadRule
from consult.plan.lines import Line
from consult.plan.settings import Settings
from consult.remedies.advice import Advice, Kind, book, placed
from consult.remedies.day import SIGNS, DayLog
from consult.remedies.help import Help
from consult.remedies.words import SKINS, What

_KEYS = {"name", "for", "now", "never", "say"}
_MATCHED = {"signs", "skin"}


class Emergency(Struct, frozen=True):
    """What is seen, and what is done now, what is not done, and what to tell whoever helps.

    of           what of a day that went wrong it is for
    signs, skin  of which one must have been told for it, where there are any
    help         how much help it needs
    """

    name: str
    of: What
    signs: tuple[str, ...]
    skin: tuple[str, ...]
    help: Help
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
    if not _KEYS <= set(table) <= _KEYS | _MATCHED:
        raise BadRule(f"emergency: needs {', '.join(sorted(_KEYS))} and knows {', '.join(sorted(_MATCHED))}")
    signs, skin = tuple(table.get("signs", ())), tuple(table.get("skin", ()))
    if not (set(signs) <= set(SIGNS) and set(skin) <= set(SKINS)):
        raise BadRule(f"emergency {table['name']}: there is a sign or a skin that nobody is asked for")

    def told(kind: Kind) -> tuple[Line, ...]:
        found = []
        for name in table[kind]:
            advice = sentences.get(name)
            if advice is None or advice.kind != kind or table["for"] not in advice.faults:
                raise BadRule(f"emergency {table['name']}: {name} is no sentence of '{kind}' for it")
            found.append(placed(advice.line, settings, short=True))
        return tuple(found)

    now, never, say = told("now"), told("never"), told("say")
    helps = [book().fault(table["for"]).help, *(sentences[name].help or Help.CARE for name in table["now"])]
    return Emergency(str(table["name"]), table["for"], signs, skin, max(helps), now, never, say)


def emergency_of(day: DayLog, told: tuple[Emergency, ...]) -> int | None:
    """Which of them a day is; None where it is none. Beside a hurt body, signs that nobody can tell are the gravest."""
    signs = day.signs if isinstance(day.signs, tuple) else ()
    hurt = bool({one.of for one in told} & set(day.faults))
    for number, one in enumerate(told):
        if set(one.signs) & set(signs) or day.skin in one.skin:
            return number
        if one.signs and day.signs == NOT_SURE and hurt:
            return number
    faults = set(day.faults) | ({"itching or a rash"} if day.reacted else set())
    plain = (n for n, one in enumerate(told) if not (one.signs or one.skin) and one.of in faults)
    return next(plain, None)
