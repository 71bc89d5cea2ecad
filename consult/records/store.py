"""The folder of this machine: unfinished consultations and exports. Files are the user's own.

No file is ever named after what a user typed.
"""

import errno
import os
import tempfile
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from platformdirs import user_data_path

from consult.cleaning import clean_text
from consult.files import read_toml

HOME_VARIABLE = "CONSULT_HOME"


class CannotSave(OSError):
    """Saving failed; one line that names the place and what would be right. Nothing that stood there is lost."""


def home() -> Path:
    """The program's folder: CONSULT_HOME if set, else the platform's place for user data."""
    own = os.environ.get(HOME_VARIABLE)
    return Path(own) if own else user_data_path("consult", appauthor=False)


def save_text(path: Path, text: str) -> None:
    """Write a file whole or not at all, readable by its owner only. Raises CannotSave."""
    try:
        if os.path.exists(path) and not os.path.isfile(path):
            raise OSError(errno.EINVAL, "this is no ordinary file")
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".writing-")
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
            os.replace(name, path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "cannot be written"
        raise CannotSave(f"{path}: {why}; free some space or choose another place") from None


@dataclass(frozen=True)
class Draft:
    """An unfinished consultation on disk, as it is offered; it is read whole when it is opened."""

    path: Path
    name: str
    saved_at: datetime


def new_draft_path(now: datetime) -> Path:
    """A name for a new draft that is not taken."""
    return _free(home() / "unfinished", f"{now:%Y-%m-%d-%H%M%S}")


def new_export_path(now: datetime) -> Path:
    """A name for a new record that is not taken."""
    return _free(home() / "records", f"{now:%Y-%m-%d-%H%M}")


def _free(folder: Path, stem: str) -> Path:
    path, number = folder / f"{stem}.toml", 2
    while os.path.exists(path):
        path, number = folder / f"{stem}-{number}.toml", number + 1
    return path


def drafts() -> tuple[list[Draft], list[str]]:
    """Unfinished consultations, newest first, and one line for each that is no TOML."""
    found: list[Draft] = []
    errors: list[str] = []
    folder = home() / "unfinished"
    for path in sorted(folder.glob("*.toml")) if os.path.isdir(folder) else []:
        try:
            saved_at = datetime.fromtimestamp(path.stat().st_mtime).astimezone()
            found.append(Draft(path, _name_in(path), saved_at))
        except (OSError, ValueError):
            errors.append(f"{path}: cannot be read as TOML; correct it by hand or remove it")
    return sorted(found, key=lambda draft: draft.saved_at, reverse=True), errors


def _name_in(path: Path) -> str:
    """The client's name in a file; empty when there is none. Raises BadFile."""
    client = read_toml(path).get("client")
    name = client.get("name") if isinstance(client, dict) else None
    return clean_text(name) if isinstance(name, str) else ""


def remove_draft(path: Path) -> None:
    """Take an unfinished consultation away; a file that is gone already is no error."""
    try:
        path.unlink(missing_ok=True)
    except OSError as error:
        raise CannotSave(f"{path}: {error.strerror}; remove it by hand") from None
