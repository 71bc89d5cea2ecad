"""The pictures of a sheet in characters, with the same words as on the drawings."""

from datetime import time

from consult.paper.columns import centred, wrapped
from consult.paper.draw_strand import NOTHING, places
from consult.report.head_picture import HeadPicture, View
from consult.report.strand_picture import Patch, StrandPicture
from consult.report.time_picture import Bar, Phase, TimePicture, clock_words

EDGE, RIGHT, NARROWEST = 12, 79, 16
SHADES = "@#*+=-:."
"""From dark to light: how light a patch prints, not what it is; that is said under it."""
HEAD_WIDE, HEAD_HIGH = 33, 13
BEGIN = "V"
LABEL, BAR = 22, 44
SIGNS = {Phase.NOTHING: ".", Phase.PUT_ON: ":", Phase.ON: "-", Phase.COUNTED: "="}


# --- the strand -----------------------------------------------------------------------------------


def strand_lines(strand: StrandPicture) -> list[str]:
    """A strand from scalp to tip, at most 80 columns wide."""
    edges = [(round(x), round(to)) for x, to in places(strand, EDGE, RIGHT, NARROWEST)]
    lines = [f"Strand: {strand.where}", _row("", [stripe.part for stripe in strand.stripes], edges)]
    before: list[Patch | None] = [stripe.before for stripe in strand.stripes]
    after = [stripe.after for stripe in strand.stripes]
    lines += _patches("today", before, edges, {line.cm for line in strand.lines if line.before}, strand)
    lines += _patches("afterwards", after, edges, {line.cm for line in strand.lines if line.after}, strand)
    goal = strand.stripes[0].goal
    whole = [(EDGE, RIGHT)]
    lines += [_bar("goal", [_shade(goal)], whole, [False]), _row("", [goal.words], whole)]
    ends = [f"{stripe.end_cm:g} cm" for stripe in strand.stripes]
    scale = f"{'from scalp':<{EDGE}}0 cm"
    for said, (_, to) in zip(ends, edges, strict=True):
        scale = f"{scale:<{to - len(said)}}{said}"
    return [*lines, scale, *(f"{'':<{EDGE}}line at {line.cm:g} cm {line.words}" for line in strand.lines)]


def _patches(
    name: str,
    patches: list[Patch | None],
    edges: list[tuple[int, int]],
    lined: set[float],
    strand: StrandPicture,
) -> list[str]:
    shades = [_shade(patch) if patch else " " for patch in patches]
    borders = [stripe.start_cm in lined for stripe in strand.stripes]
    said = [
        wrapped(patch.words if patch else NOTHING, to - x - 1)
        for patch, (x, to) in zip(patches, edges, strict=True)
    ]
    deepest = max(map(len, said))
    rows = [[lines[n] if n < len(lines) else "" for lines in said] for n in range(deepest)]
    return [_bar(name, shades, edges, borders), *(_row("", row, edges) for row in rows)]


def _bar(name: str, shades: list[str], edges: list[tuple[int, int]], borders: list[bool]) -> str:
    """Stripes side by side; a line of demarcation is drawn as two strokes."""
    line = f"{name:<{EDGE - 1}}|"
    for shade, (x, to), border in zip(shades, edges, borders, strict=True):
        begins = "||" if border else ""
        line += begins + shade * (to - x - len(begins))
    return line + "|"


def _row(name: str, said: list[str], edges: list[tuple[int, int]]) -> str:
    return (
        f"{name:<{EDGE}}"
        + "".join(centred(words, to - x) for words, (x, to) in zip(said, edges, strict=True)).rstrip()
    )


def _shade(patch: Patch) -> str:
    red, green, blue = (int(patch.colour[at : at + 2], 16) for at in (1, 3, 5))
    light = (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 256
    return SHADES[int(light * len(SHADES))]


# --- the head -------------------------------------------------------------------------------------


def head_lines(head: HeadPicture) -> list[str]:
    """Both views side by side, at most 80 columns wide."""
    above, behind = (_view(head, view) for view in View)
    titles = [centred(view.value, HEAD_WIDE) for view in View]
    rows = [titles, *zip(above, behind, strict=True), [_sides(), _sides()]]
    legend = "   ".join(f"{number} {name}" for number, name in enumerate(head.order, 1))
    starts = ", ".join(dict.fromkeys(start.words for start in head.starts))
    return [*(f"  {one}    {other}".rstrip() for one, other in rows), legend, f"{BEGIN} {starts}"]


def _sides() -> str:
    return f"{'client' + chr(39) + 's left':<{HEAD_WIDE - 5}}right"


def _view(head: HeadPicture, view: View) -> list[str]:
    grid = [[_cell(head, view, x, y) for x in range(HEAD_WIDE)] for y in range(HEAD_HIGH)]
    for field in head.fields:
        if field.view is view:
            x, y = field.middle
            grid[int(y * HEAD_HIGH)][int(x * HEAD_WIDE)] = str(field.number)
    for start in head.starts:
        if start.view is view:
            grid[int(start.at[1] * HEAD_HIGH)][int(start.at[0] * HEAD_WIDE)] = BEGIN
    return ["".join(row) for row in grid]


def _cell(head: HeadPicture, view: View, x: int, y: int) -> str:
    """A cell is the outline, an edge between two sections, or empty."""
    here = _section(head, view, x, y)
    if here is None:
        return " "
    right, below = _section(head, view, x + 1, y), _section(head, view, x, y + 1)
    if None in (right, below, _section(head, view, x - 1, y), _section(head, view, x, y - 1)):
        return "o"
    if right != here:
        return "|"
    return "-" if below != here else " "


def _section(head: HeadPicture, view: View, x: int, y: int) -> str | None:
    """The section at a cell, None outside the head."""
    return head.section_at(view, (x + 0.5) / HEAD_WIDE, (y + 0.5) / HEAD_HIGH)


# --- the time line --------------------------------------------------------------------------------


def time_lines(line: TimePicture, start: time | None) -> list[str]:
    """A bar for every section of every application, at most 80 columns wide."""
    lines = [f"{'':<{LABEL}}: put on   - on the hair   = the leaflet's clock"]
    part = ""
    for bar in line.bars:
        if bar.part != part:
            part = bar.part
            lines.append(part)
        lines.append(
            f"  {bar.label if bar.number else '':<{LABEL - 2}}{_signs(bar, line.length)} off at {bar.off}"
        )
    last = f"minute {line.length} ({clock_words(start, line.length)})"
    first = f"minute 0 ({clock_words(start, 0)})"
    return [*lines, f"{'':<{LABEL}}{first}{last:>{BAR - len(first)}}"]


def _signs(bar: Bar, length: int) -> str:
    return "".join(SIGNS[bar.phase((cell + 0.5) * length / BAR)] for cell in range(BAR))
