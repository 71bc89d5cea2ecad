"""Answers files, drafts, records and shelves: TOML in, and drafts out.

A record is an answers file with a header before it, and behind it the salon's own rules and a `[result]`.
Reading takes the header, the answers and the rules; the result is computed anew, never trusted.
"""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from pydantic import ValidationError

from consult import __version__
from consult.answers import Answers
from consult.answers.access import BadAnswer, as_data, from_data
from consult.answers.base import SCHEMA
from consult.answers.conflicts import conflicts
from consult.answers.product import Product
from consult.cleaning import clean_text
from consult.files import BadFile, parse_toml, read_toml
from consult.records.models import Header
from consult.records.wanted import Purpose
from consult.trade import Voice

if TYPE_CHECKING:
    # Few files have a shelf or a day.
    from consult.answers.shelf import Shelf
    from consult.remedies.day import DayLog


class Loaded(Struct, frozen=True):
    """What a file holds. `consulted_at` is None in a draft and in a hand-written file without a header.

    `salon` are the rules and settings of a salon's own that a record was judged by, as they stand there;
    `day` is the log of a day that went wrong; `purpose` is what an unfinished consultation is for, and `candidates` are
    the packs that were to be compared in it.
    """

    answers: Answers
    consulted_at: datetime | None = None
    voice: Voice | None = None
    position: str | None = None
    typed: str = ""
    shows: str = ""
    salon: dict[str, Any] | None = None
    result: dict[str, Any] | None = None
    day: "DayLog | None" = None
    purpose: Purpose = Purpose.COLOUR
    candidates: tuple[Product, ...] = ()

    def of_today(self) -> Answers:
        """The answers to today's questions, with the pace that its day was timed at: the next plan reckons with it."""
        answers = self.answers.at_version(SCHEMA)
        if self.day is None:
            return answers
        from consult.remedies.after import paced

        return paced(answers, self.day)


def read_file(path: Path, now: datetime) -> Loaded:
    """Read an answers file, a draft or a record. Raises BadFile; `now` bounds dates without a header."""
    return _loaded(read_toml(path), str(path), now)


def read_text(text: str, name: str, now: datetime) -> Loaded:
    """The same from text; `name` stands at the head of error messages."""
    return _loaded(parse_toml(text, name), name, now)


def read_shelf(path: Path) -> "Shelf":
    """Read a shelf file with [[product]] and [[developers]]. Raises BadFile."""
    from consult.answers.shelf import shelf_from_data

    try:
        return shelf_from_data(read_toml(path))
    except BadAnswer as error:
        raise BadFile(str(path), str(error)) from None


def _loaded(data: dict[str, Any], name: str, now: datetime) -> Loaded:
    header = _header(data.pop("record", {}), name)
    salon, result, day = data.pop("salon", None), data.pop("result", None), data.pop("day", None)
    candidates = data.pop("candidate", None)
    if salon is not None and not isinstance(salon, dict):
        raise BadFile(name, "[salon] must be a table")
    try:
        answers = from_data(data).at_version(header.asked)
        packs = () if candidates is None else _packs(candidates)
    except BadAnswer as error:
        raise BadFile(name, str(error)) from None
    log = None if day is None else _log(day, name)
    if log is not None:
        from consult.remedies.after import with_reaction

        answers = with_reaction(answers, log, header.consulted_at or now)
    found = conflicts(answers, header.consulted_at or now)
    if found:
        raise BadFile(name, str(found[0]))
    return Loaded(
        answers,
        header.consulted_at,
        Voice(header.voice) if header.voice else None,
        header.position,
        header.typed or "",
        header.shows or "",
        salon,
        result if isinstance(result, dict) else None,
        log,
        Purpose(header.purpose or Purpose.COLOUR),
        packs,
    )


def _packs(data: object) -> tuple[Product, ...]:
    """The packs that were to be compared. Raises BadAnswer."""
    from consult.answers.shelf import shelf_from_data

    return shelf_from_data({"product": data}).product


def _log(data: object, name: str) -> "DayLog":
    """The log of a day. Raises BadFile."""
    from consult.remedies.day import BadDay, day_from_data

    try:
        return day_from_data(data)
    except BadDay as error:
        raise BadFile(name, str(error)) from None


def _header(table: object, name: str) -> Header:
    if not isinstance(table, dict):
        raise BadFile(name, "[record] must be a table")
    try:
        return Header.model_validate(table)
    except ValidationError as error:
        detail = error.errors(include_input=False, include_url=False, include_context=False)[0]
        entry = clean_text(str(detail["loc"][0]))[:40]
        expected = _expected().get(entry)
        hint = f"expected {expected}" if expected else "there is no such entry"
        if entry == "schema":
            hint += "; a higher one needs a newer version of this program"
        raise BadFile(name, f"record.{entry}: {hint}") from None


def _expected() -> dict[str, str]:
    """Entry of a header -> what is right there, read off the model."""
    schema = Header.model_json_schema(by_alias=True)["properties"]
    return {
        name: info.get("description")
        or next(way["description"] for way in info["anyOf"] if "description" in way)
        for name, info in schema.items()
    }


def dump_draft(
    answers: Answers,
    voice: Voice,
    position: str,
    typed: str = "",
    day: "DayLog | None" = None,
    purpose: Purpose = Purpose.COLOUR,
    candidates: tuple[Product, ...] = (),
) -> str:
    """An unfinished consultation as TOML text, with what is half typed at its position, the log of a day that went
    wrong, and the packs that are to be compared."""
    import tomli_w

    header = Header(
        program=program(),
        voice=voice.value,
        position=str(position),
        typed=clean_text(typed)[:1000] or None,
        purpose=None if purpose is Purpose.COLOUR else purpose.value,
    )
    log = {}
    if day:
        from consult.remedies.day import day_data

        log = {"day": day_data(day)}
    packs = {"candidate": [pack.model_dump(exclude_none=True) for pack in candidates]} if candidates else {}
    return tomli_w.dumps({"record": header_data(header), **as_data(answers), **log, **packs})


def header_data(header: Header) -> dict[str, Any]:
    """A header as it stands in a file."""
    return header.model_dump(exclude_none=True)


def program() -> str:
    return f"consult {__version__}"
