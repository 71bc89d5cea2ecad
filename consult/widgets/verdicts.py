"""A verdict on the screen: its word always, its colour beside it."""

from textual.content import Content

from consult.dates import when
from consult.gates.judge import Judgement
from consult.gates.verdict import Verdict
from consult.gates.words import reason_words, told_findings
from consult.trade import Voice
from consult.widgets.text import Piece, lines, styled

STYLES = {
    Verdict.CLEAR: "bold $success",
    Verdict.CAUTION: "bold $warning",
    Verdict.CHANGE_PRODUCT: "bold $warning",
    Verdict.LOOK_UP: "bold $warning",
    Verdict.TEST_FIRST: "bold $warning",
    Verdict.TREAT_FIRST: "bold $warning",
    Verdict.SEE_COLOURIST: "bold $warning",
    Verdict.WAIT: "bold $warning",
    Verdict.SEE_DOCTOR: "bold $error",
    Verdict.STOP: "bold $error",
}
MARKS = {
    Verdict.CLEAR: "+",
    Verdict.CAUTION: "!",
    Verdict.CHANGE_PRODUCT: "/",
    Verdict.LOOK_UP: "i",
    Verdict.TEST_FIRST: "?",
    Verdict.TREAT_FIRST: "~",
    Verdict.SEE_COLOURIST: ">",
    Verdict.WAIT: "o",
    Verdict.SEE_DOCTOR: "#",
    Verdict.STOP: "X",
}
MARK_WIDTH = 4
"""Columns that a mark takes before its words."""


def verdict_words(judgement: Judgement) -> str:
    """The verdict so far: while open questions could still hold it, it is never called clear."""
    if judgement.verdict is Verdict.CLEAR and not judgement.settled:
        return "Nothing against it so far"
    if judgement.verdict is Verdict.CLEAR:
        return "Clear: nothing speaks against it (F3 shows what comes of it)"
    words = judgement.verdict.title
    waits = judgement.verdict is Verdict.WAIT and judgement.until
    return f"{words} until {when(judgement.until)}" if waits else words


def gate_content(judgement: Judgement, voice: Voice, rows: int) -> Content:
    """The verdict so far, its strongest reasons, and whether open questions can change it."""
    mark = MARKS[judgement.verdict]
    style = STYLES[judgement.verdict]
    if judgement.verdict is Verdict.CLEAR and not judgement.settled:
        mark, style = "-", "bold"
    shown = [styled((f"[{mark}] {verdict_words(judgement)}", style), _open_words(judgement))]
    findings = told_findings(judgement.findings, voice)
    for finding in findings[: max(0, rows - 1)]:
        pieces: list[Piece] = [(f"  {MARKS[finding.verdict]} ", STYLES[finding.verdict])]
        if voice is Voice.TRAINER:
            pieces.append((f"{finding.rule}: ", "$muted"))
        pieces.append(reason_words(finding, voice))
        shown.append(styled(*pieces))
    more = len(findings) - max(0, rows - 1)
    if more > 0 and rows > 1:
        shown[-1] = styled(shown[-1].plain, (f"  and {more} more", "$muted"))
    return lines(shown)


def _open_words(judgement: Judgement) -> Piece:
    if judgement.settled:
        return ("", "")
    count = len(judgement.ask)
    return (f"   still open: {count} question{'s' if count != 1 else ''}", "$muted")
