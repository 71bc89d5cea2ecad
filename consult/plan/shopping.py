"""What to buy, how sure it is to be enough, what it costs, and the trade's rule of thumb beside it."""

import math

from msgspec import Struct

from consult.plan.amounts import (
    DIAMETER_UM,
    HAIRS,
    LOSS,
    MIX_PER_HAIR_LEAST,
    MIX_PER_HAIR_MOST,
    Need,
    head_mass,
    mean_beyond,
    together,
)
from consult.plan.application import Act, Application
from consult.plan.bowls import MIX_DENSITY, Mix, Recipes
from consult.plan.case import Case
from consult.plan.lines import Line, line
from consult.plan.phrasing import percent
from consult.plan.settings import Settings
from consult.plan.targets import name_of
from consult.products.kinds import Auxiliary, Direct, Kit, Product, Tube
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import Stretch

USUAL_PACK_ML = (Number(100, "ml", COMMON_PRACTICE), Number(120, "ml", COMMON_PRACTICE))
MID_LENGTH_FROM = Number(20, "cm", ASSUMPTION)
LONG_FROM = Number(44, "cm", "robbins-2003-lengths")


class Purchase(Struct, frozen=True):
    """One product that is bought: its packs or tubes, or grams where nobody told of its pack.

    expected_g is the mean need, mix_g what is bought to be safe, the rest included; run_out[n - 1] is the
    chance that n packs (of a kit, or tubes with their developer) are not enough, empty where there are none.
    """

    product: Product | Auxiliary
    packs: int
    pieces: tuple[tuple[str, int], ...]
    developer_g: float
    expected_g: int
    mix_g: float
    run_out: tuple[float, ...]
    cost: float | None
    line: Line


def buy(recipes: Recipes, mixes: tuple[Mix, ...], settings: Settings) -> tuple[Purchase, ...]:
    """One purchase a product, in the order they are put on."""
    found = []
    for product in dict.fromkeys(recipe.bowl.product for recipe in recipes):
        mine = [mix for mix in mixes if mix.bowl.product == product]
        need = together(recipe.need for recipe in recipes if recipe.bowl.product == product)
        found.append(_purchase(product, mine, need, settings))
    return tuple(found)


def _purchase(product: Product | Auxiliary, mixes: list[Mix], need: Need, settings: Settings) -> Purchase:
    developer = round(sum(mix.developer_g + mix.rest.developer_g for mix in mixes), 2)
    mixed = round(sum(mix.grams + mix.rest.grams for mix in mixes), 2)
    pieces = _pieces(product, mixes)
    packs = sum(count for _, count in pieces)
    each = _makes(product)
    odds = tuple(round(need.chance_above(n * each), 4) for n in range(1, packs + 1)) if each else ()
    price = None if isinstance(product, Auxiliary) else product.price
    cost = None if price is None or not packs else round(price * packs, 2)
    told = _told(product, pieces, developer, mixes, odds, cost, settings)
    return Purchase(product, packs, pieces, developer, round(need.mean), mixed, odds, cost, told)


def _pieces(product: Product | Auxiliary, mixes: list[Mix]) -> tuple[tuple[str, int], ...]:
    """Whole packs, or whole tubes of each shade."""
    if isinstance(product, Auxiliary):
        return ()
    if isinstance(product.package, Kit):
        return (("pack", sum(mix.packs + mix.rest.packs for mix in mixes)),)
    if not isinstance(product.package, Tube):
        return ()
    grams: dict[str, float] = {}
    for mix in mixes:
        for part in (*mix.colours, *mix.rest.colours):
            grams[part.name] = grams.get(part.name, 0.0) + part.grams
    return tuple((name, math.ceil(g / product.package.grams - 1e-9)) for name, g in grams.items() if g > 0)


def _makes(product: Product | Auxiliary) -> float:
    """Grams of ready mix from one pack or tube; 0 where the pack is not known."""
    if isinstance(product, Auxiliary):
        return 0.0
    if isinstance(product.package, Kit):
        return product.package.pack_ml * MIX_DENSITY
    return product.package.grams * product.parts if isinstance(product.package, Tube) else 0.0


def _told(
    product: Product | Auxiliary,
    pieces: tuple[tuple[str, int], ...],
    developer: float,
    mixes: list[Mix],
    odds: tuple[float, ...],
    cost: float | None,
    settings: Settings,
) -> Line:
    if isinstance(product, Auxiliary):
        return line(
            f"And {mixes[0].grams:g} g of {product.label}.",
            product.because,
        )
    if isinstance(product.package, Kit):
        count = pieces[0][1]
        ready = "ready to use" if isinstance(product, Direct) else "mixed"
        of = f"{product.label}, " if product.name else ""
        what = f"{count} pack{'s' if count > 1 else ''} of {of}{product.package.pack_ml:.0f} ml {ready}"
    elif pieces:
        of = f"{product.name} " if product.name else ""
        counted = [f"{n} tube{'s' if n > 1 else ''} of {of}{name}" for name, n in pieces]
        what = ", ".join(counted) + _developer_beside(product, developer)
    else:
        grams = sum(mix.colour_g + sum(part.grams for part in mix.rest.colours) for mix in mixes)
        what = f"the {product.name}: {grams:g} g {mixes[0].colours[0].name} with its own developer"
    chances = "; ".join(
        f"with {n} it is {chance_words(odds[n - 1])}" for n in range(max(1, len(odds) - 1), len(odds) + 1)
    )
    safe = f"Chance of running out: {chances}. " if chances else ""
    return line(
        f"Buy {what}." + (f" Together {cost:.2f}." if cost is not None else ""),
        f"{safe}The smallest number with at most {percent(settings.run_out_chance)} is taken, rounded up for each "
        "bowl and shade: running out half way leaves a dividing line.",
        (COMMON_PRACTICE, ASSUMPTION),
    )


def _developer_beside(product: Product, grams: float) -> str:
    return (
        "" if isinstance(product, Direct) else f", {grams:g} g of {product.developer.percent:g} % developer"
    )


def chance_words(chance: float) -> str:
    """A chance as people say it."""
    if chance < 0.005:
        return "hardly any"
    return "certain" if chance > 0.995 else f"about {percent(chance)}"


def rule_of_thumb(case: Case) -> int:
    """Packs of 100 to 120 ml for a whole head: 1 short, 2 mid-length fine, +1 long, +1 thick or dense."""
    length = case.head.length_cm
    if length < MID_LENGTH_FROM:
        return 1
    return 2 + (length >= LONG_FROM) + (case.hair.thickness != "fine" or case.hair.density == "high")


def amount_lines(case: Case, recipes: Recipes, purchases: tuple[Purchase, ...]) -> tuple[Line, ...]:
    """How much hair and mix, what to buy, and the rule of thumb beside it."""
    portions = [p for recipe in recipes for p in recipe.portions if not p.application.emulsified]
    expected = [f"{name_of(p.application.target)} {p.need.mean:.0f} g" for p in portions]
    mixed = sum(purchase.mix_g for purchase in purchases)
    hair, wanted = HAIRS[case.hair.density], sum(purchase.expected_g for purchase in purchases)
    first = line(
        f"About {head_mass(case):.0f} g of hair on the head; expected {wanted:.0f} g ({', '.join(expected)}), "
        f"{mixed:.0f} g bought to be safe.",
        f"{hair:,.0f} hairs, {DIAMETER_UM[case.hair.thickness]:g} um thick, mean strand {mean_beyond(case, 0):.0f} cm, "
        "thinning towards the points; "
        f"{MIX_PER_HAIR_LEAST:g} to {MIX_PER_HAIR_MOST:g} g of mix a gram of hair, {percent(LOSS)} left in bowl and "
        "brush, and never less than wets scalp and partings.",
        ("maibach-wolfram-1981", "bleach-tress-2004", "density-1977", ASSUMPTION),
        plain_because=f"{percent(LOSS)} stays in bowl and brush, and scalp and partings must be wetted whatever the "
        "length.",
    )
    return (
        first,
        *(purchase.line for purchase in purchases),
        _beside(case, [p.application for p in portions], purchases),
    )


def _beside(case: Case, applications: list[Application], purchases: tuple[Purchase, ...]) -> Line:
    thumb, packs = rule_of_thumb(case), sum(purchase.packs for purchase in purchases)
    whole = f"for a whole head with packs of {USUAL_PACK_ML[0]:g} to {USUAL_PACK_ML[1]:g} ml"
    beyond = any(Stretch.LENGTHS in a.target.stretches and a.act is not Act.DAB for a in applications)
    if not beyond:
        text = f"The rule of thumb {whole} would be {thumb}; new growth alone needs less."
    elif packs > thumb:
        text = f"The rule of thumb {whole} says {thumb}; the computed {packs} are used."
    elif packs < thumb:
        computed = f"{packs} {'is' if packs == 1 else 'are'} computed"
        text = f"The rule of thumb {whole} says {thumb}; {computed}. A spare unopened pack does no harm."
    else:
        text = f"The rule of thumb {whole} says {thumb} as well."
    return line(
        text,
        "2 for mid-length fine hair, one more if long, one more if thick or dense. It knows neither the hair's "
        f"true length ({case.head.length_cm:g} cm) nor its mass.",
    )
