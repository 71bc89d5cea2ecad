"""Who sits at this machine: remembered, so that it is said once."""

from pathlib import Path

from consult.files import BadFile, read_toml
from consult.records.store import CannotSave, home, save_text
from consult.trade import Voice


def _file() -> Path:
    return home() / "role.toml"


def remembered_role() -> Voice | None:
    """Who used the program last; None when nobody did, or when the file is spoilt."""
    try:
        return Voice(str(read_toml(_file()).get("role", "")))
    except (BadFile, ValueError):
        return None


def remember_role(voice: Voice) -> None:
    """Keep who uses the program. A disk that takes nothing costs one key at the next start, no more."""
    if remembered_role() is voice:
        return
    try:
        save_text(_file(), f'role = "{voice.value}"\n')
    except CannotSave:
        return
