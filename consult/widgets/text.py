"""Text on the screen. All of it goes through `Content`, so that no text is ever read as markup."""

from collections.abc import Iterable

from textual.content import Content
from textual.visual import Visual
from textual.widgets import Input, Static

from consult.cleaning import UNPRINTABLE
from consult.widgets.boxes import LaidOutOnce
from consult.widgets.hanging import Hanging

Piece = str | tuple[str, str]


def styled(*pieces: Piece) -> Content:
    """Content from plain texts and (text, style) pairs; a user's text stays plain data."""
    return Content.assemble(*(Content(p) if isinstance(p, str) else Content.styled(*p) for p in pieces))


def lines(rows: Iterable[Content]) -> Content:
    """Rows of content, one under the other."""
    return Content("\n").join(rows)


class TextLine(Input):
    """A line to type in. What is pasted into it may hold control characters; they never get in."""

    def on_unmount(self) -> None:
        """The framework's field stays subscribed to a signal of its page, which keeps it alive as long as the page."""
        self.screen.text_selection_started_signal.unsubscribe(self)

    def validate_value(self, value: str) -> str:
        return UNPRINTABLE.sub(" ", value)


class TextBlock(LaidOutOnce, Static):
    """A static text that repaints only when the text has changed."""

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:
        super().__init__(Content(""), id=id, classes=classes)
        self._shown = Content("")

    def show(self, content: Content, *, same_size: bool = False, hang: int = 0) -> None:
        """Show a text; where it takes as many lines as the one before, nothing else is laid out anew.

        same_size  it does, which need not be looked for
        hang       columns by which wrapped lines are moved in
        """
        if content != self._shown or content.spans != self._shown.spans:
            self._shown = content
            self.put(Hanging(content, hang) if hang else content, same_size=same_size)

    def put(self, shown: Visual, *, same_size: bool) -> None:
        """Show whatever can be drawn, as `show` does."""
        self.update(shown, layout=not (same_size or self._fills_the_same(shown)))

    def _fills_the_same(self, shown: Visual) -> bool:
        """Whether a text takes the lines that the block has now."""
        styles, (width, height) = self.styles, self.size
        if not width:
            return False
        around = styles.gutter.height
        least, most = (limit and limit.cells for limit in (styles.min_height, styles.max_height))
        asked = shown.get_height(styles, width)  # type: ignore[arg-type]  # as the framework itself asks
        lines = max(asked, (least or 0) - around)
        return height == (min(lines, most - around) if most else lines)
