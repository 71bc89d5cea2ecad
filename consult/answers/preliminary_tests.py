"""The tests made before colouring: allergy alert test, strand test, incompatibility test."""

from typing import Literal

from consult.answers.base import ALL, Asked, Moment, Section, Several, Text, YesNo, ask
from consult.answers.units import Minutes

TestSign = Literal["itching", "burning", "redness", "rash", "swelling", "blisters", "only a stain"]
POSITIVE_SIGNS = ("itching", "burning", "redness", "rash", "swelling", "blisters")
_DONE = ("done", ["yes"])


class AllergyTest(Section):
    done: Asked[Literal["yes", "no", "refused"]] = ask(
        "Allergy alert test with this product put on?",
        "Has the allergy alert test with this very product been put on the skin?",
        short="Test put on",
        how_to_tell="A dab of the product, ready as for use, on clean skin; as the leaflet says, not covered.",
        clear=["yes"],
    )
    same_product: Asked[YesNo] = ask(
        "Same product, same shade, ready as for use?",
        "Was it this same product in this same shade, ready as for use?",
        short="Same product",
        only_if=_DONE,
        clear=["yes"],
    )
    product: Asked[Text] = ask(
        "Product and shade tested, as printed",
        "Name and shade of the product that was tested, as on the pack",
        short="Tested product",
        only_if=_DONE,
        optional=True,
        clear="all",
    )
    covers_mix: Asked[YesNo] = ask(
        "Was everything that will be put on in the test: each shade, a filler, a second product too?",
        "Was everything that will be put on the hair part of the test?",
        short="Whole mix tested",
        how_to_tell="A natural shade added for white hair, or a filler, is another product: it needs its own test.",
        only_if=_DONE,
        optional=True,
        clear=ALL,
    )
    site: Asked[Literal["behind the ear", "bend of the elbow", "inner forearm", "elsewhere"]] = ask(
        "Test site",
        "Where on the skin was the test?",
        short="Site",
        only_if=_DONE,
        clear=["behind the ear", "bend of the elbow", "inner forearm"],
    )
    masked: Asked[YesNo] = ask(
        "Steroid cream on the site, or antihistamine or steroid medicine around the test?",
        "Was there a steroid (cortisone) cream on that skin, or did you take allergy tablets or cortisone in the days "
        "of the test?",
        short="Reaction masked",
        how_to_tell="Such medicines can hide a reaction. Do not stop a prescribed one for a test: ask whoever "
        "prescribed it.",
        only_if=_DONE,
        sensitive=True,
        since=3,
        clear=["no"],
    )
    applied_at: Asked[Moment] = ask(
        "Test applied at",
        "When was it put on? Date and time.",
        short="Applied at",
        only_if=_DONE,
        past=True,
    )
    first_read_at: Asked[Moment] = ask(
        "First reading at (about 30 minutes after)",
        "When was it looked at first (about half an hour after)?",
        short="First look at",
        only_if=_DONE,
        past=True,
    )
    first_signs: Asked[Several[TestSign]] = ask(
        "Signs at the first reading",
        "What was there at the first look?",
        short="First look",
        only_if=_DONE,
        past=True,
        sensitive=True,
        clear=["only a stain"],
    )
    second_read_at: Asked[Moment] = ask(
        "Last reading at (48 hours or more after)",
        "When was it looked at last (two days or more after)?",
        short="Last look at",
        only_if=_DONE,
        past=True,
    )
    second_signs: Asked[Several[TestSign]] = ask(
        "Signs at the last reading, or at any time between",
        "What was there at the last look, or at any time in between?",
        short="Last look",
        only_if=_DONE,
        past=True,
        sensitive=True,
        clear=["only a stain"],
    )


class StrandTest(Section):
    done: Asked[YesNo] = ask(
        "Strand test made with what will be put on?",
        "Has a hidden strand been coloured first with what will be put on?",
        short="Strand test",
        how_to_tell="About 1 cm wide, from the lower nape, with the most worn hair and some new growth.",
        clear="all",
    )
    hair: Asked[Literal["sound", "stretched and stayed", "gummy", "broke"]] = ask(
        "Hair after the test",
        "How was the strand afterwards, wet and dry?",
        short="Strand held",
        only_if=("done", ["yes"]),
        clear=["sound"],
    )
    colour: Asked[
        Literal["as wanted", "too light", "too dark", "too warm", "too cool or greenish", "no change"]
    ] = ask(
        "Colour of the test, clean and dry",
        "What colour did it come out, washed and dry?",
        short="Strand colour",
        only_if=("done", ["yes"]),
        clear=["as wanted"],
    )
    minutes: Asked[Minutes] = ask(
        "Minutes the test took",
        "How many minutes did the strand take?",
        short="Strand minutes",
        unit="min",
        only_if=("done", ["yes"]),
        clear="all",
    )


class IncompatibilityTest(Section):
    """Cut hair in a dish, by a professional; never on the head and never at home."""

    result: Asked[
        Literal[
            "not done",
            "slight lightening only",
            "no change at all",
            "heat, fizz, smell or colour change",
            "hair broke or dissolved",
        ]
    ] = ask(
        "Incompatibility test on cut hair",
        "Did a professional test cut hair for metal salts, and what happened?",
        short="Metal-salt test",
        how_to_tell="A professional's test in a glass dish. Do not try it at home.",
        clear=["slight lightening only", "not done"],
    )
