"""The judgement of a head with all that is known of it: the rules, and where eye and history disagree."""

from collections.abc import Iterable
from datetime import datetime

from consult.answers import Answers
from consult.gates.judge import Finding, Judgement, judge
from consult.gates.rules import Rule
from consult.gates.verdict import Verdict
from consult.sources import COMMON_PRACTICE
from consult.strand.bands import Disagreement, Strand


def judge_head(
    answers: Answers, strand: Strand | None, now: datetime, rules: Iterable[Rule] | None = None
) -> Judgement:
    """Judge by the rules; each disagreement of the strand is a caution among the findings."""
    judged = judge(answers, now, rules)
    if strand is None or not strand.disagreements:
        return judged
    found = [*judged.findings, *(_finding(odd) for odd in strand.disagreements)]
    return Judgement(tuple(sorted(found, key=lambda f: -f.verdict)), judged.could_become, judged.ask)


def _finding(odd: Disagreement) -> Finding:
    return Finding(
        rule=odd.id,
        verdict=Verdict.CAUTION,
        trade=odd.trade,
        plain=odd.plain,
        remedy=odd.remedy,
        sources=(COMMON_PRACTICE,),
        evidence=odd.evidence,
    )
