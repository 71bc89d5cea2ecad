"""Sheets of the demo clients in both forms."""

from datetime import time
from functools import cache

from consult.paper import FORMS
from consult.records.demos import demo_files
from consult.report.copies import Copy
from consult.report.sheet import working_sheet
from consult.trade import Voice
from tests.demo import judged

EVERYBODY = tuple(demo_files())


@cache
def sheet(
    name: str,
    form: str = ".html",
    *,
    voice: Voice = Voice.STYLIST,
    copy: Copy = Copy.FILE,
    start: time | None = None,
    **changes: object,
) -> str:
    return FORMS[form](working_sheet(judged(name, **changes), voice, copy, start))
