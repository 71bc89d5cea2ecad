"""The time line on paper: a bar for every section of every application, checks and rinses across them."""

from datetime import time

from consult.paper.canvas import WIDTH, box, hatch, picture, stroke, words
from consult.paper.markup import Markup, element, joined
from consult.report.time_picture import Bar, Kind, Phase, TimePicture, clock_words

LEFT, RIGHT = 150.0, WIDTH - 58.0
ROW, BAR, TOP = 13.5, 9.5, 44.0
FILLS = {Phase.PUT_ON: "url(#put-on)", Phase.ON: "#fff", Phase.COUNTED: "#bbb"}
SHORT = 20
"""Letters of a heading that leave the bars beside it free."""
TICKS = (5, 10, 15, 20, 30, 60, 120)
MOST_TICKS = 12


def time_svg(line: TimePicture, start: time | None) -> Markup:
    """All bars on one scale of minutes, with clock times where a start is given."""
    y, part, rows = TOP, "", []
    for bar in line.bars:
        if bar.part != part:
            part = bar.part
            rows.append(words(0, y + BAR, part, bold=True))
            y += ROW if bar.number or len(part) > SHORT else 0
        rows.append(_bar(bar, y, line.length))
        y += ROW
    marks = [
        _mark(minute, moment.kind, line.length, y)
        for moment in line.moments
        for minute in (moment.minute, *moment.again)
    ]
    return picture(
        y + 6,
        "The time line: what is on which section from when to when",
        element("defs", hatch("put-on")),
        _legend(),
        *_scale(line.length, start, y),
        *rows,
        *marks,
        name="time",
    )


def _x(minute: float, length: int) -> float:
    return LEFT + (RIGHT - LEFT) * minute / max(1, length)


def _bar(bar: Bar, y: float, length: int) -> Markup:
    ends = (
        (Phase.PUT_ON, bar.start, bar.end),
        (Phase.ON, bar.end, bar.counted),
        (Phase.COUNTED, bar.counted, bar.off),
    )
    pieces = []
    for phase, begins, ends_at in ends:
        begins = max(begins, bar.end) if phase is not Phase.PUT_ON else begins
        if ends_at > begins:
            x, to = _x(begins, length), _x(ends_at, length)
            pieces.append(box(x, y + 2, to - x, BAR, FILLS[phase]))
    label = bar.label if bar.number else ""
    return joined(
        [
            words(12, y + BAR + 1, label, size=11),
            *pieces,
            words(RIGHT + 6, y + BAR + 1, f"off at {bar.off}", size=11),
        ]
    )


def _scale(length: int, start: time | None, bottom: float) -> list[Markup]:
    step = next((tick for tick in TICKS if length / tick <= MOST_TICKS), TICKS[-1])
    parts = [words(0, 28, "minute", size=11), words(0, 40, "clock", size=11)]
    for minute in range(0, length + 1, step):
        x = _x(minute, length)
        parts.append(words(x, 28, str(minute), size=11, anchor="middle"))
        parts.append(words(x, 40, clock_words(start, minute), size=11, anchor="middle"))
        parts.append(element("line", x1=x, y1=TOP, x2=x, y2=bottom, stroke="#999", stroke_width=0.5))
    return parts


def _mark(minute: int, kind: Kind, length: int, bottom: float) -> Markup:
    x = _x(minute, length)
    if kind is Kind.OFF:
        return stroke(x, TOP - 2, x, bottom + 4, 3)
    return stroke(x, TOP, x, bottom, 1, "2 3") if kind is Kind.CHECK else Markup("")


def _legend() -> Markup:
    said = (("url(#put-on)", "put on"), ("#fff", "on the hair"), ("#bbb", "the leaflet's clock"))
    parts, x = [], LEFT
    for fill, what in said:
        parts += [box(x, 3, 22, 10, fill), words(x + 27, 12, what, size=11)]
        x += 34 + 7 * len(what)
    parts += [stroke(x + 8, 2, x + 8, 14, 1, "2 3"), words(x + 14, 12, "look", size=11)]
    parts += [stroke(x + 58, 2, x + 58, 14, 3), words(x + 66, 12, "take off", size=11)]
    return joined(parts)
