"""The words that both forms of a sheet share."""

from consult.report.copies import Copy
from consult.report.sheet import Sheet

TITLE = "Working sheet"
JUDGED = "judged as of"
COPIES = {
    Copy.FILE: "File copy: holds health answers, keep it closed away",
    Copy.CLIENT: "Client's copy: without health answers",
}
STARTED = "By the clock: first touch at {}"
HEALTH = "Health, scalp and test, as told"
RESULT = ("part", "came out (depth, tone)", "as foreseen?", "notes, next time")
LINES_FOR_NOTES = 2


def heading(sheet: Sheet) -> str:
    """The sheet's name and whose it is."""
    return f"{TITLE}: {sheet.name or '____________'}"
