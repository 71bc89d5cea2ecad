"""The judgement of a head with all that is known of it: the rules for each product that is put on, and where
eye and history disagree."""

from collections.abc import Iterable
from datetime import datetime

from msgspec.structs import replace

from consult.answers import Answers
from consult.gates.judge import Finding, Judgement, judge, limits_of, strongest_first
from consult.gates.rule import Rule
from consult.gates.rules import RuleSet, builtin_rules
from consult.gates.verdict import Verdict
from consult.head.bands import Disagreement, Head
from consult.sources import COMMON_PRACTICE

_FIRST, _SECOND = "product.", "lengths_product."


def judge_head(
    answers: Answers, head: Head | None, now: datetime, rules: Iterable[Rule] | None = None
) -> Judgement:
    """Judge by the rules; each disagreement of eye and history is a caution among the findings.

    A second product is judged by every rule that looks at a product, as if it were the only one.
    """
    rules = builtin_rules() if rules is None else RuleSet.of(rules)
    judged = judge(answers, now, rules)
    if answers.goal.lengths_product == "yes":
        judged = _joined(judged, _second(answers, now, rules))
    if head is None or not head.disagreements:
        return judged
    found = [*judged.findings, *(_finding(disagreement) for disagreement in head.disagreements)]
    return replace(judged, findings=strongest_first(found))


def _second(answers: Answers, now: datetime, rules: RuleSet) -> Judgement:
    """The judgement of the second product alone; its evidence and questions name its own section."""
    mine = answers.model_copy(update={"product": answers.lengths_product})
    judged = judge(mine, now, rules.about_the_product)
    findings = tuple(replace(f, evidence=tuple(_own(path) for path in f.evidence)) for f in judged.findings)
    return replace(judged, findings=findings, ask=tuple(_own(path) for path in judged.ask))


def _own(path: str) -> str:
    return path.replace(_FIRST, _SECOND, 1) if path.startswith(_FIRST) else path


def _joined(first: Judgement, second: Judgement) -> Judgement:
    """Both judgements as one: what the second only repeats is told once."""
    new = [f for f in second.findings if f not in first.findings]
    findings = strongest_first([*first.findings, *new])
    return Judgement(
        findings=findings,
        could_become=max(first.could_become, second.could_become),
        ask=tuple(dict.fromkeys((*first.ask, *second.ask))),
        limits=limits_of(findings),
    )


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
