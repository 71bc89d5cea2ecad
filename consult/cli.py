"""The command line. Heavy imports wait until a command needs them.

A command leaves no rubbish worth looking for, so the collector is off; the wizard turns it on when all is loaded.

Exit codes: 0 plan made (or files valid), 1 the program failed or was left without saving, 2 bad input, 3 held,
4 stopped; 128 and the number of a signal that ended the program.
"""

import gc
import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

from consult import __version__
from consult.trade import Voice

if TYPE_CHECKING:
    import argparse
    from datetime import datetime

    from consult.answers.shelf import Shelf
    from consult.consultation import Consultation
    from consult.records.codec import Loaded
    from consult.records.wanted import Wanted
    from consult.salon import SalonConfig

LONGEST_LINE = 300
PLAN_MADE, FAILED, BAD_INPUT, HELD, STOPPED = 0, 1, 2, 3, 4


def _parser() -> "argparse.ArgumentParser":
    import argparse

    parser = argparse.ArgumentParser(
        prog="consult",
        description="Judge one head of hair before it is coloured: safety gates, a plan with its reasons, "
        "a TOML record. The product's leaflet, local law and licensed practice come first.",
        epilog="Exit codes: 0 plan made, 1 the program failed or was left without saving, 2 bad input, "
        "3 held, 4 stopped, 128 + N ended by signal N.",
    )
    parser.add_argument("--version", action="version", version=f"consult {__version__}")
    parser.add_argument(
        "--salon", metavar="SALON.toml", help="own rules (they can only add or raise) and settings"
    )
    parser.add_argument("--shelf", metavar="SHELF.toml", help="products at hand: which comes nearest")
    parser.add_argument(
        "--voice",
        choices=[voice.value for voice in Voice],
        default=Voice.HOME.value,
        help="whose words are used (default: home)",
    )
    # Told its name, it does not work it out from a help text that nobody asked for.
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", prog="consult")
    plan = commands.add_parser("plan", help="print verdict and plan of an answers file or record")
    plan.add_argument("file")
    plan.add_argument("--out", metavar="RECORD.toml", help="write the record here")
    plan.add_argument("--now", action="store_true", help="judge as of now, not as of the file's own date")
    plan.add_argument("--why", action="store_true", help="print the reason and source under each line")
    check = commands.add_parser("check", help="check answers files and records")
    check.add_argument("files", nargs="+", metavar="FILE")
    commands.add_parser("schema", help="print the JSON schema of an answers file")
    swatch = commands.add_parser(
        "swatch", help="read the colours of swatches off a photograph with a white card"
    )
    swatch.add_argument("photo")
    box = ("LEFT", "TOP", "WIDTH", "HEIGHT")
    swatch.add_argument(
        "--card", nargs=4, type=int, required=True, metavar=box, help="where the white card is"
    )
    swatch.add_argument(
        "--at",
        nargs=4,
        type=int,
        action="append",
        required=True,
        metavar=box,
        help="where a swatch is; repeat it",
    )
    demo = commands.add_parser("demo", help="open the demo clients")
    demo.add_argument("name", nargs="?", help="open this one at once")
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns the exit code; errors are one line on standard error."""
    if not (sys.argv[1:] if arguments is None else arguments):
        # The commonest start waits for no parser.
        return _wizard(Voice.HOME)
    options = _parser().parse_args(arguments)
    try:
        salon, shelf = _salon(options.salon), _shelf(options.shelf)
        if options.command == "plan":
            return _plan(options, salon, shelf)
        if options.command == "check":
            return _check(options.files)
        if options.command == "schema":
            return _schema()
        if options.command == "swatch":
            return _swatch(options)
        demos, voice = options.command == "demo", Voice(options.voice)
        opening = _demo(options.name, voice) if demos and options.name else None
        return _wizard(voice, salon, shelf, opening=opening, demos=demos)
    except _Problem as problem:
        _complain(str(problem))
        return BAD_INPUT


def _swatch(options: "argparse.Namespace") -> int:
    from consult.colour.photo import BadPhoto, Box, read_patches

    try:
        found = read_patches(Path(options.photo), Box(*options.card), [Box(*place) for place in options.at])
    except BadPhoto as error:
        raise _Problem(f"{Path(options.photo).name}: {error}") from None
    for number, (light, a, b) in enumerate(found, 1):
        print(f"swatch {number}: {light:.1f} {a:.1f} {b:.1f}")
    return PLAN_MADE


class _Problem(Exception):
    """Bad input; its text is the whole message."""


def _complain(problem: str) -> None:
    """One line of at most 300 characters on standard error, whatever stands in a file's name."""
    from consult.cleaning import clean_text

    print(f"consult: {clean_text(problem)}"[:LONGEST_LINE], file=sys.stderr)


def _salon(path: str | None) -> "SalonConfig | None":
    if path is None:
        return None
    from consult.salon import BadConfig, read_config

    try:
        return read_config(Path(path))
    except BadConfig as error:
        raise _Problem(str(error)) from None


def _shelf(path: str | None) -> "Shelf | None":
    if path is None:
        return None
    from consult.files import BadFile
    from consult.records.codec import read_shelf

    try:
        return read_shelf(Path(path))
    except BadFile as error:
        raise _Problem(str(error)) from None


def _clock() -> "datetime":
    from datetime import datetime

    return datetime.now().astimezone().replace(second=0, microsecond=0)


def _plan(options: "argparse.Namespace", salon: "SalonConfig | None", shelf: "Shelf | None") -> int:
    from consult.answers.base import SCHEMA
    from consult.consultation import consult
    from consult.plan.types import Made, Stopped

    now = _clock()
    loaded = _loaded(options.file, now)
    at, answers = loaded.consulted_at, loaded.answers
    if options.now or at is None:
        # A judgement of today asks today's questions.
        at, answers = now, answers.at_version(SCHEMA)
    # A record is judged by the salon's rules it was written under, unless others are given.
    found = consult(answers, at, salon or _salon_in(loaded, options.file), shelf)
    if options.out:
        _write_record(found, Path(options.out))
    _print_report(found, Voice(options.voice), why=options.why)
    if options.out:
        print(f"\nThe record is written: {options.out}")
    if isinstance(found.plan, Stopped):
        return STOPPED
    return PLAN_MADE if isinstance(found.plan, Made) else HELD


def _loaded(name: str, now: "datetime") -> "Loaded":
    from consult.files import BadFile
    from consult.records.codec import read_file

    try:
        return read_file(Path(name), now)
    except BadFile as error:
        raise _Problem(str(error)) from None


def _salon_in(loaded: "Loaded", name: str) -> "SalonConfig | None":
    """The rules and settings of a salon's own that a record was judged by."""
    if loaded.salon is None:
        return None
    from consult.records.record import salon_of
    from consult.salon import BadConfig

    try:
        return salon_of(loaded)
    except BadConfig as error:
        raise _Problem(f"{name}: salon: {error}") from None


def _write_record(found: "Consultation", path: Path) -> None:
    from consult.records.record import dump_record
    from consult.records.store import CannotSave, save_text

    try:
        save_text(path, dump_record(found))
    except CannotSave as error:
        raise _Problem(str(error)) from None


def _print_report(found: "Consultation", voice: Voice, *, why: bool) -> None:
    from textwrap import fill

    from consult.gates.words import when
    from consult.report import headline, plan_headline, report
    from consult.trade import Voice

    print(f"VERDICT  {headline(found)}")
    print(f"         {plan_headline(found)}")
    print(f"         judged as of {when(found.now)}")
    for block in report(found, Voice(voice)):
        print(f"\n{block.title.upper()}")
        for row in block.rows:
            print(fill(row.say, 96, initial_indent="  ", subsequent_indent="    "))
            if row.swatches and sys.stdout.isatty():
                _print_swatches(row.swatches)
            if why or row.verdict is not None:
                print(fill(row.because, 96, initial_indent="      -> ", subsequent_indent="         "))
            if why:
                print(fill(f"[{row.cited}]", 96, initial_indent="         ", subsequent_indent="         "))


def _print_swatches(swatches: "tuple[tuple[str, str], ...]") -> None:
    """Patches with their words, in as many colours as the terminal has; NO_COLOR leaves the words."""
    from rich.console import Console
    from rich.text import Text

    line = Text("    ")
    for word, colour in swatches:
        line.append(f"{word} ").append("      ", style=f"on {colour}").append("  ")
    Console(highlight=False).print(line)


def _check(files: Sequence[str]) -> int:
    worst = PLAN_MADE
    for name in files:
        try:
            print(f"{name}: {_checked(name)}")
        except _Problem as problem:
            _complain(str(problem))
            worst = BAD_INPUT
    return worst


def _checked(name: str) -> str:
    """What a file is found to be. Raises _Problem."""
    loaded = _loaded(name, _clock())
    if loaded.result is None or loaded.consulted_at is None:
        return "valid answers"
    from consult.consultation import consult
    from consult.records.record import result_data

    found = consult(loaded.answers, loaded.consulted_at, _salon_in(loaded, name))
    if result_data(found) == loaded.result:
        return "valid record"
    return "valid answers; its result is not what this program computes"


def _schema() -> int:
    import json

    from consult.answers import Answers

    print(json.dumps(Answers.model_json_schema(), indent=2))
    return PLAN_MADE


def _wizard(
    voice: Voice,
    salon: "SalonConfig | None" = None,
    shelf: "Shelf | None" = None,
    *,
    opening: "Wanted | None" = None,
    demos: bool = False,
) -> int:
    from consult.screens.app import ConsultApp
    from consult.screens.app import run as run_app

    return run_app(ConsultApp(voice=voice, opening=opening, salon=salon, shelf=shelf, demos=demos))


def _demo(name: str, voice: Voice) -> "Wanted":
    from consult.records.demos import demo_files
    from consult.records.wanted import Origin, Wanted

    files = demo_files()
    if name not in files:
        raise _Problem(f"there is no demo client of that name; there are {', '.join(files)}")
    return Wanted(Origin.DEMO, voice, files[name])


def _no_plug_ins() -> None:
    """A plug-in of pydantic that happens to be installed would see every answer, and looking for one takes time: even
    where it is told not to look, what it would look with is loaded."""
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "1"
    nothing = ModuleType("pydantic.plugin._loader")
    vars(nothing)["get_plugins"] = tuple
    sys.modules.setdefault(nothing.__name__, nothing)


def run() -> None:
    """The program's entry point. No traceback ever reaches a user."""
    _no_plug_ins()
    # No matrix here is large enough to be shared out, and starting the threads for it takes a sixth of a command.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.disable()
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    try:
        code = main()
        if sys.stdout:
            sys.stdout.flush()
    except KeyboardInterrupt:
        code = 130
    except BrokenPipeError:
        # The reader has gone (a pager was closed); there is nobody left to tell.
        sys.stderr.close()
        code = FAILED
    except Exception as error:
        print(f"consult: {type(error).__name__}: the program failed; nothing was changed", file=sys.stderr)
        code = FAILED
    gc.freeze()  # the interpreter's last collection has nothing to go through then
    sys.exit(code)
