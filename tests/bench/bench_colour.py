"""How fast colour is computed. Run: python tests/bench/bench_colour.py (one core, prints numbers)."""

import os
import resource
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_name, "1")  # before numpy is imported: one core

started = time.perf_counter()
import numpy as np  # noqa: E402

from consult.colour import prediction  # noqa: E402
from consult.colour.search import Candidates, search  # noqa: E402
from consult.colour.values import HairState, OldColour, Shade, Treatment  # noqa: E402
from consult.trade import TONES  # noqa: E402

imported = time.perf_counter() - started
SHADES = tuple(Shade(depth, tone) for depth in (5, 6, 6.5, 7, 8) for tone in TONES)
GOAL = Shade(6, "copper red")
STRAND = (
    HairState(6, 0.3),
    HairState(6, 0.1),
    HairState(6, 0.3, (OldColour(6, "copper red", 6, 18),)),
    HairState(6, 0.3, (OldColour(6, "copper red", 20, 60),), 0.0, "high"),
    HairState(6, 0.0, (), 2.0),
)


def timed(work: Callable[[], object]) -> float:
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


def five_bands() -> None:
    prediction.predict_all([(stretch, Treatment(GOAL, 1.0)) for stretch in STRAND], GOAL)


def candidates(n: int) -> Candidates:
    rng = np.random.default_rng(1)
    return Candidates(
        SHADES,
        rng.integers(0, len(SHADES), n),
        rng.integers(0, len(SHADES), n),
        rng.integers(0, 5, n) / 4,
        rng.choice([0.0, 1.0, 2.0, 3.0], n),
        rng.choice([0.5, 0.7, 1.0], n),
    )


def main() -> None:
    print(f"import with numpy: {imported * 1e3:.0f} ms")
    print(f"first prediction of 5 bands, tables included: {timed(five_bands) * 1e3:.0f} ms")
    runs = [timed(five_bands) for _ in range(15)]
    usual, worst = statistics.median(runs) * 1e3, max(runs) * 1e3
    print(f"prediction of 5 bands: median {usual:.1f} ms, worst {worst:.1f} ms")
    search(candidates(100), STRAND, GOAL)
    for stretches in (1, 3, 5):
        for n in (10_000, 100_000, 1_000_000):
            some = candidates(n)
            seconds = timed(lambda c=some, k=stretches: search(c, STRAND[:k], GOAL))  # type: ignore[misc]
            peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
            print(f"search of {n:>9,} mixes, {stretches} stretches: {seconds:.3f} s, peak {peak:.0f} MB")


if __name__ == "__main__":
    main()
