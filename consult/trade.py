"""The trade's words, once: what answers, rules, plan, colour and pages all name alike.

It stands on the ground floor and imports nothing of the program but the sources.
"""

from enum import Enum
from typing import Final, Literal, get_args

from msgspec import Struct

from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

# --- who reads ------------------------------------------------------------------------------------


class Voice(Enum):
    """Whose words are used: a stylist's, a home user's, or a trainer's, who also names the rules."""

    STYLIST = "stylist"
    HOME = "home"
    TRAINER = "trainer"


class Phrase(Struct, frozen=True):
    """One thing said twice: in trade words, and in plain words for somebody at home."""

    trade: str
    plain: str

    def in_voice(self, voice: Voice) -> str:
        return self.plain if voice is Voice.HOME else self.trade


def both(text: str) -> Phrase:
    """A sentence that is plain enough for everybody."""
    return Phrase(text, text)


# --- colour ---------------------------------------------------------------------------------------

Tone = Literal["neutral", "ash", "matt", "gold", "copper", "copper red", "red", "mahogany", "violet", "pearl"]
TONES: Final[tuple[Tone, ...]] = get_args(Tone)

VIVID: Final[frozenset[Tone]] = frozenset({"copper", "copper red", "red", "mahogany", "violet"})
"""The families whose dye shows most and holds least. Source: common practice."""

COOL: Final[frozenset[Tone]] = frozenset({"ash", "matt", "violet", "pearl"})

NaturalTone = Literal["ash", "neutral", "gold", "auburn", "red"]
NATURAL_TONES: Final[tuple[NaturalTone, ...]] = get_args(NaturalTone)
"""What grows by itself, from the coolest to the warmest: a matter of pigment, not of dye."""

DARKEST, LIGHTEST = 1.0, 10.0

DEPTH_NAMES: Final = {
    1: ("black", "black"),
    2: ("darkest brown", "darkest brown"),
    3: ("dark brown", "dark brown"),
    4: ("medium brown", "medium brown"),
    5: ("light brown", "light brown"),
    6: ("dark blonde", "lightest brown"),
    7: ("medium blonde", "dark blonde"),
    8: ("light blonde", "medium blonde"),
    9: ("very light blonde", "light blonde"),
    10: ("lightest blonde", "lightest blonde"),
}
"""Depth -> its name on the college scale and on many home packs (names differ: the number counts)."""


def depth_name(depth: float) -> str:
    """The number with both names: "6 (dark blonde / lightest brown)"."""
    college, pack = DEPTH_NAMES[int(depth)]
    names = college if college == pack else f"{college} / {pack}"
    return f"{depth:g} ({names})"


# --- the head -------------------------------------------------------------------------------------

Porosity = Literal["low", "normal", "high"]
POROSITIES: Final[tuple[Porosity, ...]] = get_args(Porosity)
Density = Literal["low", "normal", "high"]
Thickness = Literal["fine", "medium", "coarse"]


class Zone(Enum):
    """Where on the head."""

    FRONT = "front hairline"
    TEMPLES = "temples"
    CROWN = "crown"
    NAPE = "nape"


class Stretch(Enum):
    """Which part of the strand, from the scalp outwards.

    SCALP is the first centimetre and a half at most, which the scalp warms. NEW_GROWTH is what has grown
    beyond it since the last colour; hair never coloured has none. ENDS are the last quarter.
    """

    SCALP = "at the scalp"
    NEW_GROWTH = "new growth"
    LENGTHS = "lengths"
    ENDS = "ends"


AT_THE_SCALP: Final = (Stretch.SCALP, Stretch.NEW_GROWTH)
BEYOND: Final = (Stretch.LENGTHS, Stretch.ENDS)
"""What has grown since the last colour, and what lies beyond it."""


# --- products -------------------------------------------------------------------------------------

ColourClass = Literal["permanent", "demi-permanent", "high-lift", "powder lightener", "direct (no developer)"]
CLASSES: Final[tuple[ColourClass, ...]] = get_args(ColourClass)
MIXED: Final[tuple[ColourClass, ...]] = ("permanent", "demi-permanent", "high-lift", "powder lightener")
"""The classes that are mixed with developer."""

CountedFrom = Literal["the end of application", "the first touch", "it does not say"]
"""From when a leaflet counts its minutes."""

FirstTimeOrder = Literal["lengths first", "all at once", "it does not say"]
"""A leaflet's own order for hair that was never coloured."""

# --- services -------------------------------------------------------------------------------------

ServiceKind = Literal[
    "permanent colour",
    "demi-permanent colour",
    "semi-permanent colour",
    "highlights or partial lightener",
    "lightener all over",
    "colour remover",
    "plain henna",
    "compound or unknown henna",
    "progressive colour (restorer)",
    "unknown home product",
    "perm",
    "straightening treatment",
    "relaxer, hydroxide",
    "relaxer, thio",
    "relaxer, kind unknown",
]
OXIDATIVE_COLOURS: Final[tuple[ServiceKind, ...]] = ("permanent colour", "demi-permanent colour")
COLOURS: Final[tuple[ServiceKind, ...]] = (*OXIDATIVE_COLOURS, "semi-permanent colour")
LIGHTENERS: Final[tuple[ServiceKind, ...]] = ("highlights or partial lightener", "lightener all over")
LIGHTENED: Final[tuple[ServiceKind, ...]] = (*LIGHTENERS, "colour remover")
"""What leaves hair lighter than it grew."""
OXIDATIVE: Final[tuple[ServiceKind, ...]] = (*OXIDATIVE_COLOURS, *LIGHTENERS)
SUSPECT_METAL: Final[tuple[ServiceKind, ...]] = (
    "compound or unknown henna",
    "progressive colour (restorer)",
    "unknown home product",
)
"""What may have left metal salts on the hair."""
STAINS: Final[tuple[ServiceKind, ...]] = ("plain henna", *SUSPECT_METAL)
"""What leaves colour on the hair that no shade number describes."""
RELAXERS: Final[tuple[ServiceKind, ...]] = ("relaxer, hydroxide", "relaxer, thio", "relaxer, kind unknown")
TEXTURE: Final[tuple[ServiceKind, ...]] = ("perm", "straightening treatment", *RELAXERS)

# --- who applies ----------------------------------------------------------------------------------

AppliedBy = Literal[
    "a licensed colourist",
    "a trainee under supervision",
    "myself at home",
    "a friend or relative at home",
]
AT_HOME: Final[tuple[AppliedBy, ...]] = ("myself at home", "a friend or relative at home")
PROFESSIONAL: Final[tuple[AppliedBy, ...]] = ("a licensed colourist", "a trainee under supervision")

# --- groups that rule tables name -----------------------------------------------------------------

GROUPS: Final[dict[str, tuple[str, ...]]] = {
    "at home": AT_HOME,
    "professional": PROFESSIONAL,
    "mixed with developer": MIXED,
    "oxidative colours": OXIDATIVE_COLOURS,
    "colours": COLOURS,
    "lighteners": LIGHTENERS,
    "lightened": LIGHTENED,
    "suspect metal": SUSPECT_METAL,
    "stains": STAINS,
    "relaxers": RELAXERS,
}
"""Name -> choices. A rule table names it where a list of choices is expected."""

# --- thresholds that rules and plan share ---------------------------------------------------------

THRESHOLDS: Final[dict[str, Number]] = {
    "peroxide-limit": Number(12, "% hydrogen peroxide", "eu-2019-831-peroxide"),
    "white-developer": Number(6, "% developer for white hair", COMMON_PRACTICE),
    "lift-at-home": Number(2, "levels", COMMON_PRACTICE),
    "lift-in-one-colouring": Number(3, "levels", COMMON_PRACTICE),
    "darker-at-home": Number(2, "levels", COMMON_PRACTICE),
    "filler-advised": Number(2, "levels darker on lightened hair", COMMON_PRACTICE),
    "filler-needed": Number(3, "levels darker on lightened hair", COMMON_PRACTICE),
    "same-depth": Number(0.5, "levels", COMMON_PRACTICE),
    "long-new-growth": Number(2.5, "cm", "nic-practical-bulletin"),
    "much-white": Number(50, "% white", COMMON_PRACTICE),
    "some-white": Number(25, "% white", COMMON_PRACTICE),
    "semi-permanent-life": Number(182, "days until semi-permanent colour is gone", ASSUMPTION),
    "doctor-word-life": Number(183, "days a doctor's word counts", ASSUMPTION),
    "test-life": Number(7, "days an allergy alert test counts", ASSUMPTION),
}
"""Name -> number. A rule table names it where a number is expected; the plan reads it here."""
