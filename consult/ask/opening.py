"""Plain mode from its first line to its exit code: what is opened, and how it ends."""

import sys
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING

from consult.ask.console import Console
from consult.ask.talk import Talk, next_open
from consult.ask.words import GREETING
from consult.exits import INTERRUPTED
from consult.gates.words import when
from consult.interview import intake as steps
from consult.records.drafts import offered
from consult.records.wanted import Origin, Purpose, Wanted
from consult.session import Session, open_session

if TYPE_CHECKING:
    from consult.answers.shelf import Shelf
    from consult.salon import SalonConfig


def ask(
    wanted: Wanted,
    salon: "SalonConfig | None" = None,
    shelf: "Shelf | None" = None,
    *,
    out: Path | None = None,
) -> int:
    """Ask line by line on the standard streams. Returns the exit code; raises BadFile."""
    if isinstance(sys.stdin, TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")
    console = Console(sys.stdin, sys.stdout)
    console.say(GREETING)
    try:
        if wanted.origin is Origin.NEW and sys.stdin.isatty():
            wanted = _which(console, wanted)
    except (EOFError, KeyboardInterrupt):
        console.line("")
        return INTERRUPTED
    return converse(open_session(wanted, salon, shelf), console, out, opened=wanted.origin)


def converse(session: Session, console: Console, out: Path | None, *, opened: Origin) -> int:
    """Ask until the end. A file that was opened goes on with what it leaves out."""
    if opened in (Origin.FILE, Origin.DEMO):
        session.intake = steps.jump(session.intake, next_open(session.intake))
    session.purpose = Purpose.COLOUR  # Line by line, one thing is asked about: a colouring.
    talk = Talk(session, console, out)
    try:
        return talk.run()
    except KeyboardInterrupt:
        console.line("")
        talk.leave()
        return INTERRUPTED


def _which(console: Console, new: Wanted) -> Wanted:
    """An unfinished consultation that is gone on with, or the new one."""
    drafts = offered().drafts
    if not drafts:
        return new
    console.say("Unfinished consultations:")
    for number, draft in enumerate(drafts, 1):
        console.say(f"{draft.name or 'no name'}, saved {when(draft.saved_at)}", first=f"  {number}  ")
    console.say("Its number to go on with it; an empty line for a new one.")
    while typed := console.hear():
        if typed in map(str, range(1, len(drafts) + 1)):
            return Wanted(Origin.DRAFT, new.voice, drafts[int(typed) - 1].path)
        console.say(f"A number from 1 to {len(drafts)}, or an empty line.")
    return new
