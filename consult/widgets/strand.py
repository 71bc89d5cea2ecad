"""The strand from scalp to tip in cells of colour: today, afterwards and the goal one under the other, edge to edge."""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from textual.content import Content

from consult.report.strand_picture import Patch, StrandPicture
from consult.widgets.text import Piece, styled

LABEL: Final = 12
NARROWEST: Final = 20
"""Columns of a name before a row, and of the shortest stripe where there is room: so many take its words."""
UNTOUCHED: Final = "as today"
DARK_BELOW: Final = 0.179
"""Luminance, 0 to 1, under which white words stand out more than black: there both contrasts of WCAG are the same."""


def strand_lines(strand: StrandPicture, width: int, *, colours: bool) -> list[Content]:
    """The rows of one strand under the name of its zones; each stripe holds its words: nothing rests on colour."""
    wide = _widths(strand, width - LABEL)
    today = [stripe.before for stripe in strand.stripes]
    after = [stripe.after or Patch(stripe.before.colour, UNTOUCHED) for stripe in strand.stripes]
    goal = strand.stripes[0].goal
    ends = [f"{stripe.end_cm:g} cm" for stripe in strand.stripes]
    scale = "".join(end.rjust(columns) for end, columns in zip(ends, wide, strict=True))
    return [
        styled((strand.where, "bold")),
        styled(("from scalp".ljust(LABEL) + scale, "$muted")),
        _row("today", today, wide, colours),
        _row("afterwards", after, wide, colours),
        _row("goal", [goal], [sum(wide)], colours),
    ]


def _widths(strand: StrandPicture, columns: int) -> list[int]:
    """Columns of each stripe: as its cm are, none narrower than a few words."""
    count = len(strand.stripes)
    narrowest = min(NARROWEST, columns // (count + 1))
    left = columns - narrowest * count
    shares = [(stripe.end_cm - stripe.start_cm) / strand.length_cm * left for stripe in strand.stripes]
    edges = [round(edge) for edge in accumulate(shares, initial=0.0)]
    return [narrowest + to - start for start, to in pairwise(edges)]


def _row(name: str, patches: Sequence[Patch], wide: Sequence[int], colours: bool) -> Content:
    pieces: list[Piece] = [(name.ljust(LABEL), "$muted")]
    for patch, columns in zip(patches, wide, strict=True):
        words = patch.words.removeprefix("depth ")
        if not colours:
            pieces.append(f"|{words[: columns - 1]:<{columns - 1}}")
            continue
        pieces.append((f" {words[: columns - 1]:<{columns - 1}}", f"{_ink(patch.colour)} on {patch.colour}"))
    return styled(*pieces)


def _ink(colour: str) -> str:
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    luminance: float = 0.2126 * red**2.2 + 0.7152 * green**2.2 + 0.0722 * blue**2.2
    return "#ffffff" if luminance < DARK_BELOW else "#000000"
