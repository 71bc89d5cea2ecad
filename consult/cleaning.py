"""Text from outside made harmless: no control, escape or direction-override characters.

It stands apart from the answer models, so that the start page is painted without loading them.
"""

import re
import unicodedata

# C0, C1, bidi overrides and isolates, zero-width marks, line separators, lone surrogates.
UNPRINTABLE = re.compile("[\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ud800-\udfff]+")


def clean_text(text: str) -> str:
    """The text without control, escape and direction-override characters, in NFC, on one line."""
    if text.isascii() and text.isprintable():
        return text.strip()
    return unicodedata.normalize("NFC", UNPRINTABLE.sub(" ", text)).strip()
