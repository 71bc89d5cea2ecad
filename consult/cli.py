"""The command line: which command is wanted, and how the program ends. Exit codes stand in `exits.py`.

A command leaves no rubbish worth looking for, so the collector is off; the wizard turns it on when all is loaded.
"""

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from io import TextIOWrapper
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

from consult.exits import BAD_INPUT, FAILED, INTERRUPTED, PLAN_MADE
from consult.records.wanted import Origin, Wanted
from consult.terminal import why_plain
from consult.trade import Voice

if TYPE_CHECKING:
    import argparse

    from consult.answers.shelf import Shelf
    from consult.salon import SalonConfig

TURN_SECONDS = 0.0005
FRAMES = "1000"
"""Frames a second at the most; what has not changed is not painted at all."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns the exit code; errors are one line on standard error."""
    given = sys.argv[1:] if arguments is None else arguments
    if not given:
        # The commonest start waits for no parser.
        return _face(None, _last_role())
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
    if options.command == "serve":
        return commands.serve(options)
    if options.command == "plan":
        return commands.plan(options, salon, shelf)
    if options.command == "sheet":
        return commands.sheet(options, salon)
    if options.command == "wrong":
        from consult.advising import wrong

        return wrong(options, salon)
    if options.command == "emergency":
        from consult.advising import emergency

        return emergency(options, salon)
    if options.command == "buy":
        from consult.advising import buy

        return buy(options, salon, shelf)
    known = Voice(options.voice) if options.voice else _last_role()
    if options.command == "day":
        return _day(options.file, known, salon)
    voice = known or Voice.HOME
    match options.command:
        case "ask":
            wanted = _file(options.file, voice) if options.file else Wanted(Origin.NEW, voice)
            return _ask(wanted, salon, shelf, Path(options.out) if options.out else None)
        case "open":
            return _face(_file(options.file, voice), voice, salon, shelf)
        case "demo" if options.name:
            return _face(_demo(options.name, voice), voice, salon, shelf)
    return _face(None, known, salon, shelf, demos=options.command == "demo")


def _last_role() -> Voice | None:
    """Who used the program last. Where that stands, a command that asks nothing need not know."""
    from consult.records.remembered import remembered

    return remembered().role


def _file(name: str, voice: Voice) -> Wanted:
    """A file to open; one that lies among the unfinished consultations is gone on with."""
    from consult.records.drafts import draft_folder

    unfinished = os.path.dirname(os.path.realpath(name)) == os.path.realpath(draft_folder())
    return Wanted(Origin.DRAFT if unfinished else Origin.FILE, voice, Path(name))


def _day(name: str, voice: Voice | None, salon: "SalonConfig | None") -> int:
    """The day of a file; where no plan is made as of now, what holds or stops it. Raises Problem."""
    if why := why_plain():
        raise _problem(
            f"{why}, and a clock has to be painted; print the sheet: consult sheet FILE --start HH:MM"
        )
    from consult.commands import complain, read, salon_in
    from consult.dates import clock
    from consult.day.day import NoDay, open_day
    from consult.exits import of_plan
    from consult.files import BadFile
    from consult.records.store import CannotSave
    from consult.session import open_session

    salon = salon or salon_in(read(name, clock()), name)
    try:
        session = open_session(Wanted(Origin.FILE, voice or Voice.HOME, Path(name)), salon)
        open_day(session.answers, session.salon, session.now(), keep=True).close()
    except NoDay as held:
        complain(f"{name}: {held}")
        return of_plan(held.plan)
    except (BadFile, CannotSave) as error:
        raise _problem(str(error)) from None
    from consult.screens.app import ConsultApp
    from consult.screens.app import run as run_app

    return run_app(ConsultApp(voice=session.voice, session=session, salon=salon, on_the_day=True))


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
    wanted: Wanted | None,
    voice: Voice | None,
    salon: "SalonConfig | None" = None,
    shelf: "Shelf | None" = None,
    *,
    demos: bool = False,
) -> int:
    """The wizard, or questions line by line where it cannot be painted; the start page where nothing is `wanted`."""
    if why := why_plain():
        if demos:
            raise _problem(f"{why}; name a demo client: {_demo_names()}")
        print(f"consult: {why}; the wizard's questions are asked line by line, as by 'consult ask'.")
        return _ask(wanted or Wanted(Origin.NEW, voice or Voice.HOME), salon, shelf)
    # The framework paints when its next frame is due; in a terminal a key need not wait for it.
    os.environ.setdefault("TEXTUAL_FPS", FRAMES)
    # What reads keys and what writes to the terminal are threads: their turn comes at once, not after 5 ms.
    sys.setswitchinterval(TURN_SECONDS)
    from consult.screens.app import ConsultApp
    from consult.screens.app import run as run_app

    return run_app(ConsultApp(voice=voice, opening=wanted, salon=salon, shelf=shelf, demos=demos))


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
    gc.enable()  # A conversation lasts.
    try:
        return ask(wanted, salon, shelf, out=out)
    except BadFile as error:
        complain(str(error))
        return BAD_INPUT


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
        code = INTERRUPTED
    except BrokenPipeError:
        code = FAILED  # The reader has gone (a pager was closed); there is nobody left to tell.
    except Exception as error:
        print(f"consult: {type(error).__name__}: the program failed; nothing was changed", file=sys.stderr)
        code = FAILED
    with suppress(OSError):
        if sys.stdout:
            sys.stdout.flush()
    # All is written; taking hundreds of modules apart before the end would only keep the user waiting.
    os._exit(code)
