"""The colour sheet: natural depths, undertones and tones on white, as the model sees them."""

from dataclasses import dataclass

from consult.trade import TONES, depth_name

UNDERTONE_FROM = 3


@dataclass(frozen=True)
class Patch:
    """One swatch with its words."""

    colour: str
    words: str


def colour_sheet() -> list[tuple[str, list[Patch]]]:
    """(title, patches) for the three parts of the sheet. Needs numpy."""
    from consult.colour.prediction import predict
    from consult.colour.undertone import undertone
    from consult.colour.values import HairState, Shade, Treatment

    goal = Shade(6, "neutral")
    natural = [
        Patch(predict(HairState(d), None, goal).seen.hex, f"depth {depth_name(d)}") for d in range(1, 11)
    ]
    bare = Shade(10, "neutral")
    lifted = []
    for level in range(UNDERTONE_FROM + 1, 11):
        lightened = predict(
            HairState(UNDERTONE_FROM), Treatment(bare, float(level - UNDERTONE_FROM), 0.0), goal
        )
        lifted.append(Patch(lightened.pigmented.hex, f"at {level}: {undertone(level).word}"))
    on_white = [
        Patch(predict(HairState(6, 1.0), Treatment(Shade(6, tone), 0.0), goal).white.hex, f"6 {tone}")
        for tone in TONES
    ]
    return [
        ("Natural depths", natural),
        (f"Undertones, lifted from {UNDERTONE_FROM}", lifted),
        ("Shades of depth 6 on white hair", on_white),
    ]
