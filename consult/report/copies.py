"""The two copies of a sheet: the one for the file holds everything, the client's own no health answer and no reason
that reveals one.

What a finding that rests on health says is replaced by what follows from it; nothing that is to be done is left out.
"""

from enum import Enum

from consult.answers import Answers
from consult.answers.access import answer_paths, get
from consult.answers.format import format_answer
from consult.answers.questions import question_of
from consult.dates import when
from consult.gates.judge import Finding
from consult.gates.verdict import Verdict
from consult.gates.words import reason_words
from consult.trade import Voice

HEALTH = "health"
TESTED = ("scalp", "allergy_test")


class Copy(Enum):
    """Whose copy it is."""

    FILE = "file"
    CLIENT = "client"


IN_PERSON = "The reason was told in person and stands in the file copy."
STEP_IN_PERSON = (
    "A step of this client's own, told in person: it stands in the file copy. Do not go on without it."
)
_TO_DO = {
    Verdict.STOP: "No hair colour and no test with hair colour on the skin, here or at home, under whatever name it "
    "is sold.",
    Verdict.SEE_DOCTOR: "Ask a doctor first, and bring their word. Nothing is mixed before.",
    Verdict.WAIT: "Wait. Nothing is mixed before; then everything is asked anew.",
    Verdict.SEE_COLOURIST: "Ask a licensed colourist; nothing is mixed at home.",
    Verdict.CAUTION: "There is something to take care of: ask before anything is mixed.",
}
_TO_DO_FIRST = "Something comes first that was told in person. Nothing is mixed before."


def private(path: str) -> bool:
    """Whether an answer is about health."""
    question = question_of(path)
    return question.sensitive or question.section == HEALTH


def reveals(finding: Finding) -> bool:
    """Whether what a finding says tells of somebody's health."""
    return any(private(path) for path in finding.evidence)


def words_of(finding: Finding, voice: Voice, copy: Copy) -> tuple[str, str]:
    """What a finding says, and what to do, as far as a copy may hold it."""
    until = f" Until {when(finding.until)}." if finding.until else ""
    if copy is Copy.CLIENT and reveals(finding):
        return f"{finding.verdict.title}.{until}", f"{_TO_DO.get(finding.verdict, _TO_DO_FIRST)} {IN_PERSON}"
    # In trade words a finding of the plan names the rules that it comes of, and their names tell of health.
    reads = Voice.HOME if copy is Copy.CLIENT else voice
    what = f" Until {when(finding.until)}: {finding.until_words}." if finding.until else ""
    # Whatever is told beside a plan is a caution; what holds one says how.
    holds = f"{finding.verdict.title}: " if finding.verdict.blocks else ""
    return f"{holds}{reason_words(finding, reads)}{what}", finding.remedy


def health_answers(answers: Answers) -> tuple[tuple[str, str], ...]:
    """(name, answer) of all that was told of health, scalp and allergy alert test."""
    found = []
    for path in answer_paths(answers):
        question, value = question_of(path), get(answers, path)
        if value is None or not (private(path) or question.section in TESTED):
            continue
        found.append((question.short, format_answer(question, value)))
    return tuple(found)
