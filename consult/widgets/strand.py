"""The strand from scalp to tip in cells of colour: today, afterwards and the goal one under the other, edge to edge."""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from textual.content import Content

from consult.report.strand_picture import Patch, StrandPicture
from consult.widgets.text import Piece, styled

NARROWEST: Final = 20
"""Columns of the shortest stripe where there is room: so many take its words."""
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
    scale = "scalp"
    for stripe, to in zip(strand.stripes, accumulate(wide), strict=True):
        end = f"{stripe.end_cm:g} cm"
        scale = f"{scale[: to - len(end) - 1]:<{to - len(end)}}{end}"
    return scale


def _widths(strand: StrandPicture, columns: int) -> list[int]:
    """Columns of each stripe: as its cm are, none narrower than a few words."""
    count = len(strand.stripes)
    narrowest = min(NARROWEST, columns // (count + 1))
    left = columns - narrowest * count
    shares = [(stripe.end_cm - stripe.start_cm) / strand.length_cm * left for stripe in strand.stripes]
    edges = [round(edge) for edge in accumulate(shares, initial=0.0)]
    return [narrowest + to - start for start, to in pairwise(edges)]


def _row(patches: Sequence[Patch], wide: Sequence[int], lined: Sequence[bool], colours: bool) -> Content:
    pieces: list[Piece] = []
    for patch, columns, line in zip(patches, wide, lined, strict=True):
        words = patch.words.removeprefix("depth ")
        if len(words) >= columns:
            words = words.removeprefix("natural ")
        edge = LINE if line else " " if colours else "|"
        text = f"{edge}{words[: columns - 1]:<{columns - 1}}"
        pieces.append((text, f"{_ink(patch.colour)} on {patch.colour}") if colours else text)
    return styled(*pieces)


def _ink(colour: str) -> str:
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    luminance: float = 0.2126 * red**2.2 + 0.7152 * green**2.2 + 0.0722 * blue**2.2
    return "#ffffff" if luminance < DARK_BELOW else "#000000"
