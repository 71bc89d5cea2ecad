"""The intake as a person walks it: answer, back, forward, jump, undo, entries of a list."""

import pytest

from consult.answers import Answers
from consult.answers.access import BadAnswer, get
from consult.answers.paths import AnswerPath
from consult.answers.preliminary_tests import AllergyTest, StrandTest
from consult.answers.product import Product
from consult.answers.questions import question_of
from consult.interview import intake
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


def test_forward_halts_at_every_question_that_is_needed_once_and_ends_at_the_review() -> None:
    here, seen = intake.start(), []
    while here.position != REVIEW:
        seen.append(here.position)
        here = intake.forward(here)
    assert seen == intake.start().stops
    assert {path for path in here.order if not question_of(path).optional} <= set(seen)
    assert intake.forward(here) is here


def test_leaving_open_reaches_every_question_of_a_page_needed_or_not() -> None:
    here, seen = at("client.name", baseline({"product.test_hours": None})), []
    while here.position != REVIEW:
        seen.append(here.position)
        here = intake.leave_open(here)
    outside_entries = [path for path in here.order if path.list is None]
    assert seen == outside_entries


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
    assert visited == ["kind", "on", "stretch", "by", "depth", "tone", "developer_percent"]


def test_a_copied_entry_says_what_the_other_says_and_an_entry_for_a_habit_says_so() -> None:
    here = at("history.services")
    copy = intake.add_entry(here, 2)
    assert copy.answers.history.services[9] == here.answers.history.services[2]
    habit = intake.add_entry(here, habit=True)
    assert habit.answers.history.services[9].regular == "yes"
    inside = [path.name for path in habit.order if path.group == "history.services.9"]
    assert inside[-2:] == ["every_weeks", "first_on"]


def test_an_entry_asks_only_what_belongs_to_its_kind() -> None:
    here = intake.answer(intake.add_entry(at("history.services")), "plain henna")
    inside = [p.name for p in here.order if p.group == "history.services.9"]
    assert inside == ["kind", "on", "stretch", "by", "regular"]


def test_the_last_question_of_an_entry_leads_to_its_list_and_not_into_the_next_entry() -> None:
    assert intake.forward(at("history.services.3.developer_percent")).position == "history.services"


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
    asked = intake.progress(intake.start(baseline({"client.name": None, "client.gloves": None})))["Who"]
    assert (asked.answered, asked.of, asked.complete) == (3, 4, False)
    assert intake.progress(intake.start(baseline({"client.name": None})))["Who"].complete


def test_not_sure_counts_as_an_answer_and_an_open_question_does_not() -> None:
    sure = intake.progress(intake.start(baseline({"scalp.scratched": "not sure"})))["Scalp"]
    open_ = intake.progress(intake.start(baseline({"scalp.scratched": None})))["Scalp"]
    assert sure.complete
    assert not open_.complete


def test_the_place_counts_only_where_going_on_halts_and_never_passes_the_end() -> None:
    """What is optional is passed over, so it is no question of those to come."""
    here, numbers = intake.start(), []
    while here.position != REVIEW:
        numbers.append(here.place)
        here = intake.forward(here)
    assert numbers == [(number, len(numbers)) for number in range(1, len(numbers) + 1)]


def test_a_new_answer_opens_the_questions_that_hang_on_it() -> None:
    here = at("health.ever_reacted")
    assert "health.reactions" not in here.order
    here = intake.answer(here, "yes")
    assert "health.reactions" in here.stops
    assert get(here.answers, "health.reactions") is None


def test_none_of_these_answers_what_is_open_of_a_page_and_nothing_that_was_ticked() -> None:
    page = ("health.ever_reacted", "health.black_henna", "health.allergies")
    here = intake.answer(at("health.black_henna", Answers()), "yes, it reacted")
    given = intake.none_of_these(here, tuple(map(AnswerPath.parse, page))).answers.health
    assert (given.ever_reacted, given.black_henna, given.allergies) == ("no", "yes, it reacted", ())


def test_what_follows_from_an_answer_is_written_down_with_it_and_open_again_when_it_changes() -> None:
    """Hair that was never coloured has no new growth, and a head without white none that resists."""
    here = intake.answer(at("history.services", baseline({"hair.new_growth_cm": None})), ())
    assert here.answers.hair.new_growth_cm == 0
    assert "hair.new_growth_cm" not in here.order
    here = intake.add_entry(here)
    assert here.answers.hair.new_growth_cm is None
    zones = [f"hair.white_{zone}" for zone in ("front", "temples", "crown", "nape")]
    white = intake.answer_several(at("hair.white_front"), {AnswerPath.parse(zone): 0.0 for zone in zones})
    assert (white.answers.hair.white_resists, white.answers.goal.white) == ("no", "there is none")
    assert not {"hair.white_resists", "goal.white"} & set(white.order)
    some = intake.answer(intake.jump(white, "hair.white_nape"), 10.0)
    assert (some.answers.hair.white_resists, some.answers.goal.white) == (None, None)


def test_a_known_product_is_taken_with_its_leaflet_and_its_pack_is_looked_at_anew() -> None:
    product = baseline().product
    here = intake.take_product(at("product.kind", Answers()), product, "product")
    taken = here.answers.product
    assert (here.position, taken.pack) == ("product.pack", None)
    assert taken.model_copy(update={"pack": product.pack}) == product


def test_a_pack_that_is_in_hand_now_takes_over_nothing_from_the_one_before() -> None:
    found = intake.with_new_product(intake.start(baseline()))
    assert found.position == "allergy_test.done"
    assert (found.answers.product, found.answers.allergy_test) == (Product(), AllergyTest())
    assert found.answers.strand_test == StrandTest()
    assert intake.undo(found).answers == baseline()


@pytest.mark.parametrize("signs", [("redness",), "not sure"])
def test_what_an_earlier_test_found_stays_when_another_pack_is_in_hand(signs: object) -> None:
    answers = baseline(
        {"allergy_test.second_signs": signs, "strand_test.done": "yes", "strand_test.hair": "broke"}
    )
    after = intake.with_new_product(intake.start(answers)).answers
    assert after.allergy_test.second_signs == answers.allergy_test.second_signs
    assert after.allergy_test.same_product is None
    assert after.strand_test.hair == "broke"
