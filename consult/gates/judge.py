"""The judgement of one head: every finding, the strongest verdict, and what is still open."""

from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from functools import cache

from msgspec import Struct

from consult.answers import Answers
from consult.answers.access import get
from consult.answers.base import known
from consult.answers.paths import AnswerPath
from consult.answers.questions import questions
from consult.gates.evaluate import Trace
from consult.gates.facts import add_months
from consult.gates.limits import NO_EFFECT, NO_LIMITS, Effect, Limits, union
from consult.gates.program import DOUBT, FALSE, OPEN, TRUE
from consult.gates.rule import Rule, Until
from consult.gates.rules import RuleSet, builtin_rules
from consult.gates.verdict import Verdict


class Finding(Struct, frozen=True):
    """A rule that fired. `evidence` are the answers it rests on; `until` ends a wait; `effect` is what it
    demands of the plan."""

    rule: str
    verdict: Verdict
    trade: str
    plain: str
    remedy: str
    sources: tuple[str, ...]
    evidence: tuple[str, ...]
    in_doubt: bool = False
    until: datetime | None = None
    until_words: str = ""
    effect: Effect = NO_EFFECT


class Judgement(Struct, frozen=True):
    """All findings, strongest first, and the rules that unasked answers leave open.

    `could_become` is the strongest verdict that an open rule may still bring; `ask` are the
    unasked questions of the open rules, in the order of the consultation.
    """

    findings: tuple[Finding, ...]
    could_become: Verdict
    ask: tuple[str, ...]
    limits: Limits = NO_LIMITS

    @property
    def verdict(self) -> Verdict:
        """The strongest verdict so far."""
        return self.findings[0].verdict if self.findings else Verdict.CLEAR

    @property
    def settled(self) -> bool:
        """True when no unasked answer can bring a stronger verdict, not even a caution."""
        return self.could_become <= self.verdict

    @property
    def until(self) -> datetime | None:
        """The end of the longest wait among the findings."""
        return max((f.until for f in self.findings if f.until), default=None)


def strongest_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings in the order in which they are told; of two as strong, the certain one first."""
    return tuple(sorted(findings, key=lambda f: (-f.verdict, f.in_doubt)))


def without_repeats(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings without those that one doubtful answer repeats: of several that rest on the very same
    answers in doubt, the first and strongest is told. The record keeps them all."""
    kept: list[Finding] = []
    for finding in findings:
        repeats = finding.in_doubt and any(
            set(finding.evidence) <= set(other.evidence) and (other.in_doubt or other.verdict.blocks)
            for other in kept
        )
        if not repeats:
            kept.append(finding)
    return tuple(kept)


def judge(answers: Answers, now: datetime, rules: Iterable[Rule] | None = None) -> Judgement:
    """Judge complete or partial answers at the moment `now` (an aware time)."""
    rules = builtin_rules() if rules is None else RuleSet.of(rules)
    trace = rules.program.ask(answers, now)
    known_class = known(answers.product.colour_class)
    findings: list[Finding] = []
    could_become, ask = Verdict.CLEAR, set[AnswerPath]()
    for number, state in enumerate(trace.states):
        if state == FALSE:
            continue
        rule = rules[number]
        if not rule.looks_at(known_class):
            continue
        if state != OPEN:
            findings.append(_finding(rule, trace, number, in_doubt=state == DOUBT, answers=answers))
        if state == TRUE:
            continue
        missing = {path for path in trace.undecided(number) if get(answers, path) is None}
        if missing:
            could_become = max(could_become, rule.verdict, rule.unsure)
            ask |= missing
    in_order = sorted(ask, key=lambda path: (_question_numbers()[path.question], path))
    return Judgement(strongest_first(findings), could_become, tuple(in_order), limits_of(findings))


@cache
def _question_numbers() -> dict[str, int]:
    return {path: number for number, path in enumerate(questions())}


def limits_of(findings: Iterable[Finding]) -> Limits:
    """What findings demand of the plan together."""
    demanding = [(finding.rule, finding.effect) for finding in findings if finding.effect is not NO_EFFECT]
    return union(demanding) if demanding else NO_LIMITS


def _finding(rule: Rule, trace: Trace, number: int, *, in_doubt: bool, answers: Answers) -> Finding:
    verdict = rule.unsure if in_doubt else rule.verdict
    evidence = trace.evidence(number, careful=in_doubt)
    until = _end(rule.until, evidence, trace, answers) if rule.until and verdict is Verdict.WAIT else None
    return Finding(
        rule=rule.id,
        verdict=verdict,
        trade=rule.trade,
        plain=rule.plain,
        remedy=rule.remedy,
        sources=rule.sources,
        evidence=tuple(sorted(evidence)),
        in_doubt=in_doubt,
        until=until,
        until_words=rule.until.words if rule.until and until else "",
        effect=rule.effect,
    )


def _end(until: Until, evidence: set[AnswerPath], trace: Trace, answers: Answers) -> datetime:
    """The moment a wait ends; it never lies in the past, since the rule still holds."""
    now = trace.now
    starts = [now]
    if until.fact:
        starts = [trace.moment(until.fact)]
    elif until.field:
        starts = [_moment(get(answers, path), now) for path in _dates(until.field, evidence)]
    end = max((_later(start, until) for start in starts), default=_later(now, until))
    return max(end, now)


def _dates(field: str, evidence: set[AnswerPath]) -> list[AnswerPath]:
    """The date's own path, or its path in every list entry that the evidence names."""
    date_path = AnswerPath.parse(field)
    if date_path.list is None:
        return [date_path]
    inside = {path.beside(date_path.name) for path in evidence if path.list == date_path.list}
    return sorted(inside)


def _moment(value: object, now: datetime) -> datetime:
    """Midnight at the start of a day; now when the date is missing or not sure."""
    if isinstance(value, datetime):
        return value
    return datetime.combine(value, time(), now.tzinfo) if isinstance(value, date) else now


def _later(start: datetime, until: Until) -> datetime:
    return add_months(start, until.months) + timedelta(days=until.days)
