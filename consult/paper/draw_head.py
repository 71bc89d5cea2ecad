"""The head on paper, from above and from behind, with its sections numbered and the starting place marked."""

from consult.paper.canvas import INK, picture, stroke, words
from consult.paper.markup import Markup, element, joined
from consult.report.head_picture import Field, HeadPicture, Point, Start, View

WIDE, HIGH = 190.0, 184.0
TOP, GAP = 34.0, 40.0
LEFT = {View.ABOVE: 24.0, View.BEHIND: 24.0 + WIDE + GAP}


def head_svg(head: HeadPicture) -> Markup:
    """Both views side by side."""
    width = LEFT[View.BEHIND] + WIDE + 24
    views = [_view(head, view) for view in View]
    begin = ", ".join(dict.fromkeys(start.words for start in head.starts))
    views.append(words(width / 2 + 12, TOP + HIGH + 44, begin, size=15, anchor="middle", bold=True))
    views.append(_arrow(width / 2 - 4.2 * len(begin), TOP + HIGH + 46))
    return picture(
        TOP + HIGH + 50,
        "The head from above and from behind, sections numbered",
        *views,
        width=width,
        name="head",
    )


def _view(head: HeadPicture, view: View) -> Markup:
    left, middle, half = LEFT[view], LEFT[view] + WIDE / 2, HIGH / 2
    outline = {"cx": middle, "cy": TOP + half, "rx": WIDE / 2, "ry": half}
    name = f"outline-{view.name.lower()}"
    fields = [_field(field) for field in head.fields if field.view is view]
    starts = [_start(start) for start in head.starts if start.view is view]
    return joined(
        [
            words(middle, 14, view.value, size=15, anchor="middle", bold=True),
            _features(view, left, middle),
            element("clipPath", element("ellipse", **outline), id=name),
            element("g", *fields, clip_path=f"url(#{name})"),
            element("ellipse", **outline, fill="none", stroke=INK, stroke_width=2),
            *(_number(field) for field in head.fields if field.view is view),
            *starts,
            words(left, TOP + HIGH + 26, "client's left", size=13),
            words(left + WIDE, TOP + HIGH + 26, "right", size=13, anchor="end"),
        ]
    )


def _features(view: View, left: float, middle: float) -> Markup:
    """Nose and ears, so that nobody holds it the wrong way round; the neck from behind."""
    ears = [
        element("ellipse", cx=x, cy=TOP + HIGH * 0.52, rx=9, ry=17, fill="#fff", stroke=INK, stroke_width=1.5)
        for x in (left - 3, left + WIDE + 3)
    ]
    if view is View.ABOVE:
        nose = f"M {middle - 11:g} {TOP + 4:g} L {middle:g} {TOP - 13:g} L {middle + 11:g} {TOP + 4:g}"
        ears.append(element("path", d=nose, fill="#fff", stroke=INK, stroke_width=1.5))
    else:
        foot = TOP + HIGH + 12
        for x in (middle - 36, middle + 36):
            ears.append(stroke(x, TOP + HIGH - 20, x, foot, 1.5))
    return joined(ears)


def _at(view: View, point: Point) -> Point:
    return LEFT[view] + point[0] * WIDE, TOP + point[1] * HIGH


def _field(field: Field) -> Markup:
    points = " ".join(f"{x:g},{y:g}" for x, y in (_at(field.view, corner) for corner in field.corners))
    return element("polygon", points=points, fill="#fff", stroke=INK, stroke_width=1.5)


def _number(field: Field) -> Markup:
    x, y = _at(field.view, field.middle)
    return joined(
        [
            words(x, y + 6, str(field.number), size=32, anchor="middle", bold=True),
            words(x, y + 22, field.section, size=13, anchor="middle"),
        ]
    )


def _start(start: Start) -> Markup:
    return _arrow(*_at(start.view, start.at))


def _arrow(x: float, y: float) -> Markup:
    """A filled arrow head whose point is the place."""
    return element("path", d=f"M {x:g} {y:g} l -9 -15 l 18 0 z", fill=INK)
