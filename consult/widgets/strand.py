"""The strand from scalp to tip in cells of colour: today, afterwards and the goal one under the other, edge to edge."""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from textual.content import Content

from consult.report.strand_picture import Patch, StrandPicture, Stripe
from consult.widgets.text import Piece, styled

NARROWEST: Final = 20
"""Columns of the shortest stripe where there is room, so that a short one is seen beside a long one."""
SCALP: Final = "scalp"
NAMES: Final = ("today", "afterwards", "goal")
"""The rows of a strand, which stand under its scale."""
UNTOUCHED: Final = "as today"
LINE: Final = "┃"
"""Where the eye sees a line of demarcation."""
DARK_BELOW: Final = 0.179
"""Luminance, 0 to 1, under which white words stand out more than black: there both contrasts of WCAG are the same."""


def strand_lines(strand: StrandPicture, width: int, *, colours: bool) -> list[Content]:
    """The scale of one strand, and its rows; each stripe holds its words: nothing rests on colour."""
    wide = _widths(strand, width)
    today = [stripe.before for stripe in strand.stripes]
    after = [stripe.after or Patch(stripe.before.colour, UNTOUCHED) for stripe in strand.stripes]
    lined = [
        {line.cm for line in strand.lines if line.before},
        {line.cm for line in strand.lines if line.after},
    ]
    starts = [stripe.start_cm for stripe in strand.stripes]
    return [
        styled((_scale(strand, wide), "$muted")),
        _row(today, wide, [start in lined[0] for start in starts], colours),
        _row(after, wide, [start in lined[1] for start in starts], colours),
        _row([strand.stripes[0].goal], [sum(wide)], [False], colours),
    ]


def _scale(strand: StrandPicture, wide: Sequence[int]) -> str:
    """The ends of the stripes in cm from the scalp, over their right edges."""
    scale = SCALP
    for stripe, to in zip(strand.stripes, accumulate(wide), strict=True):
        end = _end(stripe)
        scale = f"{scale[: to - len(end) - 1]:<{to - len(end)}}{end}"
    return scale


def _end(stripe: Stripe) -> str:
    return f"{stripe.end_cm:g} cm"


def _widths(strand: StrandPicture, columns: int) -> list[int]:
    """Columns of each stripe: as its cm are, none narrower than its words while there is room for all of them."""
    count = len(strand.stripes)
    narrowest = min(NARROWEST, columns // (count + 1))
    needed = [_needed(stripe) for stripe in strand.stripes]
    needed[0] = max(needed[0], len(f"{SCALP} {_end(strand.stripes[0])}"))
    choices = ([max(narrowest, need) for need in needed], needed, [narrowest] * count)
    least = next((wide for wide in choices if sum(wide) <= columns), choices[-1])
    left = columns - sum(least)
    shares = [(stripe.end_cm - stripe.start_cm) / strand.length_cm * left for stripe in strand.stripes]
    edges = [round(edge) for edge in accumulate(shares, initial=0.0)]
    return [wide + to - start for wide, (start, to) in zip(least, pairwise(edges), strict=True)]


def _needed(stripe: Stripe) -> int:
    """Columns for its end, and for its words at their shortest, behind its edge."""
    patches = (stripe.before, stripe.after or Patch("", UNTOUCHED))
    return 1 + max(len(_end(stripe)), *(len(_said(patch, short=True)) for patch in patches))


def _said(patch: Patch, *, short: bool) -> str:
    words = patch.words.removeprefix("depth ")
    return words.removeprefix("natural ") if short else words


def _row(patches: Sequence[Patch], wide: Sequence[int], lined: Sequence[bool], colours: bool) -> Content:
    """A row is told in full, or all of it short: what is natural on one stripe is so on the next."""
    pieces: list[Piece] = []
    short = any(
        len(_said(patch, short=False)) >= columns for patch, columns in zip(patches, wide, strict=True)
    )
    for patch, columns, line in zip(patches, wide, lined, strict=True):
        words = _said(patch, short=short)
        edge = LINE if line else " " if colours else "|"
        text = f"{edge}{words[: columns - 1]:<{columns - 1}}"
        pieces.append((text, f"{_ink(patch.colour)} on {patch.colour}") if colours else text)
    return styled(*pieces)


def _ink(colour: str) -> str:
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    luminance: float = 0.2126 * red**2.2 + 0.7152 * green**2.2 + 0.0722 * blue**2.2
    return "#ffffff" if luminance < DARK_BELOW else "#000000"
