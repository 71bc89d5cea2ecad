"""The log of a day on the disk: one line an act, added and never changed.

An act is on the disk before it is shown. Of two windows one holds the log and writes; the other only shows it.
"""

import errno
import hashlib
import json
import os
import sys
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Annotated, Any, Final, Literal, get_args

from pydantic import Field, ValidationError

from consult.answers import Answers
from consult.answers.access import as_data
from consult.day.acts import Act, Did
from consult.day.clock import Reading
from consult.files import LARGEST_FILE, BadFile, read_lines
from consult.records.models import FileModel
from consult.records.store import CannotSave, home, numbered, own_folder, sync_folder, told
from consult.sources import ASSUMPTION, Number

if sys.platform != "win32":
    import fcntl

FOLDER: Final = "days"
A_DAY: Final = Number(
    24 * 3600, "s after which a day that is over, or was never begun, is another one", ASSUMPTION
)
_HEAD: Final = "day"
_Word = Literal["open", "step", "begin", "done", "look", "off", "later", "add", "stop", "back", "end"]
_Seconds = Annotated[float, Field(ge=0, le=1e11, allow_inf_nan=False)]


class _Line(FileModel):
    """One act as it stands in the log."""

    did: _Word
    of: Annotated[str, Field(max_length=400, pattern=r"^[0-9a-z. ]*$")] = ""
    minutes: Annotated[int, Field(ge=0, le=240)] = 0
    utc: _Seconds
    up: _Seconds
    boot: Annotated[str, Field(max_length=40, pattern=r"^[0-9a-f-]*$")] = ""


class _Head(FileModel):
    """The first line: the moment as of which the plan was judged."""

    judged: datetime


assert set(get_args(_Word)) == {did.value for did in Did}


def mark_of(answers: Answers, own_rules: dict[str, Any]) -> str:
    """What a day's log is found by: the same answers under the same rules of a salon's own have the same mark."""
    text = json.dumps([as_data(answers), own_rules], sort_keys=True, default=str)
    return hashlib.sha256(text.encode()).hexdigest()[:20]


class Kept:
    """The log of one day.

    acts      all of it, in order
    judged    the moment as of which its plan was judged
    writes    whether this window holds it
    error     why the last acts are not on the disk; empty when they are
    """

    def __init__(self, judged: datetime, path: Path | None = None) -> None:
        """Without a path nothing is kept: a demo client's day."""
        self.path = path
        self.judged = judged
        self.acts: tuple[Act, ...] = ()
        self.writes = True
        self.error = ""
        self._handle: int | None = None
        self._size = 0
        self._written = 0
        if path is not None:
            self._open(path)

    def close(self) -> None:
        """Let it go: another window may write then."""
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None

    def add(self, act: Act) -> None:
        """Take an act, and write it down with those before it that the disk refused; what it refuses is told in
        `error`."""
        self.acts = (*self.acts, act)
        if self.path is None:
            return
        try:
            with told(self.path):
                self._write()
            self.error = ""
        except CannotSave as error:
            self.error = f"not saved: {error}"

    def look_again(self) -> None:
        """What another window has written meanwhile; where it has let go, this one holds the log now."""
        if self.writes or self.path is None:
            return
        with suppress(CannotSave, BadFile):
            self._hold()
            if not self.writes:
                self.judged, self.acts = _read(self.path, self.judged)

    def _open(self, path: Path) -> None:
        """Raises BadFile where it cannot be read, and CannotSave."""
        with told(path):
            self._handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
            sync_folder(path.parent)
        try:
            self._hold()
            if not self.writes:
                self.judged, self.acts = _read(path, self.judged)
        except BaseException:
            self.close()
            raise

    def _hold(self) -> None:
        """Hold the log, if nobody else does, and read it; what a kill has left of its last line will be written over.

        Raises BadFile, CannotSave.
        """
        assert self._handle is not None
        assert self.path is not None
        self.writes = _held(self._handle)
        if not self.writes:
            return
        with told(self.path):
            self._size = os.pread(self._handle, LARGEST_FILE, 0).rfind(b"\n") + 1
        self.judged, self.acts = _read(self.path, self.judged)
        self._written = len(self.acts)

    def _write(self) -> None:
        """Write what is not on the disk yet. Raises OSError; then the file is as it was."""
        assert self._handle is not None
        head = "" if self._size else f"{_HEAD} = {{ judged = {self.judged.isoformat()} }}\n"
        lines = (_line(number, self.acts[number]) for number in range(self._written, len(self.acts)))
        data = (head + "".join(lines)).encode("ascii")
        os.ftruncate(self._handle, self._size)
        os.lseek(self._handle, self._size, os.SEEK_SET)
        if os.write(self._handle, data) != len(data):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        os.fsync(self._handle)
        self._size += len(data)
        self._written = len(self.acts)


def _held(handle: int) -> bool:
    """Whether it is this window's now. A system or a network folder without such holds guards nothing."""
    if sys.platform == "win32":
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        return True
    return True


def _line(number: int, act: Act) -> str:
    at = act.at
    minutes = f"minutes = {act.minutes}, " if act.minutes else ""
    return (
        f'{number} = {{ did = "{act.did.value}", of = "{act.of}", {minutes}'
        f'utc = {at.utc!r}, up = {at.up!r}, boot = "{at.boot}" }}\n'
    )


def _read(path: Path, judged: datetime) -> tuple[datetime, tuple[Act, ...]]:
    """The acts in a log; `judged` where nothing stands in it yet. Raises BadFile."""
    data = read_lines(path)
    if not data:
        return judged, ()
    name = _HEAD
    try:
        judged = _Head.model_validate(data.pop(_HEAD, None)).judged
        acts = []
        for number, (name, entry) in enumerate(data.items()):
            if name != str(number):
                raise BadFile(str(path), f"expected act {number} here; a log is only added to")
            line = _Line.model_validate(entry)
            acts.append(Act(Did(line.did), Reading(line.utc, line.up, line.boot), line.of, line.minutes))
    except ValidationError:
        raise BadFile(
            str(path), f"{name[:20]}: this is no line of a day's log; move the file away and go by the sheet"
        ) from None
    if judged.tzinfo is None:
        raise BadFile(str(path), f"{_HEAD}: its moment has no offset")
    return judged, tuple(acts)


def keep_day(mark: str, judged: datetime, now: Reading) -> Kept:
    """The log of the day with that mark: the one that is under way, or a new one. Raises BadFile or CannotSave."""
    with told(home() / FOLDER):
        names = numbered(own_folder(FOLDER) / mark)
    while True:
        path = next(names)
        kept = Kept(judged, path)
        if not _is_over(kept.acts, now):
            return kept
        kept.close()


def _is_over(acts: tuple[Act, ...], now: Reading) -> bool:
    """Whether nothing of it concerns anybody today. What was begun and never ended does, however long ago."""
    if not acts:
        return False
    begun = any(act.did is Did.BEGIN for act in acts)
    ended = acts_ended(acts)
    return (ended or not begun) and now.utc - acts[0].at.utc > A_DAY


def acts_ended(acts: tuple[Act, ...]) -> bool:
    """Whether the last thing that was done is the end."""
    did = [act.did for act in acts if act.did is not Did.OPEN]
    return bool(did) and did[-1] is Did.END
