"""What is wanted."""

from typing import Literal

from consult.answers.base import ALL, Asked, Depth, Section, Several, YesNo, ask
from consult.trade import Tone


class Goal(Section):
    depth: Asked[Depth] = ask(
        "Target depth",
        "How light should it become, 1 black to 10 lightest blonde?",
        short="Goal depth",
        how_to_tell="Go by the number and by pictures, not by the name.",
        clear=ALL,
    )
    tone: Asked[Tone] = ask("Target tone", "Which tone is wanted?", short="Goal tone", clear=ALL)
    white: Asked[Literal["cover", "blend", "leave", "there is none"]] = ask(
        "White hair: cover, blend or leave?",
        "What should happen to the white hair?",
        short="White hair",
        hints={
            "cover": "no white to be seen",
            "blend": "softened, still there",
            "leave": "kept as it is",
        },
        clear=ALL,
    )
    extent: Asked[Literal["new growth only", "whatever is needed", "all over"]] = ask(
        "Extent wanted",
        "Which part of the hair should be coloured?",
        short="Extent",
        clear=ALL,
    )
    upkeep: Asked[Literal["every 3 to 4 weeks", "every 5 to 8 weeks", "as little as possible"]] = ask(
        "Upkeep the client will keep",
        "How often would you do it again?",
        short="Upkeep",
        clear=["every 3 to 4 weeks", "every 5 to 8 weeks"],
    )
    areas: Asked[Several[Literal["scalp hair", "beard", "eyebrows", "eyelashes"]]] = ask(
        "What is to be coloured?",
        "What is to be coloured?",
        short="Area",
        clear=["scalp hair"],
    )
    lengths_product: Asked[YesNo] = ask(
        "A product of its own for the lengths?",
        "Is there a second product, only for the lengths?",
        short="Lengths product",
        how_to_tell="For example a demi-permanent colour of their own. Left open: one product for all.",
        optional=True,
        since=2,
        clear=ALL,
    )
