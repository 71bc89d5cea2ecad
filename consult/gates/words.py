"""A finding and a moment in words, for whoever shows them."""

from datetime import datetime

from consult.dates import day_name
from consult.gates.judge import Finding
from consult.trade import Voice


def when(at: datetime | None) -> str:
    """Day and time: "Fri 27 Nov 2026, 10:00"; nothing for no moment."""
    return f"{day_name(at)}, {at:%H:%M}" if at else ""


def reason_words(finding: Finding, voice: Voice) -> str:
    """The reason in the reader's voice; a doubt is named as the doubt it is."""
    reason = finding.plain if voice is Voice.HOME else finding.trade
    return f"Cannot be ruled out (answered not sure): {reason}" if finding.in_doubt else reason
