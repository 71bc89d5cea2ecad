"""Tables that follow from the model's constants alone, kept ready in a file beside this one.

Computing them takes a twentieth of a second at every start of the program. The file is named after a check sum
of the sources that the tables are computed from: where these have changed, or the file is not there, they are
computed as ever. `python -m consult.colour.prepared` writes it anew; a test holds that it is there and right.
"""

import zlib
from collections.abc import Callable
from functools import cache
from pathlib import Path

import numpy as np

from consult.colour.cie import Floats

FOLDER = Path(__file__).parent
SOURCES = ("cie", "cie_tables", "dyes", "fibre", "ladder", "melanin", "pigment")
"""The modules whose constants and formulas the tables rest on."""

_END = b"\n\n"


def _file() -> Path:
    """Where the tables of these very sources stand. Raises OSError where the sources cannot be read."""
    text = b"".join((FOLDER / f"{name}.py").read_bytes() for name in SOURCES)
    return FOLDER / f"tables-{zlib.crc32(text):08x}.bin"


@cache
def _ready() -> dict[str, Floats]:
    """Name -> table. The head of the file names each table and its shape, a line a table."""
    try:
        head, _, data = _file().read_bytes().partition(_END)
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


def computed() -> dict[str, Floats]:
    """Every table, computed now."""
    from consult.colour import dyes, ladder, pigment
    from consult.trade import TONES

    return {
        "ladder": pigment.compute_ladder(),
        "doses": pigment.compute_doses(),
        **{f"strengths {tone}": dyes.compute_strengths(tone) for tone in TONES},
        **{f"chart {tone}": ladder.compute_chart(tone) for tone in TONES},
    }


def main() -> None:
    """Write the file for the sources as they are, and take older ones away."""
    tables = computed()
    for old in FOLDER.glob("tables-*.bin"):
        old.unlink()
    head = "\n".join(f"{name}: {' '.join(str(side) for side in t.shape)}" for name, t in tables.items())
    data = b"".join(np.ascontiguousarray(t, "<f8").tobytes() for t in tables.values())
    _file().write_bytes(head.encode("ascii") + _END + data)


if __name__ == "__main__":
    main()
