"""What need not be said again at this machine: who sits at it, and which look they like."""

from pathlib import Path

from msgspec import Struct
from msgspec.structs import asdict, replace

from consult.files import BadFile, read_toml
from consult.records.store import CannotSave, home, save_text
from consult.trade import Voice


class Remembered(Struct, frozen=True):
    """role   who used the program last, or None; theme  the name of the look, or an empty text"""

    role: Voice | None = None
    theme: str = ""


def _file() -> Path:
    return home() / "remembered.toml"


def remembered() -> Remembered:
    """What was said last; nothing when the file is spoilt."""
    try:
        data = read_toml(_file())
        role = Voice(data["role"]) if "role" in data else None
    except (BadFile, ValueError):
        return Remembered()
    theme = data.get("theme", "")
    return Remembered(role, theme if isinstance(theme, str) else "")


def remember(*, role: Voice | None = None, theme: str | None = None) -> None:
    """Keep what was said. A disk that takes nothing costs one key at the next start, no more."""
    import tomli_w

    before = remembered()
    after = replace(before, role=role or before.role, theme=before.theme if theme is None else theme)
    if after == before:
        return
    data = {name: getattr(value, "value", value) for name, value in asdict(after).items() if value}
    try:
        save_text(_file(), tomli_w.dumps(data))
    except CannotSave:
        return
