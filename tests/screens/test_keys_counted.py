"""How many keys a consultation takes, typed the shortest way through the real screens."""

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from consult import session as session_module
from consult.answers import Answers
from consult.answers.access import get
from consult.answers.base import NOT_SURE
from consult.answers.shelf import Shelf
from consult.interview.order import asked
from consult.trade import Voice
from tests.baseline import NOW, baseline
from tests.screens.driver import LARGE, driven
from tests.screens.typist import type_all

DOCUMENT = Path(__file__).parents[2] / "DEVELOPERS.md"
TODAY = NOW.date()


def _weeks_ago(weeks: int) -> date:
    return TODAY - timedelta(weeks=weeks)


COLOUR = {
    "kind": "permanent colour",
    "on": _weeks_ago(6),
    "stretch": "new growth",
    "depth": 5.0,
    "tone": "gold",
    "by": "a salon",
}
SALON = {
    "client.name": None,
    "allergy_test.product": None,
    "client.applied_by": "a licensed colourist",
    "client.age": "16 or over",
    "history.services": [COLOUR],
    "history.known_months": "all of it",
    "history.washes_per_week": None,
    "hair.cut": None,
    "hair.curl": None,
    "product.kind": "tube and developer",
    "product.name": "Amberley",
    "product.shade": "5.3",
    "product.pack_ml": None,
    "product.tube_g": 60.0,
    "product.chart_from": None,
    "product.chart_to": None,
    "product.price": None,
}
"""A client of a salon, nothing special about her, as a stylist asks who keeps to what is needed."""
UNTOUCHED = {
    "history.services": [],
    "hair.new_growth_cm": 0.0,
    "hair.white_front": 0.0,
    "hair.white_temples": 0.0,
    "hair.white_crown": 0.0,
    "hair.white_nape": 0.0,
    "goal.white": "there is none",
}
HABIT = {**COLOUR, "regular": "yes", "every_weeks": 6, "first_on": _weeks_ago(36)}
DOUBTS = {
    "history.services": [{**COLOUR, "by": "at home", "depth": NOT_SURE}],
    "history.known_months": NOT_SURE,
    "product.name": None,
    "product.shade": None,
    "client.name": None,
    "allergy_test.product": None,
    "hair.cut": None,
    "hair.curl": None,
    "history.washes_per_week": None,
    "health.asthma": NOT_SURE,
    "hair.porosity_root": NOT_SURE,
    "hair.natural_tone": NOT_SURE,
    "product.first_time_order": NOT_SURE,
}
"""Somebody at home who cannot tell everything."""


CASES = {
    "stylist, one past service, product on the shelf": (Voice.STYLIST, SALON, True, 80, None),
    "stylist, one past service, a new product": (Voice.STYLIST, SALON, False, 110, None),
    "stylist, six regular services": (Voice.STYLIST, {**SALON, "history.services": [HABIT]}, True, 90, None),
    "stylist, never coloured, no white": (Voice.STYLIST, {**SALON, **UNTOUCHED}, True, 60, None),
    "home user with doubts": (Voice.HOME, DOUBTS, False, 120, 60),
}
"""What is typed -> voice, answers, whether the product is known, and the most keys and pages."""


@pytest.mark.parametrize("case", CASES)
async def test_a_consultation_takes_no_more_keys_than_the_table_says(
    case: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    voice, changes, known, most_keys, most_pages = CASES[case]
    wanted = baseline(changes)
    monkeypatch.setattr(session_module, "clock", lambda: NOW)
    shelf = Shelf(product=(wanted.product,), developers=()) if known else None
    async with driven(LARGE, voice=voice, shelf=shelf) as driver:
        await driver.type("1")
        typed = await type_all(driver, wanted, pick_product=wanted.product if known else None)
        given = driver.answers
    assert _needed(given) == _needed(wanted)
    keys, pages = typed.keys + 1, len(typed.pages)
    print(f"{case}: {keys} keys, {pages} pages")
    assert keys <= most_keys
    assert most_pages is None or pages <= most_pages
    assert f"| {case} | {keys} | {pages} |" in DOCUMENT.read_text("utf-8")


def _needed(answers: Answers) -> dict[str, Any]:
    return {path: value for path in asked(answers, implied=True) if (value := get(answers, path)) is not None}
