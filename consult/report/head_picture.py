"""The head from above and from behind as a picture: the sections numbered in the order they get colour, and where
the first brushful goes.

Both views have their own square, 0 to 1 from left to right and from top to bottom. The one from above looks down
on the head with the face at the top; the one from behind stands behind the chair. Left is the client's left in
both. Nothing here knows how it is drawn.
"""

from enum import Enum

from msgspec import Struct

from consult.plan.application import Act, Applications
from consult.plan.rounds import Section
from consult.plan.sections import begins_at_the_back, begins_where_white
from consult.plan.types import Made
from consult.trade import Zone

Point = tuple[float, float]


class View(Enum):
    """From where the head is looked at."""

    ABOVE = "from above"
    BEHIND = "from behind"


class Field(Struct, frozen=True):
    """A part of a section in one view: its corners go round it, its number stands at `middle`.

    What lies beyond the head's outline is cut off by it.
    """

    section: str
    number: int
    view: View
    corners: tuple[Point, ...]
    middle: Point


class Start(Struct, frozen=True):
    """Where the first brushful goes."""

    view: View
    at: Point
    words: str


class HeadPicture(Struct, frozen=True):
    """Sections in the order of application, their fields in both views, the places where it is begun."""

    order: tuple[str, ...]
    fields: tuple[Field, ...]
    starts: tuple[Start, ...]

    def section_at(self, view: View, x: float, y: float) -> str | None:
        """The section at a place of a view; None outside the head, "" where there is none."""
        if (x - 0.5) ** 2 + (y - 0.5) ** 2 > 0.25:
            return None
        for field in self.fields:
            xs, ys = zip(*field.corners, strict=True)
            if field.view is view and min(xs) <= x <= max(xs) and min(ys) <= y <= max(ys):
                return field.section
        return ""


def _box(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    return (left, top), (right, top), (right, bottom), (left, bottom)


# Ear to ear over the crown halves the view from above; from behind, what lies in front of the crown is not seen.
EAR_TO_EAR = 0.5
_PLACES: dict[str, tuple[tuple[View, tuple[Point, ...]], ...]] = {
    "front left": ((View.ABOVE, _box(0, 0, 0.5, EAR_TO_EAR)),),
    "front right": ((View.ABOVE, _box(0.5, 0, 1, EAR_TO_EAR)),),
    "back left": ((View.ABOVE, _box(0, EAR_TO_EAR, 0.5, 1)), (View.BEHIND, _box(0, 0, 0.5, 1))),
    "back right": ((View.ABOVE, _box(0.5, EAR_TO_EAR, 1, 1)), (View.BEHIND, _box(0.5, 0, 1, 1))),
}
_WITH_TOP: dict[str, tuple[tuple[View, tuple[Point, ...]], ...]] = {
    **_PLACES,
    "top front": ((View.ABOVE, _box(0.32, 0, 0.68, EAR_TO_EAR)),),
    "front left": ((View.ABOVE, _box(0, 0, 0.32, EAR_TO_EAR)),),
    "front right": ((View.ABOVE, _box(0.68, 0, 1, EAR_TO_EAR)),),
}
"""Section -> its fields, for a head in four sections and in five."""

_BEGIN: dict[Zone, tuple[tuple[View, Point], ...]] = {
    Zone.FRONT: ((View.ABOVE, (0.5, 0.11)),),
    Zone.TEMPLES: ((View.ABOVE, (0.5, 0.11)), (View.ABOVE, (0.13, 0.22)), (View.ABOVE, (0.87, 0.22))),
    Zone.CROWN: ((View.ABOVE, (0.5, 0.66)), (View.BEHIND, (0.5, 0.16))),
    Zone.NAPE: ((View.BEHIND, (0.5, 0.9)),),
}
_AT_THE_BACK = ((View.ABOVE, (0.5, 0.66)), (View.BEHIND, (0.5, 0.5)))


def head_picture(plan: Made) -> HeadPicture:
    """The head as this plan goes over it."""
    order = _order(plan.applications, plan.working.sections)
    places = _WITH_TOP if "top front" in order else _PLACES
    fields = tuple(
        Field(name, number, view, corners, _middle(corners))
        for number, name in enumerate(order, 1)
        for view, corners in places[name]
    )
    return HeadPicture(order, fields, _starts(plan))


def _order(applications: Applications, sections: tuple[Section, ...]) -> tuple[str, ...]:
    """The sections in the order in which a brush first comes to them."""
    names = {section.name for section in sections}
    painted = [t for a in applications if a.act is Act.PAINT for t in a.touches if t.section in names]
    return tuple(dict.fromkeys(touch.section for touch in painted))


def _middle(corners: tuple[Point, ...]) -> Point:
    """The middle of a field, drawn in towards the middle of the head, whose outline cuts corners off."""
    x, y = (sum(values) / len(corners) for values in zip(*corners, strict=True))
    return 0.5 + (x - 0.5) * 0.85, 0.5 + (y - 0.5) * 0.85


def _starts(plan: Made) -> tuple[Start, ...]:
    zone = begins_where_white(plan.case, plan.working)
    if zone:
        return tuple(Start(view, at, f"begin here: {zone.value}") for view, at in _BEGIN[zone])
    if begins_at_the_back(plan.case):
        return tuple(Start(view, at, "begin here: the back") for view, at in _AT_THE_BACK)
    return tuple(Start(view, at, "begin here: the front") for view, at in _BEGIN[Zone.FRONT])
