"""Unfinished consultations: where each is kept, and what is offered to go on with.

No two windows share a file. Whoever opens an unfinished consultation takes its file over under a fresh name,
which the system does at one stroke; so neither window can write over what the other has written.
"""

import os
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Final

from msgspec import Struct

from consult.cleaning import clean_text
from consult.files import BadFile, read_head
from consult.records.store import (
    Stamp,
    Taken,
    home,
    numbered,
    own_folder,
    remove_leftovers,
    removed_on_failure,
    stamp,
    sync_folder,
    take_name,
    told,
    write,
)
from consult.records.wanted import Purpose

FOLDER: Final = "unfinished"
MOST_OFFERED: Final = 5
LOOKED_AT_FOR_ONE: Final = 4
MOST_LISTED: Final = 200
"""So many files are opened for their names: a folder full of spoilt ones keeps nobody waiting."""
LONGEST_EMPTY: Final = 3600
"""Seconds after which an empty file is no name that somebody has just taken."""


def draft_folder() -> Path:
    """Where unfinished consultations lie."""
    return home() / FOLDER


class DraftFile:
    """The file that one window keeps its consultation in; none before the first save."""

    def __init__(self, path: Path | None = None, mine: Stamp | None = None) -> None:
        """`mine` is the version of the file that may be written over."""
        self.path = path
        self._mine = mine

    @classmethod
    def taken(cls, path: Path, now: datetime) -> "DraftFile":
        """Take over an unfinished consultation. Raises BadFile when somebody has taken it already.

        Where the folder takes no change the file stays, and nothing is ever written over it.
        """
        try:
            mine = stamp(path)
            fresh = _take_fresh_name(now)
        except OSError:
            return cls()
        try:
            os.replace(path, fresh)
        except FileNotFoundError:
            raise BadFile(str(path), "opened in another window meanwhile; choose again") from None
        except OSError:
            return cls()
        finally:
            _remove_if_empty(fresh)
        return cls(fresh, mine)

    def save(self, text: str, now: datetime) -> bool:
        """Write it down; whether somebody else has had the file since.

        Then it is left to them, and this one goes on under a fresh name: both are kept. Raises CannotSave.
        """
        with told(self.path or draft_folder()):
            theirs = self.path is not None and stamp(self.path) != self._mine
            if self.path is None or theirs:
                fresh = _take_fresh_name(now)
                with removed_on_failure(fresh):
                    self._mine = write(fresh, text)
                self.path = fresh
            else:
                self._mine = write(self.path, text)
            sync_folder(self.path.parent)
        return theirs

    def remove(self) -> None:
        """Take it away, unless somebody else has had it since. Raises CannotSave."""
        if self.path is None:
            return
        with told(self.path):
            if stamp(self.path) == self._mine:
                self.path.unlink(missing_ok=True)
                sync_folder(self.path.parent)
        self.path = self._mine = None


def _take_fresh_name(now: datetime) -> Path:
    """Microseconds stand in it: a name that has been given up does not come again."""
    names = numbered(own_folder(FOLDER) / f"{now:%Y-%m-%d-%H%M%S-%f}")
    while True:
        path = next(names)
        with suppress(Taken):
            take_name(path)
            return path


def _remove_if_empty(path: Path) -> None:
    with suppress(OSError):
        if os.stat(path).st_size == 0:
            path.unlink()


class Draft(Struct, frozen=True):
    """An unfinished consultation on disk, as it is offered; it is read whole when it is opened."""

    path: Path
    name: str
    saved_at: datetime
    purpose: Purpose = Purpose.COLOUR


class Offer(Struct, frozen=True):
    """What can be gone on with, newest first; one line for each file met that cannot; how many more there are."""

    drafts: list[Draft]
    errors: list[str]
    more: int


def offered(most: int = MOST_OFFERED) -> Offer:
    """The newest unfinished consultations; names are read off the heads of the files."""
    folder = draft_folder()
    with suppress(OSError):
        if os.path.isdir(folder):
            own_folder(FOLDER)
        # What is remembered lies beside the folder, and is written the same way.
        for place in (folder, home()):
            remove_leftovers(place)
    found: list[Draft] = []
    errors: list[str] = []
    files = _newest_first(folder)
    for number, (saved_at, path) in enumerate(files):
        if len(found) == most or number == most * LOOKED_AT_FOR_ONE:
            return Offer(found, errors, len(files) - number)
        try:
            name, purpose = _head_of(path)
            found.append(Draft(path, name, datetime.fromtimestamp(saved_at).astimezone(), purpose))
        except (BadFile, OSError, ValueError):
            hint = "cannot be read as TOML; correct it by hand or remove it"
            errors.append(str(BadFile(str(path), hint)))
    return Offer(found, errors, 0)


def _newest_first(folder: Path) -> list[tuple[float, Path]]:
    """(when saved, file) of everything named like an unfinished consultation, but names only just taken."""
    files: list[tuple[float, Path]] = []
    now = datetime.now().timestamp()
    with suppress(OSError):
        for path in folder.glob("*.toml"):
            try:
                seen = os.stat(path)
            except OSError:
                files.append((0.0, path))
                continue
            if seen.st_size or not path.is_file():
                files.append((seen.st_mtime, path))
            elif now - seen.st_mtime > LONGEST_EMPTY:
                _remove_if_empty(path)
    return sorted(files, key=lambda file: (-file[0], file[1].name))


def _head_of(path: Path) -> tuple[str, Purpose]:
    """The client's name in a file, empty when there is none, and what it is for. Raises BadFile."""
    head = read_head(path, "client")
    client, record = head.get("client"), head.get("record")
    name = client.get("name") if isinstance(client, dict) else None
    purpose = record.get("purpose") if isinstance(record, dict) else None
    known = [one for one in Purpose if one.value == purpose]
    return clean_text(name) if isinstance(name, str) else "", known[0] if known else Purpose.COLOUR
