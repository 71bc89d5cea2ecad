"""A product out of the answers about it: what is still missing, and the typed product once nothing is."""

from consult.answers.base import NOT_SURE, known
from consult.answers.product import Product as Answered
from consult.answers.typed_colour import typed_lab
from consult.colour.values import Shade
from consult.products.kinds import (
    DemiPermanent,
    Developer,
    Direct,
    HighLift,
    Kit,
    Leaflet,
    Package,
    Permanent,
    Product,
    Tube,
    WhiteClaim,
)
from consult.trade import MIXED, Tone

_ALWAYS = ("kind", "colour_class", "depth", "tone", "white_claim")
_TIMES = ("minutes_new_growth", "minutes_white", "minutes_refresh", "minutes_min", "minutes_max")
_KIT = ("chart_from", "chart_to", "pack_ml")
_TUBE = ("tube_g",)
_DEVELOPER = ("developer_percent", "ratio")
_KINDS: dict[str, type[Permanent] | type[HighLift] | type[DemiPermanent]] = {
    "permanent": Permanent,
    "high-lift": HighLift,
    "demi-permanent": DemiPermanent,
}
PLANNED: tuple[str, ...] = (*_KINDS, "direct (no developer)")
"""The classes a plan is made for. Powder lightener is a service of its own."""


def missing(product: Answered) -> tuple[str, ...]:
    """Names of the answers that are still needed, in the order they are asked; unasked and not sure alike."""
    needed = list(_ALWAYS)
    if product.kind == "retail kit":
        needed += _KIT
    elif product.kind == "tube and developer":
        needed += _TUBE
    if product.colour_class in MIXED:
        needed += _DEVELOPER
    needed += _TIMES
    given = {name: getattr(product, name) for name in needed}
    order = list(type(product).model_fields)
    return tuple(sorted((n for n, value in given.items() if value in (None, NOT_SURE)), key=order.index))


def read_product(product: Answered) -> Product | None:
    """The typed product of answers for which `missing` is empty; None for a class that is not planned.

    The leaflet's minutes are whole, and none of them lies above its longest time.
    """
    depth = known(product.depth)
    tone: Tone | None = known(product.tone)
    claim: WhiteClaim | None = known(product.white_claim)
    package, leaflet = _package(product), _leaflet(product)
    if depth is None or tone is None or claim is None or package is None or leaflet is None:
        return None
    swatch = known(product.swatch)
    colour = Shade(depth, tone, typed_lab(swatch) if swatch else None)
    name, printed = known(product.name) or "", known(product.shade) or ""
    price = known(product.price)
    if product.colour_class == "direct (no developer)":
        return Direct(name, colour, printed, claim, leaflet, package, price)
    percent, ratio = known(product.developer_percent), known(product.ratio)
    kind = _KINDS.get(str(product.colour_class))
    if kind is None or percent is None or ratio is None:
        return None
    developer = Developer(percent, ratio)
    return kind(name, colour, printed, claim, leaflet, package, price, developer)


def _package(product: Answered) -> Package | None:
    if product.kind == "retail kit":
        darkest, lightest, pack = (known(v) for v in (product.chart_from, product.chart_to, product.pack_ml))
        if darkest is None or lightest is None or pack is None:
            return None
        return Kit(pack, (darkest, lightest))
    grams = known(product.tube_g)
    return None if grams is None else Tube(grams)


def _leaflet(product: Answered) -> Leaflet | None:
    longest = known(product.minutes_max)
    minutes = [known(getattr(product, name)) for name in _TIMES[:-1]]
    if longest is None or None in minutes:
        return None
    new_growth, white, refresh, shortest = (min(int(m), int(longest)) for m in minutes if m is not None)
    return Leaflet(new_growth, white, refresh, shortest, int(longest))
