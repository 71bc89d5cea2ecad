"""The judgement of one head: every finding, the strongest verdict, and what is still open."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from consult.answers import Answers
from consult.answers.access import get
from consult.answers.paths import AnswerPath
from consult.answers.questions import questions
from consult.gates.evaluate import Head, Truth
from consult.gates.facts import add_months
from consult.gates.limits import NO_LIMITS, Limits
from consult.gates.rules import Rule, Until, builtin_rules
from consult.gates.verdict import Verdict


@dataclass(frozen=True)
class Finding:
    """A rule that fired. `evidence` are the answers it rests on; `until` ends a wait."""

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


@dataclass(frozen=True)
class Judgement:
    """AllOf findings, strongest first, and the rules that unasked answers leave open.

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
    strict = Head(answers, now, cautious=False)
    cautious = Head(answers, now, cautious=True, seen=strict.seen)
    findings: list[Finding] = []
    could_become, ask = Verdict.CLEAR, set[str]()
    for rule in builtin_rules() if rules is None else rules:
        certain = strict.outcome(rule.when)
        if certain.truth is Truth.TRUE:
            findings.append(_finding(rule, rule.verdict, certain.paths, strict, in_doubt=False))
        if certain.truth is not Truth.OPEN:
            continue
        doubtful = cautious.outcome(rule.when)
        if doubtful.truth is Truth.TRUE:
            findings.append(_finding(rule, rule.unsure, doubtful.paths, strict, in_doubt=True))
        missing = {path for path in certain.paths if get(answers, path) is None}
        if missing:
            could_become = max(could_become, rule.verdict, rule.unsure)
            ask |= missing
    findings.sort(key=lambda f: (-f.verdict, f.in_doubt))
    order = list(questions())
    asked_in_order = sorted(ask, key=lambda path: (order.index(AnswerPath.parse(path).question), path))
    return Judgement(tuple(findings), could_become, tuple(asked_in_order))


def _finding(
    rule: Rule, verdict: Verdict, evidence: frozenset[str], head: Head, *, in_doubt: bool
) -> Finding:
    until = _end(rule.until, evidence, head) if rule.until and verdict is Verdict.WAIT else None
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
    )


def _end(until: Until, evidence: frozenset[str], head: Head) -> datetime:
    """The moment a wait ends; it never lies in the past, since the rule still holds."""
    starts = [head.now]
    if until.fact:
        starts = [head.moment(until.fact)]
    elif until.field:
        starts = [_moment(get(head.answers, path), head.now) for path in _dates(until.field, evidence)]
    end = max((_later(start, until) for start in starts), default=_later(head.now, until))
    return max(end, head.now)


def _dates(field: str, evidence: frozenset[str]) -> list[str]:
    """The date's own path, or its path in every list entry that the evidence names."""
    head, _, name = field.rpartition(".")
    if "." not in head:
        return [field]
    entries = {p.rpartition(".")[0] for p in evidence if AnswerPath.parse(p).list == head}
    return [f"{entry}.{name}" for entry in sorted(entries)]


def _moment(value: object, now: datetime) -> datetime:
    """Midnight at the start of a day; now when the date is missing or not sure."""
    if isinstance(value, datetime):
        return value
    return datetime.combine(value, time(), now.tzinfo) if isinstance(value, date) else now


def _later(start: datetime, until: Until) -> datetime:
    return add_months(start, until.months) + timedelta(days=until.days)
