"""What is weighed into each bowl, and when it is mixed.

A kit is mixed by whole or half packs, anything else by weight. A bowl that would be in use for too long is
mixed in several goes, each when its turn comes.
"""

import math
from dataclasses import dataclass
from functools import cached_property

from consult.colour.values import Shade
from consult.plan.amounts import Need, need_of, together
from consult.plan.application import Act, Application, Applications, Bowl
from consult.plan.case import Case
from consult.plan.developer import LEGAL_LIMIT, strength_words
from consult.plan.lines import Line, line
from consult.plan.phrasing import percent
from consult.plan.settings import WORKING_LIMIT, Settings
from consult.plan.targets import name_of
from consult.plan.writing import base_share
from consult.products.kinds import Auxiliary, Direct, Filler, Kit, Product
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

MIX_DENSITY = Number(1.0, "g/ml", ASSUMPTION)
_ON_HEAD = ("eu-1223-annex-iii", "volume-strength", COMMON_PRACTICE)


@dataclass(frozen=True)
class Part:
    """One thing in a bowl and its grams."""

    name: str
    grams: float


@dataclass(frozen=True)
class Mix:
    """One bowl, mixed in one go: `go` of `of` from the same recipe, at a minute of the clock.

    `packs` are whole or half packs of a kit, 0 where it is weighed. `developer_g` is 0 for colour without
    developer.
    """

    bowl: Bowl
    go: int
    of: int
    minute: int
    what_for: str
    packs: float
    colours: tuple[Part, ...]
    developer_g: float
    line: Line

    @property
    def colour_g(self) -> float:
        return round(sum(part.grams for part in self.colours), 2)

    @property
    def grams(self) -> float:
        return round(self.colour_g + self.developer_g, 2)


@dataclass(frozen=True)
class Portion:
    """One application and what it needs."""

    application: Application
    need: Need


@dataclass(frozen=True)
class Recipe:
    """A bowl, and everything that is put on from it."""

    bowl: Bowl
    portions: tuple[Portion, ...]

    @cached_property
    def need(self) -> Need:
        return together(portion.need for portion in self.portions)


Recipes = tuple[Recipe, ...]


def write_recipes(case: Case, applications: Applications) -> Recipes:
    """The bowls in the order they are first used, each application with its need."""
    found: dict[Bowl, list[Portion]] = {}
    for application in applications:
        portion = Portion(application, need_of(case, application))
        found.setdefault(application.bowl, []).append(portion)
    return tuple(Recipe(bowl, tuple(portions)) for bowl, portions in found.items())


def shade_name(shade: Shade) -> str:
    """A shade in words: no number is made up from a name on a pack."""
    return f"depth {shade.depth:g} {shade.tone}"


def mix_bowls(case: Case, recipes: Recipes, settings: Settings) -> tuple[Mix, ...]:
    """Every bowl that is mixed, in order. A kit's packs are dealt out over its bowls by halves."""
    mixes: list[Mix] = []
    for recipe in recipes:
        product = recipe.bowl.product
        if not isinstance(product, Auxiliary) and isinstance(product.package, Kit):
            mixes += _from_packs(product, recipe, recipes, settings)
        else:
            mixes += _weighed_out(case, recipe, settings)
    return tuple(mixes)


def goes(recipe: Recipe) -> tuple[int, ...]:
    """The minutes at which a recipe is mixed: anew whenever painting from one bowl would take too long.

    What does not work in the bowl is filled once.
    """
    used = [portion.application for portion in recipe.portions]
    painted = [a for a in used if a.act is not Act.COMB_THROUGH] or used
    start, end = min(a.start for a in painted), max(a.on_by for a in painted)
    count = max(1, math.ceil((end - start) / WORKING_LIMIT)) if recipe.bowl.product.works_in_the_bowl else 1
    return tuple(start + (end - start) * n // count for n in range(count))


def _from_packs(product: Product, recipe: Recipe, recipes: Recipes, settings: Settings) -> list[Mix]:
    assert isinstance(product.package, Kit)
    pack_g = product.package.pack_ml * MIX_DENSITY
    same = [r for r in recipes if r.bowl.product == product]
    total = together(r.need for r in same)
    bowls = [(r, minute) for r in same for minute in goes(r)]
    halves = max(2 * total.packs(pack_g, settings.run_out_chance), len(bowls))
    halves += halves % 2
    wanted = [r.need.mean / len(goes(r)) for r, _ in bowls]
    dealt = _deal(halves, wanted)
    mine = [(minute, share / 2) for (r, minute), share in zip(bowls, dealt, strict=True) if r is recipe]
    return [
        _kit_mix(product, recipe, go, len(mine), minute, packs) for go, (minute, packs) in enumerate(mine, 1)
    ]


def _deal(count: int, wanted: list[float]) -> list[int]:
    """A number of halves dealt out in proportion to what is wanted, at least one each, the first ones first."""
    dealt = [1] * len(wanted)
    for _ in range(count - len(wanted)):
        short = [share / got for share, got in zip(wanted, dealt, strict=True)]
        dealt[short.index(max(short))] += 1
    return dealt


def _kit_mix(product: Product, recipe: Recipe, go: int, of: int, minute: int, packs: float) -> Mix:
    assert isinstance(product.package, Kit)
    grams = packs * product.package.pack_ml * MIX_DENSITY
    colour = round(grams / product.parts, 1)
    how_many = "half a pack" if packs == 0.5 else f"{packs:g} pack{'s' if packs > 1 else ''}"
    whole = (
        ""
        if packs == int(packs) or isinstance(product, Direct)
        else " Weigh both parts, so that the ratio stays."
    )
    ready = "ready to use" if isinstance(product, Direct) else "mixed as the leaflet says"
    what_for = _what_for(recipe, go, of)
    return Mix(
        recipe.bowl,
        go,
        of,
        minute,
        what_for,
        packs,
        (Part(shade_name(product.shade), colour),),
        round(grams - colour, 1),
        line(
            f"{what_for.capitalize()}: {how_many}, {ready} ({grams:.0f} g).{whole}",
            _strength(product),
            _ON_HEAD,
        ),
    )


def _weighed_out(case: Case, recipe: Recipe, settings: Settings) -> list[Mix]:
    minutes = goes(recipe)
    grams = math.ceil(recipe.need.quantile(settings.run_out_chance)) / len(minutes)
    return [
        _weigh(case, recipe, go, len(minutes), minute, grams, settings)
        for go, minute in enumerate(minutes, 1)
    ]


def _weigh(
    case: Case, recipe: Recipe, go: int, of: int, minute: int, grams: float, settings: Settings
) -> Mix:
    product, scale = recipe.bowl.product, settings.scale_g
    what_for = _what_for(recipe, go, of)
    if isinstance(product, Auxiliary):
        weight = _weighed(grams, scale)
        told = line(
            f"{what_for.capitalize()}: {weight:g} g of {product.label}, nothing else.",
            f"{strength_words(product.percent)}. {product.because}" if product.percent else product.because,
        )
        parts = () if product.percent else (Part(product.label, weight),)
        return Mix(
            recipe.bowl, go, of, minute, what_for, 0.0, parts, weight if product.percent else 0.0, told
        )
    colour = _weighed(grams / product.parts, scale)
    developer = 0.0 if isinstance(product, Direct) else _weighed(colour * product.developer.ratio, scale)
    colours = _split(recipe.bowl, colour, scale)
    how = " + ".join(f"{part.grams:g} g {part.name}" for part in colours)
    if isinstance(product, Direct):
        say = f"{what_for.capitalize()}: {how}, as it comes; nothing is mixed in."
        told = line(say, "Colour without developer is put on as it is.", ("bccampus-hair-colour",))
    else:
        say = f"{what_for.capitalize()}: {how} + {developer:g} g developer {product.developer.percent:g} % = "
        reason = _strength(product) + _base_reason(case, recipe.bowl)
        told = line(say + f"{colour + developer:g} g.", reason, _ON_HEAD)
    return Mix(recipe.bowl, go, of, minute, what_for, 0.0, colours, developer, told)


def _what_for(recipe: Recipe, go: int, of: int) -> str:
    name = ", then ".join(dict.fromkeys(name_of(p.application.target) for p in recipe.portions))
    if isinstance(recipe.bowl.product, Filler):
        name = "filler"
    return name if of == 1 else f"{name} (bowl {go} of {of})"


def _strength(product: Product) -> str:
    if isinstance(product, Direct):
        return "Colour without developer is put on as it is."
    own = " The filler's own leaflet comes first." if isinstance(product, Filler) else ""
    return (
        f"Leaflet ratio 1 : {product.developer.ratio:g}. {strength_words(product.developer.percent)}. The mix holds "
        f"{product.peroxide_on_head:.1f} % on the head; the legal limit is {LEGAL_LIMIT:g} %.{own}"
    )


def _weighed(grams: float, scale_g: float) -> float:
    """Rounded up to the step of the scale."""
    return round(math.ceil(grams / scale_g - 1e-9) * scale_g, 2)


def _split(bowl: Bowl, colour: float, scale_g: float) -> tuple[Part, ...]:
    """The colour's grams over the bowl's shades, each to the step of the scale; together they are the whole."""
    parts, left = [], colour
    for shade, share in bowl.shades[:-1]:
        grams = min(left, _weighed(colour * share, scale_g))
        parts.append(Part(shade_name(shade), grams))
        left = round(left - grams, 2)
    last, _ = bowl.shades[-1]
    return (*parts, Part(shade_name(last), left))


def _base_reason(case: Case, bowl: Bowl) -> str:
    if len(bowl.shades) == 1:
        return ""
    return (
        f" {percent(case.head.white_mean)} of the hair is white: {percent(base_share(case.head.white_mean))} of the "
        "colour is natural shade, so that white hair does not come out bright."
    )
