"""A product out of the answers about it: what is still missing, and the typed product once nothing is."""

from consult.answers.base import NOT_SURE, known
from consult.answers.product import Product as Answered
from consult.answers.typed_colour import typed_lab
from consult.colour.values import Shade
from consult.products.kinds import (
    USUAL_KIT_STRENGTH,
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
from consult.trade import MIXED, CountedFrom, Tone

_ALWAYS = ("kind", "colour_class", "depth", "tone", "white_claim")
_TIMES = ("minutes_new_growth", "minutes_white", "minutes_refresh", "minutes_min", "minutes_max")
_KIT = ("pack_ml",)
_CHART = ("chart_from", "chart_to")
_UNPRINTED = (*_CHART, "developer_percent")
"""What many kits do not print: asked, but "not sure" holds nothing up."""
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
    """Names of the answers that are still needed, in the order they are asked; unasked and not sure alike, but
    for what many kits do not print."""
    needed = list(_ALWAYS)
    if product.kind == "retail kit":
        needed += _KIT
    elif product.kind == "tube and developer":
        needed += _TUBE
    if product.colour_class in MIXED:
        needed += _DEVELOPER
    needed += _TIMES
    found = [name for name in needed if getattr(product, name) in (None, NOT_SURE)]
    if product.kind == "retail kit":
        mixed = ("developer_percent",) if product.colour_class in MIXED else ()
        found = [name for name in found if name not in _UNPRINTED]
        found += [name for name in (*_CHART, *mixed) if getattr(product, name) is None]
    return tuple(sorted(found, key=list(type(product).model_fields).index))


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
    if kind is None or ratio is None or (percent is None and not isinstance(package, Kit)):
        return None
    developer = Developer(
        float(USUAL_KIT_STRENGTH) if percent is None else percent, ratio, percent is not None
    )
    return kind(name, colour, printed, claim, leaflet, package, price, developer)


def _package(product: Answered) -> Package | None:
    if product.kind == "retail kit":
        darkest, lightest, pack = (known(v) for v in (product.chart_from, product.chart_to, product.pack_ml))
        if pack is None:
            return None
        return Kit(pack, None if darkest is None or lightest is None else (darkest, lightest))
    grams = known(product.tube_g)
    return None if grams is None else Tube(grams)


def _leaflet(product: Answered) -> Leaflet | None:
    longest = known(product.minutes_max)
    minutes = [known(getattr(product, name)) for name in _TIMES[:-1]]
    if longest is None or None in minutes:
        return None
    new_growth, white, refresh, shortest = (min(int(m), int(longest)) for m in minutes if m is not None)
    total, mix = known(product.minutes_total), known(product.mix_minutes)
    return Leaflet(
        new_growth,
        white,
        refresh,
        shortest,
        int(longest),
        _counted_from(product),
        None if total is None else int(total),
        None if mix is None else int(mix),
        known(product.first_time_order) or "it does not say",
    )


def _counted_from(product: Answered) -> CountedFrom:
    """Not sure counts as from the first touch, the stricter way; a record that was never asked as silent."""
    if product.counted_from is None:
        return "it does not say"
    return known(product.counted_from) or "the first touch"
