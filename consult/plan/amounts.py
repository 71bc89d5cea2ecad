"""How much hair, and how much mix it needs: a mean with its spread for every application.

mass = hairs x cross-section x density of hair x mean strand; mix = mass x grams of mix a gram of hair, with
what stays in bowl and brush, and at the scalp never under what wets scalp and partings. Each input is a mean
with its spread; together they make a log-normal need. Nothing here is drawn at random.
"""

import math
from collections.abc import Iterable
from functools import lru_cache, reduce

from msgspec import Struct

from consult.plan.application import Application, Target, Which
from consult.plan.case import Case
from consult.plan.rounds import MUCH_WHITE
from consult.sources import ASSUMPTION, COMMON_PRACTICE, FROM_MEMORY, Number
from consult.trade import Density, Stretch, Thickness, Zone

HAIRS: dict[Density, Number] = {
    "low": Number(90_000, "hairs", "density-1977"),
    "normal": Number(110_000, "hairs", "density-1977"),
    "high": Number(150_000, "hairs", "modern-hair-science"),
}
DIAMETER_UM: dict[Thickness, Number] = {
    "fine": Number(55, "um", COMMON_PRACTICE),
    "medium": Number(70, "um", "diameter-1983"),
    "coarse": Number(80, "um", COMMON_PRACTICE),
}
HAIR_DENSITY = Number(1.32, "g/cm3", FROM_MEMORY)
MEAN_STRAND = {
    False: Number(0.7, "of the longest hair, one length", ASSUMPTION),
    True: Number(0.65, "of the longest hair, layers: the upper strands are cut shorter", ASSUMPTION),
}
# Not every hair lives long enough to reach the points: hair is thickest at the scalp and thins towards them.
# With this term the table that is taught (100 to 150 g to the shoulder, 220 to 300 g to the middle of the back)
# is met from fine to dense; without it long hair came out at up to twice that.
THINNED_OUT_CM = Number(90, "cm from the scalp at which no hair would be left", ASSUMPTION)
THINNED_OUT_BEYOND = Number(1.25, "of the hair's own length, where that is more", ASSUMPTION)
# Between the two published figures: 1.0 as customers use it, 1.5 as the least that is common.
MIX_PER_HAIR = Number(1.25, "g mix per g hair", ASSUMPTION)
MIX_PER_HAIR_LEAST = Number(1.0, "g mix per g hair", "bleach-tress-2004")
MIX_PER_HAIR_MOST = Number(1.5, "g mix per g hair", "maibach-wolfram-1981")
REFRESH_LESS = Number(0.25, "g less mix per g hair when thinned with water", ASSUMPTION)
LEAST_HAIR = Number(1, "g of hair, so that no bowl is empty", ASSUMPTION)
LOSS = Number(0.07, "of the mix stays in bowl and brush", ASSUMPTION)
NEW_GROWTH_FLOOR = Number(40, "g", COMMON_PRACTICE)
NEW_GROWTH_FLOOR_DENSE = Number(60, "g", COMMON_PRACTICE)
FLOOR_SPREAD = Number(0.12, "of the floor", ASSUMPTION)
SPREAD_HAIRS = Number(0.07, "of the hair count within its class", ASSUMPTION)
SPREAD_AREA = Number(0.06, "of the cross-section within its class", ASSUMPTION)
SPREAD_STRAND = {
    False: Number(0.07, "of the mean strand, one length", ASSUMPTION),
    True: Number(0.15, "of the mean strand, layers: several lengths", ASSUMPTION),
}


def hair_mass(hairs: float, diameter_um: float, mean_length_cm: float) -> float:
    """Grams of hair. 117,600 hairs of 69.6 um and 10.16 cm are 60 g (Maibach and Wolfram 1981)."""
    area_cm2 = math.pi / 4 * (diameter_um * 1e-4) ** 2
    return hairs * area_cm2 * HAIR_DENSITY * mean_length_cm


def _above(deviations: float) -> float:
    """Share of a normal distribution above so many standard deviations."""
    return math.erfc(deviations / math.sqrt(2)) / 2


@lru_cache(maxsize=64)
def _deviations(chance: float) -> float:
    """Standard deviations with this share above them. By halving: the standard library's own inverse costs
    15 ms to load, at every start of the program."""
    low, high = -8.0, 8.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if _above(middle) > chance else (low, middle)
    return (low + high) / 2


class Need(Struct, frozen=True):
    """Grams needed: a mean and a standard deviation, as a log-normal."""

    mean: float
    deviation: float

    def _log(self) -> tuple[float, float]:
        """Mean and standard deviation of the logarithm."""
        spread = math.sqrt(math.log(1 + (self.deviation / self.mean) ** 2))
        return math.log(self.mean) - spread**2 / 2, spread

    def chance_above(self, grams: float) -> float:
        """Chance that more than so many grams are needed."""
        middle, spread = self._log()
        return _above((math.log(grams) - middle) / spread)

    def quantile(self, chance: float) -> float:
        """Grams that are enough but for this chance."""
        middle, spread = self._log()
        return math.exp(middle + spread * _deviations(chance))

    def packs(self, pack_g: float, chance: float) -> int:
        """The smallest number of packs whose chance of running out is at most `chance`."""
        return max(1, math.ceil(self.quantile(chance) / pack_g - 1e-9))


NOTHING = Need(0.0, 0.0)


def together(needs: Iterable[Need]) -> Need:
    """Needs of one head together. They share the same head, so their spreads add up fully."""
    return reduce(lambda a, b: Need(a.mean + b.mean, a.deviation + b.deviation), needs)


def need_of_hair(hair_g: float, *, thinned: bool = False, layered: bool = False) -> Need:
    """Need of hair that is coloured over its length."""
    low, mode, high = float(MIX_PER_HAIR_LEAST), float(MIX_PER_HAIR), float(MIX_PER_HAIR_MOST)
    if thinned:
        mode, high = mode - REFRESH_LESS, high - 2 * REFRESH_LESS
    per_gram = (low + mode + high) / 3
    variance = (low**2 + mode**2 + high**2 - low * mode - low * high - mode * high) / 18
    relative = math.sqrt(
        variance / per_gram**2 + SPREAD_HAIRS**2 + SPREAD_AREA**2 + SPREAD_STRAND[layered] ** 2
    )
    mean = hair_g * per_gram * (1 + LOSS)
    return Need(mean, mean * relative)


def mean_beyond(case: Case, cm: float) -> float:
    """Mean length of hair beyond a distance from the scalp, over all hairs that grow.

    Strands are taken as cut evenly between the shortest and the longest, about the cut's mean, and as thinned
    out evenly with the distance from the scalp.
    """
    longest = case.head.length_cm
    shortest = longest * (2 * MEAN_STRAND[case.hair.layered] - 1)
    gone = max(float(THINNED_OUT_CM), THINNED_OUT_BEYOND * longest)
    if cm >= longest:
        return 0.0
    uncut = _uncut(cm, min(shortest, longest), gone) if cm < shortest else 0.0
    return uncut + _cut(max(cm, shortest), shortest, longest, gone)


def _uncut(start: float, end: float, gone: float) -> float:
    """Integral of 1 - x / gone: every strand reaches so far, but for those that never grew so long."""
    return (end - start) - (end**2 - start**2) / (2 * gone)


def _cut(start: float, shortest: float, longest: float, gone: float) -> float:
    """Integral from `start` to `longest` of (longest - x) / (longest - shortest) * (1 - x / gone)."""
    left = longest - start
    return (left**2 / 2 * (1 - longest / gone) + left**3 / (3 * gone)) / (longest - shortest)


def head_mass(case: Case, from_cm: float = 0.0, to_cm: float | None = None) -> float:
    """Grams of this person's hair between two distances from the scalp, over the whole head."""
    end = 0.0 if to_cm is None else mean_beyond(case, to_cm)
    mean = mean_beyond(case, from_cm) - end
    return hair_mass(HAIRS[case.hair.density], DIAMETER_UM[case.hair.thickness], mean)


def target_mass(case: Case, target: Target) -> float:
    """Grams of the hair that is meant: of its zones, which are taken as a quarter of the head each."""
    grams = 0.0
    for area in case.head.areas:
        share = sum(zone in target.zones for zone in area.zones) / len(Zone)
        for band in area.strand.bands:
            if share and target.holds(band, area.zones):
                meant = band.white_share if target.which is Which.WHITE else 1.0
                grams += share * meant * head_mass(case, band.start_cm, band.end_cm)
    return grams


def need_of(case: Case, application: Application) -> Need:
    """What one application needs; nothing where the colour that lies there is only drawn on.

    At the scalp it is set by wetting scalp and partings, unless the hair there needs more.
    """
    if application.emulsified:
        return NOTHING
    target = application.target
    by_hair = need_of_hair(
        max(LEAST_HAIR, target_mass(case, target)), thinned=application.water, layered=case.hair.layered
    )
    if Stretch.SCALP not in target.stretches or target.which is not Which.EVERY:
        return by_hair
    more = case.hair.density == "high" or case.head.white_mean >= MUCH_WHITE
    floor = float(NEW_GROWTH_FLOOR_DENSE if more else NEW_GROWTH_FLOOR) * len(target.zones) / len(Zone)
    least = Need(floor, floor * FLOOR_SPREAD)
    return least if by_hair.mean < least.mean else by_hair
