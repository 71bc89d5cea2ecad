"""Compute the tables that are kept ready, and write them: `python -m consult.colour.prepare`."""

import numpy as np

from consult.colour.cie import Floats
from consult.colour.dyes import compute_strengths
from consult.colour.ladder import compute_chart
from consult.colour.pigment import compute_balance, compute_doses, compute_ladder
from consult.colour.prepared import END, FOLDER, file_of_tables
from consult.trade import TONES


def compute_tables() -> dict[str, Floats]:
    """Name -> table, every one of them computed now."""
    return {
        "ladder": compute_ladder(),
        "balance": compute_balance(),
        "doses": compute_doses(),
        **{f"strengths {tone}": compute_strengths(tone) for tone in TONES},
        **{f"chart {tone}": compute_chart(tone) for tone in TONES},
    }


def main() -> None:
    """Write the file for the sources as they are, and take older ones away."""
    tables = compute_tables()
    for old in FOLDER.glob("tables-*.bin"):
        old.unlink()
    head = "\n".join(f"{name}: {' '.join(str(side) for side in t.shape)}" for name, t in tables.items())
    data = b"".join(np.ascontiguousarray(t, "<f8").tobytes() for t in tables.values())
    file_of_tables().write_bytes(head.encode("ascii") + END + data)


if __name__ == "__main__":
    main()
