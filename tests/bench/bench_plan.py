"""How long a judged head takes. Run: python -m tests.bench.bench_plan [HEADS] (one core, prints numbers).

What is measured, in a program that has run for a while (rules compiled, tables of the colour model read):

* verdict and plan: the head out of its answers, every rule asked, the plan written and checked, no colour reckoned;
* forecast of a new head: the colours to come, nothing remembered of any head; a made plan is held against it;
* all: both, as the program does them for answers that it has not seen before;
* all again: the same answers once more, or answers that change nothing about colour, as after most questions.

Heads are the demo clients whose plan is made and random heads of which that is true. The quickest of some runs counts
for each head, since what else the machine does is not judged here; the median and the slowest of all heads are told.
"""

import gc
import statistics
import sys
import time
from collections.abc import Callable
from datetime import datetime
from typing import Any, Final

from consult.answers import Answers
from consult.colour import dyes, hair, neutralise, reading
from consult.consultation import consult
from consult.head.build import build_head
from consult.judging import judge_head
from consult.plan import make_plan
from consult.plan.types import Made
from consult.records.demos import demo_files
from consult.salon import default_config
from tests.demo import NOW, load
from tests.plan.heads import head

RUNS: Final = 15
TARGETS: Final = {"verdict and plan": 1.0, "all": 5.0}
"""Milliseconds in the median."""
REMEMBERED: Final = (
    reading.found,
    hair.hair_of,
    hair.outcome_of,
    dyes.load,
    dyes.fitted_to_swatch,
    neutralise.neutralise,
)
"""What the colour model remembers of heads and shades that it has seen."""


def verdict_and_plan(answers: Answers, now: datetime) -> object:
    salon = default_config()
    built = build_head(answers, now.date())
    judged = judge_head(answers, built, now, salon.rules)
    return make_plan(answers, judged, built, now, salon.settings, salon.rules)


def forget() -> None:
    for function in REMEMBERED:
        function.cache_clear()


def best(work: Callable[[], object], before: Callable[[], object] = lambda: None) -> float:
    """Milliseconds of the quickest of some runs."""
    taken = []
    for _ in range(RUNS):
        before()
        begin = time.perf_counter()
        work()
        taken.append(time.perf_counter() - begin)
    return min(taken) * 1000


def made_heads(count: int) -> list[tuple[Answers, datetime]]:
    """The demo clients whose plan is made, and so many random heads."""
    files = [load(name) for name in demo_files()]
    found = [(file.answers, file.consulted_at) for file in files if file.consulted_at]
    found = [(answers, at) for answers, at in found if isinstance(consult(answers, at).plan, Made)]
    seed = 0
    while count:
        answers, seed = head(seed), seed + 1
        if isinstance(consult(answers, NOW).plan, Made):
            found.append((answers, NOW))
            count -= 1
    return found


def measured(answers: Answers, now: datetime) -> dict[str, float]:
    """Milliseconds of each part for one head."""

    def foreseen() -> Any:
        found = consult(answers, now)
        vars(found).pop("forecast", None)
        return found

    known = foreseen()

    def forecast() -> object:
        vars(known).pop("forecast", None)
        return known.forecast

    return {
        "verdict and plan": best(lambda: verdict_and_plan(answers, now)),
        "forecast, new": best(forecast, forget),
        "all": best(lambda: consult(answers, now), forget),
        "all again": best(lambda: consult(answers, now)),
    }


def main(count: int) -> int:
    heads = made_heads(count)
    gc.collect()
    gc.freeze()
    rows = [measured(*head) for head in heads]
    failed = 0
    print(f"{len(heads)} heads whose plan is made, the quickest of {RUNS} runs each, milliseconds")
    for part in rows[0]:
        values = [row[part] for row in rows]
        middle, target = statistics.median(values), TARGETS.get(part)
        told = f"   target: at most {target:g}" if target else ""
        print(f"  {part:<17} median {middle:5.2f}   slowest {max(values):5.2f}{told}")
        failed += target is not None and middle > target
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 30))
