"""Random complete heads: every product kind and every way of applying is reached, in known shares.

A scenario draws what decides the approach; the rest of the head varies freely. `heads()` is for Hypothesis,
`head(seed)` gives one head from a number, for walks over thousands of them.
"""

import random
from datetime import date, timedelta
from typing import Any

from hypothesis import strategies as st

from consult.answers import Answers
from consult.answers.access import as_data, from_data
from consult.consultation import Consultation, consult
from tests.demo import NOW, load

CLASSES = ("permanent", "permanent", "permanent", "demi-permanent", "high-lift", "direct (no developer)")
TONES = ("neutral", "neutral", "ash", "gold", "copper", "red", "violet")
ZONES = ("front", "temples", "crown", "nape")
SCENARIOS = (
    "retouch",
    "refresh",
    "refresh",
    "refresh",
    "virgin",
    "virgin lighter",
    "virgin lighter",
    "darker all over",
    "filling",
    "long lighter",
    "two",
)

COUNTED = ("the end of application", "the first touch", "it does not say")
_BASE = as_data(load("ines").answers)


def head(seed: int) -> Answers:
    """A complete head from a number: it may hold, be unsuitable, or get any approach."""
    return _draw(random.Random(seed))


def heads() -> st.SearchStrategy[Answers]:
    return st.integers(0, 2**32 - 1).map(head)


def judged(answers: Answers) -> Consultation:
    return consult(answers, NOW)


def _draw(rng: random.Random) -> Answers:
    scenario = rng.choice(SCENARIOS)
    data: dict[str, Any] = {section: dict(fields) for section, fields in _BASE.items()}
    natural = rng.choice([2.0, 3.0, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0])
    goal = min(10.0, max(1.0, natural + rng.choice([-2, -1, 0, 0, 0, 1])))
    if "lighter" in scenario:
        goal = min(10.0, natural + rng.choice([1, 2]))
    white = rng.choice([0.0, 20.0, 60.0, 95.0])
    virgin = scenario.startswith("virgin")
    new_growth = 0.0 if virgin else 4.0 if scenario == "long lighter" else rng.choice([0.8, 1.6, 2.4])
    lengths = _lengths(scenario, natural, goal, rng)
    look = "even" if scenario in ("retouch", "long lighter") else rng.choice(["faded", "uneven"])
    data["client"]["applied_by"] = _who(scenario, rng)
    data["client"]["helper"] = rng.choice(["yes", "no"])
    data["history"] |= {"services": _services(scenario, lengths, new_growth), "known_months": 240}
    porosity = rng.choice(["low", "normal", "normal", "high"])
    tone = rng.choice(TONES)
    data["hair"] |= {
        "length_cm": rng.choice([6.0, 18.0, 34.0, 58.0]),
        "cut": rng.choice(["one length", "layers"]),
        "density": rng.choice(["low", "normal", "high"]),
        "thickness": rng.choice(["fine", "medium", "coarse"]),
        "natural_depth": natural,
        "lengths_depth": lengths,
        "ends_depth": lengths,
        "lengths_tone": tone,
        "lengths_look": look,
        "new_growth_cm": new_growth,
        "porosity_lengths": porosity,
        "porosity_ends": porosity,
        "white_resists": rng.choice(["yes", "no"]),
        **{f"white_{zone}": min(100.0, white * rng.choice([0.5, 1.0])) for zone in ZONES},
    }
    some_white = any(data["hair"][f"white_{zone}"] for zone in ZONES)
    colour_class = _class(scenario, rng)
    covers = colour_class == "permanent" and rng.random() < 0.7
    data["goal"] |= {
        "depth": goal,
        "tone": tone,
        "white": ("cover" if covers else "blend") if some_white else "there is none",
        "extent": rng.choice(["new growth only", "whatever is needed", "whatever is needed", "all over"]),
    }
    data["product"] = _product(rng, colour_class, natural, goal, tone)
    tested = {"done": "yes", "hair": "sound", "colour": "as wanted", "minutes": 30.0}
    data["strand_test"] = (
        tested if scenario in ("filling", "long lighter") or rng.random() < 0.5 else {"done": "no"}
    )
    data["allergy_test"] = data["allergy_test"] | {"covers_mix": "yes"}
    if scenario == "two":
        data["goal"]["lengths_product"] = "yes"
        data["client"] |= {"applied_by": "a licensed colourist", "helper": "yes"}
        data["product"] |= {"minutes_max": 90.0}
        data["lengths_product"] = _product(rng, "demi-permanent", natural, goal, tone) | {
            "depth": goal,
            "name": "Amberley soft",
        }
    if rng.random() < 0.35:
        _cautions(rng, data)
    return from_data(data)


CAUTIONS: tuple[dict[str, Any], ...] = (
    {"health.pregnancy": "pregnant", "health.pregnancy_week": 20},
    {"health.pregnancy": "breastfeeding"},
    {"health.treatments": ["chemotherapy in the past"], "health.chemotherapy_ended": date(2020, 3, 1)},
    {"health.allergies": ["latex"]},
    {"health.allergies": ["persulfate (bleach powder)"]},
    {"health.allergies": ["fragrance or preservative"]},
    {"health.asthma": "yes"},
    {"health.skin_conditions": ["psoriasis"], "health.skin_active": "no"},
    {"health.skin_conditions": ["alopecia"]},
    {"health.skin_conditions": ["hand eczema"]},
    {"health.medicines": ["medicine that makes skin sensitive to light"]},
    {"health.medicines": ["hair shedding from a medicine or illness"]},
    {"health.black_henna": "yes, no reaction", "health.black_henna_on": date(2015, 7, 1)},
    {"health.works_with_colour": "yes"},
    {
        "health.medicines": ["medicine that makes skin sensitive"],
        "health.doctor_allows": ["a medicine that makes skin sensitive"],
        "health.doctor_allows_by": "Dr Vale",
        "health.doctor_allows_on": date(2026, 11, 2),
    },
    {"scalp.washed": "yes"},
    {"hair.hard_water": "yes"},
    {"hair.attached": "yes"},
    {"history.needs_correction": "yes"},
    {"product.contains_ammonia": "yes"},
    {"product.age_limit": "not sure"},
    {"product.counted_from": "not sure"},
    {"goal.upkeep": "as little as possible"},
    {"goal.areas": ["scalp hair", "beard"]},
    {"allergy_test.site": "elsewhere"},
)
"""Answers that make a caution fire, each with what it needs beside it (invented)."""


def _cautions(rng: random.Random, data: dict[str, Any]) -> None:
    """One to three cautions, and now and then a colouring of three weeks ago."""
    for changes in rng.sample(CAUTIONS, rng.randint(1, 3)):
        for path, value in changes.items():
            section, name = path.split(".")
            data[section][name] = value
    services = data["history"]["services"]
    if services and services[-1]["kind"] == "permanent colour" and rng.random() < 0.2:
        services[-1] = services[-1] | {"on": NOW.date() - timedelta(days=22)}
    if data["product"]["kind"] == "retail kit" and rng.random() < 0.2:
        data["product"] |= {"developer_percent": "not sure"} if "developer_percent" in data["product"] else {}


def _lengths(scenario: str, natural: float, goal: float, rng: random.Random) -> float:
    if scenario.startswith("virgin"):
        return natural
    if scenario == "darker all over":
        return min(10.0, goal + rng.choice([1.5, 2.0]))
    if scenario == "filling":
        return min(10.0, goal + 3)
    return goal if scenario in ("retouch", "long lighter") else min(10.0, goal + rng.choice([0.0, 0.5, 1.0]))


def _who(scenario: str, rng: random.Random) -> str:
    if scenario in ("filling", "long lighter"):
        return "a licensed colourist"
    return rng.choice(["myself at home", "a friend or relative at home", "a licensed colourist"])


def _class(scenario: str, rng: random.Random) -> str:
    if scenario in ("long lighter", "virgin lighter"):
        return rng.choice(["permanent", "permanent", "high-lift"])
    return rng.choice(CLASSES)


def _services(scenario: str, lengths: float, new_growth: float) -> list[dict[str, Any]]:
    if scenario.startswith("virgin"):
        return []
    weeks = round(new_growth / 1.1 * 4.35)
    on = NOW.date() - timedelta(weeks=max(5, weeks))
    if scenario == "filling":
        return [{"kind": "lightener all over", "on": on, "stretch": "all over", "depth": lengths}]
    return [
        {"kind": "permanent colour", "on": on, "stretch": "all over", "depth": lengths, "tone": "neutral"}
    ]


def _product(rng: random.Random, colour_class: str, natural: float, goal: float, tone: str) -> dict[str, Any]:
    kit, direct = rng.random() < 0.5, colour_class == "direct (no developer)"
    shortest, usual, longest = rng.choice(
        [(20, 20, 25), (25, 30, 35), (30, 45, 45), (10, 30, 60), (20, 30, 90)]
    )
    lifting = not kit and goal > natural and colour_class in ("permanent", "high-lift")
    product: dict[str, Any] = {
        "kind": "retail kit" if kit else "tube and developer",
        "colour_class": colour_class,
        "name": "Amberley colour",
        "depth": min(10.0, 2 * goal - natural) if lifting else goal,
        "tone": tone,
        "white_claim": "full cover" if colour_class == "permanent" else "blends white",
        "minutes_min": float(shortest),
        "minutes_new_growth": float(usual),
        "minutes_white": float(usual),
        "minutes_max": float(longest),
        "minutes_refresh": rng.choice([0.0, 5.0, 10.0]),
        "age_limit": 16,
        "test_hours": 48,
        "contains_ammonia": "no",
        "pack": [],
        "professional_only": "no",
        "counted_from": rng.choice(["the end of application", "the end of application", *COUNTED]),
    }
    if rng.random() < 0.2:
        product["minutes_total"] = float(longest + rng.choice([10, 25, 40]))
    if not direct and rng.random() < 0.3:
        product["mix_minutes"] = rng.choice([15.0, 30.0, 60.0])
    if rng.random() < 0.2:
        product["first_time_order"] = rng.choice(["lengths first", "all at once", "it does not say"])
    if not direct:
        strength = 3.0 if colour_class == "demi-permanent" else rng.choice([6.0, 6.0, 6.0, 9.0])
        product |= {
            "developer_percent": strength,
            "ratio": rng.choice([1.0, 1.5, 2.0]),
            "named_together": "yes",
        }
    if kit:
        product |= {"chart_from": max(1.0, natural - 2), "chart_to": min(10.0, natural + 2), "pack_ml": 110.0}
    else:
        product["tube_g"] = rng.choice([60.0, 100.0])
    return product
