"""The depth and tone chart: natural hair, undertones, and shades on natural, white and lightened hair."""

from typing import TYPE_CHECKING

from msgspec import Struct

from consult.trade import NATURAL_TONES, TONES, depth_name

if TYPE_CHECKING:
    # Needs numpy, which is loaded when a colour is asked for.
    from consult.colour.values import HairState, Treatment

UNDERTONE_FROM = 3
SHADE_DEPTHS = (6, 8)
NATURAL_TONES_AT = 7
FULL_LIFT = 2.0
"""Levels that the developer of a permanent shade can lift."""


class Patch(Struct, frozen=True):
    """One swatch, or several of one row side by side, with its words."""

    colours: tuple[str, ...]
    words: str


def shown(state: "HairState", treatment: "Treatment | None" = None) -> str:
    """What hair in this state looks like after the treatment, #rrggbb. Needs numpy."""
    from consult.colour.prediction import predict
    from consult.colour.values import Shade

    # What is wanted changes nothing about what is seen.
    return predict(state, treatment, Shade(6, "neutral")).seen.hex


def depth_and_tone_chart() -> list[tuple[str, list[Patch]]]:
    """(title, patches) for the parts of the chart. Needs numpy."""
    from consult.colour.undertone import undertone
    from consult.colour.values import HairState, Shade, Treatment

    natural = [Patch((shown(HairState(d)),), f"depth {depth_name(d)}") for d in range(1, 11)]
    natural += [
        Patch((shown(HairState(NATURAL_TONES_AT, natural_tone=tone)),), f"{NATURAL_TONES_AT}, natural {tone}")
        for tone in NATURAL_TONES
    ]
    lifted = [
        Patch(
            (shown(HairState(UNDERTONE_FROM, lightened_levels=level - UNDERTONE_FROM)),),
            f"at {level}: {undertone(level).word}",
        )
        for level in range(UNDERTONE_FROM + 1, 11)
    ]
    parts = [("Natural hair", natural), (f"Undertones, lifted from {UNDERTONE_FROM}", lifted)]
    for depth in SHADE_DEPTHS:
        bases = (
            (HairState(depth), FULL_LIFT),
            (HairState(depth, 1.0), FULL_LIFT),
            (HairState(UNDERTONE_FROM, lightened_levels=depth + 1 - UNDERTONE_FROM), 0.0),
        )
        shades = [
            Patch(
                tuple(shown(state, Treatment(Shade(depth, tone), lift)) for state, lift in bases),
                f"{depth} {tone}",
            )
            for tone in TONES
        ]
        parts.append((f"Shades of {depth}: natural, white, lightened", shades))
    return parts
