"""A finding in words, for whoever shows it."""

from collections.abc import Sequence

from consult.gates.judge import Finding, without_repeats
from consult.gates.verdict import Verdict
from consult.trade import Voice


def told_findings(findings: Sequence[Finding], voice: Voice) -> tuple[Finding, ...]:
    """Which of the findings, strongest first, are told. Beside a stop nothing milder is: whoever reads "wait" there may
    wait. A class sees all of the rest; others are spared what one doubtful answer repeats."""
    stopped = bool(findings) and findings[0].verdict is Verdict.STOP
    told = tuple(f for f in findings if not stopped or f.verdict is Verdict.STOP)
    return told if voice is Voice.TRAINER else without_repeats(told)


def reason_words(finding: Finding, voice: Voice) -> str:
    """The reason in the reader's voice; a doubt is named as the doubt it is."""
    reason = finding.plain if voice is Voice.HOME else finding.trade
    return f"Cannot be ruled out (answered not sure): {reason}" if finding.in_doubt else reason
