"""Time that is read from across the room: figures of dots, and a bar that fills towards the longest minutes."""

from typing import Final

from textual.content import Content

from consult.widgets.text import Piece, styled

_DOTS: Final = {
    "0": ("111", "101", "101", "101", "111"),
    "1": ("010", "110", "010", "010", "111"),
    "2": ("111", "001", "111", "100", "111"),
    "3": ("111", "001", "111", "001", "111"),
    "4": ("101", "101", "111", "001", "001"),
    "5": ("111", "100", "111", "001", "111"),
    "6": ("111", "100", "111", "101", "111"),
    "7": ("111", "001", "001", "001", "001"),
    "8": ("111", "101", "111", "101", "111"),
    "9": ("111", "101", "111", "001", "111"),
    ":": ("0", "1", "0", "1", "0"),
}
_HALVES: Final = {("0", "0"): " ", ("1", "0"): "▀", ("0", "1"): "▄", ("1", "1"): "█"}
LONGEST_TIME: Final = "0:00:00"
LARGEST: Final = 3


def figures(time: str, scale: int) -> list[str]:
    """A time as lines of blocks: a dot is `scale` columns wide and as many half lines high."""
    dots = ["0".join(_DOTS[character][row] for character in time) for row in range(5)] if time else ["0"] * 5
    grid = ["".join(dot * scale for dot in line) for line in dots for _ in range(scale)]
    if len(grid) % 2:
        grid.append("0" * len(grid[0]))
    return [
        "".join(_HALVES[pair] for pair in zip(upper, lower, strict=True))
        for upper, lower in zip(grid[::2], grid[1::2], strict=True)
    ]


def scale_for(width: int, height: int) -> int:
    """The largest scale at which every time has room in so many columns, and takes a fifth of the lines at most."""
    fits = [
        scale
        for scale in range(1, LARGEST + 1)
        if len(figures(LONGEST_TIME, scale)[0]) <= width and len(figures("0", scale)) <= height / 5
    ]
    return max(fits, default=1)


def stay_bar(counted: float, shortest: float, longest: float, columns: int) -> Content:
    """How much of the longest time is over, with a line at the shortest; all in seconds."""
    full = columns if counted >= longest else int(columns * counted / longest)
    drawn = ["█"] * full + ["░"] * (columns - full)
    style = "$error" if counted >= longest else "$accent"
    if not 0 < shortest < longest:
        return styled(("".join(drawn), style))
    at = round(columns * shortest / longest)
    pieces: list[Piece] = [("".join(drawn[:at]), style), ("│", "bold"), ("".join(drawn[at:]), style)]
    return styled(*pieces)
