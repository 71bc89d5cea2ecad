"""How much hair, how much mix, and the chance of running out with so many packs.

mass = hairs x cross-section x density of hair x mean strand; mix = mass x grams of mix a gram of
hair, with what stays in bowl and brush, and never under what wets scalp and partings. Each input is a
mean with its spread; together they make a log-normal need, and the smallest number of packs is bought
whose chance of running out is small enough. Nothing here is drawn at random.
"""

import math
from dataclasses import dataclass
from functools import reduce
from statistics import NormalDist

from consult.plan.brief import Brief
from consult.plan.settings import Settings
from consult.plan.types import Approach, Line, Mix, Quantity
from consult.plan.words import percent
from consult.sources import ASSUMPTION, COMMON_PRACTICE, FROM_MEMORY, Number

HAIRS = {
    "low": Number(90_000, "hairs", "density-1977"),
    "normal": Number(110_000, "hairs", "density-1977"),
    "high": Number(150_000, "hairs", "modern-hair-science"),
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
# 1.0 was measured as customer use, 1.5 to 2.0 as common: a triangle from 1.0 over 1.5 to 2.0.
MIX_PER_HAIR = Number(1.5, "g mix per g hair", "maibach-wolfram-1981")
MIX_PER_HAIR_LEAST = Number(1.0, "g mix per g hair", "bleach-tress-2004")
MIX_PER_HAIR_MOST = Number(2.0, "g mix per g hair", "maibach-wolfram-1981")
REFRESH_LESS = Number(0.25, "g less mix per g hair when thinned with water", ASSUMPTION)
LOSS = Number(0.07, "of the mix stays in bowl and brush", ASSUMPTION)
NEW_GROWTH_FLOOR = Number(40, "g", COMMON_PRACTICE)
NEW_GROWTH_FLOOR_DENSE = Number(60, "g", COMMON_PRACTICE)
FLOOR_SPREAD = Number(0.12, "of the floor", ASSUMPTION)
SPREAD_HAIRS = Number(0.07, "of the hair count within its class", ASSUMPTION)
SPREAD_AREA = Number(0.06, "of the cross-section within its class", ASSUMPTION)
SPREAD_STRAND = Number(0.07, "of the mean strand", ASSUMPTION)
MUCH_WHITE = Number(0.5, "white share", COMMON_PRACTICE)
USUAL_PACK_ML = (Number(100, "ml", COMMON_PRACTICE), Number(120, "ml", COMMON_PRACTICE))
MIX_DENSITY = Number(1.0, "g/ml", ASSUMPTION)
MID_LENGTH_FROM = Number(20, "cm", ASSUMPTION)
LONG_FROM = Number(44, "cm", "robbins-2003-lengths")
FILLER = "pre-pigment"
ROOT_OF_VIRGIN_CM = Number(1.5, "cm left at the scalp when lengths go first", COMMON_PRACTICE)


def hair_mass(hairs: float, diameter_um: float, mean_length_cm: float) -> float:
    """Grams of hair. 117,600 hairs of 69.6 um and 10.16 cm are 60 g (Maibach and Wolfram 1981)."""
    area_cm2 = math.pi / 4 * (diameter_um * 1e-4) ** 2
    return hairs * area_cm2 * HAIR_DENSITY * mean_length_cm


@dataclass(frozen=True)
class Need:
    """Grams needed: a mean and a standard deviation, as a log-normal."""

    mean: float
    deviation: float

    def _log(self) -> NormalDist:
        spread = math.sqrt(math.log(1 + (self.deviation / self.mean) ** 2))
        return NormalDist(math.log(self.mean) - spread**2 / 2, spread)

    def chance_above(self, grams: float) -> float:
        """Chance that more than so many grams are needed."""
        return 1 - self._log().cdf(math.log(grams))

    def quantile(self, chance: float) -> float:
        """Grams that are enough but for this chance."""
        return math.exp(self._log().inv_cdf(1 - chance))

    def packs(self, pack_g: float, chance: float) -> int:
        """The smallest number of packs whose chance of running out is at most `chance`."""
        return max(1, math.ceil(self.quantile(chance) / pack_g - 1e-9))


def need_of_hair(hair_g: float, *, thinned: bool = False) -> Need:
    """Need of hair that is coloured over its length."""
    low, mode, high = float(MIX_PER_HAIR_LEAST), float(MIX_PER_HAIR), float(MIX_PER_HAIR_MOST)
    if thinned:
        mode, high = mode - REFRESH_LESS, high - 2 * REFRESH_LESS
    per_gram = (low + mode + high) / 3
    variance = (low**2 + mode**2 + high**2 - low * mode - low * high - mode * high) / 18
    relative = math.sqrt(variance / per_gram**2 + SPREAD_HAIRS**2 + SPREAD_AREA**2 + SPREAD_STRAND**2)
    mean = hair_g * per_gram * (1 + LOSS)
    return Need(mean, mean * relative)


def both(first: Need, second: Need) -> Need:
    """Two needs together. They share the same head, so their spreads add up fully."""
    return Need(first.mean + second.mean, first.deviation + second.deviation)


def _beyond(brief: Brief, cm: float) -> float:
    """Mean length of hair beyond a distance from the scalp.

    Strands are taken as spread evenly between the shortest and the longest of the cut, about the mean.
    """
    longest = brief.strand.length_cm
    shortest = longest * (2 * MEAN_STRAND[brief.layered] - 1)
    if cm >= longest:
        return 0.0
    if cm <= shortest:
        return (shortest + longest) / 2 - cm
    return (longest - cm) ** 2 / (2 * (longest - shortest))


def brief_mass(brief: Brief, from_cm: float = 0.0, to_cm: float | None = None) -> float:
    """Grams of this person's hair between two distances from the scalp."""
    end = 0.0 if to_cm is None else _beyond(brief, to_cm)
    return hair_mass(HAIRS[brief.density], DIAMETER_UM[brief.thickness], _beyond(brief, from_cm) - end)


def _new_growth(brief: Brief, to_cm: float) -> Need:
    """Need at the scalp: set by wetting scalp and partings unless the hair there needs more."""
    more = brief.density == "high" or brief.white_mean >= MUCH_WHITE
    floor = float(NEW_GROWTH_FLOOR_DENSE if more else NEW_GROWTH_FLOOR)
    least = Need(floor, floor * FLOOR_SPREAD)
    hair = brief_mass(brief, 0, to_cm)
    if hair == 0:
        return least
    by_hair = need_of_hair(hair)
    return max(least, by_hair, key=lambda need: need.mean)


def stretch_needs(brief: Brief, approach: Approach) -> dict[str, Need]:
    """The need of each stretch that gets colour, in the order of application; none of an empty stretch."""
    root_cm = brief.new_growth_cm
    if approach is Approach.NEW_GROWTH:
        return {"new growth": _new_growth(brief, root_cm)}
    lengths = brief_mass(brief, root_cm)
    whole = max(need_of_hair(brief_mass(brief)), _new_growth(brief, root_cm), key=lambda need: need.mean)
    needs = {"all over": whole}
    if approach is Approach.REFRESH:
        needs = {"new growth": _new_growth(brief, root_cm)}
        if lengths > 0:
            needs["lengths"] = need_of_hair(lengths, thinned=True)
    elif approach is Approach.LENGTHS_FIRST:
        rest = brief_mass(brief, ROOT_OF_VIRGIN_CM)
        needs = {"lengths": need_of_hair(rest), "roots": _new_growth(brief, ROOT_OF_VIRGIN_CM)}
    elif approach is Approach.PRE_PIGMENT and lengths > 0:
        needs = {FILLER: need_of_hair(lengths, thinned=True), "all over": whole}
    return needs


def total_need(needs: dict[str, Need]) -> Need:
    """The need of the product itself; the filler is another one."""
    return reduce(both, (need for name, need in needs.items() if name != FILLER))


def rule_of_thumb(brief: Brief) -> int:
    """Packs of 100 to 120 ml for a whole head: 1 short, 2 mid-length fine, +1 long, +1 thick or dense."""
    length = brief.strand.length_cm
    if length < MID_LENGTH_FROM:
        return 1
    return 2 + (length >= LONG_FROM) + (brief.thickness != "fine" or brief.density == "high")


def plan_quantity(brief: Brief, approach: Approach, settings: Settings, mixes: tuple[Mix, ...]) -> Quantity:
    """Grams, packs and their risk, for the bowls that are mixed; the filler is bought apart."""
    needs = stretch_needs(brief, approach)
    total = total_need(needs)
    own = [mix for mix in mixes if mix.name != FILLER]
    mixed_g = round(sum(mix.grams for mix in own), 2)
    pack_g = brief.pack_ml * MIX_DENSITY
    shades = tubes(brief, own)
    packs = round(sum(mix.packs for mix in own)) if brief.kit else sum(shades.values())
    thumb = rule_of_thumb(brief)
    hair = brief_mass(brief)
    stretches = ", ".join(f"{name} {need.mean:.0f} g" for name, need in needs.items() if name != FILLER)
    lines = [
        Line(
            f"About {hair:.0f} g of hair on the head; expected {total.mean:.0f} g of mix ({stretches}), "
            f"{mixed_g:.0f} g mixed to be safe.",
            f"{HAIRS[brief.density]:,.0f} hairs, {DIAMETER_UM[brief.thickness]:g} um thick, mean strand "
            f"{_beyond(brief, 0):.0f} cm; {MIX_PER_HAIR_LEAST:g} to {MIX_PER_HAIR_MOST:g} g of mix a gram of "
            f"hair, {percent(LOSS)} left in bowl and brush, and never less than wets scalp and partings.",
            ("maibach-wolfram-1981", "bleach-tress-2004", "density-1977", ASSUMPTION),
        ),
        _shopping(brief, packs, shades, mixes, total, settings),
        _beside(packs, thumb, approach, brief),
    ]
    cost = None if brief.price is None else round(brief.price * packs, 2)
    return Quantity(
        hair_g=round(hair, 1),
        expected_g=round(total.mean),
        mix_g=mixed_g,
        packs=packs,
        run_out=tuple(round(total.chance_above(n * pack_g), 4) for n in range(1, packs + 1)),
        rule_of_thumb=thumb,
        cost=cost,
        lines=tuple(lines),
    )


def tubes(brief: Brief, mixes: list[Mix]) -> dict[str, int]:
    """Whole tubes of each shade that the bowls take."""
    tube_g = brief.pack_ml / (1 + brief.ratio)
    grams: dict[str, float] = {}
    for mix in mixes:
        for shade, g in mix.shades:
            grams[shade] = grams.get(shade, 0.0) + g
    return {shade: math.ceil(g / tube_g - 1e-9) for shade, g in grams.items() if g > 0}


def _shopping(
    brief: Brief,
    packs: int,
    shades: dict[str, int],
    mixes: tuple[Mix, ...],
    total: Need,
    settings: Settings,
) -> Line:
    if brief.kit:
        what = f"{packs} pack{'s' if packs > 1 else ''} of {brief.pack_ml:.0f} ml mixed"
    else:
        counted = [f"{n} tube{'s' if n > 1 else ''} of {shade}" for shade, n in shades.items()]
        developer = math.ceil(sum(mix.developer_g for mix in mixes if mix.name != FILLER))
        what = ", ".join(counted) + f", {developer} g of {brief.developer_percent:g} % developer"
    fillers = [mix for mix in mixes if mix.name == FILLER]
    filler = "".join(
        f", and the filler: {mix.colour_g:g} g {mix.shades[0][0]} with its own developer" for mix in fillers
    )
    cost = f" Together {brief.price * packs:.2f}." if brief.price is not None else ""
    pack_g = brief.pack_ml * MIX_DENSITY
    odds = "; ".join(
        f"with {n} it is {chance_words(total.chance_above(n * pack_g))}"
        for n in range(max(1, packs - 1), packs + 1)
    )
    return Line(
        f"Buy {what}{filler}.{cost}",
        f"Chance of running out: {odds}. The smallest number with at most {percent(settings.run_out_chance)} is "
        "taken, rounded up for each bowl and shade: running out half way leaves a dividing line.",
        (COMMON_PRACTICE, ASSUMPTION),
    )


def chance_words(chance: float) -> str:
    """A chance as people say it."""
    if chance < 0.005:
        return "hardly any"
    if chance > 0.995:
        return "certain"
    return f"about {percent(chance)}"


def _beside(packs: int, thumb: int, approach: Approach, brief: Brief) -> Line:
    whole = f"for a whole head with packs of {USUAL_PACK_ML[0]:g} to {USUAL_PACK_ML[1]:g} ml"
    if approach is Approach.NEW_GROWTH:
        text = f"The rule of thumb {whole} would be {thumb}; new growth alone needs less."
    elif packs > thumb:
        text = f"The rule of thumb {whole} says {thumb}; the computed {packs} are used."
    elif packs < thumb:
        text = f"The rule of thumb {whole} says {thumb}; {packs} are computed. A spare unopened pack does no harm."
    else:
        text = f"The rule of thumb {whole} says {thumb} as well."
    return Line(
        text,
        "2 for mid-length fine hair, one more if long, one more if thick or dense. It knows neither the hair's "
        f"true length ({brief.strand.length_cm:g} cm) nor its mass.",
        (COMMON_PRACTICE,),
    )
