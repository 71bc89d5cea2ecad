"""The demo clients: invented people that ship with the program."""

from pathlib import Path

import consult
from consult.files import read_head


def demo_folder() -> Path:
    """Where the demo clients lie: inside the installed package, or beside it in a checkout."""
    package = Path(consult.__file__).parent
    inside = package / "demo_clients"
    return inside if inside.is_dir() else package.parent / "demo_clients"


def demo_files() -> dict[str, Path]:
    """Name -> file, in the order of their numbers: `01-ines.toml` is "ines"."""
    return {path.stem.partition("-")[2]: path for path in sorted(demo_folder().glob("[0-9]*-*.toml"))}


def demo_words() -> dict[str, str]:
    """Name -> what the demo client shows, read off its header."""
    return {name: _shows(path) for name, path in demo_files().items()}


def _shows(path: Path) -> str:
    return str(read_head(path, "record").get("record", {}).get("shows", ""))
