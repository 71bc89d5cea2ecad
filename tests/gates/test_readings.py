"""What the rules read of a head is what the answers say, by another way of asking them."""

from hypothesis import given, settings

from consult.answers import Answers
from consult.answers.access import applies, get
from consult.answers.base import NOT_SURE
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of, questions
from consult.gates.readings import DOUBT, KNOWN, NOT_APPLYING, UNASKED, Reader, Reading
from tests.gates.heads import heads

READER = Reader(questions())


def expected(answers: Answers, path: AnswerPath) -> int:
    """How far the answer at a path can be used, from whether its question applies."""
    value, question = get(answers, path), question_of(path)
    if (value is None and question.optional) or applies(answers, path) is False:
        return NOT_APPLYING
    if value is None or applies(answers, path) is None:
        return UNASKED
    return DOUBT if value == NOT_SURE else KNOWN


@settings(max_examples=200, deadline=None)
@given(answers=heads())
def test_each_answer_is_read_as_far_as_it_can_be_used_also_inside_lists(answers: Answers) -> None:
    read = READER.read(answers)

    def same(path: AnswerPath, reading: Reading) -> None:
        assert reading.standing == expected(answers, path), path
        assert reading.standing in (UNASKED, NOT_APPLYING) or reading.value == get(answers, path)

    for name in questions():
        path = AnswerPath.parse(name)
        readings = read.at(READER.place(name))
        if path.list is None:
            same(path, readings[0])
        else:
            for number, reading in enumerate(readings):
                same(AnswerPath.parse(path.list).inside(number, path.name), reading)
