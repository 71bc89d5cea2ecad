"""Lines under each other, of which those that have not changed are not drawn anew."""

from collections.abc import Sequence

from textual.content import Content, Span
from textual.css.styles import RulesMap
from textual.strip import Strip
from textual.style import Style
from textual.visual import RenderOptions, Visual

Look = tuple[str, tuple[Span, ...], int, Style]
Known = dict[Look, list[Strip]]
"""Text, spans, width and style of a row -> what it looks like."""


class Stacked(Visual):
    """`rows`, each on a line of its own, or on several where it does not fit; `known` are those of before."""

    def __init__(self, rows: Sequence[Content], known: Known) -> None:
        self.rows = rows
        self._known = known

    def __str__(self) -> str:
        return "\n".join(row.plain for row in self.rows)

    def render_strips(
        self, width: int, height: int | None, style: Style, options: RenderOptions
    ) -> list[Strip]:
        if options.selection:  # What is marked with the mouse looks otherwise for a moment.
            strips = [strip for row in self.rows for strip in row.render_strips(width, None, style, options)]
            return strips[:height]
        looks = [(row.plain, tuple(row.spans), width, style) for row in self.rows]
        drawn = {
            look: self._known.get(look) or row.render_strips(width, None, style, options)
            for look, row in zip(looks, self.rows, strict=True)
        }
        self._known.clear()
        self._known.update(drawn)
        return [strip for look in looks for strip in drawn[look]][:height]

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        return max((row.get_optimal_width(rules, container_width) for row in self.rows), default=0)

    def get_height(self, rules: RulesMap, width: int) -> int:
        return sum(row.get_height(rules, width) for row in self.rows)
