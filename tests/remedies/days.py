"""Random logs of a day that went wrong, over random heads."""

import random
from datetime import timedelta
from typing import Any

from consult.answers.history import ServiceStretch
from consult.remedies.day import SIGNS, DayLog, day_from_data
from consult.remedies.words import SKINS, WHATS, WHENS
from tests.demo import NOW

STRETCHES: tuple[ServiceStretch, ...] = (
    "new growth",
    "new growth and lengths",
    "all over",
    "lengths",
    "ends",
)


def day(seed: int) -> DayLog:
    """A log: one to three faults, half of the entries told."""
    rng = random.Random(seed)
    told: dict[str, Any] = {"what": rng.sample(WHATS, rng.choice([1, 1, 1, 2, 3]))}

    def maybe(name: str, value: Any) -> None:
        if rng.random() < 0.6:
            told[name] = value

    maybe("when", rng.choice([*WHENS, "not sure"]))
    maybe("skin", rng.choice(["calm", "calm", "calm", *SKINS, "not sure"]))
    maybe("signs", [] if rng.random() < 0.7 else rng.sample(SIGNS, rng.randint(1, 3)))
    maybe("done_at", NOW - timedelta(hours=rng.randint(0, 200)))
    maybe("stretch", rng.choice(STRETCHES))
    for name in ("new_growth_depth", "lengths_depth", "ends_depth"):
        maybe(name, rng.choice([n / 2 for n in range(2, 21)]))
    maybe("minutes_new_growth", float(rng.randint(0, 90)))
    maybe("white_left", float(rng.randint(0, 100)))
    return day_from_data(told)


def easy(*what: str, **told: Any) -> DayLog:
    """A log in which everything that could hold up a mend is told and well."""
    base: dict[str, Any] = {
        "what": list(what), "when": "today", "skin": "calm", "signs": [], "done_at": NOW, "stretch": "new growth",
        "new_growth_depth": 5.0, "lengths_depth": 5.0, "ends_depth": 5.0,
    }  # fmt: skip
    return day_from_data({**base, **told})
