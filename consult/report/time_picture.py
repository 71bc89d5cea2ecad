"""The time line as a picture: what is on which part from when to when, checks and rinses, in minutes from the first
touch, which a start sets to clock times. Nothing here knows how it is drawn.
"""

from datetime import time
from enum import Enum

from msgspec import Struct
from msgspec.structs import replace

from consult.plan.application import Act, Application, Ending
from consult.plan.contact import clock_starts
from consult.plan.targets import name_of
from consult.plan.types import Made
from consult.products.kinds import Auxiliary, Filler

A_DAY = 24 * 60


class Phase(Enum):
    """What a section is in at a minute."""

    NOTHING = "nothing on it"
    PUT_ON = "being put on"
    ON = "on the hair"
    COUNTED = "on the leaflet's clock"


class Bar(Struct, frozen=True):
    """One section of one application: put on from `start` to `end`, counted by the leaflet from `counted`, off at
    `off`. `number` is the section's in the order of application, 0 where it is not a section of the head."""

    number: int
    section: str
    part: str
    start: int
    end: int
    counted: int
    off: int

    @property
    def label(self) -> str:
        """The section with its number, where it has one."""
        return f"{self.number} {self.section}" if self.number else self.section

    def phase(self, minute: float) -> Phase:
        """What this section is in at a minute."""
        if minute < self.start or minute >= self.off:
            return Phase.NOTHING
        if minute < self.end:
            return Phase.PUT_ON
        return Phase.ON if minute < self.counted else Phase.COUNTED


class Kind(Enum):
    """What is done at a minute."""

    BEGIN = "begin"
    DONE = "done"
    CHECK = "check"
    OFF = "off"


class Moment(Struct, frozen=True):
    """What is done at one minute, and the minutes at which the same is done again before anything else is. `part` is
    what is begun, where something is."""

    minute: int
    kind: Kind
    words: str
    again: tuple[int, ...] = ()
    part: str = ""


class TimePicture(Struct, frozen=True):
    """Bars in the order of application, and all that is done, by the clock; `length` is the last minute."""

    length: int
    bars: tuple[Bar, ...]
    moments: tuple[Moment, ...]


def clock_words(start: time | None, minute: int) -> str:
    """The clock at a minute: "14:59"; a line to write on where no start is given."""
    if start is None:
        return "__:__"
    hours, minutes = divmod((start.hour * 60 + start.minute + minute) % A_DAY, 60)
    return f"{hours:02}:{minutes:02}"


def time_picture(plan: Made, order: tuple[str, ...]) -> TimePicture:
    """The time line of a plan counted from its first touch; `order` are its sections as they are numbered."""
    numbers = {name: number for number, name in enumerate(order, 1)}
    bars = tuple(
        Bar(
            numbers.get(touch.section, 0),
            touch.section,
            _part(application),
            touch.start,
            touch.end,
            clock_starts(application, touch),
            application.off(touch),
        )
        for application in plan.applications
        for touch in application.touches
    )
    moments = [*_begins(bars), *_done(plan), *_checks(plan), *_offs(plan)]
    # What is taken off or looked at comes before what is begun in the same minute.
    rank = (Kind.CHECK, Kind.OFF, Kind.DONE, Kind.BEGIN)
    in_order = sorted(moments, key=lambda moment: (moment.minute, rank.index(moment.kind)))
    return TimePicture(max(a.until for a in plan.applications), bars, _together(in_order))


def _together(moments: list[Moment]) -> tuple[Moment, ...]:
    """The same looks one after the other as one."""
    found: list[Moment] = []
    for moment in moments:
        last = found[-1] if found else None
        if last and last.kind is moment.kind is Kind.CHECK and last.words == moment.words:
            found[-1] = replace(last, again=(*last.again, moment.minute))
        else:
            found.append(moment)
    return tuple(found)


def _part(application: Application) -> str:
    product, name = application.bowl.product, name_of(application.target)
    if isinstance(product, Auxiliary):
        return f"{product.label} on {name}"
    return f"filler on {name}" if isinstance(product, Filler) else name


def _begins(bars: tuple[Bar, ...]) -> list[Moment]:
    """Sections begun in the same minute, by two pairs of hands, stand in one line."""
    found: dict[tuple[int, str], list[str]] = {}
    for bar in bars:
        found.setdefault((bar.start, bar.part), []).extend([bar.label] if bar.number else [])
    return [
        Moment(
            minute,
            Kind.BEGIN,
            f"begin {' and '.join(sections)}: {part}" if sections else f"begin {part}",
            part=part,
        )
        for (minute, part), sections in found.items()
    ]


def _done(plan: Made) -> list[Moment]:
    return [
        Moment(a.on_by, Kind.DONE, f"last parting done: {_part(a)}")
        for a in plan.applications
        if a.act is Act.PAINT
    ]


def _checks(plan: Made) -> list[Moment]:
    """The looks that the steps ask for; the last one of a wait is that of the next act, or of the rinse."""
    return [
        Moment(minute, Kind.CHECK, f"look at a strand: {step.stretch}")
        for step in plan.steps
        for minute in step.checks
    ]


def _offs(plan: Made) -> list[Moment]:
    """What is taken off, each minute once; never later, the steps say."""
    found: dict[tuple[int, Ending], list[str]] = {}
    for application in plan.applications:
        for touch in application.touches:
            what = _part(application) if touch.off is None else touch.section
            found.setdefault((application.off(touch), application.ending), []).append(what)
    return [
        Moment(
            minute,
            Kind.OFF,
            f"{'RINSE' if ending is Ending.RINSE else 'blot dry'}: {', '.join(dict.fromkeys(what))}; never later",
        )
        for (minute, ending), what in found.items()
    ]
