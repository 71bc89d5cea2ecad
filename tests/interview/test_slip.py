"""Slips: a few questions about one thing, by the words and bounds of their model."""

import pytest

from consult.answers.access import BadAnswer
from consult.answers.product import Product
from consult.answers.questions import question_of
from consult.interview import slip as steps
from consult.interview.slip import END, Slip
from consult.remedies.day import DayLog
from consult.trade import Voice

ASKED = ("what", "lengths_depth", "ends_depth")


def slip(given: DayLog | None = None) -> Slip:
    return steps.begin(Slip(given or DayLog(), lambda day: ASKED))


def test_it_goes_through_its_questions_and_ends_behind_the_last() -> None:
    on = slip()
    assert (on.here, on.place) == ("what", (1, 3))
    on = steps.forward(steps.answer(on, ("too dark",)))
    assert on.place == (2, 3)
    on = steps.forward(steps.answer(on, 4.5))
    assert steps.row_in_hand(on, Voice.HOME).same == 4.5
    assert steps.forward(on).here == END
    assert steps.back(steps.forward(on)).here == "ends_depth"
    assert steps.back(slip()).here == "what"
    assert steps.begin(Slip(DayLog(what=("too dark",)), lambda day: ASKED)).here == "lengths_depth"


def test_what_does_not_fit_is_refused_and_undo_goes_back() -> None:
    on = steps.forward(slip())
    for wrong in (0.5, 10.5, "dark", ("too dark",)):
        with pytest.raises(BadAnswer):
            steps.answer(on, wrong)
    changed = steps.answer(on, 4)
    assert changed.given == DayLog(lengths_depth=4.0)
    assert steps.undo(changed).given == DayLog()
    assert steps.answer(changed, None).given == DayLog()


def test_a_pack_is_asked_in_the_words_of_the_product_questions() -> None:
    row = steps.row_in_hand(steps.begin(Slip(Product(), lambda pack: ("colour_class",))), Voice.HOME)
    question = question_of("product.colour_class")
    assert (row.ask, [option.value for option in row.options]) == (question.plain, list(question.choices))
