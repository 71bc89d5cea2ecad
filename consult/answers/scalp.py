"""What can be seen and felt on scalp and face today."""

from typing import Literal

from consult.answers.base import Asked, Section, Several, YesNo, ask

ScalpSign = Literal[
    "redness",
    "itching, soreness or tightness",
    "sensitive scalp",
    "rash on face, ears or neck",
    "heavy flaking or scaling",
    "cuts or grazes",
    "sores, weeping or crusts",
    "sunburn",
    "blisters or swelling",
    "pus or yellow crusts",
    "round bald scaly patches",
    "lice or nits",
    "burrows or night itch",
    "open or stitched wound",
]


class Scalp(Section):
    """An empty list of signs means: looked, and nothing was there."""

    signs: Asked[Several[ScalpSign]] = ask(
        "Signs on scalp, hairline, face, ears and neck today",
        "Part the hair in good light, front to back and ear to ear. What can you see or feel on "
        "scalp, face, ears or neck today?",
        short="Signs today",
        how_to_tell="Look along four partings; ask whether anything is sore. Tick all; none is an answer too.",
        sensitive=True,
    )
    scratched: Asked[YesNo] = ask(
        "Scalp scratched or brushed hard within the last day?",
        "Has the scalp been scratched or brushed hard within the last day?",
        short="Scratched",
        how_to_tell="Scratches need not be seen; colour finds them.",
        clear=["no"],
    )
    washed: Asked[YesNo] = ask(
        "Hair washed within the last day?",
        "Has the hair been washed within the last day?",
        short="Washed",
        how_to_tell="The scalp's own film protects it; wash a day or two before, not on the day.",
        since=3,
        clear=["no"],
    )
