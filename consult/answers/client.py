"""Who the client is and who puts the colour on."""

from typing import Annotated, Literal

from pydantic import Field

from consult.answers.base import ALL, Asked, Section, Text, YesNo, ask
from consult.answers.units import Minutes
from consult.trade import PROFESSIONAL, AppliedBy

Age = Annotated[int, Field(ge=0, le=120)] | Literal["16 or over"]


class Client(Section):
    name: Asked[Text] = ask(
        "Client's name or an alias",
        "What name should stand on the record? Any made-up name will do.",
        short="Name",
        how_to_tell="It is only written into the record. An alias keeps health answers private.",
        optional=True,
        clear=ALL,
    )
    age: Asked[Age] = ask(
        'Client\'s age in years, or "16 or over"',
        'How old is the person whose hair it is? Years, or "16 or over".',
        short="Age",
        unit="years",
        how_to_tell="Oxidative colour is labelled as not intended for anyone under 16.",
        clear=["16 or over"],
    )
    applied_by: Asked[AppliedBy] = ask(
        "Who applies the colour?",
        "Who will put the colour on?",
        short="Applied by",
        hints={
            "a licensed colourist": "in a salon, by a qualified person",
            "a trainee under supervision": "a qualified colourist stands by",
            "myself at home": "nobody trained is there",
            "a friend or relative at home": "nobody trained is there",
        },
        clear=PROFESSIONAL,
    )
    applier_skin: Asked[YesNo] = ask(
        "Whoever applies it: hand eczema, or an allergy to hair colour?",
        "Does the person who will put it on have hand eczema, or an allergy to hair colour?",
        short="Helper's skin",
        how_to_tell="The one who mixes and applies touches the colour too. Ask them; do not guess.",
        only_if=("applied_by", ["a friend or relative at home"]),
        sensitive=True,
        since=3,
        clear=["no"],
    )
    gloves: Asked[YesNo] = ask(
        "Suitable gloves ready (long, not latex) for mixing, applying and rinsing?",
        "Are there gloves to wear for mixing, putting on and rinsing (vinyl or nitrile, not latex)?",
        short="Gloves ready",
        how_to_tell="The gloves of a kit count. Peroxide products must be used with suitable gloves.",
        clear=["yes"],
    )
    minutes_new_growth: Asked[Minutes] = ask(
        "Minutes to put colour on 1 to 2 cm of new growth, if ever timed",
        "How many minutes did it take last time to put colour on the new growth, if you timed it?",
        short="Own pace",
        unit="min",
        how_to_tell="From the first brush to the last, of the whole head, by the same hands. It replaces the estimate.",
        optional=True,
        since=3,
        clear=ALL,
    )
    helper: Asked[YesNo] = ask(
        "A second pair of hands for the application?",
        "Will somebody help to put it on?",
        short="Helper",
        optional=True,
        clear=ALL,
    )
