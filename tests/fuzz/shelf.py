"""Shelf files as nobody should write them: `python -m tests.fuzz.shelf 200000`."""

from functools import cache
from pathlib import Path

from consult.consultation import Consultation, consult
from consult.records.codec import read_shelf
from consult.records.demos import demo_folder
from tests.demo import judged
from tests.fuzz import main

EVERY = 200
"""One accepted shelf in so many is searched for the best mix, which takes its time."""


def sound_files() -> list[bytes]:
    return [(demo_folder() / "shelf.toml").read_bytes()]


@cache
def _head() -> Consultation:
    return judged("agnes")


def read(path: Path, number: int) -> str:
    """Read a shelf; now and then choose from it."""
    shelf = read_shelf(path)
    if number % EVERY:
        return "taken"
    found = consult(_head().answers, _head().now, None, shelf).from_shelf
    assert found is not None
    for offer in found.best:
        assert abs(sum(share for _, share in offer.shades) - 1) < 0.01
        assert 0 <= offer.developer_percent <= 12
        assert 5 <= offer.minutes <= 120
    return "searched"


if __name__ == "__main__":
    main(read, sound_files())
