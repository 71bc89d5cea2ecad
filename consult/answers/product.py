"""The product as its pack and leaflet describe it. The leaflet always wins."""

from typing import Annotated, Literal

from pydantic import Field

from consult.answers.base import ALL, Asked, Depth, Section, Several, Text, YesNo, ask
from consult.answers.typed_colour import COLOUR_UNIT, TypedColour
from consult.answers.units import (
    LeafletMinutes,
    Minutes,
    PackMl,
    Percent,
    PeroxidePercent,
    Ratio,
    TotalMinutes,
    TubeGrams,
)
from consult.trade import MIXED, ColourClass, CountedFrom, FirstTimeOrder, Tone

_MIXED = ("colour_class", MIXED)

PackState = Literal["opened before", "past its date", "mixed before", "damaged or leaking"]


class Product(Section):
    kind: Asked[Literal["retail kit", "tube and developer"]] = ask(
        "Retail kit, or tube and developer?",
        "Is it a boxed kit, or a tube to which developer is bought?",
        short="Kind",
        hints={
            "retail kit": "one box, everything in it",
            "tube and developer": "also a tube that needs no developer",
        },
        clear=ALL,
    )
    colour_class: Asked[ColourClass] = ask(
        "Class of colour",
        "What sort of colour is it?",
        short="Class",
        hints={
            "permanent": "mixed with developer; covers, can lift",
            "demi-permanent": "mixed with weak developer; blends, does not lift",
            "high-lift": "lightens natural hair strongly",
            "powder lightener": "bleach",
            "direct (no developer)": "nothing to mix; washes out",
        },
        clear=["permanent", "demi-permanent"],
    )
    name: Asked[Text] = ask(
        "Name for the record", "A name for it, as on the pack", short="Product", optional=True, clear=ALL
    )
    shade: Asked[Text] = ask(
        "Shade as printed", "The shade as printed on the pack", short="Shade", optional=True, clear=ALL
    )
    depth: Asked[Depth] = ask(
        "Depth of the shade",
        "The number of the shade's lightness, 1 to 10",
        short="Shade depth",
        how_to_tell="Usually the number before the dot, dash or stroke on the pack.",
        clear=ALL,
    )
    tone: Asked[Tone] = ask(
        "Tone family of the shade",
        "The tone of the shade, in words",
        short="Shade tone",
        how_to_tell="Read the pack's words; tone numbers mean different things on different packs.",
        clear=ALL,
    )
    swatch: Asked[TypedColour] = ask(
        "Colour of its swatch, measured or off a photograph",
        "The colour of this shade on the maker's chart, if you have measured it",
        short="Swatch",
        unit=COLOUR_UNIT,
        how_to_tell="CIELAB as three numbers, or #rrggbb; `consult swatch PHOTO` reads it off a photograph.",
        optional=True,
        clear=ALL,
    )
    pack: Asked[Several[PackState]] = ask(
        "The pack: opened, expired, mixed or damaged?",
        "Look at the pack. Is any of this so? None is an answer too.",
        short="The pack",
        how_to_tell="A jar with a number such as 12M, or a date, stands on the pack.",
        since=3,
    )
    professional_only: Asked[YesNo] = ask(
        'Label says "for professional use only"?',
        'Does the label say "for professional use only"?',
        short="Professional only",
        since=3,
        clear=["no"],
    )
    chart_from: Asked[Depth] = ask(
        "Darkest starting depth on its chart",
        "On the pack's before-and-after chart: the darkest starting hair, as a number",
        short="Chart from",
        how_to_tell="No numbers on it, only names: not sure.",
        only_if=("kind", ["retail kit"]),
        clear=ALL,
    )
    chart_to: Asked[Depth] = ask(
        "Lightest starting depth on its chart",
        "On the same chart: the lightest starting hair, as a number",
        short="Chart to",
        how_to_tell="No numbers on it, only names: not sure.",
        only_if=("kind", ["retail kit"]),
        clear=ALL,
    )
    white_claim: Asked[Literal["full cover", "blends white", "no claim"]] = ask(
        "What the pack claims for white hair",
        "What does the pack promise for white hair?",
        short="White claim",
        clear=ALL,
    )
    developer_percent: Asked[PeroxidePercent] = ask(
        "Developer strength",
        "Strength of the developer, as printed",
        short="Developer",
        unit="% (or vol)",
        how_to_tell='With its unit: "6 %" or "20 vol". 3 % is 10 vol, 6 % is 20, 9 % is 30, 12 % is 40. A kit that '
        'does not print it: "not sure".',
        only_if=_MIXED,
    )
    ratio: Asked[Ratio] = ask(
        "Mixing ratio: parts of developer to 1 part of colour",
        "Mixing ratio on the leaflet, colour to developer",
        short="Ratio",
        unit="e.g. 1:1.5",
        how_to_tell="It must be printed on the pack. For a kit that is emptied together, compare the two volumes.",
        only_if=_MIXED,
    )
    named_together: Asked[YesNo] = ask(
        "Colour and developer meant for each other by their maker?",
        "Do the pack's words say that this colour and this developer belong together?",
        short="Belong together",
        only_if=_MIXED,
        clear=["yes"],
    )
    minutes_new_growth: Asked[LeafletMinutes] = ask(
        "Leaflet: minutes on new growth",
        "Leaflet: minutes on the new growth",
        short="New growth",
        unit="min",
        clear=ALL,
    )
    minutes_white: Asked[LeafletMinutes] = ask(
        "Leaflet: minutes on white hair",
        "Leaflet: minutes on white hair (if it says nothing, as for new growth)",
        short="White",
        unit="min",
        clear=ALL,
    )
    minutes_refresh: Asked[Minutes] = ask(
        "Leaflet: minutes to refresh the lengths",
        "Leaflet: minutes on the lengths to refresh them (0 if it allows none)",
        short="Refresh",
        unit="min",
        clear=ALL,
    )
    minutes_min: Asked[LeafletMinutes] = ask(
        "Leaflet: shortest time",
        "Leaflet: the shortest time",
        short="Shortest",
        unit="min",
        clear=ALL,
    )
    minutes_max: Asked[LeafletMinutes] = ask(
        "Leaflet: longest time, everything counted",
        "Leaflet: the longest time it may stay on",
        short="Longest",
        unit="min",
        clear=ALL,
    )
    counted_from: Asked[CountedFrom] = ask(
        "Leaflet: from when are its minutes counted?",
        "Leaflet: from when do its minutes count?",
        short="Counted from",
        hints={
            "the end of application": '"when all is applied, leave for ..."',
            "the first touch": '"from the start", or application included',
            "it does not say": "read, and nothing stands there",
        },
        how_to_tell="Not sure counts as from the first touch, the stricter way.",
        since=3,
        clear=ALL,
    )
    minutes_total: Asked[TotalMinutes] = ask(
        "Leaflet: longest time from first touch to rinse, if it names one",
        "Leaflet: the longest time from the first dab to the rinse, if it names one",
        short="Total limit",
        unit="min",
        optional=True,
        since=3,
        clear=ALL,
    )
    mix_minutes: Asked[LeafletMinutes] = ask(
        "Leaflet: minutes the mix stays good, if it says",
        "Leaflet: how long the mix may be used, if it says",
        short="Mix good for",
        unit="min",
        only_if=_MIXED,
        optional=True,
        since=3,
        clear=ALL,
    )
    first_time_order: Asked[FirstTimeOrder] = ask(
        "Leaflet: order on hair never coloured before",
        "Leaflet: what does it say about hair that was never coloured before?",
        short="First-time order",
        optional=True,
        since=3,
        clear=ALL,
    )
    pack_ml: Asked[PackMl] = ask(
        "Product from one pack, ready to apply",
        "How much product, ready to put on, does one pack give?",
        short="One pack",
        unit="ml (or fl oz)",
        how_to_tell="Colour and developer together, where there are two; without the conditioner.",
        only_if=("kind", ["retail kit"]),
        clear=ALL,
    )
    tube_g: Asked[TubeGrams] = ask(
        "Colour in one tube",
        "How much colour is in one tube?",
        short="One tube",
        unit="g (or oz)",
        only_if=("kind", ["tube and developer"]),
        clear=ALL,
    )
    price: Asked[Annotated[float, Field(ge=0, le=10_000)]] = ask(
        "Price of one pack or tube",
        "What does one pack cost?",
        short="Price",
        optional=True,
        clear=ALL,
    )
    age_limit: Asked[Annotated[int, Field(ge=0, le=99)]] = ask(
        "Leaflet: age limit",
        "Leaflet: from which age may it be used?",
        short="Age limit",
        unit="years",
    )
    test_hours: Asked[Annotated[int, Field(ge=0, le=144)]] = ask(
        "Leaflet: hours from allergy alert test to colour",
        "Leaflet: how many hours before must the skin test be made?",
        short="Test hours",
        unit="hours",
        how_to_tell="48 in most leaflets. Never less than 48 is used here.",
        clear=ALL,
    )
    contains_ammonia: Asked[YesNo] = ask(
        'Label says "contains ammonia"?',
        'Does the label say "contains ammonia"?',
        short="Ammonia",
        clear=["no"],
    )
    ppd_percent: Asked[Percent] = ask(
        "p-Phenylenediamine in the tube, if the label says",
        "PPD in the colour, if the label gives a figure",
        short="PPD",
        unit="%",
        optional=True,
    )
    toluenediamine_percent: Asked[Percent] = ask(
        "Toluene-2,5-diamine in the tube (free base), if the label says",
        "Toluene-2,5-diamine in the colour, if the label gives a figure",
        short="PTD",
        unit="%",
        optional=True,
    )
    resorcinol_percent: Asked[Percent] = ask(
        "Resorcinol in the tube, if the label says",
        "Resorcinol in the colour, if the label gives a figure",
        short="Resorcinol",
        unit="%",
        optional=True,
    )
    ammonia_percent: Asked[Percent] = ask(
        "Ammonia in the tube (as NH3), if the label says",
        "Ammonia in the colour, if the label gives a figure",
        short="Ammonia %",
        unit="%",
        optional=True,
    )
