"""The judgement of a head with all that is known of it: the rules, and where eye and history disagree."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from consult.answers import Answers
from consult.gates.judge import Finding, Judgement, judge
from consult.gates.rules import Rule
from consult.gates.verdict import Verdict
from consult.head.bands import Disagreement, Head
from consult.sources import COMMON_PRACTICE


def judge_head(
    answers: Answers, head: Head | None, now: datetime, rules: Iterable[Rule] | None = None
) -> Judgement:
    """Judge by the rules; each disagreement of eye and history is a caution among the findings."""
    judged = judge(answers, now, rules)
    if head is None or not head.disagreements:
        return judged
    found = [*judged.findings, *(_finding(disagreement) for disagreement in head.disagreements)]
    return replace(judged, findings=tuple(sorted(found, key=lambda f: -f.verdict)))


def _finding(disagreement: Disagreement) -> Finding:
    return Finding(
        rule=disagreement.id,
        verdict=Verdict.CAUTION,
        trade=disagreement.trade,
        plain=disagreement.plain,
        remedy=disagreement.remedy,
        sources=(COMMON_PRACTICE,),
        evidence=disagreement.evidence,
    )
