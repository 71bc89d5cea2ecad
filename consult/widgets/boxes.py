"""What holds other widgets, and once the layout has given it a size need not be laid out a second time.

The framework lays the whole page out anew whenever the room for what a box holds has changed, which is right for
a box that scrolls as much as its content asks; where bars come and go it does so for the bars themselves.
"""

from textual import containers
from textual.geometry import Size
from textual.reactive import Reactive


class LaidOutOnce:
    """To be named before the framework's class."""

    virtual_size = Reactive(Size(0, 0), repaint=False)


class Horizontal(LaidOutOnce, containers.Horizontal):
    """Side by side."""


class Vertical(LaidOutOnce, containers.Vertical):
    """One under the other."""


class VerticalScroll(LaidOutOnce, containers.VerticalScroll):
    """The same, scrolled where it does not fit."""
