"""What the client's health says before any product is opened."""

from typing import Annotated, Literal, get_args

from pydantic import Field

from consult.answers.base import ALL, Asked, Day, Section, Several, Text, YesNo, ask

ReactionTo = Literal[
    "hair colour",
    "lightener or bleach",
    "an allergy alert test",
    "perm, relaxer or straightener",
    "another cosmetic",
]
ReactionSign = Literal[
    "itching",
    "burning or stinging",
    "redness or rash",
    "swelling of face, eyes or scalp",
    "blisters or weeping",
    "hives",
    "hair loss or breakage",
    "trouble breathing or faintness",
    "something else",
]

DoctorsTopic = Literal[
    "a reaction to another product",
    '"black henna" that may have reacted',
    "an allergy related to hair dye",
    "chemotherapy now",
    "radiotherapy to the head",
    "advice against colouring",
    "another treatment",
    "a medicine that makes skin sensitive",
    "hand eczema at work",
]
"""What a doctor's word can lift. Nothing on it is a past reaction to hair colour."""


class Reaction(Section):
    """One past reaction of skin, scalp or breath."""

    to: Asked[ReactionTo] = ask(
        "What was the reaction to?", "What had been used when it happened?", short="To", past=True
    )
    signs: Asked[Several[ReactionSign]] = ask(
        "Which signs?",
        "What happened? Tick all that apply.",
        short="Signs",
        past=True,
        sensitive=True,
        # That there was a reaction decides, not how it looked; the severe signs have a rule.
        clear=[
            "itching",
            "burning or stinging",
            "redness or rash",
            "hair loss or breakage",
            "something else",
        ],
    )
    year: Asked[Annotated[int, Field(ge=1900, le=2200)]] = ask(
        "In which year (about)?",
        "About which year was it?",
        short="Year",
        past=True,
        optional=True,
        clear="all",
    )
    seen_by_doctor: Asked[YesNo] = ask(
        "Seen by a doctor?",
        "Did a doctor see it?",
        short="Doctor saw it",
        past=True,
        sensitive=True,
        optional=True,
        clear="all",
    )
    note: Asked[Text] = ask(
        "Anything else about it",
        "Anything else about it, in your words",
        short="Note",
        optional=True,
        sensitive=True,
        clear="all",
    )


class Health(Section):
    ever_reacted: Asked[Literal["yes", "only to another product", "no"]] = ask(
        "Ever ANY reaction after hair colour, lightener or an allergy alert test?",
        "Have you ever had itching, burning, a rash, swelling, blisters, hair loss or trouble "
        "breathing after hair colour, bleach or a skin test, even once, even mild, even years ago?",
        short="Ever reacted",
        hints={"only to another product": "never to these, but to a perm, a relaxer or another cosmetic"},
        how_to_tell="A rash on eyelids, ears or neck after colouring counts. Most reactions were never "
        "shown to a doctor.",
        past=True,
        sensitive=True,
        clear=["no"],
    )
    reactions: Asked[Annotated[Several[Reaction], Field(max_length=20)]] = ask(
        "Each past reaction",
        "Each time it happened",
        short="Reactions",
        only_if=("ever_reacted", ["yes", "only to another product"]),
        past=True,
        sensitive=True,
    )
    black_henna: Asked[
        Literal["never", "yes, no reaction", "yes, not sure whether it reacted", "yes, it reacted"]
    ] = ask(
        'A temporary "black henna" tattoo, ever?',
        'Have you ever had a temporary "black henna" tattoo, for example on holiday?',
        short="Black henna",
        how_to_tell="A drawing on the skin that stays days to weeks. The black kind often holds hair-dye chemicals.",
        past=True,
        sensitive=True,
        clear=["never"],
    )
    black_henna_on: Asked[Day] = ask(
        "When was that tattoo (the last one)?",
        'When was the last "black henna" tattoo, about?',
        short="Tattoo on",
        only_if=("black_henna", ["yes, no reaction", "yes, not sure whether it reacted"]),
        past=True,
    )
    allergies: Asked[
        Several[
            Literal[
                "hair dye or one of its ingredients",
                "textile dye",
                "benzocaine or similar local anaesthetic",
                "sulfonamide medicine",
                "PABA sunscreen",
                "black rubber",
                "persulfate (bleach powder)",
                "latex",
                "fragrance or preservative",
                "something else",
            ]
        ]
    ] = ask(
        "Known allergies, by group",
        "Which of these are you allergic to? Tick all that apply; none is an answer too.",
        short="Allergies",
        how_to_tell="Several of these are related to hair-dye chemicals.",
        sensitive=True,
        past=True,
    )
    pregnancy: Asked[Literal["neither", "pregnant", "breastfeeding"]] = ask(
        "Pregnant or breastfeeding?",
        "Are you pregnant or breastfeeding?",
        short="Pregnancy",
        sensitive=True,
        clear=["neither"],
    )
    pregnancy_week: Asked[Annotated[int, Field(ge=0, le=43)]] = ask(
        "Full weeks of pregnancy",
        "How many weeks of the pregnancy are complete?",
        short="Full weeks",
        unit="weeks",
        only_if=("pregnancy", ["pregnant"]),
        sensitive=True,
    )
    treatments: Asked[
        Several[
            Literal[
                "chemotherapy now",
                "chemotherapy in the past",
                "radiotherapy to the head",
                "surgery or stitches on the scalp",
                "a doctor advised against colouring",
                "other treatment by a doctor",
            ]
        ]
    ] = ask(
        "Medical treatment that touches hair or scalp",
        "Are you having, or have you had, any of these treatments?",
        short="Treatment",
        sensitive=True,
    )
    chemotherapy_ended: Asked[Day] = ask(
        "Date of the last chemotherapy",
        "When was the last chemotherapy?",
        short="Chemo ended",
        only_if=("treatments", ["chemotherapy in the past"]),
        past=True,
        sensitive=True,
    )
    surgery_released: Asked[YesNo] = ask(
        "Has the surgical team allowed colour, and is the skin closed?",
        "Has the surgical team said yes to colouring, and is the skin fully closed?",
        short="Surgeon's yes",
        only_if=("treatments", ["surgery or stitches on the scalp"]),
        sensitive=True,
        clear=["yes"],
    )
    medicines: Asked[
        Several[
            Literal[
                "isotretinoin now or in the last 6 months",
                "medicine that makes skin sensitive",
                "medicine that makes skin sensitive to light",
                "hair shedding from a medicine or illness",
            ]
        ]
    ] = ask(
        "Medicines that matter here",
        "Do any of these apply: a medicine, or hair that sheds?",
        short="Medicines",
        how_to_tell="The leaflet of the medicine or a pharmacist can tell.",
        sensitive=True,
    )
    asthma: Asked[YesNo] = ask(
        "Asthma (client or whoever applies)?",
        "Does the person whose hair it is, or whoever puts it on, have asthma?",
        short="Asthma",
        sensitive=True,
        clear=["no"],
    )
    skin_conditions: Asked[
        Several[
            Literal[
                "eczema or dermatitis",
                "psoriasis",
                "seborrhoeic dermatitis",
                "alopecia",
                "hand eczema",
                "another skin condition",
            ]
        ]
    ] = ask(
        "Skin conditions, now or in the past",
        "Do you have, or have you had, any of these skin conditions?",
        short="Skin conditions",
        sensitive=True,
    )
    skin_active: Asked[YesNo] = ask(
        "Is it active on scalp, face, ears or neck now?",
        "Is that skin condition showing now on the scalp, face, ears or neck?",
        short="Active now",
        only_if=(
            "skin_conditions",
            ["eczema or dermatitis", "psoriasis", "seborrhoeic dermatitis", "another skin condition"],
        ),
        sensitive=True,
        clear=["no"],
    )
    works_with_colour: Asked[YesNo] = ask(
        "Does the client work with hair colour?",
        "Do you handle hair colour in your work?",
        short="Works with colour",
        clear=["no"],
    )
    doctor_allows: Asked[Several[DoctorsTopic]] = ask(
        "Colour allowed by a doctor, in knowledge of:",
        "Has a doctor who knows of it said that colouring is all right? For which of these?",
        short="Doctor allows",
        how_to_tell="Only what was asked and answered. A past reaction to hair colour is not on this list: only a "
        "dermatologist's patch testing can say more about that.",
        sensitive=True,
        optional=True,
        since=3,
        clear=ALL,
    )
    doctor_allows_by: Asked[Text] = ask(
        "Who allowed it (name or practice)",
        "Which doctor or practice said so?",
        short="Allowed by",
        only_if=("doctor_allows", get_args(DoctorsTopic)),
        sensitive=True,
        since=3,
        clear=ALL,
    )
    doctor_allows_on: Asked[Day] = ask(
        "When was it allowed?",
        "When did the doctor say so?",
        short="Allowed on",
        only_if=("doctor_allows", get_args(DoctorsTopic)),
        sensitive=True,
        since=3,
    )
