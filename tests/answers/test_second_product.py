"""A second product for the lengths, and questions that came with a later version."""

from typing import Any

import pytest

from consult.answers import Answers
from consult.answers import questions as catalogue
from consult.answers.access import answer_paths, applies, waits_for, with_answer
from consult.answers.base import NOT_SURE, SCHEMA
from consult.answers.conflicts import conflicts
from consult.answers.format import format_answer
from consult.answers.questions import question_of, questions
from consult.consultation import consult
from consult.gates.rules import RuleSet, builtin_rules
from consult.interview.intake import progress, start
from consult.plan.settings import Settings
from consult.records.codec import read_text
from consult.records.record import dump_record
from consult.salon import SalonConfig
from tests.baseline import BASELINE, NOW, baseline, unasked

SECOND = [path for path in questions() if path.startswith("lengths_product.")]


def two_products(**changes: Any) -> Answers:
    """The sound client with the same product twice; the second one changed."""
    second = {**BASELINE["product"], **changes}
    return baseline(
        {"goal.lengths_product": "yes", **{f"lengths_product.{name}": v for name, v in second.items()}}
    )


@pytest.mark.parametrize("answer", ["no", None])
def test_without_a_second_product_nothing_about_one_is_asked(answer: str | None) -> None:
    answers = baseline({"goal.lengths_product": answer})
    assert {applies(answers, path) for path in SECOND} == {False}
    assert "2nd product" not in progress(start(answers))
    assert not [path for path in unasked(answers) if path.section == "lengths_product"]


@pytest.mark.parametrize("answer", ["yes", NOT_SURE])
def test_a_second_product_is_asked_about_right_behind_the_first(answer: str) -> None:
    answers = baseline({"goal.lengths_product": answer})
    sections = list(dict.fromkeys(path.section for path in answer_paths(answers)))
    assert sections[sections.index("product") + 1] == "lengths_product"
    assert "lengths_product.kind" in unasked(answers)


def test_each_product_has_its_own_class_and_with_it_its_own_questions() -> None:
    answers = two_products(colour_class="direct (no developer)", kind="tube and developer")
    for name in ("developer_percent", "ratio", "named_together", "chart_from", "pack_ml"):
        assert applies(answers, f"product.{name}") is True
        assert applies(answers, f"lengths_product.{name}") is False
    assert applies(answers, "lengths_product.tube_g") is True
    assert applies(answers, "product.tube_g") is False


def test_while_the_second_products_class_is_unasked_its_ratio_waits_for_it() -> None:
    answers = baseline({"goal.lengths_product": "yes"})
    assert applies(answers, "lengths_product.ratio") is None
    assert waits_for(answers, "lengths_product.ratio") == "lengths_product.colour_class"


def test_the_second_products_leaflet_is_checked_like_the_first() -> None:
    assert conflicts(two_products(), NOW) == []
    found = conflicts(two_products(minutes_min=40.0), NOW)
    assert {conflict.path.partition(".")[0] for conflict in found} == {"lengths_product"}


def test_the_second_products_ratio_is_written_as_a_ratio() -> None:
    assert format_answer(question_of("lengths_product.ratio"), 1.5) == "1:1.5"


def test_two_products_survive_the_record() -> None:
    answers = two_products(name="demi for the lengths")
    text = dump_record(consult(answers, NOW))
    assert read_text(text, "record", NOW).answers == answers


def test_a_question_of_a_later_version_does_not_apply_to_older_answers_until_it_is_answered() -> None:
    old = baseline().at_version(1)
    assert applies(old, "goal.lengths_product") is False
    assert applies(baseline(), "goal.lengths_product") is True
    assert applies(with_answer(old, "goal.lengths_product", "yes"), "goal.lengths_product") is True
    assert applies(with_answer(old, "goal.lengths_product", "yes"), "lengths_product.kind") is True


def test_a_change_keeps_the_version_of_the_answers() -> None:
    assert Answers().version == SCHEMA
    assert with_answer(baseline().at_version(1), "client.age", 30).version == 1
    assert baseline().version == SCHEMA


def test_an_older_record_stays_settled_when_a_question_is_added(monkeypatch: pytest.MonkeyPatch) -> None:
    """A question that a rule reads, as if it came with this version."""
    old = baseline({"health.asthma": None}).at_version(SCHEMA - 1)
    assert not consult(old, NOW).judgement.settled
    known = questions()
    newer = {**known, "health.asthma": _since(known["health.asthma"], SCHEMA)}
    monkeypatch.setattr(catalogue, "questions", lambda: newer)
    # Rules that are compiled anew, since those of the program know the questions as they were.
    anew = SalonConfig(RuleSet(builtin_rules()), Settings())
    assert consult(old, NOW, anew).judgement.settled
    assert not consult(old.at_version(SCHEMA), NOW).judgement.settled


def _since(question: Any, version: int) -> Any:
    from msgspec.structs import replace

    return replace(question, since=version)


@pytest.mark.parametrize(
    ("header", "version"),
    [("", SCHEMA), ("schema = 1", 1), ("schema = 2", 2), ("schema = 2\nquestions = 1", 1)],
)
def test_a_file_says_which_questions_its_answers_were_given_to(header: str, version: int) -> None:
    assert read_text(f"[record]\n{header}\n", "file", NOW).answers.version == version


def test_a_record_of_older_answers_read_and_written_again_is_the_same() -> None:
    text = dump_record(consult(baseline().at_version(1), NOW))
    again = read_text(text, "record", NOW)
    assert again.answers.version == 1
    assert dump_record(consult(again.answers, NOW)) == text
