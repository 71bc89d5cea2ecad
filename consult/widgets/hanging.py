"""Text that hangs from its mark: what does not fit on its line goes on under the text, not under the mark."""

from textual.content import Content
from textual.css.styles import RulesMap
from textual.strip import Strip
from textual.style import Style
from textual.visual import RenderOptions, Visual

LEAST_WIDTH = 12
"""Columns that the text keeps beside its mark, however narrow the window."""


class Hanging(Visual):
    """`content` with every line after the first of a paragraph moved in by so many columns."""

    def __init__(self, content: Content, indent: int) -> None:
        self.content = content
        self.indent = indent
        self._known: tuple[int, Content] | None = None

    def __str__(self) -> str:
        return self.content.plain

    def _wrapped(self, width: int) -> Content:
        if self._known is None or self._known[0] != width:
            self._known = width, self._wrap(width)
        return self._known[1]

    def _wrap(self, width: int) -> Content:
        rows: list[Content] = []
        indent = max(min(self.indent, width - LEAST_WIDTH), 0)
        for paragraph in self.content.split("\n", allow_blank=True):
            first, *others = paragraph[indent:].wrap(width - indent)
            rows += [paragraph[:indent] + first, *(row.pad_left(indent) for row in others)]
        return Content("\n").join(rows)

    def render_strips(
        self, width: int, height: int | None, style: Style, options: RenderOptions
    ) -> list[Strip]:
        return self._wrapped(width).render_strips(width, height, style, options)

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        return self.content.get_optimal_width(rules, container_width)

    def get_height(self, rules: RulesMap, width: int) -> int:
        return self._wrapped(width).plain.count("\n") + 1 if width > 0 else 0
