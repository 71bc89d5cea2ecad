"""What is weighed into each bowl, and when it is mixed.

A kit is mixed by whole packs, anything else by weight: so much as is expected, and the rest only when it is
needed. A bowl that would outlast its mix is mixed in several goes, each when its turn comes.
"""

import math
from functools import cached_property

from msgspec import Struct

from consult.colour.values import Shade
from consult.plan.amounts import Need, need_of, together
from consult.plan.application import Application, Applications, Bowl
from consult.plan.case import Case
from consult.plan.developer import LEGAL_LIMIT, strength_words
from consult.plan.lines import Line, line
from consult.plan.phrasing import percent
from consult.plan.settings import Settings
from consult.plan.targets import name_of
from consult.plan.writing import base_share
from consult.products.kinds import Auxiliary, Direct, Filler, Kit, Product
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

MIX_DENSITY = Number(1.0, "g/ml", ASSUMPTION)
_ON_HEAD = ("eu-1223-annex-iii", "volume-strength", COMMON_PRACTICE)


class Part(Struct, frozen=True):
    """One thing in a bowl and its grams."""

    name: str
    grams: float


class Rest(Struct, frozen=True):
    """What is mixed only if the bowl runs low: whole packs of a kit, or grams in the same ratio."""

    packs: int
    colours: tuple[Part, ...]
    developer_g: float

    @property
    def grams(self) -> float:
        return round(sum(part.grams for part in self.colours) + self.developer_g, 2)


NO_REST = Rest(0, (), 0.0)


class Mix(Struct, frozen=True):
    """One bowl, mixed in one go: `go` of `of` from the same recipe, at a minute of the clock.

    `packs` are whole packs of a kit, 0 where it is weighed. `developer_g` is 0 for colour without developer.
    `rest` is mixed after it, and only when it is needed.
    """

    bowl: Bowl
    go: int
    of: int
    minute: int
    what_for: str
    packs: int
    colours: tuple[Part, ...]
    developer_g: float
    line: Line
    rest: Rest = NO_REST

    @property
    def colour_g(self) -> float:
        return round(sum(part.grams for part in self.colours), 2)

    @property
    def grams(self) -> float:
        return round(self.colour_g + self.developer_g, 2)


class Portion(Struct, frozen=True):
    """One application and what it needs."""

    application: Application
    need: Need


class Recipe(Struct, frozen=True, dict=True):
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
    """The minutes at which a recipe is mixed: anew whenever painting from one bowl would outlast the mix.

    What does not work in the bowl is filled once.
    """
    product = recipe.bowl.product
    used = [portion.application for portion in recipe.portions if not portion.application.emulsified]
    start, end = min(a.start for a in used), max(a.on_by for a in used)
    if isinstance(product, Auxiliary) or not product.works_in_the_bowl:
        return (start,)
    count = max(1, math.ceil((end - start) / product.leaflet.mix_life))
    return tuple(start + (end - start) * n // count for n in range(count))


def _from_packs(product: Product, recipe: Recipe, recipes: Recipes, settings: Settings) -> list[Mix]:
    """Whole packs: so many as are expected, spread over the goes; the others wait, closed, for the largest bowl."""
    assert isinstance(product.package, Kit)
    pack_g = product.package.pack_ml * MIX_DENSITY
    same = [r for r in recipes if r.bowl.product == product]
    expected = {r.bowl: max(len(goes(r)), math.ceil(r.need.mean / pack_g - 1e-9)) for r in same}
    bought = together(r.need for r in same).packs(pack_g, settings.run_out_chance)
    spare = max(0, bought - sum(expected.values()))
    largest = max(same, key=lambda r: r.need.mean)
    minutes, mine = goes(recipe), expected[recipe.bowl]
    mixes = []
    for n, minute in enumerate(minutes):
        packs = mine * (n + 1) // len(minutes) - mine * n // len(minutes)
        last = n == len(minutes) - 1
        rest = spare if last and recipe is largest else 0
        mixes.append(_kit_mix(product, recipe, n + 1, len(minutes), minute, packs, rest))
    return mixes


def _kit_mix(product: Product, recipe: Recipe, go: int, of: int, minute: int, packs: int, rest: int) -> Mix:
    assert isinstance(product.package, Kit)
    each = product.package.pack_ml * MIX_DENSITY
    how_many = f"{packs} pack{'s' if packs > 1 else ''}"
    ready = "ready to use" if isinstance(product, Direct) else "mixed as the leaflet says"
    more = "" if not rest else f" {_more(rest)} closed, and {_it(rest)} mixed only if the bowl runs low."
    what_for = _what_for(recipe, go, of)
    told = line(
        f"{what_for.capitalize()}: {how_many}, {ready} ({packs * each:.0f} g).{more}",
        _strength(product),
        _ON_HEAD,
    )
    colours, developer = _pack_parts(product, packs * each)
    left = Rest(rest, *_pack_parts(product, rest * each)) if rest else NO_REST
    return Mix(recipe.bowl, go, of, minute, what_for, packs, colours, developer, told, left)


def _more(rest: int) -> str:
    return "One more pack stays" if rest == 1 else f"{rest} more packs stay"


def _it(rest: int) -> str:
    return "is" if rest == 1 else "are"


def _pack_parts(product: Product, grams: float) -> tuple[tuple[Part, ...], float]:
    colour = round(grams / product.parts, 1)
    return (Part(shade_name(product.shade), colour),), round(grams - colour, 1)


def _weighed_out(case: Case, recipe: Recipe, settings: Settings) -> list[Mix]:
    """What is expected, spread over the goes; the rest, up to what is as good as never exceeded, after the last."""
    minutes = goes(recipe)
    each = math.ceil(recipe.need.mean) / len(minutes)
    spare = recipe.need.quantile(settings.run_out_chance) - recipe.need.mean
    return [
        _weigh(case, recipe, go, len(minutes), minute, each, spare if go == len(minutes) else 0.0, settings)
        for go, minute in enumerate(minutes, 1)
    ]


def _weigh(
    case: Case, recipe: Recipe, go: int, of: int, minute: int, grams: float, spare: float, settings: Settings
) -> Mix:
    product, scale = recipe.bowl.product, settings.scale_g
    what_for = _what_for(recipe, go, of)
    if isinstance(product, Auxiliary):
        weight = _weighed(grams + spare, scale)
        told = line(
            f"{what_for.capitalize()}: {weight:g} g of {product.label}, nothing else.",
            f"{strength_words(product.percent)}. {product.because}" if product.percent else product.because,
        )
        parts = () if product.percent else (Part(product.label, weight),)
        return Mix(recipe.bowl, go, of, minute, what_for, 0, parts, weight if product.percent else 0.0, told)
    colours, developer = _parts(recipe.bowl, product, grams, scale)
    rest = Rest(0, *_parts(recipe.bowl, product, spare, scale)) if spare >= scale else NO_REST
    how, total = _how(colours), round(sum(part.grams for part in colours) + developer, 2)
    if isinstance(product, Direct):
        more = f" If it runs low, another {rest.grams:g} g." if rest.colours else ""
        say = f"{what_for.capitalize()}: {how}, as it comes; nothing is mixed in.{more}"
        told = line(say, "Colour without developer is put on as it is.", ("bccampus-hair-colour",))
    else:
        more = (
            f" If it runs low, mix {_how(rest.colours)} + {rest.developer_g:g} g more."
            if rest.colours
            else ""
        )
        say = (
            f"{what_for.capitalize()}: {how} + {developer:g} g developer {product.developer.percent:g} % = "
            f"{total:g} g.{more}"
        )
        told = line(say, _strength(product) + _base_reason(case, recipe.bowl), _ON_HEAD)
    return Mix(recipe.bowl, go, of, minute, what_for, 0, colours, developer, told, rest)


def _parts(
    bowl: Bowl, product: Product | Filler, grams: float, scale: float
) -> tuple[tuple[Part, ...], float]:
    """Colours and developer that together are at least so many grams."""
    colour = _weighed(grams / product.parts, scale)
    developer = 0.0 if isinstance(product, Direct) else _weighed(colour * product.developer.ratio, scale)
    return _split(bowl, colour, scale), developer


def _how(colours: tuple[Part, ...]) -> str:
    return " + ".join(f"{part.grams:g} g {part.name}" for part in colours if part.grams > 0)


def _what_for(recipe: Recipe, go: int, of: int) -> str:
    mixed_for = [p.application.target for p in recipe.portions if not p.application.emulsified]
    name = ", then ".join(dict.fromkeys(map(name_of, mixed_for)))
    if isinstance(recipe.bowl.product, Filler):
        name = "filler"
    return name if of == 1 else f"{name} (bowl {go} of {of})"


def _strength(product: Product) -> str:
    if isinstance(product, Direct):
        return "Colour without developer is put on as it is."
    if not product.developer.printed:
        return (
            f"Leaflet ratio 1 : {product.developer.ratio:g}. The pack does not print how strong its developer is, so "
            "the peroxide on the head is not known; the law allows 12 % at most."
        )
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
