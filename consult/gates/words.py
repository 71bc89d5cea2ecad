"""A finding in words, for whoever shows it."""

from consult.gates.judge import Finding
from consult.trade import Voice


def reason_words(finding: Finding, voice: Voice) -> str:
    """The reason in the reader's voice; a doubt is named as the doubt it is."""
    reason = finding.plain if voice is Voice.HOME else finding.trade
    return f"Cannot be ruled out (answered not sure): {reason}" if finding.in_doubt else reason
