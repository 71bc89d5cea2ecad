"""Every number has both ends, and every list its length."""

from typing import Any

import pytest

from consult.answers import Answers
from consult.answers.access import BadAnswer, with_answer
from consult.answers.questions import Kind, questions
from consult.answers.shelf import MOST_PRODUCTS, shelf_from_data
from tests.baseline import BASELINE

RANGES = [
    ("hair.length_cm", 0.5, 200.0),
    ("hair.new_growth_cm", 0.0, 200.0),
    ("product.pack_ml", 20.0, 1000.0),
    ("product.tube_g", 10.0, 1000.0),
    ("product.price", 0.0, 10_000.0),
    ("product.ratio", 0.3, 4.0),
    ("product.developer_percent", 1.0, 40.0),
    ("product.minutes_min", 5.0, 120.0),
    ("product.minutes_refresh", 0.0, 240.0),
    ("lengths_product.pack_ml", 20.0, 1000.0),
]


@pytest.mark.parametrize(("path", "low", "high"), RANGES)
def test_both_ends_of_a_range_are_taken_and_what_lies_beyond_is_refused(
    path: str, low: float, high: float
) -> None:
    for value in (low, high):
        assert with_answer(Answers(), path, value)
    for value in (low - 0.05, high + 0.05, float("nan"), float("inf")):
        with pytest.raises(BadAnswer, match=f"from {low:g} to {high:g}"):
            with_answer(Answers(), path, value)


@pytest.mark.parametrize(
    "question", [q for q in questions().values() if q.kind is Kind.NUMBER], ids=lambda q: q.path
)
def test_no_number_is_open_at_either_end(question: Any) -> None:
    assert question.low is not None
    assert question.high is not None


@pytest.mark.parametrize(("path", "most"), [("history.services", 100), ("health.reactions", 20)])
def test_a_list_holds_so_many_entries_and_not_one_more(path: str, most: int) -> None:
    full = with_answer(Answers(), path, [{}] * most)
    with pytest.raises(BadAnswer, match=f"at most {most} entries"):
        with_answer(full, path, [{}] * (most + 1))


def test_a_shelf_holds_so_many_products_and_not_one_more() -> None:
    assert len(shelf_from_data({"product": [{}] * MOST_PRODUCTS}).product) == MOST_PRODUCTS
    with pytest.raises(BadAnswer, match=r"^product: expected at most 500 entries"):
        shelf_from_data({"product": [{}] * (MOST_PRODUCTS + 1)})


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ({"product": [{}, {"pack_ml": 5.0}]}, r"^product\.1\.pack_ml: expected a number from 20 to 1000 ml"),
        ({"product": [{"shoes": "zz"}]}, r"^product\.0: there is an entry that is no product question"),
        ({"product": ["zz"]}, r"^product\.0: expected"),
        ({"product": "zz"}, r"^product: expected"),
        ({"client": {"age": 4}}, r"^shelf: expected \[\[product\]\], \[\[developers\]\] and \[\[chart\]\]"),
        ({"chart": [{"name": "zz", "before": "blue"}]}, r"^chart\.0: expected a name, and shade"),
        (
            {"developers": [{"name": "zz", "percents": [0.5]}]},
            r"^developers\.0: expected a name, and at most 20",
        ),
        (
            {"developers": [{"name": "zz", "percents": [3] * 21}]},
            r"^developers\.0: expected a name, and at most 20",
        ),
        (
            {"product": [{**BASELINE["product"], "minutes_min": 60.0}]},
            r"^product\.0\.minutes_max: 35 min is less than shortest \(60 min\)",
        ),
    ],
)
def test_a_shelf_that_cannot_be_is_told_where(data: dict[str, Any], says: str) -> None:
    with pytest.raises(BadAnswer, match=says) as refused:
        shelf_from_data(data)
    assert "zz" not in str(refused.value)


@pytest.mark.parametrize("question", questions().values(), ids=lambda q: q.path)
def test_what_is_expected_fits_one_line_of_an_error(question: Any) -> None:
    assert len(question.expects()) <= 180
