"""How the program looks: on a dark or a light ground, or with all the contrast there is.

Each ground is a neutral grey, so that swatches are judged without a tint beside them.
"""

from typing import Final

from textual.theme import Theme

DARK: Final = Theme(
    name="dark",
    primary="#35586a",
    secondary="#5f7a6b",
    accent="#9cc4d4",
    warning="#d8b04a",
    error="#f08a76",
    success="#95c489",
    background="#191a1b",
    surface="#222425",
    panel="#2b2e30",
    foreground="#e6e6e4",
    dark=True,
    variables={"muted": "#a9afb2", "heading": "#8fb8c8", "ground": "#35383a", "chosen": "#263c48"},
)
LIGHT: Final = Theme(
    name="light",
    primary="#2a5a70",
    secondary="#4b6456",
    accent="#1c536a",
    warning="#6b4a00",
    error="#9c2a15",
    success="#265c20",
    background="#f3f3f1",
    surface="#e9e9e7",
    panel="#dededb",
    foreground="#1a1b1c",
    dark=False,
    variables={"muted": "#4c5153", "heading": "#1c536a", "ground": "#d2d2cf", "chosen": "#c6dae4"},
)
CONTRAST: Final = Theme(
    name="high contrast",
    primary="#0050b8",
    secondary="#ffffff",
    accent="#7fe0ff",
    warning="#ffd75f",
    error="#ff9d90",
    success="#8cf08c",
    background="#000000",
    surface="#000000",
    panel="#1a1a1a",
    foreground="#ffffff",
    dark=True,
    variables={"muted": "#d4d4d4", "heading": "#7fe0ff", "ground": "#303030", "chosen": "#00307a"},
)
THEMES: Final = (DARK, LIGHT, CONTRAST)
"""In the order in which the key for them goes round. `muted` is what matters less, `heading` a title, `ground` what a
field lies on, `chosen` the row in hand."""


def theme_named(name: str) -> Theme:
    """The theme of that name; the first where there is none."""
    return next((theme for theme in THEMES if theme.name == name), THEMES[0])


def following(name: str) -> Theme:
    """The theme behind the one of that name."""
    return THEMES[(THEMES.index(theme_named(name)) + 1) % len(THEMES)]
