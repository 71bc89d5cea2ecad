"""A working sheet on paper: as an HTML file to print, and as plain text."""

from collections.abc import Callable
from typing import Final

from consult.paper.page import html_sheet
from consult.paper.plain import text_sheet
from consult.report.sheet import Sheet

Form = Callable[[Sheet], str]
TEXT: Final[Form] = text_sheet
FORMS: Final[dict[str, Form]] = {".html": html_sheet, ".txt": text_sheet}
"""How a file's name ends -> what is written into it."""
