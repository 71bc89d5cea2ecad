"""The strand on paper: every colour with its words under it, every line of demarcation with its centimetres.

A stripe is never narrower than its words need, so new growth can be read beside long lengths: it is not to scale.
"""

from consult.paper.canvas import WIDTH, block, box, picture, stroke, words, wrapped
from consult.paper.markup import Markup, joined
from consult.report.strand_picture import Patch, StrandPicture, Stripe

LEFT, RIGHT = 76.0, WIDTH - 4.0
BAR, LINE, SMALL = 15.0, 12.5, 11.0
NARROWEST = 150.0
NOTHING = "left alone"


def strand_svg(strand: StrandPicture) -> Markup:
    """One strand: today, afterwards, the goal."""
    edges = places(strand, LEFT, RIGHT, NARROWEST)
    y, parts = 12.0, [words(0, 12, f"Strand: {strand.where}", bold=True)]
    for stripe, (x, to) in zip(strand.stripes, edges, strict=True):
        parts.append(words((x + to) / 2, y + 14, stripe.part, size=SMALL, anchor="middle"))
    y += 19
    lined = {line.cm: line for line in strand.lines}
    for name, patches in _rows(strand.stripes):
        deepest = 1
        parts.append(words(0, y + BAR - 3, name))
        for n, (patch, (x, to)) in enumerate(zip(patches, edges, strict=True)):
            said = wrapped(patch.words if patch else NOTHING, to - x - 6, SMALL)
            deepest = max(deepest, len(said))
            parts.append(box(x, y, to - x, BAR, patch.colour if patch else "#fff"))
            parts.append(block((x + to) / 2, y + BAR + 11, said, size=SMALL, anchor="middle"))
            line = lined.get(strand.stripes[n].start_cm)
            if line and ((name == "today" and line.before) or (name == "afterwards" and line.after)):
                parts.append(stroke(x, y - 4, x, y + BAR + 12, 3, "5 3"))
        y += BAR + 2 + deepest * LINE
    goal = strand.stripes[0].goal
    parts += [words(0, y + BAR - 3, "goal"), box(LEFT, y, RIGHT - LEFT, BAR, goal.colour)]
    parts.append(words((LEFT + RIGHT) / 2, y + BAR + 11, goal.words, size=SMALL, anchor="middle"))
    y += BAR + 2 + LINE
    parts.append(_scale(strand, edges, y))
    return picture(y + 16, f"The strand from scalp to tip: {strand.where}", *parts, name="strand")


def _rows(stripes: tuple[Stripe, ...]) -> list[tuple[str, list[Patch | None]]]:
    before: list[Patch | None] = [stripe.before for stripe in stripes]
    after = [stripe.after for stripe in stripes]
    return [("today", before), ("afterwards", after)]


def _scale(strand: StrandPicture, edges: list[tuple[float, float]], y: float) -> Markup:
    """The centimetres at every edge, and when a line shows there."""
    parts = [words(0, y + 11, "from scalp", size=SMALL), words(LEFT, y + 11, "0 cm", size=SMALL)]
    lined = {line.cm: line for line in strand.lines}
    for stripe, (_, to) in zip(strand.stripes, edges, strict=True):
        line = lined.get(stripe.end_cm)
        said = f"{stripe.end_cm:g} cm" + (f", line {line.words}" if line else "")
        anchor = "end" if to == edges[-1][1] else "middle"
        parts.append(words(to, y + 11, said, size=SMALL, anchor=anchor, bold=line is not None))
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
