"""The commands for the moments beside a consultation: before a pack is bought, and when something went wrong."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

from consult.commands import Problem, read, salon_in, write
from consult.dates import clock
from consult.exits import HELD, PLAN_MADE, STOPPED
from consult.terminal import width
from consult.trade import Voice

if TYPE_CHECKING:
    import argparse
    from datetime import datetime

    from consult.answers.shelf import Shelf
    from consult.records.codec import Loaded
    from consult.remedies.day import DayLog
    from consult.remedies.remedy import Remedy
    from consult.report.rows import Block
    from consult.salon import SalonConfig


def wrong(options: "argparse.Namespace", salon: "SalonConfig | None") -> int:
    """Print what to do when something went wrong; write the record with it where it is wanted. Raises Problem."""
    from consult.answers import Answers
    from consult.answers.base import known
    from consult.remedies.day import DayLog
    from consult.remedies.help import Help
    from consult.remedies.remedy import remedy
    from consult.report.advice import advice_blocks, remedy_data, write_blocks

    now = clock()
    loaded = read(options.file, now) if options.file else None
    day = _told(loaded.day if loaded and loaded.day else DayLog(), options)
    if not day.faults and not day.reacted:
        raise Problem(
            "say what went wrong with --what, for example --what \"too dark\"; 'consult wrong --help' lists all"
        )
    at = known(day.done_at) or now
    own = salon or (salon_in(loaded, options.file) if loaded else None)
    found = remedy(loaded.answers if loaded else Answers(), day, at, own)
    voice = Voice(options.voice or Voice.HOME)
    written = _write(found, options.out) if options.out else ""
    blocks = advice_blocks(found, loaded.answers if loaded else None, voice)
    if options.json:
        print(json.dumps(remedy_data(found, blocks), indent=2, ensure_ascii=False))
    else:
        write_blocks(found.help.title, blocks, width(), print, why=options.why)
        print(f"\n{written or _not_written(found)}")
    if found.day.reacted or found.help >= Help.DOCTOR:
        return STOPPED
    return HELD if found.help is Help.COLOURIST else PLAN_MADE


def emergency(options: "argparse.Namespace", salon: "SalonConfig | None") -> int:
    """Print whom to ring, what to do and what not to do, the gravest first: the page that F9 opens, for the wall."""
    from consult.plan.settings import Settings
    from consult.remedies.emergency import emergencies
    from consult.report.advice import emergency_blocks, write_blocks

    settings = salon.settings if salon else Settings()
    blocks = emergency_blocks(emergencies(settings), Voice(options.voice or Voice.HOME))
    write_blocks(f"EMERGENCY: ring {settings.emergency_words}", blocks, width(), print, why=options.why)
    return PLAN_MADE


def buy(options: "argparse.Namespace", salon: "SalonConfig | None", shelf: "Shelf | None") -> int:
    """Print what to look for, or the shelf's products side by side, or a year of upkeep. Raises Problem."""
    from consult.report.advice import CARD_WIDTH, blocks_data, write_blocks

    now = clock()
    loaded = read(options.file, now)
    at = now if options.now or loaded.consulted_at is None else loaded.consulted_at
    title, blocks, code = _bought(options, loaded, at, salon or salon_in(loaded, options.file), shelf)
    if options.json:
        print(json.dumps({"title": title, "blocks": blocks_data(blocks)}, indent=2, ensure_ascii=False))
    else:
        card = not options.year and shelf is None
        write_blocks(title, blocks, min(width(), CARD_WIDTH) if card else width(), print, why=options.why)
    return code


def _bought(
    options: "argparse.Namespace",
    loaded: "Loaded",
    at: "datetime",
    salon: "SalonConfig | None",
    shelf: "Shelf | None",
) -> "tuple[str, list[Block], int]":
    """Title, blocks and exit code of what is asked before buying. Raises Problem."""
    from consult.buying.card import make_card
    from consult.buying.compare import BadComparison, compare
    from consult.buying.look import look_for
    from consult.buying.year import year_before_buying
    from consult.gates.verdict import Verdict
    from consult.report.advice import CARD_TITLE, card_blocks, comparison_blocks, year_blocks

    voice, answers = Voice(options.voice or Voice.HOME), loaded.answers
    if options.year:
        year = year_before_buying(answers, at, salon)
        stopped = year.first.verdict is Verdict.STOP
        return (
            "A year of upkeep",
            year_blocks(year, voice),
            PLAN_MADE if year.habits else STOPPED if stopped else HELD,
        )
    if shelf is not None:
        try:
            found = compare(answers, shelf, at, salon)
        except BadComparison as problem:
            raise Problem(str(problem)) from None
        worst = max((f.verdict for f in found.against), default=Verdict.CLEAR)
        some = any(one.works for one in found.candidates)
        code = STOPPED if worst is Verdict.STOP else PLAN_MADE if some else HELD
        return "Side by side on this head", comparison_blocks(found, voice), code
    look = look_for(answers, at, salon)
    worst = max((f.verdict for f in look.against), default=Verdict.CLEAR)
    settled = look.shades is not None or look.nothing_needed
    code = PLAN_MADE if settled else STOPPED if worst is Verdict.STOP else HELD
    return CARD_TITLE, card_blocks(make_card(look), voice), code


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
    found = [choice for choice in choices if choice == wanted] or [
        c for c in choices if wanted and wanted in c
    ]
    if len(found) != 1:
        why = "names more than one" if found else "names none"
        raise Problem(f"{option}: {why}; say one of: {', '.join(found or choices)}")
    return found[0]


def _write(found: "Remedy", out: str) -> str:
    """Write the record with the day; what is said of it afterwards. Raises Problem."""
    from consult.records.record import dump_record

    return write(Path(out), dump_record(found.recorded, found.day), "record")


def _not_written(found: "Remedy") -> str:
    """How the day gets into the record: a reaction that is not on file stops nobody."""
    from consult.remedies.help import Help

    urgent = found.day.reacted or found.help >= Help.DOCTOR
    first = "This is not on file yet, and must be: " if urgent else "To keep it on file: "
    return f"{first}add --out RECORD.toml"
