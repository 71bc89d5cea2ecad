"""The whole program without a face: answers in, findings, strand and plan out."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from consult.answers import Answers
from consult.gates.judge import Finding, Judgement, judge
from consult.gates.rules import Rule
from consult.gates.verdict import Verdict
from consult.plan import make_plan
from consult.plan.types import Plan
from consult.sources import COMMON_PRACTICE
from consult.strand.bands import Disagreement, Strand
from consult.strand.build import build_strand


@dataclass(frozen=True)
class Consultation:
    """Everything that follows from the answers at one moment."""

    answers: Answers
    now: datetime
    judgement: Judgement
    strand: Strand | None
    plan: Plan | None


def consult(answers: Answers, now: datetime, rules: Iterable[Rule] | None = None) -> Consultation:
    """Run the flow: gates, strand, plan. `now` is an aware moment; nothing here reads a clock."""
    strand = build_strand(answers, now.date())
    judged = judge(answers, now, rules)
    if strand and strand.disagreements:
        found = [*judged.findings, *(_finding(d) for d in strand.disagreements)]
        judged = Judgement(tuple(sorted(found, key=lambda f: -f.verdict)), judged.could_become, judged.ask)
    return Consultation(answers, now, judged, strand, make_plan(answers, judged, strand, now.date()))


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
