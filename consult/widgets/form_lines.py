"""A page of questions laid out in lines: what stands above the field, and what below it.

Pure: rows and a width in, lines out. Each line knows what a click on it means.
"""

from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap

from msgspec import Struct, field
from textual.content import Content

from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind
from consult.interview.rows import NONE_KEY, SAME_KEY, UNSURE_KEY, Option, Row
from consult.widgets.text import Piece, styled

LABEL = 20
MARK = 2
GAP = 2
PATCH = 4
LEAST = 12
"""Columns: of a label, of the mark before it, between options, of a patch of colour, and the least of a text."""


class Target(Struct, frozen=True):
    """What a click means: a row, and one of its options or a key."""

    row: int
    key: str = ""


class Line(Struct, frozen=True):
    """One line, and where in it what can be clicked: (from column, to column, a row's target or a chapter)."""

    content: Content
    targets: tuple[tuple[int, int, Target | str], ...] = ()

    def at(self, column: int) -> Target | str | None:
        return next((target for start, end, target in self.targets if start <= column < end), None)

    def is_of(self, row: int) -> bool:
        """Whether it stands for a row, or for something that may be said of it."""
        return any(isinstance(target, Target) and target.row == row for _, _, target in self.targets)


class Look(Struct, frozen=True):
    """How rows are drawn.

    width    columns there are
    one      one option a line with its hint, as in plain words; else side by side
    ticks    signs to tick: the options of every row are shown
    here     the row in hand
    cursor   the option in hand, or None
    picture  what is seen beside the question in hand
    patches  option -> the colour that stands beside it
    echo     how a typed text is read
    """

    width: int
    one: bool
    ticks: bool
    here: int
    cursor: int | None = None
    echo: str = ""
    picture: Sequence[Content] = ()
    patches: Mapping[str, str] = field(default_factory=dict)


class Drawn(Struct):
    """`above` and `below` the field; `option_lines` is (row, option) -> the line of it in `above`."""

    above: list[Line] = field(default_factory=list)
    below: list[Line] = field(default_factory=list)
    option_lines: dict[tuple[int, int], int] = field(default_factory=dict)


def draw(rows: Sequence[Row], look: Look) -> Drawn:
    """The lines of a page."""
    drawn = Drawn()
    for number, row in enumerate(rows):
        into = drawn.above if number <= look.here or look.ticks else drawn.below
        if number == look.here and not look.ticks:
            into.extend(_question(number, row, look))
            if row.typed:
                into = drawn.below
                into.extend(_under_the_field(number, row, look))
            else:
                into.extend(_options(number, row, look, drawn))
        elif look.ticks and _is_one_sign(row):
            if number and not _is_one_sign(rows[number - 1]):
                into.append(Line(styled("")))
            into.extend(_one_sign(number, row, look, drawn))
        elif look.ticks:
            into.extend(_sign_head(number, row, look))
            into.extend(_options(number, row, look, drawn))
        else:
            into.append(_answered(number, row, look))
    if look.ticks:
        more = any(option.ticked for row in rows for option in row.options)
        drawn.above.append(Line(styled("")))
        said = [(NONE_KEY, "nothing more" if more else "none of these"), (UNSURE_KEY, "not sure")]
        drawn.above.extend(_side_by_side(look.here, said, look.width))
    return drawn


def _text(text: str, style: str, width: int, indent: int = MARK, lead: str = "") -> Iterator[Content]:
    """A text in lines; those that follow are indented like the first."""
    lead = lead.ljust(indent)
    for piece in wrap(text, max(width - indent, LEAST)):
        yield styled(lead, (piece, style))
        lead = " " * indent


def _question(number: int, row: Row, look: Look) -> Iterator[Line]:
    for content in _text(row.ask, "bold", look.width, lead="> "):
        yield _whole(content, number, look)
    for content in (*_text(row.tell, "$muted", look.width), *look.picture):
        yield Line(content)


def _whole(content: Content, number: int, look: Look) -> Line:
    return Line(content, ((0, look.width, Target(number)),))


def _answered(number: int, row: Row, look: Look) -> Line:
    """A row that is not in hand: its name, and its answer in one line."""
    if row.value is None:
        mark, answer, style = ("_ ", "", "") if row.needed else ("· ", "", "$muted")
    else:
        mark, answer, style = "+ ", row.answer, ""
    room = max(look.width - MARK - LABEL - 1, LEAST)
    answer = answer if len(answer) <= room else answer[: room - 1] + "…"
    content = styled(
        (mark, "$muted"), (f"{row.label[:LABEL]:<{LABEL}} ", style or "$muted"), (answer, "$accent")
    )
    return _whole(content, number, look)


def _is_one_sign(row: Row) -> bool:
    """A question that is one sign itself: yes ticks it."""
    return len(row.options) == 1 and row.options[0].value == "yes"


def _one_sign(number: int, row: Row, look: Look, drawn: Drawn) -> Iterator[Line]:
    """A sign with its whole question beside the box."""
    (option,), here = row.options, number == look.here
    drawn.option_lines[number, 0] = len(drawn.above)
    style = "reverse" if here and look.cursor == 0 else "bold $success" if option.ticked else ""
    lead: list[Piece] = ["> " if here else "  ", (f"{option.key} ", "bold $accent")]
    box = "[x] " if option.ticked else "[ ] "
    target = ((0, look.width, Target(number, option.key)),)
    for text in wrap(
        f"{box}{row.ask}{_said_of(row)}", max(look.width - 2 * MARK, LEAST), subsequent_indent="    "
    ):
        yield Line(styled(*lead, (text, style)), target)
        lead = ["    "]
    for content in _text(row.tell if here else "", "$muted", look.width, indent=4 * MARK):
        yield Line(content)


def _said_of(row: Row) -> str:
    """Of signs none of which is ticked: what was said."""
    if row.value == NOT_SURE:
        return "  not sure"
    said_no = row.value is not None and not any(option.ticked for option in row.options)
    return "  none" if said_no else ""


def _sign_head(number: int, row: Row, look: Look) -> Iterator[Line]:
    here = number == look.here
    if number:
        yield Line(styled(""))
    lines = list(
        _text(row.ask + _said_of(row), "bold" if here else "", look.width, lead="> " if here else "")
    )
    for content in lines:
        yield _whole(content, number, look)
    if here:
        for content in _text(row.tell, "$muted", look.width):
            yield Line(content)


def _options(number: int, row: Row, look: Look, drawn: Drawn) -> Iterator[Line]:
    """The options of a row: one a line, or in columns."""
    boxes = row.kind is Kind.SEVERAL or look.ticks
    rest = [] if look.ticks else _rest(row)
    patches = look.patches if number == look.here else {}
    cells = [2 + len(_boxed(option, boxes)) + PATCH * bool(patches) for option in row.options]
    widest = max(cells, default=0) + GAP
    columns = 1 if look.one or row.kind is Kind.ENTRIES else max(1, (look.width - MARK) // widest)
    if not look.ticks and not look.one and sum(cell + GAP for cell in cells) <= look.width - MARK:
        columns, widest = len(cells), 0
    at = len(drawn.above)
    for start in range(0, len(cells), columns or 1):
        pieces: list[Piece] = [" " * MARK]
        targets: list[tuple[int, int, Target]] = []
        column = MARK
        for index in range(start, min(start + columns, len(cells))):
            option = row.options[index]
            drawn.option_lines[number, index] = at
            chosen = number == look.here and index == look.cursor
            wide = max(widest, cells[index] + GAP)
            patch: list[Piece] = []
            if colour := patches.get(str(option.value)):
                patch = [(" " * (PATCH - 1), f"on {colour}"), " "]
            if columns == 1:
                whole = ((0, look.width, Target(number, option.key)),)
                for line in _alone(option, boxes, chosen, patch, look.width):
                    yield Line(line, whole)
                    at += 1
                continue
            pieces += [*patch, *_option_pieces(option, boxes, chosen, wide - PATCH * bool(patch))]
            targets.append((column, column + wide, Target(number, option.key)))
            column += wide
        if columns > 1:
            yield Line(styled(*pieces), tuple(targets))
            at += 1
    if rest:
        yield from _side_by_side(number, rest, look.width)


def _side_by_side(number: int, said: Sequence[tuple[str, str]], width: int) -> Iterator[Line]:
    """What can be said with a key of its own, in as many lines as it needs."""
    pieces: list[Piece] = [" " * MARK]
    targets: list[tuple[int, int, Target]] = []
    column = MARK
    for key, words in said:
        if column + len(words) + 2 > width and column > MARK:
            yield Line(styled(*pieces), tuple(targets))
            pieces, targets, column = [" " * MARK], [], MARK
        pieces += [(f"{key} ", "bold $accent"), (words, "$muted"), "  "]
        targets.append((column, column + len(words) + 2, Target(number, key)))
        column += len(words) + 4
    yield Line(styled(*pieces), tuple(targets))


def _option_pieces(option: Option, boxes: bool, chosen: bool, width: int) -> list[Piece]:
    """An option beside others."""
    text, style = _boxed(option, boxes), _style_of(option, chosen)
    return [(f"{option.key} ", "bold $accent"), (text, style), " " * max(0, width - 2 - len(text))]


def _alone(
    option: Option, boxes: bool, chosen: bool, patch: Sequence[Piece], width: int
) -> Iterator[Content]:
    """An option with lines of its own, its hint behind it or, where that is too long, under it."""
    room = max(width - MARK - 2 - PATCH * bool(patch), LEAST)
    text, style = _boxed(option, boxes), _style_of(option, chosen)
    first, *more = wrap(text, room) or [""]
    beside = option.hint and not more and len(first) + GAP + len(option.hint) <= room
    hint: list[Piece] = ["  ", (option.hint, "$muted")] if beside else []
    yield styled(" " * MARK, *patch, (f"{option.key} ", "bold $accent"), (first, style), *hint)
    indent = " " * (width - room + len("[x] ") * boxes)
    for line in more:
        yield styled(indent, (line, style))
    for line in wrap("" if beside else option.hint, max(width - len(indent), LEAST)):
        yield styled(indent, (line, "$muted"))


def _boxed(option: Option, boxes: bool) -> str:
    return f"{'[x] ' if option.ticked else '[ ] '}{option.text}" if boxes else option.text


def _style_of(option: Option, chosen: bool) -> str:
    return "reverse" if chosen else "bold $success" if option.ticked else ""


def _rest(row: Row) -> list[tuple[str, str]]:
    """What can be said of any question beside its options."""
    found: list[tuple[str, str]] = []
    if row.kind is Kind.ENTRIES:
        found.append((NONE_KEY, "nothing more" if row.value else "there is none"))
    elif row.kind is Kind.SEVERAL:
        found.append((NONE_KEY, "none of these"))
    if row.same is not None:
        found.append((SAME_KEY, "the same as above"))
    return [*found, (UNSURE_KEY, "not sure")]


def _under_the_field(number: int, row: Row, look: Look) -> Iterator[Line]:
    if look.echo:
        for content in _text(look.echo, "$success", look.width, lead="= "):
            yield Line(content)
    words = [
        (option.key, f"{option.text}{f' {option.hint}' if option.hint else ''}") for option in row.options
    ]
    yield from _side_by_side(number, [*words, *_rest(row)], look.width)
