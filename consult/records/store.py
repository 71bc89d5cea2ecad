"""Writing files: whole or not at all, for their owner's eyes only, and where they lie on this machine.

No file is ever named after what a user typed.
"""

import errno
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import IO, Final, NamedTuple

from platformdirs import user_data_path

if sys.platform != "win32":
    import fcntl

HOME_VARIABLE = "CONSULT_HOME"
PART: Final = ".consult-writing-"
"""How the name of a file begins that is still being written."""
_MOVES_OPEN: Final = sys.platform != "win32"
_NO_FOLDER_SYNC = {errno.EINVAL, errno.EACCES}
"""A file system that cannot sync a folder, and a folder that may be written but not read."""


class CannotSave(OSError):
    """Saving failed; one line that names the place and what would be right. Nothing that stood there is lost."""


class Taken(CannotSave):
    """A new file was asked for where one stands already."""


class Stamp(NamedTuple):
    """Which version of a file this is: every save makes another one."""

    inode: int
    changed_ns: int
    size: int


def home() -> Path:
    """The program's folder: CONSULT_HOME if set, else the platform's place for user data."""
    own = os.environ.get(HOME_VARIABLE)
    return Path(own) if own else user_data_path("consult", appauthor=False)


def own_folder(name: str) -> Path:
    """A folder in the program's own, made if need be, that nobody but its owner can look into. Raises OSError."""
    folder = home() / name
    folder.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    folder.mkdir(mode=0o700, exist_ok=True)
    if os.stat(folder).st_mode & 0o077:
        # On a file system without such rights, or in somebody else's folder, the files guard themselves.
        with suppress(PermissionError):
            os.chmod(folder, 0o700)
    return folder


def new_export_path(now: datetime) -> Path:
    """A name for a new record that is not taken."""
    stem = home() / "records" / f"{now:%Y-%m-%d-%H%M}"
    return next(path for path in numbered(stem) if not os.path.exists(path))


def missing_folder(path: Path) -> Path | None:
    """The topmost folder that has to be made before a file can be written there; None when all are there."""
    missing = [folder for folder in path.parents if not os.path.exists(folder)]
    return missing[-1] if missing else None


def written_line(path: Path, made: Path | None, what: str = "record") -> str:
    """What is said of a file that was written, and of the folder that was made for it."""
    return f"The {what} is written: {path}" + (f" (the folder {made} was made for it)" if made else "")


def numbered(stem: Path) -> Iterator[Path]:
    """Names for a file: the plain one first, then numbered from 2."""
    number = 1
    while True:
        yield stem.with_name(f"{stem.name}{f'-{number}' if number > 1 else ''}.toml")
        number += 1


def stamp(path: Path) -> Stamp | None:
    """The version of the file that stands there now; None when none does. Raises OSError."""
    try:
        return _stamp_of(os.stat(path))
    except FileNotFoundError:
        return None


def _stamp_of(found: os.stat_result) -> Stamp:
    return Stamp(found.st_ino, found.st_mtime_ns, found.st_size)


def save_text(path: Path, text: str, *, new: bool = False) -> None:
    """Write a file whole or not at all, readable by its owner only; the disk has it when this returns.

    new  the name must be free. It is taken before anything is written: of two programs one alone gets it.
    Raises CannotSave, or Taken.
    """
    with told(path):
        if path.parent == home() / "records":
            own_folder("records")
        path.parent.mkdir(parents=True, exist_ok=True)
        if new:
            take_name(path)
        with removed_on_failure(path if new else None):
            write(path, text)
        sync_folder(path.parent)
        remove_leftovers(path.parent)


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Whatever the disk refuses inside becomes one line about `path`."""
    try:
        yield
    except CannotSave:
        raise
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "cannot be written"
        raise CannotSave(f"{path}: {why}; free some space or choose another place") from None


def write(path: Path, text: str) -> Stamp:
    """Write a file whole or not at all; its folder is not waited for. Raises OSError.

    It is written beside its place and held meanwhile: what a killed program has left is held by nobody.
    """
    if os.path.exists(path) and not os.path.isfile(path):
        raise OSError(errno.EINVAL, "this is no ordinary file")
    name = ""
    try:
        while True:
            handle, name = tempfile.mkstemp(dir=path.parent, prefix=PART)
            with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
                if not _hold(file):
                    continue
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
                written = _stamp_of(os.fstat(file.fileno()))
                if _MOVES_OPEN:
                    os.replace(name, path)
            if not _MOVES_OPEN:
                os.replace(name, path)
            return written
    except BaseException:
        if name:
            Path(name).unlink(missing_ok=True)
        raise


def take_name(path: Path) -> None:
    """Put an empty file where there is none. Raises Taken when there is one, and OSError."""
    try:
        os.close(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
    except FileExistsError:
        raise Taken(f"{path}: this file exists; choose another place") from None


@contextmanager
def removed_on_failure(path: Path | None) -> Iterator[None]:
    """A name that was taken is given back when what is done inside fails."""
    try:
        yield
    except BaseException:
        if path:
            path.unlink(missing_ok=True)
        raise


def _hold(file: IO[str]) -> bool:
    """Hold a file until it is closed; False when it has been removed before it was held.

    A system without such holds removes no open file, and some network folders have none.
    """
    if sys.platform != "win32":
        with suppress(OSError):
            fcntl.flock(file, fcntl.LOCK_EX)
    return os.fstat(file.fileno()).st_nlink > 0


def sync_folder(folder: Path) -> None:
    """Wait until the disk knows the names in a folder. Raises OSError."""
    if sys.platform == "win32":
        return
    try:
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
    except OSError as error:
        if error.errno not in _NO_FOLDER_SYNC:
            raise


def remove_leftovers(folder: Path) -> None:
    """Remove what killed programs left half written; what a live one is writing stays."""
    with suppress(OSError):
        for path in folder.glob(f"{PART}*"):
            _remove_if_left(path)


def _remove_if_left(path: Path) -> None:
    with suppress(OSError):
        if path.is_file():
            with path.open("r") as file:
                if sys.platform != "win32":
                    fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
                path.unlink()
