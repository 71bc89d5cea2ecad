"""The bowls of a made plan as boxes of a sheet: what is weighed into each, and what waits beside it."""

from collections.abc import Iterable

from msgspec import Struct

from consult.plan.bowls import Mix
from consult.plan.types import Made
from consult.products.kinds import Auxiliary, Direct, Product


class Weighed(Struct, frozen=True):
    """One thing on the scale, in grams."""

    name: str
    grams: float


class BowlBox(Struct, frozen=True):
    """One bowl, mixed at a minute from the first touch: `go` of `of` from the same recipe.

    `weighed` are its parts, empty where whole packs are mixed; `packs` is 0 where it is weighed. `rest` is what is
    mixed only if it runs low, in words.
    """

    number: int
    go: int
    of: int
    what_for: str
    product: str
    minute: int
    packs: int
    weighed: tuple[Weighed, ...]
    grams: float
    how: str
    rest: str

    @property
    def recipe(self) -> tuple[object, ...]:
        """What two bowls that are mixed alike have in common."""
        return self.number, self.product, self.packs, self.weighed, self.grams, self.how

    @property
    def turn(self) -> str:
        """Which it is of several from one recipe: "1 of 2"."""
        return f"{self.go} of {self.of}" if self.of > 1 else ""


def alike(boxes: Iterable[BowlBox]) -> list[list[BowlBox]]:
    """Bowls mixed alike together, each recipe where it is mixed for the first time."""
    found: dict[tuple[object, ...], list[BowlBox]] = {}
    for box in boxes:
        found.setdefault(box.recipe, []).append(box)
    return list(found.values())


def bowl_boxes(made: Made) -> tuple[BowlBox, ...]:
    """Every bowl of a plan, in the order in which they are mixed for the first time."""
    numbers = {bowl: n for n, bowl in enumerate(dict.fromkeys(a.bowl for a in made.applications), 1)}
    return tuple(_box(numbers[mix.bowl], mix) for mix in made.mixes)


def _box(number: int, mix: Mix) -> BowlBox:
    product = mix.bowl.product
    return BowlBox(
        number=number,
        go=mix.go,
        of=mix.of,
        what_for=mix.what_for.partition(" (bowl")[0],
        product=product.label,
        minute=mix.minute,
        packs=mix.packs,
        weighed=() if mix.packs else _weighed(mix, product),
        grams=mix.grams,
        how=_how(mix, product),
        rest=_rest(mix, product),
    )


def _weighed(mix: Mix, product: Product | Auxiliary) -> tuple[Weighed, ...]:
    parts = [Weighed(part.name, part.grams) for part in mix.colours if part.grams > 0]
    if mix.developer_g:
        parts.append(Weighed(_developer(product), mix.developer_g))
    return tuple(parts)


def _developer(product: Product | Auxiliary) -> str:
    if isinstance(product, Auxiliary):
        return product.label
    if isinstance(product, Direct):
        return ""
    return (
        f"developer {product.developer.percent:g} %" if product.developer.printed else "the pack's developer"
    )


def _how(mix: Mix, product: Product | Auxiliary) -> str:
    if isinstance(product, Auxiliary):
        return "poured out; nothing is mixed in"
    if isinstance(product, Direct):
        return "as it comes; nothing is mixed in"
    if mix.packs:
        return "whole packs, mixed as the leaflet says"
    return f"1 : {product.developer.ratio:g}, by weight, not in metal"


def _rest(mix: Mix, product: Product | Auxiliary) -> str:
    rest = mix.rest
    if rest.packs:
        return f"{rest.packs} more pack{'s stay' if rest.packs > 1 else ' stays'} closed; mixed only if it runs low"
    parts = [f"{part.grams:g} g {part.name}" for part in rest.colours if part.grams > 0]
    if rest.developer_g:
        parts.append(f"{rest.developer_g:g} g {_developer(product)}")
    return f"only if it runs low: {' + '.join(parts)}" if parts else ""
