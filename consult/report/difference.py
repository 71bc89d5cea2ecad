"""What a change of answers changed in the result: for a class."""

from consult.answers.access import answer_paths, get
from consult.answers.format import format_answer
from consult.answers.questions import question_of
from consult.consultation import Consultation
from consult.report import headline, report
from consult.report.rests import plain
from consult.report.rows import Block, Row
from consult.sources import COMMON_PRACTICE
from consult.trade import Voice

TITLE = "Since the result before"
NOT_ASKED = "not asked"


def changed_answers(before: Consultation, found: Consultation) -> tuple[tuple[str, str], ...]:
    """(path, "name: before -> now") of each answer that is another one."""
    paths = dict.fromkeys((*answer_paths(before.answers), *answer_paths(found.answers)))
    told = []
    for path in paths:
        old, new = get(before.answers, path), get(found.answers, path)
        if old != new:
            question = question_of(path)
            words = [format_answer(question, value) or NOT_ASKED for value in (old, new)]
            told.append((str(path), f"{question.short}: {words[0]} -> {words[1]}"))
    return tuple(told)


def summary(before: Consultation, found: Consultation) -> str:
    """The change in a sentence: which answers, and what became of the verdict."""
    answers = "; ".join(words for _, words in changed_answers(before, found))
    old, new = headline(before), headline(found)
    return f"{answers}. {f'Verdict: {old} -> {new}' if old != new else f'The verdict is the same: {new}'}"


def difference_block(before: Consultation, found: Consultation) -> Block:
    """The answers that are other ones, then the sentences that are new, then those that are gone."""
    was, now = (_said(one) for one in (before, found))
    rows = [
        Row(words, "The answer was changed.", (COMMON_PRACTICE,), paths=(path,))
        for path, words in changed_answers(before, found)
    ]
    rows += [Row(f"+ {said}", row.because, row.sources) for said, row in now.items() if said not in was]
    rows += [Row(f"- {said}", row.because, row.sources) for said, row in was.items() if said not in now]
    return Block(TITLE, tuple(rows))


def _said(found: Consultation) -> dict[str, Row]:
    blocks = report(found, Voice.TRAINER, otherwise=False)
    return {plain(row.say): row for block in blocks for row in block.rows}
