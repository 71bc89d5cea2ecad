"""What can go wrong, when it shows, and how the skin is: the words of log, tables and command line.

It stands apart from the models, so that the command line can name them without loading those.
"""

from typing import Final, Literal, get_args

What = Literal[
    "swallowed",
    "in the eye",
    "a child got at it",
    "itching or a rash",
    "gummy or breaking",
    "too dark",
    "too light",
    "too warm",
    "too ash or green",
    "hot roots",
    "bands",
    "patches",
    "missed white",
    "ends grabbed",
    "nothing took",
    "bleeds or washes out",
    "stained skin or bath",
]
WHATS: Final[tuple[What, ...]] = get_args(What)
When = Literal["today", "tonight", "days"]
WHENS: Final[tuple[When, ...]] = get_args(When)
Skin = Literal["calm", "irritated", "broken or blistered"]
SKINS: Final[tuple[Skin, ...]] = get_args(Skin)
