"""What the drawings share: the picture's frame, words on it, and hatchings that need no colour."""

from consult.paper.markup import Markup, element, joined

WIDTH = 720
LETTER = 6.3
"""Units: the width of a picture over the whole page, and of a letter of 12 units as it is reckoned for wrapping."""
INK = "#111"


def picture(height: float, what: str, *inside: str, width: float = WIDTH, name: str = "") -> Markup:
    """A drawing with its words for those who do not see it; it is as wide as its place."""
    return element(
        "svg",
        element("title", what),
        *inside,
        viewBox=f"0 0 {width:g} {height:g}",
        role="img",
        class_=name,
    )


def words(
    x: float, y: float, said: str, *, size: float = 12, anchor: str = "start", bold: bool = False
) -> Markup:
    """A line of words; y is its base line."""
    weight = {"font_weight": "bold"} if bold else {}
    return element(
        "text", said, x=f"{x:g}", y=f"{y:g}", font_size=size, text_anchor=anchor, fill=INK, **weight
    )


def stroke(x1: float, y1: float, x2: float, y2: float, width: float = 1, dash: str = "") -> Markup:
    """A line; `dash` as SVG wants it."""
    dashed = {"stroke_dasharray": dash} if dash else {}
    return element(
        "line",
        x1=f"{x1:g}",
        y1=f"{y1:g}",
        x2=f"{x2:g}",
        y2=f"{y2:g}",
        stroke=INK,
        stroke_width=width,
        **dashed,
    )


def box(x: float, y: float, width: float, height: float, fill: str) -> Markup:
    """A filled rectangle with an edge."""
    return element(
        "rect", x=f"{x:g}", y=f"{y:g}", width=f"{width:g}", height=f"{height:g}", fill=fill, stroke=INK
    )


def hatch(name: str, step: float = 5, slant: int = 45) -> Markup:
    """A hatching to fill with: `url(#name)`."""
    return element(
        "pattern",
        element("rect", width=step, height=step, fill="#fff"),
        element("line", x1=0, y1=0, x2=0, y2=step, stroke=INK, stroke_width=1.6),
        id=name,
        width=step,
        height=step,
        patternUnits="userSpaceOnUse",
        patternTransform=f"rotate({slant})",
    )


def wrapped(said: str, width: float, size: float = 12) -> list[str]:
    """Words over as many lines as they need in so many units; a longer word has a line of its own."""
    most = max(1, int(width / (LETTER * size / 12)))
    lines: list[str] = []
    for word in said.split():
        if lines and len(lines[-1]) + 1 + len(word) <= most:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def block(x: float, y: float, lines: list[str], *, size: float = 12, anchor: str = "start") -> Markup:
    """Lines of words one under the other, the first on base line y."""
    return joined(
        [words(x, y + n * size * 1.15, line, size=size, anchor=anchor) for n, line in enumerate(lines)]
    )
