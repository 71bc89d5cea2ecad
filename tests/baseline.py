"""An invented sound client, on whom no rule fires, and changes to her."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from consult.answers import Answers
from consult.answers.access import answer_paths, from_data, get
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of

NOW = datetime(2026, 11, 25, 10, 0, tzinfo=UTC)
TODAY = NOW.date()


def _weeks_ago(weeks: int) -> date:
    return TODAY - timedelta(weeks=weeks)


def _colour(weeks: int, stretch: str) -> dict[str, Any]:
    return {
        "kind": "permanent colour",
        "on": _weeks_ago(weeks),
        "stretch": stretch,
        "depth": 5.0,
        "tone": "gold",
        "developer_percent": 6.0,
        "by": "at home",
    }


BASELINE: dict[str, dict[str, Any]] = {
    "client": {"name": "Alma", "age": 47, "applied_by": "myself at home", "gloves": "yes"},
    "health": {
        "ever_reacted": "no",
        "black_henna": "never",
        "allergies": [],
        "pregnancy": "neither",
        "treatments": [],
        "medicines": [],
        "asthma": "no",
        "skin_conditions": [],
        "works_with_colour": "no",
    },
    "scalp": {"signs": [], "scratched": "no", "washed": "no"},
    "history": {
        "services": [
            _colour(54, "all over"),
            *(_colour(weeks, "new growth") for weeks in (48, 42, 36, 30, 24, 18, 12, 6)),
        ],
        "known_months": 36,
        "washes_per_week": 3.0,
        "needs_correction": "no",
    },
    "hair": {
        "length_cm": 34.0,
        "cut": "one length",
        "density": "normal",
        "thickness": "fine",
        "curl": "straight",
        "porosity_root": "normal",
        "porosity_lengths": "normal",
        "porosity_ends": "normal",
        "attached": "no",
        "sheen": "no",
        "hard_water": "no",
        "wet_stretch": "returns",
        "natural_depth": 5.0,
        "white_front": 40.0,
        "white_temples": 40.0,
        "white_crown": 20.0,
        "white_nape": 10.0,
        "white_resists": "no",
        "new_growth_cm": 1.5,
        "lengths_depth": 5.0,
        "lengths_tone": "gold",
        "ends_depth": 5.0,
        "ends_tone": "gold",
        "lengths_look": "even",
    },
    "goal": {
        "depth": 5.0,
        "tone": "gold",
        "white": "cover",
        "extent": "whatever is needed",
        "upkeep": "every 5 to 8 weeks",
        "areas": ["scalp hair"],
    },
    "product": {
        "kind": "retail kit",
        "colour_class": "permanent",
        "name": "invented kit",
        "shade": "golden brown",
        "depth": 5.0,
        "tone": "gold",
        "pack": [],
        "professional_only": "no",
        "chart_from": 4.0,
        "chart_to": 7.0,
        "white_claim": "full cover",
        "developer_percent": 6.0,
        "ratio": 1.0,
        "named_together": "yes",
        "minutes_new_growth": 30.0,
        "minutes_white": 30.0,
        "minutes_refresh": 5.0,
        "minutes_min": 25.0,
        "minutes_max": 35.0,
        "counted_from": "the end of application",
        "pack_ml": 110.0,
        "age_limit": 16,
        "test_hours": 48,
        "contains_ammonia": "no",
    },
    "allergy_test": {
        "done": "yes",
        "same_product": "yes",
        "product": "invented kit, golden brown",
        "site": "behind the ear",
        "masked": "no",
        "applied_at": NOW - timedelta(hours=48),
        "first_read_at": NOW - timedelta(hours=47, minutes=30),
        "first_signs": [],
        "second_read_at": NOW,
        "second_signs": [],
    },
    "strand_test": {"done": "no"},
    "incompatibility_test": {"result": "not done"},
}


def baseline(changes: dict[str, Any] | None = None) -> Answers:
    """The sound client with changes, path -> value: `baseline({"client.age": 15})`; None is unasked."""
    data = {section: dict(fields) for section, fields in BASELINE.items()}
    for path, value in (changes or {}).items():
        section, name = path.split(".")
        data.setdefault(section, {})[name] = value
    return from_data({section: _given(fields) for section, fields in data.items()})


def _given(fields: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}


def unasked(answers: Answers) -> list[AnswerPath]:
    """Paths of the questions that apply and have no answer yet; optional ones are left out."""
    return [
        path
        for path in answer_paths(answers)
        if not question_of(path).optional and get(answers, path) is None
    ]
