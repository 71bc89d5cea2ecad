"""Whoever answers only what is asked is judged as whoever is asked everything.

Every head is answered twice: as the interview asks, and with every question that was left out answered at random as
well. Verdict, findings and plan must be the same. Run: `python -m tests.interview.walker [HEADS] [SEED]`.
"""

import random
import sys
import tomllib
from collections import Counter
from typing import Any, Final

from consult.answers import Answers
from consult.answers.access import BadAnswer, applies, get, with_answer
from consult.answers.base import NOT_SURE
from consult.answers.conflicts import conflicts
from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, question_of
from consult.consultation import consult
from consult.interview import intake
from consult.interview.intake import REVIEW, Intake
from consult.interview.pages import interview
from consult.records.record import dump_record
from tests.demo import NOW
from tests.plan.heads import head

ONLY_TRUTH: Final = {
    "hair.new_growth_cm": 0.0,
    "health.doctor_allows": (),
    **{f"hair.white_{zone}": 100.0 for zone in ("front", "temples", "crown", "nape")},
}
"""New growth is counted from the last service, a doctor can allow only what was told, and a head that is all white is
so everywhere: where these are left out, only this can be true."""
NUMBERS: Final = (0.0, 10.0, 50.0, 100.0)
TOLD: Final = ("health.ever_reacted", "health.black_henna", "health.allergies", "health.skin_conditions")


def _truth(seed: int) -> Answers:
    """A complete head; often without white, never coloured, or with something told about health."""
    rng, answers = random.Random(seed), head(seed)
    changes: dict[str, Any] = {}
    if rng.random() < 0.4:
        changes |= dict.fromkeys(
            (f"hair.white_{zone}" for zone in ("front", "temples", "crown", "nape")), 0.0
        )
    if rng.random() < 0.1:
        changes |= {"hair.natural_depth": "all white"}
    if rng.random() < 0.3:
        changes |= {"history.services": ()}
    if rng.random() < 0.4:
        path = rng.choice(TOLD)
        question = question_of(path)
        told = rng.choice([*question.choices, NOT_SURE])
        changes |= {path: (told,) if question.kind is Kind.SEVERAL and told != NOT_SURE else told}
    for path, value in changes.items():
        answers = with_answer(answers, path, value)
    return answers


def as_asked(truth: Answers) -> Intake:
    """Every question that comes, answered as it is true; from the first to the review."""
    here = intake.start()
    for path in interview().habit:
        here = intake.answer(intake.jump(here, path), get(truth, path))
    here = intake.jump(here, intake.start().order[0])
    while here.position != REVIEW:
        value = get(truth, here.position)
        if value is not None and get(here.answers, here.position) != value:
            try:
                here = intake.answer(here, value)
            except BadAnswer:
                raise AssertionError(f"{here.position}: a true answer is refused") from None
        here = intake.leave_open(here)
    return here


def left_out(here: Intake) -> list[AnswerPath]:
    """Questions that apply and were not asked."""
    every = (path for page in interview().pages if page.each is None for path in page.questions)
    return [path for path in every if path not in here.order and applies(here.answers, path)]


def asked_everything(here: Intake, rng: random.Random) -> tuple[Answers, list[AnswerPath]]:
    """The same answers, and one at random to each question that was left out, as far as it can be true."""
    answers, filled = here.answers, []
    for path in left_out(here):
        question = question_of(path)
        if path in ONLY_TRUTH:
            values: list[Any] = [ONLY_TRUTH[path]]
        elif question.kind is Kind.SEVERAL:
            values = [(choice,) for choice in question.choices]
        else:
            values = [*question.choices, NOT_SURE] if question.choices else [*NUMBERS, NOT_SURE]
        rng.shuffle(values)
        for value in values:
            changed = with_answer(answers, path, value)
            if not conflicts(changed, NOW):
                answers = changed
                filled.append(path)
                break
    return answers, filled


def judged(answers: Answers) -> dict[str, Any]:
    """What came of it, as the record tells it: verdict, findings with their reasons, the plan."""
    result: dict[str, Any] = tomllib.loads(dump_record(consult(answers, NOW)))["result"]
    result["findings"] = sorted(
        ({**finding, "evidence": sorted(finding["evidence"])} for finding in result.get("findings", ())),
        key=str,
    )
    return result


def differences(seed: int) -> tuple[list[AnswerPath], list[str]]:
    """The questions left out for one head, and what another answer to them would have changed."""
    here = as_asked(_truth(seed))
    answers, filled = asked_everything(here, random.Random(seed + 1))
    before, after = judged(here.answers), judged(answers)
    wrong = [name for name in {**before, **after} if before.get(name) != after.get(name)]
    return filled, [f"seed {seed}: {', '.join(wrong)} by {', '.join(filled)}"] if wrong else []


def main(heads: int, seed: int) -> int:
    left: Counter[str] = Counter()
    failed = 0
    for number in range(seed, seed + heads):
        filled, wrong = differences(number)
        left.update(filled)
        failed += bool(wrong)
        print("".join(f"{line}\n" for line in wrong), end="", flush=True)
    print(f"{heads} heads, {failed} judged otherwise; left out: {dict(left)}")
    return 1 if failed else 0


if __name__ == "__main__":
    numbers = [int(number) for number in sys.argv[1:]]
    sys.exit(main(*(numbers + [2000, 1][len(numbers) :])))
