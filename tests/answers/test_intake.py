"""The intake as a person walks it: answer, back, forward, jump, undo, entries of a list."""

import pytest

from consult.answers import Answers
from consult.interview import intake
from consult.answers.access import BadAnswer, get
from consult.interview.intake import REVIEW, Intake
from tests.baseline import baseline


def at(path: str, answers: Answers | None = None) -> Intake:
    found = intake.start(answers or baseline(), path)
    assert found.position == path
    return found


def test_a_new_intake_stands_at_the_first_question_and_knows_nothing() -> None:
    new = intake.start()
    assert new.position == "client.name"
    assert new.answers == Answers()
    assert new.past == ()


def test_answering_gives_a_new_intake_and_leaves_the_old_one_as_it_was() -> None:
    before = at("client.age")
    after = intake.answer(before, 52)
    assert after.answers.client.age == 52
    assert before.answers.client.age == 47
    assert after.position == "client.age"


def test_a_refused_answer_changes_nothing() -> None:
    before = at("client.age")
    with pytest.raises(BadAnswer):
        intake.answer(before, 121)
    assert before == at("client.age")


def test_the_same_answer_again_is_no_change_to_undo() -> None:
    before = at("client.age")
    assert intake.answer(before, 47) is before


def test_forward_visits_every_question_once_and_ends_at_the_review() -> None:
    here, seen = intake.start(), []
    while here.position != REVIEW:
        seen.append(here.position)
        here = intake.forward(here)
    assert seen == intake.start().order
    assert intake.forward(here) is here


def test_back_undoes_forward_at_every_question_without_lists() -> None:
    here = intake.start()
    while (ahead := intake.forward(here)).position != REVIEW:
        assert intake.back(ahead) == here
        here = ahead
    assert intake.back(ahead).position == here.position


def test_back_at_the_first_question_stays_there() -> None:
    first = intake.start()
    assert intake.back(first) == first


def test_moving_about_never_changes_an_answer() -> None:
    here = at("hair.length_cm")
    for move in (intake.back, intake.forward, lambda i: intake.jump(i, "goal.tone"), intake.forward):
        here = move(here)
        assert here.answers == baseline()


def test_a_jump_leads_only_to_questions_that_apply() -> None:
    here = at("client.age")
    assert intake.jump(here, "goal.tone").position == "goal.tone"
    assert intake.jump(here, REVIEW).position == REVIEW
    assert intake.jump(here, "health.pregnancy_week") is here
    assert intake.jump(here, "no.such_question") is here


def test_undo_takes_back_the_last_answer_and_stands_where_it_was_given() -> None:
    here = intake.answer(at("client.age"), 52)
    here = intake.answer(intake.jump(here, "goal.tone"), "ash")
    here = intake.jump(here, REVIEW)
    once = intake.undo(here)
    assert (once.position, once.answers.goal.tone, once.answers.client.age) == ("goal.tone", "gold", 52)
    twice = intake.undo(once)
    assert (twice.position, twice.answers) == ("client.age", baseline())
    assert intake.undo(twice) is twice


def test_undo_remembers_a_hundred_changes() -> None:
    here = at("client.age")
    for years in range(intake.LONGEST_UNDO + 5):
        here = intake.answer(here, years)
    assert len(here.past) == intake.LONGEST_UNDO
    while here.past:
        here = intake.undo(here)
    assert here.answers.client.age == 4


def test_adding_an_entry_leads_through_its_questions_and_back_to_the_list() -> None:
    here = intake.add_entry(at("history.services"))
    assert here.position == "history.services.9.kind"
    here = intake.answer(here, "permanent colour")
    visited = []
    while here.position != "history.services":
        visited.append(here.position.name)
        here = intake.forward(here)
    assert visited == ["kind", "on", "stretch", "depth", "tone", "developer_percent", "by"]


def test_an_entry_asks_only_what_belongs_to_its_kind() -> None:
    here = intake.answer(intake.add_entry(at("history.services")), "plain henna")
    inside = [p.name for p in here.order if p.group == "history.services.9"]
    assert inside == ["kind", "on", "stretch", "by"]


def test_the_last_question_of_an_entry_leads_to_its_list_and_not_into_the_next_entry() -> None:
    assert intake.forward(at("history.services.3.by")).position == "history.services"


def test_going_on_from_a_list_steps_over_its_entries() -> None:
    assert intake.forward(at("history.services")).position == "history.known_months"


def test_removing_an_entry_takes_that_one_and_can_be_undone() -> None:
    here = at("history.services")
    fewer = intake.remove_entry(here, 0)
    assert fewer.answers.history.services == here.answers.history.services[1:]
    assert intake.undo(fewer).answers == here.answers


def test_an_added_entry_can_be_undone() -> None:
    here = at("history.services")
    assert intake.undo(intake.add_entry(here)).answers == here.answers


def test_a_draft_goes_on_where_it_was_left_and_elsewhere_at_the_start() -> None:
    assert intake.start(baseline(), "goal.tone").position == "goal.tone"
    assert intake.start(baseline(), REVIEW).position == REVIEW
    for nowhere in ("", "goal", "health.pregnancy_week", "\x1b[31m", None):
        assert intake.start(baseline(), nowhere).position == "client.name"


def test_progress_counts_answers_given_and_leaves_optional_questions_out() -> None:
    asked = intake.progress(baseline({"client.name": None, "client.gloves": None}))["client"]
    assert (asked.answered, asked.of, asked.complete) == (2, 3, False)
    assert intake.progress(baseline({"client.name": None}))["client"].complete


def test_not_sure_counts_as_an_answer_and_an_open_question_does_not() -> None:
    sure = intake.progress(baseline({"scalp.scratched": "not sure"}))["scalp"]
    open_ = intake.progress(baseline({"scalp.scratched": None}))["scalp"]
    assert sure.complete
    assert not open_.complete


def test_a_new_answer_opens_the_questions_that_hang_on_it() -> None:
    here = at("health.ever_reacted")
    assert "health.reactions" not in here.order
    here = intake.answer(here, "yes")
    assert intake.forward(here).position == "health.reactions"
    assert get(here.answers, "health.reactions") is None
