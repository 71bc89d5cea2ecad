"""What an answer may be: strict types, clean text, and three states that are never mixed up."""

from datetime import date
from typing import Any

import pytest

from consult.answers import Answers
from consult.answers.access import (
    BadAnswer,
    answer_paths,
    applies,
    as_data,
    from_data,
    get,
    waits_for,
    with_answer,
)
from consult.answers.base import NOT_SURE, clean_text
from consult.answers.questions import question_of, questions
from tests.baseline import baseline, unasked

ESCAPE = "\x1b[31m"
HOSTILE = [
    ("escape code", "Zed\x1b[31m", "Zed [31m"),
    ("bell and null", "Z\x07e\x00d", "Z e d"),
    ("C1 control", "Zed\x9b31m", "Zed 31m"),
    ("direction override", "Zed\u202egnp.exe", "Zed gnp.exe"),
    ("direction isolate", "Zed\u2066x\u2069", "Zed x"),
    ("zero width", "Z\u200bed\ufeff", "Z ed"),
    ("line breaks", "Zed\r\nOlaf\u2028Kim", "Zed Olaf Kim"),
    ("lone surrogate", "Zed\ud800", "Zed"),
    ("markup stays plain text", "Zed[/] [@click=app.quit]x[/]", "Zed[/] [@click=app.quit]x[/]"),
    ("letters of all tongues stay", "Ñusta Ötzi 李 صبا", "Ñusta Ötzi 李 صبا"),
    ("one letter, one code", "A\u030angstro\u0308m", "Ångström"),
]


@pytest.mark.parametrize(("given", "kept"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE])
def test_text_is_cleaned_wherever_it_enters(given: str, kept: str) -> None:
    assert clean_text(given) == kept
    assert with_answer(Answers(), "client.name", given).client.name == kept


def test_a_text_of_nothing_but_invisible_characters_is_no_name() -> None:
    with pytest.raises(BadAnswer, match="1 to 120 characters"):
        with_answer(Answers(), "client.name", "\u200b\u202e \x1b")


@pytest.mark.parametrize(
    ("path", "wrong"),
    [
        ("client.age", True),
        ("client.age", "5"),
        ("client.age", 5.0),
        ("client.age", -1),
        ("client.age", 121),
        ("client.age", [5]),
        ("client.name", 5),
        ("client.gloves", True),
        ("client.gloves", "Yes"),
        ("hair.natural_depth", 5.3),
        ("hair.natural_depth", 0.5),
        ("hair.natural_depth", 10.5),
        ("hair.natural_depth", "5"),
        ("hair.natural_depth", float("nan")),
        ("hair.length_cm", float("inf")),
        ("hair.length_cm", True),
        ("hair.white_front", 101.0),
        ("health.allergies", "latex"),
        ("health.allergies", ["rubber duck"]),
        ("health.black_henna_on", "2026-05-31"),
        ("allergy_test.applied_at", date(2026, 5, 31)),
        ("history.services", [{"kind": "permanent colour", "colour": "red"}]),
        ("product.age_limit", 16.5),
    ],
)
def test_an_answer_of_the_wrong_kind_is_refused_and_never_bent_into_shape(path: str, wrong: Any) -> None:
    with pytest.raises(BadAnswer) as refused:
        with_answer(baseline(), path, wrong)
    assert refused.value.path.startswith(path)


@pytest.mark.parametrize("path", [p for p, q in questions().items() if not q.entry_of])
def test_a_refusal_says_what_would_be_right_and_never_repeats_what_was_given(path: str) -> None:
    secret = "zzsecretzz" * 20
    for wrong in ({"zz": secret}, [secret], secret):
        with pytest.raises(BadAnswer) as refused:
            with_answer(Answers(), path, wrong)
        assert "secret" not in str(refused.value)
        assert "\n" not in str(refused.value)
        assert str(refused.value).startswith(path)
        assert "expected" in refused.value.hint or "there is no such" in refused.value.hint


def test_an_unknown_question_is_named_without_its_answer() -> None:
    with pytest.raises(BadAnswer) as refused:
        from_data({"client": {"shoe\x1b_size": "forty-two"}})
    assert str(refused.value).startswith("client.shoe _size: there is no such question")


@pytest.mark.parametrize("path", [p for p, q in questions().items() if not q.entry_of])
def test_not_asked_and_not_sure_are_two_answers_and_neither_is_no(path: str) -> None:
    assert get(Answers(), path) is None
    unsure = with_answer(Answers(), path, NOT_SURE)
    assert get(unsure, path) == NOT_SURE
    assert unsure != Answers()
    assert unsure != with_answer(Answers(), path, None) == Answers()


def test_an_empty_list_means_looked_and_found_nothing() -> None:
    looked = with_answer(Answers(), "scalp.signs", [])
    assert looked.scalp.signs == ()
    assert as_data(looked) == {"scalp": {"signs": ()}}
    assert "scalp.signs" not in unasked(looked)
    assert "scalp.signs" in unasked(Answers())


def test_taking_an_answer_back_makes_the_question_unasked_again() -> None:
    assert with_answer(baseline(), "client.age", None) == baseline({"client.age": None})


def test_a_repeated_choice_counts_once() -> None:
    assert with_answer(Answers(), "health.allergies", ["latex", "latex"]).health.allergies == ("latex",)


@pytest.mark.parametrize(
    ("reacted", "asked"), [("yes", True), ("only to another product", True), ("no", False), (NOT_SURE, True)]
)
def test_past_reactions_are_asked_for_unless_there_were_none(reacted: str, asked: bool) -> None:
    answers = with_answer(Answers(), "health.ever_reacted", reacted)
    assert applies(answers, "health.reactions") is asked
    assert ("health.reactions" in answer_paths(answers)) is asked


def test_while_the_condition_is_unasked_it_is_open_whether_a_question_applies() -> None:
    assert applies(Answers(), "health.reactions") is None
    assert waits_for(Answers(), "health.reactions") == "health.ever_reacted"
    assert waits_for(baseline(), "health.reactions") == "health.reactions"


def test_a_tick_among_several_opens_its_question() -> None:
    several = with_answer(
        Answers(), "health.treatments", ["other treatment by a doctor", "chemotherapy in the past"]
    )
    assert applies(several, "health.chemotherapy_ended") is True
    assert applies(several, "health.surgery_released") is False


def test_an_entry_is_read_and_changed_by_its_number() -> None:
    changed = with_answer(baseline(), "history.services.1.tone", "ash")
    assert get(changed, "history.services.1.tone") == "ash"
    assert get(changed, "history.services.0.tone") == "gold"
    assert get(changed, "history.services.40.tone") is None
    with pytest.raises(KeyError):
        with_answer(baseline(), "history.services.1.shoe_size", 42)


@pytest.mark.parametrize("question", questions().values(), ids=lambda q: q.path)
def test_every_question_speaks_to_both_readers_and_fits_its_place(question: Any) -> None:
    assert question.trade
    assert question.plain
    assert 0 < len(question.short) <= 20
    assert question.expects().endswith("; or 'not sure'")
    assert len(set(question.choices)) == len(question.choices)
    assert set(question.hints) <= set(question.choices)
    if question.clear != "all":
        assert set(question.clear) <= {*question.choices, *question.literals}


@pytest.mark.parametrize("question", [q for q in questions().values() if q.only_if], ids=lambda q: q.path)
def test_a_question_hangs_on_choices_that_exist_and_on_a_question_asked_before_it(question: Any) -> None:
    on, wanted = question.only_if
    assert set(wanted) <= set(question_of(on).choices)
    order = list(questions())
    assert order.index(on) < order.index(question.path)
