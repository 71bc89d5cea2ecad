"""The commands for the moments beside a consultation: before a pack is bought, and when something went wrong."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

from consult.arguments import STDIN
from consult.commands import Problem, clock, read, salon_in
from consult.exits import HELD, PLAN_MADE, STOPPED
from consult.terminal import width
from consult.trade import Voice

if TYPE_CHECKING:
    import argparse

    from consult.remedies.day import DayLog
    from consult.remedies.remedy import Remedy
    from consult.salon import SalonConfig


def wrong(options: "argparse.Namespace", salon: "SalonConfig | None") -> int:
    """Print what to do when something went wrong; write the record with it where it is wanted. Raises Problem."""
    from consult.answers import Answers
    from consult.answers.base import known
    from consult.remedies.day import DayLog
    from consult.remedies.help import Help
    from consult.remedies.remedy import remedy
    from consult.report.advice import remedy_blocks, remedy_data, write_blocks

    now = clock()
    loaded = read(options.file, now) if options.file else None
    day = _told(loaded.day if loaded and loaded.day else DayLog(), options)
    if not day.faults:
        raise Problem("say what went wrong with --what, for example --what \"too dark\"; 'consult wrong --help' lists all")
    at = known(day.done_at) or now
    own = salon or (salon_in(loaded, options.file) if loaded else None)
    found = remedy(loaded.answers if loaded else Answers(), day, at, own)
    voice = Voice(options.voice or Voice.HOME)
    written = _write(found, options.out) if options.out else ""
    if options.json:
        print(json.dumps(remedy_data(found, voice), indent=2, ensure_ascii=False))
    else:
        write_blocks(found.help.title, remedy_blocks(found, voice), width(), print, why=options.why)
        print(f"\n{written or _not_written(found, options.file)}")
    if found.day.reacted or found.help >= Help.DOCTOR:
        return STOPPED
    return HELD if found.help is Help.COLOURIST else PLAN_MADE


def _told(day: "DayLog", options: "argparse.Namespace") -> "DayLog":
    """The log with what was said on the command line, which counts before the file. Raises Problem."""
    from consult.remedies.day import SIGNS
    from consult.remedies.words import WHATS

    changes: dict[str, object] = {}
    if options.what:
        changes["what"] = tuple(dict.fromkeys(_meant(words, WHATS, "--what") for words in options.what))
    if options.sign:
        signs = [words for words in options.sign if words != "none"]
        changes["signs"] = tuple(dict.fromkeys(_meant(words, SIGNS, "--sign") for words in signs))
    changes |= {name: getattr(options, name) for name in ("when", "skin") if getattr(options, name)}
    return day.model_copy(update=changes)


def _meant(words: str, choices: tuple[str, ...], option: str) -> str:
    """The one choice that these words name or are part of. Raises Problem."""
    wanted = words.strip().casefold()
    found = [choice for choice in choices if choice == wanted] or [c for c in choices if wanted and wanted in c]
    if len(found) != 1:
        why = "names more than one" if found else "names none"
        raise Problem(f"{option}: {why}; say one of: {', '.join(found or choices)}")
    return found[0]


def _write(found: "Remedy", out: str) -> str:
    """Write the record with the day; what is said of it afterwards. Raises Problem."""
    from consult.records.record import dump_record
    from consult.records.store import CannotSave, missing_folder, save_text, written_line

    path = Path(out)
    folder = missing_folder(path)
    try:
        save_text(path, dump_record(found.recorded, found.day))
    except CannotSave as error:
        raise Problem(str(error)) from None
    return written_line(path, folder)


def _not_written(found: "Remedy", file: str | None) -> str:
    """How the day gets into the record: a reaction that is not on file stops nobody."""
    from consult.remedies.help import Help

    same = file if file and file != STDIN else "RECORD.toml"
    urgent = found.day.reacted or found.help >= Help.DOCTOR
    first = "This is not on file yet, and must be: " if urgent else "To keep it on file: "
    return f"{first}add --out {same}"
