"""The record of every demo client as it stands in the repository, so that no change of it goes unseen."""

from pathlib import Path

from consult.records.record import dump_record
from tests.demo import judged

FOLDER = Path(__file__).parent


def golden(name: str) -> Path:
    """Where the record of a demo client stands."""
    return FOLDER / f"{name}.toml"


def record(name: str) -> str:
    """The record of a demo client as the program writes it now."""
    return dump_record(judged(name))
