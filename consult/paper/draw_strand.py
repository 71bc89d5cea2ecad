"""The strand on paper: every colour with its words on it, every line of demarcation with its centimetres.

A stripe is never narrower than its words need, so new growth can be read beside long lengths: it is not to scale.
"""

from consult.paper.canvas import LETTER, WIDTH, block, box, picture, stroke, words, wrapped
from consult.paper.markup import Markup, element, joined
from consult.report.strand_picture import Patch, StrandPicture

LEFT, RIGHT = 76.0, WIDTH - 4.0
BAR, LINE, SMALL, PAD = 17.0, 12.7, 11.0, 5.0
NARROWEST = 150.0
NOTHING = "left alone"


def strands_svg(strands: tuple[StrandPicture, ...]) -> Markup:
    """Every strand today and afterwards, and the goal of all. What two strands in a row share is said once: their
    parts over the first, their centimetres under the last."""
    y, parts = 0.0, list[Markup]()
    for n, strand in enumerate(strands):
        edges = places(strand, LEFT, RIGHT, NARROWEST)
        if n == 0 or _ruled(strands[n - 1]) != _ruled(strand):
            for stripe, (x, to) in zip(strand.stripes, edges, strict=True):
                parts.append(words((x + to) / 2, y + 11, stripe.part, size=SMALL, anchor="middle"))
            if len(strand.where) * LETTER > LEFT:
                y += 16  # A short name stands beside the parts, a long one under them.
        drawn, y = _rows(strand, edges, y)
        parts.append(drawn)
        if strand is strands[-1] or _ruled(strands[n + 1]) != _ruled(strand):
            parts.append(_scale(strand, edges, y))
            y += 18
    goal = strands[0].stripes[0].goal
    parts.append(words(0, y + BAR - 4, "goal", bold=True))
    parts.append(_patch(LEFT, y, RIGHT - LEFT, BAR, [goal.words], goal.colour))
    return picture(y + BAR + 3, "The strand from scalp to tip", *parts, name="strand")


def _ruled(strand: StrandPicture) -> tuple[object, ...]:
    """What stands over and under a strand."""
    return tuple((stripe.part, stripe.end_cm) for stripe in strand.stripes), strand.lines


def _rows(strand: StrandPicture, edges: list[tuple[float, float]], y: float) -> tuple[Markup, float]:
    """One strand today and afterwards, from y down, and where it ends."""
    parts = [words(0, y + 11, strand.where, bold=True)]
    y += 15
    before: list[Patch | None] = [stripe.before for stripe in strand.stripes]
    after = [stripe.after for stripe in strand.stripes]
    shows_before = {line.cm for line in strand.lines if line.before}
    shows_after = {line.cm for line in strand.lines if line.after}
    for name, patches, lined in (("today", before, shows_before), ("afterwards", after, shows_after)):
        said = [
            wrapped(patch.words if patch else NOTHING, to - x - 2 * PAD, SMALL)
            for patch, (x, to) in zip(patches, edges, strict=True)
        ]
        high = BAR + (max(map(len, said)) - 1) * LINE
        parts.append(words(0, y + BAR - 4, name))
        for patch, lines, (x, to) in zip(patches, said, edges, strict=True):
            parts.append(_patch(x, y, to - x, high, lines, patch.colour if patch else "#fff"))
        for stripe, (x, _) in zip(strand.stripes, edges, strict=True):
            if stripe.start_cm in lined:
                parts.append(stroke(x, y - 4, x, y + high + 4, 4, "5 3"))
        y += high + 3
    return joined(parts), y + 2


def _patch(x: float, y: float, width: float, height: float, lines: list[str], colour: str) -> Markup:
    """A colour with its words in the middle of it, on white, so that they are read on every colour."""
    label = max(len(line) for line in lines) * LETTER * SMALL / 12 + 2 * PAD
    middle = x + width / 2
    return joined(
        [
            box(x, y, width, height, colour),
            element(
                "rect",
                x=f"{middle - label / 2:g}",
                y=y + 2,
                width=f"{label:g}",
                height=height - 4,
                fill="#fff",
            ),
            block(middle, y + 12.5, lines, size=SMALL, anchor="middle"),
        ]
    )


def _scale(strand: StrandPicture, edges: list[tuple[float, float]], y: float) -> Markup:
    """The centimetres at every edge, and when a line shows there."""
    parts = [words(0, y + 9, "from scalp", size=SMALL), words(LEFT, y + 9, "0 cm", size=SMALL)]
    lined = {line.cm: line for line in strand.lines}
    for stripe, (_, to) in zip(strand.stripes, edges, strict=True):
        line = lined.get(stripe.end_cm)
        said = f"{stripe.end_cm:g} cm" + (f", line {line.words}" if line else "")
        anchor = "end" if to == edges[-1][1] else "middle"
        parts.append(words(to, y + 9, said, size=SMALL, anchor=anchor, bold=line is not None))
    return joined(parts)


def places(strand: StrandPicture, left: float, right: float, narrowest: float) -> list[tuple[float, float]]:
    """(from, to) of each stripe between two edges: by its centimetres, but never narrower than words need."""
    width = right - left
    least = min(narrowest, width / len(strand.stripes))
    free = width - least * len(strand.stripes)
    edges, at = [], left
    for stripe in strand.stripes:
        to = at + least + free * (stripe.end_cm - stripe.start_cm) / strand.length_cm
        edges.append((at, to))
        at = to
    return [*edges[:-1], (edges[-1][0], right)]
