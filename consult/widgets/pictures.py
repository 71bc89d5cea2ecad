"""What is seen rather than read: a ladder of depths, a figure with lengths, fields of white hair, a head from above.

Each is a few lines of content with words beside every colour; without colours the words remain.
"""

from collections.abc import Mapping
from functools import cache
from typing import Final

from textual.content import Content

from consult.chart import FULL_LIFT, shown
from consult.interview.pages import Picture
from consult.interview.rows import Row
from consult.trade import DEPTH_NAMES, TONES, depth_name
from consult.widgets.text import Piece, styled

PATCH: Final = "      "
SHORT_PATCH: Final = "  "
WIDEST_NAME: Final = max(len(depth_name(depth)) for depth in DEPTH_NAMES) + 1
SHORT_LADDER: Final = 66
"""Columns that the short ladder needs."""
USUAL_DEPTH: Final = 6.0
"""At which tones are shown where no depth has been said."""
_FIGURE: Final = (
    ("      .---.", ""),
    ("     (     )", ""),
    ("      \\   /   ---- ", "chin, about 25 cm"),
    ("    .-'   '-. --- ", "shoulder, about 34 cm"),
    ("   / |     | \\", ""),
    ("  |  |     |  | - ", "shoulder blade, about 54 cm"),
    ("  |  |     |  |", ""),
    ("  |   |   |   | - ", "waist, about 74 cm"),
)
"""The lengths are those of the question's own hint (common practice for an adult of middle height)."""
_FIELDS: Final = (10, 25, 50, 75)
_COLUMNS, _ROWS = 10, 4
WITH_HEAD: Final = 74
"""Columns that the fields of white hair need with a head beside them."""
_STRIDE: Final = 17
"""Prime to the number of dots, so that each is reached once and neighbours are rarely white together."""
_HEAD: Final = (
    ("   .-", "front hairline", "-.   "),
    ("  /  ", "              ", "  \\  "),
    (" | ", "temples    temples", " | "),
    (" |  ", "     crown      ", "  | "),
    ("  \\  ", "              ", "  /  "),
    ("   '--", "    nape    ", "--'   "),
)


@cache
def natural_colours() -> dict[int, str]:
    """Depth -> #rrggbb of natural hair. Needs numpy, which is loaded when it is first asked for."""
    from consult.colour.values import HairState

    return {depth: shown(HairState(depth)) for depth in DEPTH_NAMES}


@cache
def tone_colours(depth: float) -> dict[str, str]:
    """Tone -> #rrggbb of a permanent shade of that tone on natural hair of its own depth."""
    from consult.colour.values import HairState, Shade, Treatment

    return {tone: shown(HairState(depth), Treatment(Shade(depth, tone), FULL_LIFT)) for tone in TONES}


def ladder(colours: Mapping[int, str], here: object) -> list[Content]:
    """Every depth with its colour and both naming columns; the one of the answer stands out."""
    lines = [styled(("  " + " " * len(PATCH) + "     college scale       many packs", "$muted"))]
    for depth, (college, pack) in reversed(DEPTH_NAMES.items()):
        patch: Piece = (PATCH, f"on {colours[depth]}") if colours else PATCH
        style = "bold reverse" if here == depth else ""
        lines.append(styled("  ", patch, f" {depth:>2}  ", (f"{college:<20}{pack}", style)))
    return lines


def short_ladder(colours: Mapping[int, str], here: object) -> list[Content]:
    """The same in half the lines, light depths beside dark ones, for a window that has no room for the whole ladder."""
    return [
        styled("  ", *_rung(light, colours, here), "  ", *_rung(light - 5, colours, here))
        for light in range(10, 5, -1)
    ]


def _rung(depth: int, colours: Mapping[int, str], here: object) -> list[Piece]:
    patch: Piece = (SHORT_PATCH, f"on {colours[depth]}") if colours else SHORT_PATCH
    name = depth_name(depth).rjust(len(depth_name(depth)) + (depth < 10))
    wide = WIDEST_NAME if depth > 5 else 0
    return [patch, " ", (name, "bold reverse" if here == depth else ""), " " * (wide - len(name))]


def figure() -> list[Content]:
    """A figure from behind with the places that hair reaches to."""
    return [styled((drawn, "$muted"), words) for drawn, words in _FIGURE]


def white_fields(zone: str, *, head: bool = True) -> list[Content]:
    """Fields of dots in which so many of a hundred are white, and where on the `head` the zone lies."""
    count, wide = _COLUMNS * _ROWS, _COLUMNS + 2
    order = [number * _STRIDE % count for number in range(count)]
    fields = [{*order[: round(count * share / 100)]} for share in _FIELDS]
    rows: list[list[Piece]] = [[("".join(f"{share} %".ljust(wide) for share in _FIELDS), "$muted")]]
    for row in range(_ROWS):
        places = range(row * _COLUMNS, (row + 1) * _COLUMNS)
        rows.append(["".join("o" if place in white else "." for place in places) + "  " for white in fields])
    rows.append([("o white  . not".ljust(len(_FIELDS) * wide), "$muted")])
    return [
        styled("  ", *pieces, *(_head(number, zone) if head else ())) for number, pieces in enumerate(rows)
    ]


def _head(row: int, zone: str) -> list[Piece]:
    left, inside, right = _HEAD[row]
    style = "bold reverse" if zone in inside else "$muted"
    if zone == "temples" and zone in inside:
        word, gap = "temples", inside.replace("temples", "")
        return [(left, "$muted"), (word, style), gap, (word, style), (right, "$muted")]
    words = inside.strip()
    before, after = inside.split(words) if words else (inside, "")
    return [(left + before, "$muted"), (words, style), (after + right, "$muted")]


def picture_of(row: Row, width: int, *, colours: bool, short: bool = False) -> list[Content]:
    """What is seen beside a question; `colours` says whether the terminal shows them as they are, `short` asks for
    fewer lines: nothing where a picture cannot do with fewer."""
    match row.picture:
        case Picture("ladder"):
            depths = natural_colours() if colours else {}
            if not short:
                return ladder(depths, row.value)
            return short_ladder(depths, row.value) if width >= SHORT_LADDER else []
        case _ if short:
            return []
        case Picture("figure"):
            return figure()
        case Picture("white", zone):
            return white_fields(zone, head=width >= WITH_HEAD)
    return []


def patches_of(row: Row) -> dict[str, str]:
    """Option -> its colour, where the options are tones."""
    return tone_colours(row.depth or USUAL_DEPTH) if row.picture and row.picture.kind == "tones" else {}
