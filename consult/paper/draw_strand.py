"""The strand on paper: every colour with its words under it, every line of demarcation with its centimetres.

A stripe is never narrower than its words need, so new growth can be read beside long lengths: it is not to scale.
"""

from consult.paper.canvas import WIDTH, block, box, picture, stroke, words, wrapped
from consult.paper.markup import Markup, joined
from consult.report.strand_picture import Patch, StrandPicture

LEFT, RIGHT = 76.0, WIDTH - 4.0
BAR, LINE, SMALL = 15.0, 12.5, 11.0
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
            y += 16
        drawn, y = _rows(strand, edges, y)
        parts.append(drawn)
        if strand is strands[-1] or _ruled(strands[n + 1]) != _ruled(strand):
            parts.append(_scale(strand, edges, y))
            y += 20
    goal = strands[0].stripes[0].goal
    parts += [words(0, y + BAR - 3, "goal", bold=True), box(LEFT, y, RIGHT - LEFT, BAR, goal.colour)]
    parts.append(words((LEFT + RIGHT) / 2, y + BAR + 11, goal.words, size=SMALL, anchor="middle"))
    return picture(y + BAR + 16, "The strand from scalp to tip", *parts, name="strand")


def _ruled(strand: StrandPicture) -> tuple[object, ...]:
    """What stands over and under a strand."""
    return tuple((stripe.part, stripe.end_cm) for stripe in strand.stripes), strand.lines


def _rows(strand: StrandPicture, edges: list[tuple[float, float]], y: float) -> tuple[Markup, float]:
    """One strand today and afterwards, from y down, and where it ends."""
    parts = [words(0, y + 11, strand.where, bold=True)]
    y += 16
    lined = {line.cm: line for line in strand.lines}
    before: list[Patch | None] = [stripe.before for stripe in strand.stripes]
    after = [stripe.after for stripe in strand.stripes]
    for name, patches in (("today", before), ("afterwards", after)):
        deepest = 1
        parts.append(words(0, y + BAR - 3, name))
        for stripe, patch, (x, to) in zip(strand.stripes, patches, edges, strict=True):
            said = wrapped(patch.words if patch else NOTHING, to - x - 6, SMALL)
            deepest = max(deepest, len(said))
            parts.append(box(x, y, to - x, BAR, patch.colour if patch else "#fff"))
            parts.append(block((x + to) / 2, y + BAR + 11, said, size=SMALL, anchor="middle"))
            line = lined.get(stripe.start_cm)
            if line and (line.before if name == "today" else line.after):
                parts.append(stroke(x, y - 4, x, y + BAR + 12, 3, "5 3"))
        y += BAR + 2 + deepest * LINE
    return joined(parts), y + 2


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
