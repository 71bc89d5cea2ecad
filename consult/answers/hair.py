"""The hair as it is read today, in daylight, root to ends."""

from typing import Final, Literal

from consult.answers.base import ALL, Asked, Depth, Level, Section, YesNo, ask
from consult.answers.typed_colour import COLOUR_UNIT, TypedColour
from consult.answers.units import Cm, HairLength, Percent
from consult.trade import NaturalTone, Tone

_POROSITY_TELL = (
    "On dry hair slide finger and thumb from points to root: smooth is low or normal, rough is high."
)
_POROSITY = {
    "low": "smooth, resists colour",
    "normal": "slightly textured",
    "high": "rough, takes colour fast and loses it fast",
}


AllWhite = Literal["all white"]
ALL_WHITE: Final = "all white"
"""The natural depth of a head on which no pigmented hair is left to read it from."""


class Hair(Section):
    length_cm: Asked[HairLength] = ask(
        "Length of the longest hair, scalp to point",
        "How long is the longest hair, from scalp to tip, pulled straight?",
        short="Length",
        unit="cm (or in)",
        how_to_tell="Chin about 25, shoulder about 34, shoulder blade about 54, waist about 74 cm.",
        clear=ALL,
    )
    cut: Asked[Literal["one length", "layers"]] = ask(
        "Cut", "Is it all one length or cut in layers?", short="Cut", optional=True, clear=ALL
    )
    density: Asked[Level] = ask(
        "Density (hairs per area)",
        "How many hairs are there: does the scalp show through?",
        short="Density",
        hints={"low": "scalp shows easily", "normal": "shows when parted", "high": "hardly shows"},
        clear=ALL,
    )
    thickness: Asked[Literal["fine", "medium", "coarse"]] = ask(
        "Thickness of a single hair",
        "How thick is one single hair?",
        short="Single hair",
        hints={
            "fine": "hardly felt between the fingers",
            "medium": "felt, like sewing thread",
            "coarse": "clearly felt, wiry",
        },
        clear=ALL,
    )
    curl: Asked[Literal["straight", "wavy", "curly", "coily"]] = ask(
        "Curl", "How curly is it?", short="Curl", optional=True, clear=ALL
    )
    porosity_root: Asked[Level] = ask(
        "Porosity near the root",
        "How does the hair near the scalp feel?",
        short="Porosity root",
        how_to_tell=_POROSITY_TELL,
        hints=_POROSITY,
        clear=["low", "normal"],
    )
    porosity_lengths: Asked[Level] = ask(
        "Porosity of the lengths",
        "How do the lengths feel?",
        short="Porosity lengths",
        how_to_tell=_POROSITY_TELL,
        hints=_POROSITY,
        clear=["low", "normal"],
    )
    porosity_ends: Asked[Level] = ask(
        "Porosity of the ends",
        "How do the ends feel?",
        short="Porosity ends",
        how_to_tell=_POROSITY_TELL,
        hints=_POROSITY,
        clear=["low", "normal"],
    )
    attached: Asked[YesNo] = ask(
        "Extensions, bonds, tape or glue in the hair?",
        "Are there extensions, bonds, tape or glue in the hair?",
        short="Extensions",
        since=3,
        clear=["no"],
    )
    sheen: Asked[YesNo] = ask(
        "Metallic sheen, dull coating, or traces of a colour restorer?",
        "Does the hair shine like metal, feel coated and dull, or stain a towel without having been coloured?",
        short="Metallic sheen",
        how_to_tell="In daylight: an odd green, purple or leaden cast. Look in the bathroom too: a lotion that darkens "
        "white hair a little with every use is a colour restorer.",
        since=3,
        clear=["no"],
    )
    hard_water: Asked[YesNo] = ask(
        "Pool or well water on this hair in the last months?",
        "Has this hair often been in pool or well water in the last months?",
        short="Pool, well water",
        how_to_tell="Both leave copper and other metals on the hair; light hair may look greenish.",
        since=3,
        clear=["no"],
    )
    wet_stretch: Asked[Literal["returns", "stays stretched", "breaks", "gummy or spongy"]] = ask(
        "Wet stretch of a single hair",
        "Wet one hair and stretch it gently. What happens?",
        short="Wet stretch",
        how_to_tell="Take one or two hairs from the most worn place. Sound hair stretches and comes back.",
        clear=["returns"],
    )
    natural_depth: Asked[Depth | AllWhite] = ask(
        "Natural depth, read at the new growth",
        "How dark is your own hair right at the scalp, 1 black to 10 lightest blonde?",
        short="Natural depth",
        how_to_tell='In daylight, against swatches. Ignore the white hairs; if no others are left, "all white".',
        clear=ALL,
    )
    natural_tone: Asked[NaturalTone] = ask(
        "Natural tone, read at the new growth",
        "Which tint does your own hair have, without any dye in it?",
        short="Natural tone",
        how_to_tell="In daylight, beside hair or swatches of the same depth. Dye does not count, nor what sun did.",
        hints={
            "ash": "cool, smoky, no gold in it",
            "neutral": "neither cool nor warm",
            "gold": "a golden shine",
            "auburn": "brown or blonde with red in it",
            "red": "red or ginger by nature",
        },
        optional=True,
        clear=ALL,
    )
    natural_measured: Asked[TypedColour] = ask(
        "Natural colour by colorimeter, at the new growth",
        "The colour of your own hair at the scalp, if you have measured it with an instrument",
        short="Natural measured",
        unit=COLOUR_UNIT,
        how_to_tell="CIELAB as three numbers (D65), or #rrggbb, of hair without white. The plan still goes by the eye.",
        optional=True,
        clear=ALL,
    )
    white_front: Asked[Percent] = ask(
        "White share at the front hairline",
        "How much white at the front hairline?",
        short="White front",
        unit="%",
        how_to_tell="Of a hundred hairs, how many are white? Every second hair is 50.",
        clear=ALL,
    )
    white_temples: Asked[Percent] = ask(
        "White share at the temples",
        "How much white at the temples?",
        short="White temples",
        unit="%",
        clear=ALL,
    )
    white_crown: Asked[Percent] = ask(
        "White share at the crown",
        "How much white at the crown?",
        short="White crown",
        unit="%",
        clear=ALL,
    )
    white_nape: Asked[Percent] = ask(
        "White share at the nape", "How much white at the nape?", short="White nape", unit="%", clear=ALL
    )
    white_resists: Asked[YesNo] = ask(
        "Resistant white (wiry, smooth, colour slid off before)?",
        "Is the white hair wiry and smooth, or has colour not taken on it before?",
        short="White resists",
        clear=["no"],
    )
    new_growth_cm: Asked[Cm] = ask(
        "Visible new growth",
        "How much of your own colour shows at the scalp?",
        short="New growth",
        unit="cm (or in)",
        how_to_tell="Measure at the parting, from scalp to where the old colour begins. Never coloured: 0.",
        clear=ALL,
    )
    lengths_depth: Asked[Depth] = ask(
        "Depth of the lengths as the eye sees them",
        "How dark do the lengths look now, 1 to 10?",
        short="Lengths depth",
        how_to_tell="Never coloured and partly white: read the hairs that are not white.",
        clear=ALL,
    )
    lengths_tone: Asked[Tone] = ask(
        "Tone of the lengths", "Which tone do the lengths show?", short="Lengths tone", clear=ALL
    )
    ends_depth: Asked[Depth] = ask(
        "Depth of the ends as the eye sees them",
        "How dark do the ends look now, 1 to 10?",
        short="Ends depth",
        clear=ALL,
    )
    ends_tone: Asked[Tone] = ask(
        "Tone of the ends", "Which tone do the ends show?", short="Ends tone", optional=True, clear=ALL
    )
    lengths_measured: Asked[TypedColour] = ask(
        "Colour of the lengths by colorimeter",
        "The colour of the lengths, if you have measured it with an instrument",
        short="Lengths measured",
        unit=COLOUR_UNIT,
        how_to_tell="CIELAB as three numbers (D65), or #rrggbb. It stands in for the eye's reading of the lengths.",
        optional=True,
        clear=ALL,
    )
    lengths_look: Asked[Literal["even", "faded", "uneven"]] = ask(
        "Lengths: even, faded or uneven?",
        "Do the lengths look even, faded or uneven?",
        short="Lengths look",
        hints={
            "even": "colour still good from new growth to ends",
            "faded": "paler or duller than the shade was",
            "uneven": "fresher here, paler there",
        },
        clear=ALL,
    )
