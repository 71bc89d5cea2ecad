"""Tables that follow from the model's constants alone, kept ready in a file beside this one.

Computing them takes a twentieth of a second at every start of the program. The file is named after a check sum
of the sources that the tables are computed from: where these have changed, or the file is not there, they are
computed as ever. `python -m consult.colour.prepare` writes it anew; a test holds that it is there and right.
"""

import zlib
from collections.abc import Callable
from functools import cache
from pathlib import Path

import numpy as np

from consult.colour.cie import Floats

FOLDER = Path(__file__).parent
SOURCES = ("apparent", "cie", "cie_tables", "dyes", "fibre", "ladder", "melanin", "pigment")
"""The modules whose constants and formulas the tables rest on."""

END = b"\n\n"


def file_of_tables() -> Path:
    """Where the tables of these very sources stand. Raises OSError where the sources cannot be read."""
    text = b"".join((FOLDER / f"{name}.py").read_bytes() for name in SOURCES)
    return FOLDER / f"tables-{zlib.crc32(text):08x}.bin"


@cache
def _ready() -> dict[str, Floats]:
    """Name -> table. The head of the file names each table and its shape, a line a table."""
    try:
        head, _, data = file_of_tables().read_bytes().partition(END)
    except OSError:
        return {}
    found, at = {}, 0
    for row in head.decode("ascii").splitlines():
        name, _, sides = row.partition(":")
        shape = tuple(int(side) for side in sides.split())
        count = int(np.prod(shape))
        found[name] = np.frombuffer(data, "<f8", count, at).reshape(shape)
        at += 8 * count
    return found


def table(name: str, compute: Callable[[], Floats]) -> Floats:
    """A table by its name, ready or computed now."""
    ready = _ready().get(name)
    return compute() if ready is None else ready
