"""HTML and SVG out of small functions: whatever is not markup already is escaped where it is put in.

A template engine would bring two packages and a language of its own for one page; this is all that the page needs.
"""

from collections.abc import Iterable
from html import escape

VOID = ("meta", "br", "hr", "line", "rect", "path", "ellipse", "circle", "polygon")
"""Elements without content. They are closed with a slash, which HTML overlooks and SVG needs."""


class Markup(str):
    """Text that is markup already."""

    __slots__ = ()


def text(value: str) -> Markup:
    """A user's or the program's text as markup."""
    return value if isinstance(value, Markup) else Markup(escape(value))


def element(tag: str, *inside: str, **attributes: object) -> Markup:
    """One element; an attribute's trailing underscore is dropped, others become hyphens: `stroke_width`, `class_`."""
    named = "".join(
        f' {name.rstrip("_").replace("_", "-")}="{escape(str(value))}"' for name, value in attributes.items()
    )
    if tag in VOID:
        return Markup(f"<{tag}{named}/>")
    return Markup(f"<{tag}{named}>{joined(inside)}</{tag}>")


def joined(parts: Iterable[str]) -> Markup:
    """Several pieces, one after the other."""
    return Markup("".join(text(part) for part in parts))
