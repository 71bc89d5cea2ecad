"""The command line: which command is wanted, and how the program ends. Exit codes stand in `exits.py`."""

import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING

from consult.exits import BAD_INPUT, FAILED, INTERRUPTED, PLAN_MADE
from consult.records.wanted import Origin, Wanted
from consult.terminal import why_plain
from consult.trade import Voice

if TYPE_CHECKING:
    import argparse

    from consult.answers.shelf import Shelf
    from consult.salon import SalonConfig


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns the exit code; errors are one line on standard error."""
    given = sys.argv[1:] if arguments is None else arguments
    if not given:
        # The commonest start waits for no parser.
        return _face(Wanted(Origin.NEW, Voice.HOME))
    from consult.arguments import parse
    from consult.commands import Problem, complain

    try:
        return _run(parse(given))
    except Problem as problem:
        complain(str(problem))
        return BAD_INPUT


def _run(options: "argparse.Namespace") -> int:
    """Raises Problem."""
    from consult import commands

    match options.command:
        case "check":
            return commands.check(options.files)
        case "schema":
            return commands.schema()
        case "swatch":
            return commands.swatch(options)
        case "completion":
            from consult.arguments import completion

            print(completion(options.shell))
            return PLAN_MADE
    salon, shelf = commands.salon_at(options.salon), commands.shelf_at(options.shelf)
    voice = Voice(options.voice)
    match options.command:
        case "plan":
            return commands.plan(options, salon, shelf)
        case "ask":
            wanted = _file(options.file, voice) if options.file else Wanted(Origin.NEW, voice)
            return _ask(wanted, salon, shelf, Path(options.out) if options.out else None)
        case "open":
            return _face(_file(options.file, voice), salon, shelf)
        case "demo" if options.name:
            return _face(_demo(options.name, voice), salon, shelf)
    return _face(Wanted(Origin.NEW, voice), salon, shelf, demos=options.command == "demo")


def _file(name: str, voice: Voice) -> Wanted:
    """A file to open; one that lies among the unfinished consultations is gone on with."""
    from consult.records.drafts import draft_folder

    unfinished = os.path.dirname(os.path.realpath(name)) == os.path.realpath(draft_folder())
    return Wanted(Origin.DRAFT if unfinished else Origin.FILE, voice, Path(name))


def _demo(name: str, voice: Voice) -> Wanted:
    from consult.records.demos import demo_files

    files = demo_files()
    if name not in files:
        raise _problem(f"there is no demo client of that name; there are {_demo_names()}")
    return Wanted(Origin.DEMO, voice, files[name])


def _demo_names() -> str:
    from consult.records.demos import demo_files

    return ", ".join(demo_files())


def _problem(text: str) -> Exception:
    from consult.commands import Problem

    return Problem(text)


def _face(
    wanted: Wanted,
    salon: "SalonConfig | None" = None,
    shelf: "Shelf | None" = None,
    *,
    demos: bool = False,
) -> int:
    """The wizard, or questions line by line where it cannot be painted."""
    if why := why_plain():
        if demos:
            raise _problem(f"{why}; name a demo client: {_demo_names()}")
        print(f"consult: {why}; the wizard's questions are asked line by line, as by 'consult ask'.")
        return _ask(wanted, salon, shelf)
    import gc

    # Until all is loaded there is nothing to collect; the application turns it on again.
    gc.disable()
    from consult.screens.app import ConsultApp
    from consult.screens.app import run as run_app

    opening = wanted if wanted.path else None
    return run_app(ConsultApp(voice=wanted.voice, opening=opening, salon=salon, shelf=shelf, demos=demos))


def _ask(
    wanted: Wanted,
    salon: "SalonConfig | None" = None,
    shelf: "Shelf | None" = None,
    out: Path | None = None,
) -> int:
    from consult.ask.opening import ask
    from consult.commands import complain
    from consult.files import BadFile

    if out and os.path.lexists(out):
        complain(f"{out}: this file exists; choose another place")
        return BAD_INPUT
    try:
        return ask(wanted, salon, shelf, out=out)
    except BadFile as error:
        complain(str(error))
        return BAD_INPUT


def run() -> None:
    """The program's entry point. No traceback ever reaches a user."""
    # A plug-in of pydantic that happens to be installed would see every answer; looking for one takes time.
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "1"
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    try:
        code = main()
        if sys.stdout:
            sys.stdout.flush()
    except KeyboardInterrupt:
        code = INTERRUPTED
    except BrokenPipeError:
        # The reader has gone (a pager was closed); there is nobody left to tell.
        sys.stderr.close()
        code = FAILED
    except Exception as error:
        print(f"consult: {type(error).__name__}: the program failed; nothing was changed", file=sys.stderr)
        code = FAILED
    sys.exit(code)
