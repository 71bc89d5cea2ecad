"""What the commands do that ask nothing. Heavy imports wait until a command needs them."""

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from consult.arguments import STDIN
from consult.dates import clock
from consult.exits import BAD_INPUT, PLAN_MADE, of_plan
from consult.terminal import width
from consult.trade import Voice

if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence
    from datetime import datetime, time

    from consult.answers.shelf import Shelf
    from consult.consultation import Consultation
    from consult.records.codec import Loaded
    from consult.report.rows import Row
    from consult.salon import SalonConfig

LONGEST_LINE = 300
LEAST_PORT, MOST_PORT = 1024, 65535


class Problem(Exception):
    """Bad input; its text is the whole message."""


def complain(problem: str) -> None:
    """One line of at most 300 characters on standard error, whatever stands in a file's name."""
    from consult.cleaning import clean_text

    print(f"consult: {clean_text(problem)}"[:LONGEST_LINE], file=sys.stderr)


def salon_at(path: str | None) -> "SalonConfig | None":
    """A salon's own rules and settings. Raises Problem."""
    if path is None:
        return None
    from consult.salon import BadConfig, read_config

    try:
        return read_config(Path(path))
    except BadConfig as error:
        raise Problem(str(error)) from None


def shelf_at(path: str | None) -> "Shelf | None":
    """The products at hand. Raises Problem."""
    if path is None:
        return None
    from consult.files import BadFile
    from consult.records.codec import read_shelf

    try:
        return read_shelf(Path(path))
    except BadFile as error:
        raise Problem(str(error)) from None


def plan(options: "argparse.Namespace", salon: "SalonConfig | None", shelf: "Shelf | None") -> int:
    """Print verdict and plan, or the record as JSON; write the record where it is wanted. Raises Problem."""
    found, loaded = _judged(options, salon, shelf)
    written = _write_record(found, loaded, Path(options.out)) if options.out else ""
    if options.json:
        from consult.records.record import dump_json

        print(dump_json(found))
    else:
        from consult.report.text import write_report

        swatches = _print_swatches if sys.stdout.isatty() else None
        write_report(
            found, Voice(options.voice or Voice.HOME), width(), print, why=options.why, swatches=swatches
        )
    if written:
        print(f"\n{written}", file=sys.stderr if options.json else sys.stdout)
    return of_plan(found.plan)


def sheet(options: "argparse.Namespace", salon: "SalonConfig | None") -> int:
    """Print the working sheet as text, or write it where it is wanted. Raises Problem."""
    from consult.paper import FORMS, TEXT
    from consult.report.copies import Copy
    from consult.report.sheet import working_sheet

    out = Path(options.out) if options.out else None
    form = FORMS.get(out.suffix.lower()) if out else TEXT
    if form is None:
        raise Problem(f"--out: a sheet is written to a file that ends in {' or '.join(FORMS)}")
    start = _start(options.start)
    found, _ = _judged(options, salon)
    text = form(working_sheet(found, Voice(options.voice or Voice.HOME), Copy(options.copy), start))
    if out is None:
        print(text, end="")
        return of_plan(found.plan)
    print(write(out, text, "sheet"))
    return of_plan(found.plan)


def serve(options: "argparse.Namespace") -> int:
    """Show the wizard in a browser until it is ended. Raises Problem."""
    from importlib.util import find_spec

    if find_spec("textual_serve") is None:
        raise Problem("a browser needs one package more: pip install 'consult[serve]'")
    from consult.serving.server import LocalServer

    command = [sys.executable, "-m", "consult"]
    for name in ("voice", "salon", "shelf"):
        given = getattr(options, name)
        if given:
            command += [f"--{name}", given if name == "voice" else str(Path(given).absolute())]
    if not LEAST_PORT <= options.port <= MOST_PORT:
        raise Problem(f"--port: a number from {LEAST_PORT} to {MOST_PORT}")
    try:
        LocalServer(command, options.port).serve()
    except OSError as error:
        why = os.strerror(error.errno) if error.errno else "cannot be used"
        raise Problem(f"--port {options.port}: {why}; choose another") from None
    return PLAN_MADE


def _start(given: str | None) -> "time | None":
    """A time of day. Raises Problem."""
    from datetime import datetime

    if given is None:
        return None
    try:
        return datetime.strptime(given, "%H:%M").time()
    except ValueError:
        raise Problem("--start: expected a time of day such as 14:30") from None


def _judged(
    options: "argparse.Namespace", salon: "SalonConfig | None", shelf: "Shelf | None" = None
) -> "tuple[Consultation, Loaded]":
    """The consultation of a file, as of its own date or as of now, and the file. Raises Problem."""
    from consult.consultation import consult

    now = clock()
    loaded = read(options.file, now)
    at, answers = loaded.consulted_at, loaded.answers
    if options.now or at is None:
        # A judgement of today asks today's questions.
        at, answers = now, loaded.of_today()
    # A record is judged by the salon's rules it was written under, unless others are given.
    return consult(answers, at, salon or salon_in(loaded, options.file), shelf), loaded


def read(name: str, now: "datetime") -> "Loaded":
    """A file, or standard input. Raises Problem."""
    from consult.files import LARGEST_FILE, BadFile, text_of
    from consult.records.codec import read_file, read_text

    try:
        if name == STDIN:
            shown = "standard input"
            return read_text(text_of(sys.stdin.buffer.read(LARGEST_FILE + 1), shown), shown, now)
        return read_file(Path(name), now)
    except BadFile as error:
        raise Problem(str(error)) from None


def salon_in(loaded: "Loaded", name: str) -> "SalonConfig | None":
    """The rules and settings of a salon's own that a record was judged by."""
    if loaded.salon is None:
        return None
    from consult.records.record import salon_of
    from consult.salon import BadConfig

    try:
        return salon_of(loaded)
    except BadConfig as error:
        raise Problem(f"{name}: salon: {error}") from None


def _write_record(found: "Consultation", loaded: "Loaded", path: Path) -> str:
    """Write it, with the log of a day that stood in the file; what is said of it afterwards. Raises Problem."""
    from consult.records.record import dump_record

    return write(path, dump_record(found, loaded.day), "record")


def write(path: Path, text: str, what: str) -> str:
    """Write a file for its owner alone; what is said of it afterwards. Raises Problem."""
    from consult.records.store import CannotSave, missing_folder, save_text, written_line

    folder = missing_folder(path)
    try:
        save_text(path, text)
    except CannotSave as error:
        raise Problem(str(error)) from None
    return written_line(path, folder, what)


def _print_swatches(row: "Row") -> None:
    """Patches with their words, in as many colours as the terminal has; NO_COLOR leaves the words."""
    from rich.console import Console
    from rich.text import Text

    line = Text("    ")
    for word, colour in row.swatches:
        line.append(f"{word} ").append("      ", style=f"on {colour}").append("  ")
    Console(highlight=False).print(line)


def check(files: "Sequence[str]") -> int:
    """Say of each file what it is found to be."""
    worst = PLAN_MADE
    for name in files:
        try:
            print(f"{'standard input' if name == STDIN else name}: {_checked(name)}")
        except Problem as problem:
            complain(str(problem))
            worst = BAD_INPUT
    return worst


def _checked(name: str) -> str:
    """What a file is found to be. Raises Problem."""
    loaded = read(name, clock())
    if loaded.result is None or loaded.consulted_at is None:
        return "valid answers"
    from consult.consultation import consult
    from consult.records.record import result_data

    found = consult(loaded.answers, loaded.consulted_at, salon_in(loaded, name))
    if result_data(found) == loaded.result:
        return "valid record"
    return "valid answers; its result is not what this program computes"


def schema() -> int:
    """Print what an answers file may hold."""
    import json

    from consult.answers import Answers

    print(json.dumps(Answers.model_json_schema(), indent=2))
    return PLAN_MADE


def swatch(options: "argparse.Namespace") -> int:
    """Print the colour of each swatch on a photograph. Raises Problem."""
    from consult.colour.photo import BadPhoto, Box, read_patches

    try:
        found = read_patches(Path(options.photo), Box(*options.card), [Box(*place) for place in options.at])
    except BadPhoto as error:
        raise Problem(f"{Path(options.photo).name}: {error}") from None
    for number, (light, a, b) in enumerate(found, 1):
        print(f"swatch {number}: {light:.1f} {a:.1f} {b:.1f}")
    return PLAN_MADE
