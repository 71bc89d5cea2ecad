"""Answers files, drafts and shelves: TOML in, and drafts out.

A record is an answers file with a header and a `[result]` behind it. Reading takes the header and the
answers; the result is computed anew, never trusted.
"""

import tomllib
from dataclasses import dataclass, fields, is_dataclass
from datetime import datetime
from enum import Enum
from pathlib import Path
from typing import Any

import tomli_w

from consult import __version__
from consult.answers import Answers
from consult.answers.access import BadAnswer, as_data, from_data
from consult.answers.base import SCHEMA
from consult.answers.conflicts import EARLIEST_YEAR, conflicts
from consult.answers.shelf import Shelf, shelf_from_data
from consult.cleaning import clean_text
from consult.gates.verdict import Verdict
from consult.trade import Voice

LARGEST_FILE = 1_000_000
MOST_DOTS = 200
"""In one line: a key with thousands of dots keeps the TOML reader busy for minutes."""
LATEST_YEAR = 2200
_HEADER = {"schema", "program", "consulted_at", "voice", "position", "typed", "shows", "questions"}
_HINT = "texts stand in quotes, dates bare, each name once"


class BadFile(ValueError):
    """A file that cannot be read; one line that names the place and what would be right."""


@dataclass(frozen=True)
class Loaded:
    """What a file holds. `consulted_at` is None in a hand-written file without a header."""

    answers: Answers
    consulted_at: datetime | None
    voice: Voice | None
    position: str | None
    typed: str | None
    shows: str
    result: dict[str, Any] | None


def read_file(path: Path, now: datetime) -> Loaded:
    """Read an answers file, a draft or a record. Raises BadFile; `now` bounds dates without a header."""
    return read_text(_text(path), str(path), now)


def _text(path: Path) -> str:
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        raise BadFile(f"{path}: {getattr(error, 'strerror', None) or 'cannot be read'}") from None
    if len(raw) > LARGEST_FILE:
        raise BadFile(f"{path}: larger than 1 MB; this is not an answers file")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise BadFile(f"{path}: line {line}: not UTF-8 text; save the file as UTF-8") from None


def _parse(text: str, name: str) -> dict[str, Any]:
    for number, line in enumerate(text.split("\n"), 1):
        if line.count(".") > MOST_DOTS:
            raise BadFile(f"{name}: line {number}: too many dots; this is not an answers file")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadFile(f"{name}: {clean_text(str(error))}; {_HINT}") from None
    except RecursionError:
        raise BadFile(f"{name}: nested too deeply; this is not an answers file") from None
    except ValueError:
        raise BadFile(f"{name}: a number has too many digits; this is not an answers file") from None


def read_shelf(path: Path) -> Shelf:
    """Read a shelf file with [[product]] and [[developers]]. Raises BadFile."""
    try:
        return shelf_from_data(_parse(_text(path), str(path)))
    except BadAnswer as error:
        raise BadFile(f"{path}: {error}") from None


def read_text(text: str, name: str, now: datetime) -> Loaded:
    """The same from text; `name` stands at the head of error messages."""
    data = _parse(text, name)
    header = _header(data.pop("record", {}), name)
    result = data.pop("result", None)
    try:
        answers = from_data(data).at_version(header.get("questions", header.get("schema", SCHEMA)))
        consulted_at = header.get("consulted_at")
        found = conflicts(answers, consulted_at or now)
    except BadAnswer as error:
        raise BadFile(f"{name}: {error}") from None
    if found:
        raise BadFile(f"{name}: {found[0]}")
    return Loaded(
        answers,
        consulted_at,
        _voice(header.get("voice")),
        header.get("position"),
        header.get("typed"),
        header.get("shows", ""),
        result if isinstance(result, dict) else None,
    )


def _header(header: object, name: str) -> dict[str, Any]:
    if not isinstance(header, dict):
        raise BadFile(f"{name}: [record] must be a table")
    schema = header.get("schema", SCHEMA)
    if not isinstance(schema, int) or isinstance(schema, bool) or schema < 1:
        raise BadFile(f"{name}: record.schema must be a whole number; this program writes {SCHEMA}")
    if schema > SCHEMA:
        raise BadFile(
            f"{name}: record.schema is {schema}, this program reads up to {SCHEMA}; use a newer version of it"
        )
    asked = header.get("questions", schema)
    if not isinstance(asked, int) or isinstance(asked, bool) or not 1 <= asked <= schema:
        raise BadFile(f"{name}: record.questions must be a whole number from 1 to record.schema")
    strange = sorted(set(header) - _HEADER)
    if strange:
        raise BadFile(f"{name}: record.{clean_text(strange[0])[:40]}: there is no such entry")
    at = header.get("consulted_at")
    if at is not None:
        if not isinstance(at, datetime):
            raise BadFile(f"{name}: record.consulted_at must be a date and time such as 2026-05-31 14:30:00")
        if not EARLIEST_YEAR <= at.year <= LATEST_YEAR:
            raise BadFile(
                f"{name}: record.consulted_at lies outside {EARLIEST_YEAR} to {LATEST_YEAR}; check the year"
            )
        header["consulted_at"] = (at if at.tzinfo else at.astimezone()).replace(second=0, microsecond=0)
    for key in ("voice", "position", "typed", "program", "shows"):
        if key in header and not isinstance(header[key], str):
            raise BadFile(f"{name}: record.{key} must be a text")
        if key in header:
            header[key] = clean_text(header[key])
    return header


def _voice(text: str | None) -> Voice | None:
    return next((voice for voice in Voice if voice.value == text), None)


def dump_draft(answers: Answers, voice: Voice, position: str, typed: str = "") -> str:
    """An unfinished consultation as TOML text, with what is half typed at its position."""
    header = {"schema": SCHEMA, "program": program(), "voice": voice.value, "position": str(position)}
    if typed:
        header["typed"] = clean_text(typed)
    return tomli_w.dumps({"record": header, **plain(as_data(answers))})


def program() -> str:
    return f"consult {__version__}"


def plain(value: Any) -> Any:
    """Dataclasses, enums and tuples as TOML knows them; what is None is left out."""
    if isinstance(value, Verdict):
        return value.word
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(value) and not isinstance(value, type):
        return plain({f.name: getattr(value, f.name) for f in fields(value)})
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items() if item is not None}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    if isinstance(value, float):
        return round(float(value), 3)
    return value
