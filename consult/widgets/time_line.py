"""The time line in cells: a bar for each part of the hair by the clock, and what is done when."""

from collections.abc import Sequence
from datetime import time
from textwrap import wrap
from typing import Final

from msgspec.structs import replace
from textual.content import Content

from consult.report.time_picture import Bar, Kind, Moment, Phase, TimePicture, clock_words
from consult.widgets.text import Piece, styled

LABEL: Final = 22
"""Columns of a label and the gap behind it, where none is longer."""
SIGNS: Final = {Phase.NOTHING: "·", Phase.PUT_ON: "░", Phase.ON: "▒", Phase.COUNTED: "█"}
WORDS: Final = "░ put on  ▒ on the hair  █ the leaflet's clock"
ROOM_FOR_MIDDLE: Final = 20
"""Minutes from which the middle of the scale is told too."""


def clock_lines(picture: TimePicture, start: time, width: int, *, sections: bool, key: bool) -> list[Content]:
    """Bars on one scale under the clock, of all `sections` or of each part as a whole, and in few words what is done
    when; the `key` says what the signs mean."""
    parts = _parts(picture)
    bars = [(_label(bar, len(parts)), [bar]) for bar in picture.bars] if sections else parts
    beside = min(max(LABEL, *(len(name) + 1 for name, _ in bars)), width // 2)
    across = width - beside
    return [
        _scale(picture, start, beside, across),
        *(row for name, together in bars for row in _rows(name, beside, together, picture.length, across)),
        *([styled(("".ljust(beside) + WORDS, "$muted"))] if key else []),
        _done_when(_briefly(picture), start),
    ]


def _scale(picture: TimePicture, start: time, beside: int, across: int) -> Content:
    """The clock at the beginning, half way and at the end."""
    begin, end = clock_words(start, 0), clock_words(start, picture.length)
    room = across - len(begin) - len(end)
    middle = clock_words(start, picture.length // 2) if picture.length > ROOM_FOR_MIDDLE else ""
    return styled(("begin  (+ - move it)".ljust(beside), "$muted"), (f"{begin}{middle:^{room}}{end}", "bold"))


def _done_when(moments: Sequence[Moment], start: time) -> Content:
    """What is done by the clock, in one run of words: looks behind one another, rinses bold."""
    pieces: list[Piece] = []
    for moment in moments:
        style = "bold" if moment.kind is Kind.OFF else ""
        pieces += ["; "] if pieces else []
        pieces += [(f"{clock_words(start, moment.minute)} ", "bold $accent"), (moment.words, style)]
    return styled(*pieces)


def _briefly(picture: TimePicture) -> list[Moment]:
    """When each part is begun, its last parting, the first look at it, and whatever is taken off, in few words."""
    parts = {bar.part for bar in picture.bars}
    offs = sum(moment.kind is Kind.OFF for moment in picture.moments)
    first: dict[tuple[Kind, str], Moment] = {}
    for moment in picture.moments:
        words = _few_words(moment, parts=len(parts), offs=offs)
        first.setdefault((moment.kind, _told_once(moment)), replace(moment, words=words, again=()))
    return list(first.values())


def _told_once(moment: Moment) -> str:
    """What moments of one kind share of which only the first is told."""
    if moment.kind is Kind.CHECK:
        return ""  # The first look stands for the others: they follow in the steps.
    return moment.part if moment.kind is Kind.BEGIN else moment.words


def _few_words(moment: Moment, *, parts: int, offs: int) -> str:
    if moment.kind is Kind.BEGIN:
        return f"begin {moment.part}" if parts > 1 else "begin"
    shortest = moment.words.partition(":")[0]
    if moment.kind is not Kind.OFF:
        return shortest
    # A semicolon parts one moment from the next.
    return f"{shortest}, never later" if offs == 1 else moment.words.replace(";", ",")


def _parts(picture: TimePicture) -> list[tuple[str, list[Bar]]]:
    parts = dict.fromkeys(bar.part for bar in picture.bars)
    return [(part, [bar for bar in picture.bars if bar.part == part]) for part in parts]


def _label(bar: Bar, parts: int) -> str:
    """The section; with its part, where a section comes more than once."""
    return f"{bar.label}, {bar.part}" if parts > 1 and bar.number else bar.label


def _rows(label: str, beside: int, bars: Sequence[Bar], length: int, across: int) -> list[Content]:
    """A bar with its label; as many rows high as the label needs in its columns."""
    cells = "".join(SIGNS[_phase(bars, (cell + 0.5) * length / across)] for cell in range(across))
    return [styled(f"{line:<{beside}}", (cells, "$heading")) for line in wrap(label, beside - 1)]


def _phase(bars: Sequence[Bar], minute: float) -> Phase:
    """What is going on: while any section is being put on, that; then what counts latest."""
    phases = [bar.phase(minute) for bar in bars]
    order = (Phase.PUT_ON, Phase.ON, Phase.COUNTED)
    return next((phase for phase in order if phase in phases), Phase.NOTHING)
