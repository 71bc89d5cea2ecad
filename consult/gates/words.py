"""A finding and a moment in words, for whoever shows them."""

from datetime import datetime

from consult.gates.judge import Finding
from consult.trade import Voice


def when(at: datetime | None) -> str:
    """Day and time in figures, the same in every language setting."""
    return f"{at:%Y-%m-%d %H:%M}" if at else ""


def reason_words(finding: Finding, voice: Voice) -> str:
    """The reason in the reader's voice; a doubt is named as the doubt it is."""
    reason = finding.plain if voice is Voice.HOME else finding.trade
    return f"Cannot be ruled out (answered not sure): {reason}" if finding.in_doubt else reason
