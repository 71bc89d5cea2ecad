"""A record written and read is the same record: nothing is lost, nothing is trusted."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.answers import Answers
from consult.answers.access import from_data, with_answer
from consult.consultation import consult
from consult.records.codec import dump_draft, read_text
from consult.records.demos import demo_files
from consult.records.record import dump_record
from consult.trade import Voice
from tests.baseline import NOW, baseline
from tests.demo import load

BY_HAND = """
# Written with a text editor.
[client]
name = "Ines"
age = 41

[hair]
length_cm = "13 in"
natural_depth = 5

[product]
ratio = "1:1.5"

[allergy_test]
done = "yes"
applied_at = 2026-11-23 09:00:00

[[history.services]]
kind = "permanent colour"
on = 2026-10-14
"""


@pytest.mark.parametrize("name", demo_files())
def test_a_record_read_and_written_again_is_the_same_text(name: str) -> None:
    loaded = load(name)
    assert loaded.consulted_at
    text = dump_record(consult(loaded.answers, loaded.consulted_at))
    again = read_text(text, "record", NOW)
    assert again.answers == loaded.answers
    assert again.consulted_at == loaded.consulted_at
    assert dump_record(consult(again.answers, again.consulted_at)) == text


def test_a_few_lines_by_hand_are_a_file() -> None:
    loaded = read_text(BY_HAND, "by hand", NOW)
    assert loaded.consulted_at is None
    assert loaded.answers.hair.length_cm == pytest.approx(33.02)
    assert loaded.answers.product.ratio == 1.5
    assert loaded.answers.history.services[0].kind == "permanent colour"
    assert loaded.answers.allergy_test.applied_at == datetime(2026, 11, 23, 9, 0, tzinfo=UTC)
    assert loaded.answers.health.ever_reacted is None


def test_an_empty_file_is_a_consultation_in_which_nothing_was_asked() -> None:
    assert read_text("", "empty", NOW).answers == Answers()


def test_the_result_in_a_file_is_never_trusted() -> None:
    text = dump_record(consult(with_answer(baseline(), "client.age", 15), NOW))
    forged = text.replace('verdict = "stop"', 'verdict = "clear"')
    assert forged != text
    loaded = read_text(forged, "forged", NOW)
    assert consult(loaded.answers, NOW).judgement.verdict.word == "stop"


def test_a_draft_keeps_answers_voice_place_and_what_is_half_typed() -> None:
    text = dump_draft(baseline(), Voice.STYLIST, "hair.length_cm", "3\x1b[31m4")
    loaded = read_text(text, "draft", NOW)
    assert (loaded.answers, loaded.voice, loaded.position) == (baseline(), Voice.STYLIST, "hair.length_cm")
    assert loaded.typed == "3 [31m4"
    assert loaded.consulted_at is None


def test_dates_in_a_record_are_judged_by_its_own_moment() -> None:
    text = dump_record(consult(baseline(), NOW))
    assert read_text(text, "record", NOW - timedelta(days=400)).answers == baseline()


def test_not_asked_and_not_sure_survive_the_file() -> None:
    answers = baseline({"health.asthma": "not sure", "scalp.scratched": None, "scalp.signs": []})
    loaded = read_text(dump_draft(answers, Voice.HOME, "client.age"), "draft", NOW).answers
    assert (loaded.health.asthma, loaded.scalp.scratched, loaded.scalp.signs) == ("not sure", None, ())


@settings(derandomize=True, max_examples=150, deadline=None)
@given(st.text(min_size=1, max_size=60))
def test_any_name_at_all_comes_back_as_it_was_taken(name: str) -> None:
    try:
        answers = from_data({"client": {"name": name}})
    except ValueError:
        assert not any(char.isalnum() for char in name)
        return
    text = dump_draft(answers, Voice.HOME, "client.name", name)
    assert text.encode("utf-8")
    again = read_text(text, "draft", NOW)
    assert again.answers == answers
    assert dump_draft(again.answers, Voice.HOME, "client.name", again.typed or "") == text
