"""How much hair, how much mix, how many packs.

mass = hairs x cross-section x density of hair x mean strand length; mix = mass x grams of mix a
gram of hair, with a reserve, and never under what it takes to wet scalp and partings. Packs are
rounded up, never down.
"""

import math

from consult.plan.brief import Brief
from consult.plan.types import Approach, Line, Quantity
from consult.sources import ASSUMPTION, COMMON_PRACTICE, FROM_MEMORY, Number

HAIRS = {
    "low": Number(90_000, "hairs", "density-1977"),
    "normal": Number(110_000, "hairs", "density-1977"),
    "high": Number(150_000, "hairs", "hair-science-2012"),
}
DIAMETER_UM = {
    "fine": Number(55, "um", COMMON_PRACTICE),
    "medium": Number(70, "um", "diameter-1983"),
    "coarse": Number(80, "um", COMMON_PRACTICE),
}
HAIR_DENSITY = Number(1.32, "g/cm3", FROM_MEMORY)
MEAN_STRAND = {
    False: Number(0.7, "of the longest hair, one length", ASSUMPTION),
    True: Number(0.85, "of the longest hair, layers", ASSUMPTION),
}
MIX_PER_HAIR = Number(2.0, "g mix per g hair", "maibach-wolfram-1981")
MIX_PER_HAIR_REFRESH = Number(1.5, "g mix per g hair", "maibach-wolfram-1981")
RESERVE = Number(0.10, "of the mix", COMMON_PRACTICE)
NEW_GROWTH_FLOOR = Number(40, "g", COMMON_PRACTICE)
NEW_GROWTH_FLOOR_DENSE = Number(60, "g", COMMON_PRACTICE)
MUCH_WHITE = Number(0.5, "white share", COMMON_PRACTICE)
MIX_DENSITY = Number(1.0, "g/ml", ASSUMPTION)
MID_LENGTH_FROM = Number(20, "cm", ASSUMPTION)
LONG_FROM = Number(44, "cm", "robbins-2003-lengths")


def hair_mass(hairs: float, diameter_um: float, mean_length_cm: float) -> float:
    """Grams of hair. 117,600 hairs of 69.6 um and 10.16 cm are 60 g (Maibach and Wolfram 1981)."""
    area_cm2 = math.pi / 4 * (diameter_um * 1e-4) ** 2
    return hairs * area_cm2 * HAIR_DENSITY * mean_length_cm


def brief_mass(brief: Brief, from_cm: float = 0.0, to_cm: float | None = None) -> float:
    """Grams of this person's hair between two distances from the scalp, on the mean strand."""
    mean_length = brief.strand.length_cm * MEAN_STRAND[brief.layered]
    end = mean_length if to_cm is None else min(to_cm, mean_length)
    return hair_mass(HAIRS[brief.density], DIAMETER_UM[brief.thickness], max(0.0, end - from_cm))


def new_growth_floor(brief: Brief) -> float:
    """Least grams of mix that wet scalp and partings for new growth."""
    more = brief.density == "high" or brief.white_mean >= MUCH_WHITE
    return float(NEW_GROWTH_FLOOR_DENSE if more else NEW_GROWTH_FLOOR)


def rule_of_thumb(brief: Brief) -> int:
    """Packs of 100 to 120 ml for a whole head: 1 short, 2 mid-length fine, +1 long, +1 thick or dense."""
    length = brief.strand.length_cm
    if length < MID_LENGTH_FROM:
        return 1
    return 2 + (length >= LONG_FROM) + (brief.thickness != "fine" or brief.density == "high")


def stretch_grams(brief: Brief, approach: Approach) -> dict[str, float]:
    """Grams of mix for each stretch that gets colour, reserve included."""
    more = 1 + RESERVE
    root_cm = brief.new_growth_cm
    root = max(brief_mass(brief, 0, root_cm) * MIX_PER_HAIR * more, new_growth_floor(brief))
    lengths = brief_mass(brief, root_cm)
    if approach is Approach.NEW_GROWTH:
        return {"new growth": root}
    if approach is Approach.REFRESH:
        return {"new growth": root, "lengths": lengths * MIX_PER_HAIR_REFRESH * more}
    whole = max(brief_mass(brief) * MIX_PER_HAIR * more, new_growth_floor(brief))
    if approach is Approach.PRE_PIGMENT:
        return {"pre-pigment": lengths * MIX_PER_HAIR_REFRESH * more, "all over": whole}
    if approach is Approach.LENGTHS_FIRST:
        root = max(brief_mass(brief, 0, 1.5) * MIX_PER_HAIR * more, new_growth_floor(brief))
        return {"lengths": max(whole - root, 0.0), "roots": root}
    return {"all over": whole}


def plan_quantity(brief: Brief, approach: Approach) -> Quantity:
    """Grams and packs for the approach; the pre-pigment is a product of its own and not counted."""
    grams = stretch_grams(brief, approach)
    mix = sum(math.ceil(g) for name, g in grams.items() if name != "pre-pigment")
    packs = max(1, math.ceil(mix / (brief.pack_ml * MIX_DENSITY) - 1e-9))
    thumb = rule_of_thumb(brief)
    hair = brief_mass(brief)
    pack = "pack" if brief.kit else "tube (with its developer)"
    lines = [
        Line(
            f"About {hair:.0f} g of hair on the head, {mix} g of mix needed: "
            + ", ".join(f"{name} {math.ceil(g)} g" for name, g in grams.items())
            + ".",
            f"{HAIRS[brief.density]:,.0f} hairs, {DIAMETER_UM[brief.thickness]:g} um thick; "
            f"{MIX_PER_HAIR:g} g of mix a gram of hair ({MIX_PER_HAIR_REFRESH:g} for a refresh), "
            f"{RESERVE:.0%} reserve, at least {new_growth_floor(brief):g} g on new growth.",
            ("maibach-wolfram-1981", "density-1977", COMMON_PRACTICE),
        ),
        Line(
            f"{packs} {pack}{'s' if packs > 1 else ''} of {brief.pack_ml:.0f} ml mixed.",
            f"{mix} g need {mix / brief.pack_ml:.2f} packs; rounded up, never down: running out half way "
            "leaves a dividing line.",
            (COMMON_PRACTICE,),
        ),
        _beside(packs, thumb, approach),
    ]
    return Quantity(round(hair, 1), mix, packs, thumb, tuple(lines))


def _beside(packs: int, thumb: int, approach: Approach) -> Line:
    whole = "for a whole head"
    if approach is Approach.NEW_GROWTH:
        text = f"The rule of thumb {whole} would be {thumb}; new growth alone needs less."
    elif packs > thumb:
        text = f"The rule of thumb {whole} says {thumb}; the computed {packs} is used."
    elif packs < thumb:
        text = f"The rule of thumb {whole} says {thumb}; computed are {packs}. A spare unopened pack does no harm."
    else:
        text = f"The rule of thumb {whole} says {thumb} as well."
    return Line(
        text,
        "2 for mid-length fine hair, one more if long, one more if thick or dense, with packs of 100 to "
        "120 ml. It knows neither hair count nor real length.",
        (COMMON_PRACTICE,),
    )
