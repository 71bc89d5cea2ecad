"""A page of questions that is answered in place. It draws rows, takes keys and clicks, and tells its parent.

One widget for every kind of question, so that nothing is mounted when the question changes.
"""

from collections.abc import Sequence

from msgspec.structs import replace
from textual import events
from textual.app import ComposeResult
from textual.content import Span
from textual.widgets import Input

from consult.answers.questions import Kind
from consult.interview.rows import NONE_KEY, SAME_KEY, UNSURE_KEY, Option, Row
from consult.widgets.boxes import VerticalScroll
from consult.widgets.form_lines import Drawn, Line, Look, Target, draw
from consult.widgets.form_messages import (
    Clicked,
    Entered,
    FindAsked,
    LeftOpen,
    Picked,
    Said,
    TakenBack,
    Typed,
    WentTo,
)
from consult.widgets.pictures import patches_of, picture_of
from consult.widgets.stacked import Known, Stacked
from consult.widgets.swatch import shows_colours
from consult.widgets.text import TextBlock, TextLine

LEAST_WIDTH = 24
FIND_KEY = "/"
ROOM_FOR_PICTURES = 26
"""Lines from which a page of questions has room for a picture too; at home there is one question and always room."""


class LinesBlock(TextBlock):
    """Lines of text in which places can be clicked."""

    drawn: Sequence[Line] = ()

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(id=id, classes=classes)
        self._rows: list[tuple[str, Sequence[Span]]] = []
        self._known: Known = {}

    def show_lines(self, drawn: Sequence[Line], *, same_size: bool = False) -> None:
        self.drawn = drawn
        rows = [(line.content.plain, line.content.spans) for line in drawn]
        if rows != self._rows:
            self._rows = rows
            self.put(Stacked([line.content for line in drawn], self._known), same_size=same_size)

    def on_click(self, event: events.Click) -> None:
        event.stop()
        place = event.get_content_offset(self)
        if place is not None and place.y < len(self.drawn):
            target = self.drawn[place.y].at(place.x)
            if target is not None:
                self.post_message(Clicked(target))


class Field(TextLine):
    """The field of a typed row. It takes what is typed; all else belongs to the form around it."""

    def watch_has_focus(self, _has_focus: bool) -> None:
        """It looks the same with the focus and without: no style has to be worked out anew."""

    def on_key(self, event: events.Key) -> None:
        form = self.parent
        if isinstance(form, Form) and form.takes(event):
            event.stop()
            event.prevent_default()


class Form(VerticalScroll):
    """The rows of a page with one of them in hand."""

    def watch_has_focus(self, _has_focus: bool) -> None:
        """As with its field."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.rows: Sequence[Row] = ()
        self._here = 0
        self._cursor: int | None = None
        self._one = self._ticks = False
        self._echo = ""
        self._drawn = Drawn()
        self._seen_to = 0
        self._page: object = None

    def compose(self) -> ComposeResult:
        yield LinesBlock(id="above")
        yield Field(id="field", select_on_focus=False)
        yield LinesBlock(id="below")

    # --- showing -----------------------------------------------------------------------------

    @property
    def row(self) -> Row | None:
        return self.rows[self._here] if self.rows else None

    @property
    def all_seen(self) -> bool:
        """Whether every line of this page has been on the screen."""
        return self._seen_to >= self.virtual_size.height

    def show(
        self, rows: Sequence[Row], here: int, *, one: bool, ticks: bool, text: str = "", fresh: bool = True
    ) -> None:
        """Show a page with row `here` in hand; `text` is what stands half typed, `fresh` lets it be typed over."""
        row = rows[here]
        page = tuple(r.path for r in rows)
        same_row = self.row is not None and self.row.path == row.path
        if page != self._page:
            self._page, self._seen_to = page, 0
            self.scroll_home(animate=False, immediate=True)
        if not same_row:
            self._cursor = None
        self.rows, self._here, self._one, self._ticks = rows, here, one, ticks
        self._echo = ""
        field = self.query_one(Field)
        typed = row.typed and not ticks
        if field.display != typed:
            field.display = typed
        if typed:
            with field.prevent(Input.Changed):
                field.value = text
            field.placeholder = _placeholder(row)
            field.cursor_position = len(field.value)
            if fresh and text:
                field.action_select_all()
        self.focus_in_hand()
        self._draw()
        self.call_after_refresh(self._keep_in_sight)

    def echo(self, words: str) -> None:
        """How the typed text is read, before it counts."""
        if words != self._echo:
            self._echo = words
            self._draw()
            self.call_after_refresh(self._keep_in_sight)

    def focus_in_hand(self) -> None:
        """The focus to where the row in hand is answered."""
        field = self.query_one(Field)
        self.screen.set_focus(field if field.display else self, scroll_visible=False)

    def _draw(self) -> None:
        if not self.rows or not self.size.width:
            return  # It is drawn as soon as it has a size.
        width = max(self.size.width - 1, LEAST_WIDTH)
        row, picture, patches, colours = self.rows[self._here], [], {}, shows_colours(self.app)
        if self._one or self.size.height >= ROOM_FOR_PICTURES:
            picture, patches = picture_of(row, width, colours=colours), patches_of(row) if colours else {}
        look = Look(width, self._one, self._ticks, self._here, self._cursor, self._echo, picture, patches)
        self._drawn = draw(self.rows, look)
        # What is typed has to stay in sight: a picture that leaves it no room is drawn in fewer lines, or not at all.
        if picture and not self._in_hand_fits():
            short = picture_of(row, width, colours=colours, short=True)
            self._drawn = draw(self.rows, replace(look, picture=short))
            if short and not self._in_hand_fits():
                self._drawn = draw(self.rows, replace(look, picture=()))
        for place, drawn in (("#above", self._drawn.above), ("#below", self._drawn.below)):
            block = self.query_one(place, LinesBlock)
            if len(drawn) != len(block.drawn):
                block.styles.height = len(drawn)
            block.show_lines(drawn, same_size=True)
            if block.display != bool(drawn):
                block.display = bool(drawn)

    def _in_hand_fits(self) -> bool:
        first, last = self._in_hand_lines()
        return last - first < self.size.height

    def on_resize(self) -> None:
        """The gate panel below has grown, or the window has changed."""
        self._draw()
        if not self._ticks:  # Signs are read through by scrolling.
            self.call_after_refresh(self._keep_in_sight)

    def _keep_in_sight(self) -> None:
        """Scroll as little as shows the row in hand with all that belongs to it."""
        if not self.rows or not self.size.height:
            return
        first, last = self._in_hand_lines()
        top, height = round(self.scroll_y), self.size.height
        if last >= top + height:
            top = last - height + 1
        if first < top:
            top = first
        if top != round(self.scroll_y):
            self.scroll_to(y=top, animate=False, immediate=True)

    def _in_hand_lines(self) -> tuple[int, int]:
        drawn, here = self._drawn, self._here
        if self._ticks and self._cursor is not None:
            line = drawn.option_lines.get((here, self._cursor), 0)
            return line, line
        mine = [number for number, line in enumerate(drawn.above) if line.is_of(here)]
        first = mine[0] if mine else 0
        if self._ticks:
            return first, mine[-1] if mine else first
        below = sum(not line.targets or line.is_of(here) for line in drawn.below)
        return first, len(drawn.above) + below

    def note_seen(self) -> None:
        """What stands on the screen when a key is pressed has been seen; lines that were jumped over have not."""
        top = round(self.scroll_y)
        if top <= self._seen_to:
            self._seen_to = max(self._seen_to, top + self.size.height)

    def on_descendant_focus(self) -> None:
        """The page scrolls by its row in hand, not by the field."""

    # --- taking ------------------------------------------------------------------------------

    def on_key(self, event: events.Key) -> None:
        if self.takes(event):
            event.stop()
            event.prevent_default()

    def takes(self, event: events.Key) -> bool:
        """Take a key, if it has a meaning here; what is left is typed into the field."""
        row = self.row
        if row is None:
            return False
        self.note_seen()
        typed = row.typed and not self._ticks
        text = self.query_one(Field).value if typed else ""
        moves = {"up": -1, "down": 1, "shift+tab": -1, "tab": 1}
        if event.key in ("tab", "shift+tab"):
            self.post_message(LeftOpen(moves[event.key]))
        elif event.key in ("up", "down"):
            self._up_or_down(moves[event.key], typed)
        elif event.key == "enter":
            self._enter(row, text, typed)
        elif typed and (not event.character or (text and not self._to_be_typed_over(text))):
            return False
        elif event.key in ("left", "right"):
            self._sideways(1 if event.key == "right" else -1)
        elif event.key in ("delete", "backspace"):
            self.post_message(TakenBack(row, self._option(row)))
        elif event.key == "space" and not typed:
            option = self._option(row)
            if option:
                self.post_message(Picked(row, option))
        else:
            return self._press(event.character or "", row, typed)
        return True

    def _to_be_typed_over(self, text: str) -> bool:
        """Whether the whole text is selected, as an earlier answer is until it is changed."""
        return self.query_one(Field).selected_text == text

    def _press(self, key: str, row: Row, typed: bool) -> bool:
        if key == FIND_KEY:
            self.post_message(FindAsked())
            return True
        if self._ticks:
            for number, other in enumerate(self.rows):
                for index, option in enumerate(other.options):
                    if option.key == key:
                        self._here, self._cursor = number, index
                        self.post_message(Picked(other, option))
                        return True
        picked = next((option for option in row.options if option.key == key), None)
        if picked is not None:
            self.post_message(Picked(row, picked))
        elif (
            key == UNSURE_KEY
            or (key == SAME_KEY and row.same is not None)
            or (key == NONE_KEY and not typed and (self._ticks or row.kind in (Kind.SEVERAL, Kind.ENTRIES)))
        ):
            self.post_message(Said(row, key))
        else:
            return False
        return True

    def _enter(self, row: Row, text: str, typed: bool) -> None:
        option = None if typed or self._ticks or row.kind is Kind.SEVERAL else self._option(row)
        if option is not None:
            self.post_message(Picked(row, option))
        else:
            self.post_message(Entered(row, text))

    def _option(self, row: Row) -> Option | None:
        return None if self._cursor is None or self._cursor >= len(row.options) else row.options[self._cursor]

    def _sideways(self, step: int) -> None:
        row = self.rows[self._here]
        if row.options:
            at = -1 if self._cursor is None else self._cursor
            self._put_cursor(self._here, min(max(at + step, 0), len(row.options) - 1))

    def _up_or_down(self, step: int, typed: bool) -> None:
        """Through the lines of the options where they stand one under the other, else to another row."""
        lines_of = self._drawn.option_lines
        row = self.rows[self._here]
        stacked = self._ticks or (not typed and (self._one or row.kind is Kind.ENTRIES))
        if stacked:
            here = lines_of.get((self._here, self._cursor if self._cursor is not None else -1))
            places = sorted(
                (line, place) for place, line in lines_of.items() if self._ticks or place[0] == self._here
            )
            if here is None:
                mine = [place for _, place in places if place[0] == self._here]
                if mine:
                    self._put_cursor(*(mine[0] if step > 0 else mine[-1]))
                    return
            else:
                column = [p for line, p in places if line == here].index((self._here, self._cursor or 0))
                ahead = [line for line, _ in places if (line > here if step > 0 else line < here)]
                if ahead:
                    wanted = min(ahead) if step > 0 else max(ahead)
                    there = [place for line, place in places if line == wanted]
                    self._put_cursor(*there[min(column, len(there) - 1)])
                    return
                if self._ticks:
                    return
        other = self._here + step
        if 0 <= other < len(self.rows):
            self.post_message(WentTo(self.rows[other]))

    def _put_cursor(self, row: int, option: int) -> None:
        if row != self._here:
            self.post_message(WentTo(self.rows[row]))
            self._here = row
        self._cursor = option
        self._draw()
        self.call_after_refresh(self._keep_in_sight)

    def on_input_changed(self, event: Input.Changed) -> None:
        event.stop()
        if self.row is not None:
            self.post_message(Typed(self.row, event.value))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()

    def on_clicked(self, event: Clicked) -> None:
        event.stop()
        self.note_seen()
        target = event.target
        if not isinstance(target, Target) or target.row >= len(self.rows):
            return
        row = self.rows[target.row]
        option = next((option for option in row.options if option.key == target.key), None)
        if option is not None:
            self._here = target.row
            self._cursor = row.options.index(option) if not row.typed else None
            self.post_message(Picked(row, option))
        elif target.key:
            self.post_message(Said(row, target.key))
        elif target.row != self._here:
            self.post_message(WentTo(row))


def _placeholder(row: Row) -> str:
    if row.kind is Kind.DAY:
        return "31.5.2026, yesterday, 6 weeks ago"
    if row.kind is Kind.MOMENT:
        return "31.5. 14:30, today 9:15, 49 hours ago"
    return row.question.unit
