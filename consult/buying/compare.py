"""Candidates side by side: two to six packs, each put through the whole program on this head.

What a pack does not say is not guessed for a plan. Here, in a shop, it is taken as usual so that there is something to
compare; then it may work and never "works", and what has to be looked up stands beside it.
"""

from datetime import datetime
from typing import Final

from msgspec import Struct

from consult.answers import Answers
from consult.answers.base import known
from consult.answers.product import Product as Answered
from consult.answers.shelf import ChartWords, Shelf
from consult.buying.look import Shop, does, empty_handed, held_anyway, still_to_answer
from consult.buying.names import Range, chart_range, depth_of_picture, depth_of_words, tone_of_words
from consult.consultation import Consultation
from consult.gates.judge import Finding
from consult.plan.aftercare import weeks_to_next, weeks_to_refresh
from consult.plan.targets import part_of
from consult.plan.types import Held, Made
from consult.plan.usual import KINDS, usual
from consult.products.reading import missing
from consult.salon import SalonConfig, default_config
from consult.trade import depth_name

FEWEST, MOST = 2, 6
_WORKS: Final = {True: "works", False: "does not work", None: "perhaps"}


class BadComparison(ValueError):
    """What cannot be compared; one line."""


class Place(Struct, frozen=True):
    """One stretch of some zones, today and after: words and #rrggbb."""

    where: str
    now: str
    after: str
    hexes: tuple[str, str]


class Candidate(Struct, frozen=True):
    """One pack on this head. `works` is None where that hangs on what is not known; `doubts` say what that is.

    off          colour difference to the goal at the worst place, None without a forecast
    white        what white hairs come out as, in words; empty where there are none
    cover        how far the forecast takes them from white to the wished colour, 0 to 1; None where something is
                 against the pack: beside a refusal nothing is promised
    passes       the most oxidative passes that one stretch has had afterwards, with `more` of them by this pack
    weeks        to the next new growth, and to the next refresh at the earliest
    """

    name: str
    works: bool | None
    against: Finding | None
    doubts: tuple[str, ...]
    places: tuple[Place, ...]
    off: float | None
    white: str
    cover: float | None
    passes: int | None
    more: int | None
    weeks: tuple[int, int] | None
    packs: int | None
    cost: float | None

    @property
    def verdict(self) -> str:
        return _WORKS[self.works]


class Comparison(Struct, frozen=True):
    """The candidates, those that work first; `against` holds the head whatever is bought, and then there are none."""

    candidates: tuple[Candidate, ...]
    against: tuple[Finding, ...]
    missing: tuple[str, ...] = ()


def compare(answers: Answers, shelf: Shelf, now: datetime, salon: SalonConfig | None = None) -> Comparison:
    """Each product of a shelf on this head. Raises BadComparison when there are not two to six of them."""
    if not FEWEST <= len(shelf.product) <= MOST:
        raise BadComparison(f"a comparison takes {FEWEST} to {MOST} products; there are {len(shelf.product)}")
    shop = Shop(empty_handed(answers), now, salon or default_config())
    against, lacking = held_anyway(shop), still_to_answer(shop)
    if against or lacking:
        return Comparison((), against, lacking)
    found = [_candidate(shop, product, shelf.chart_of(product)) for product in shelf.product]
    order = {True: 0, None: 1, False: 2}
    return Comparison(
        tuple(sorted(found, key=lambda c: (order[c.works], c.off if c.off is not None else 99))), ()
    )


def _candidate(shop: Shop, product: Answered, words: ChartWords | None) -> Candidate:
    name = f"{product.name or 'unnamed product'} {product.shade or ''}".strip()
    readings, doubts = _readings(product)
    taken, assumed = _as_usual(product)
    if taken is None or not readings:
        lacks = (
            ("its kind and class of colour",)
            if taken is None
            else ("its depth and tone, as number and word",)
        )
        return Candidate(name, None, None, lacks, (), None, "", None, None, None, None, None, None)
    tried = [shop.tried(_charted(taken.model_copy(update=reading))) for reading in readings]
    doubts += assumed + _chart_doubts(shop, product, words)
    good = [does(one) for one in tried]
    works = None if (any(good) and doubts) or (any(good) and not all(good)) else all(good)
    # Of several readings the one is shown that is furthest from the goal: nobody is promised the best.
    shown = max(tried, key=lambda one: (not does(one), _worst(one) or 0.0))
    return _told(name, works, tuple(doubts), shown)


def _readings(product: Answered) -> tuple[list[dict[str, object]], list[str]]:
    """Depth and tone as they are known, or in each way in which the pack's words can be meant."""
    depth, tone = known(product.depth), known(product.tone)
    doubts: list[str] = []
    depths: tuple[float, ...] = (depth,) if depth is not None else ()
    printed = f"{product.shade or ''} {product.name or ''}"
    if depth is None and (meant := depth_of_words(printed)):
        depths = meant.depths
        doubts.append(f"depth {meant.low:g} to {meant.high:g}: {meant.because}; look for a number")
    if tone is None and (tone := tone_of_words(printed)):
        doubts.append(f"tone {tone}: read off its name")
    return ([{"depth": d, "tone": tone} for d in depths] if tone else []), doubts


def _as_usual(product: Answered) -> tuple[Answered | None, list[str]]:
    """The pack with what it does not say taken as usual for its class, and the names of that."""
    kind = known(product.colour_class)
    if kind not in KINDS:
        # Bleach and high-lift are judged as they stand: nothing is usual about them.
        return (product if kind and not missing(product) else None), []
    assert kind is not None
    template = usual(kind, 5.0, "neutral")
    if product.kind == "tube and developer":
        template = template.model_copy(
            update={"pack_ml": None, "tube_g": 60.0, "chart_from": None, "chart_to": None}
        )
    fields = type(product).model_fields
    lacking = [n for n in fields if known(getattr(product, n)) is None and getattr(template, n) is not None]
    lacking = [n for n in lacking if n not in ("depth", "tone", "chart_from", "chart_to")]
    taken = product.model_copy(
        update={n: getattr(template, n) for n in lacking} | {"pack": product.pack or ()}
    )
    doubts = [f"taken as usual, look up: {', '.join(_short(n) for n in lacking)}"] if lacking else []
    return taken, doubts


def _short(name: str) -> str:
    from consult.answers.questions import questions

    return questions()[f"product.{name}"].short.casefold()


def _charted(product: Answered) -> Answered:
    """With its chart as numbers where it prints them; a chart in words stays "not sure" for the plan."""
    if product.kind != "retail kit":
        return product
    unsure = {n: "not sure" for n in ("chart_from", "chart_to") if known(getattr(product, n)) is None}
    return product.model_copy(update=unsure)


def _chart_doubts(shop: Shop, product: Answered, words: ChartWords | None) -> list[str]:
    """What the chart leaves open: the natural depth surely in it is no doubt."""
    natural = shop.answers.hair.natural_depth
    printed = known(product.chart_from) is not None and known(product.chart_to) is not None
    if product.kind != "retail kit" or printed or not isinstance(natural, float):
        return []
    found = chart_in_words(words) if words else None
    if found is None:
        return [f"no chart was told: find your own hair, {depth_name(natural)}, on it"]
    if found.surely_holds(natural):
        return []
    beside = "may be" if found.may_hold(natural) else "is hardly"
    return [
        f"your own hair, {depth_name(natural)}, {beside} on its chart ({found.low:g} to {found.high:g}: names)"
    ]


def chart_in_words(words: ChartWords) -> Range | None:
    """The starting hair that a chart in words or a picture of it holds."""
    darkest = depth_of_words(words.darkest) if words.darkest else None
    lightest = depth_of_words(words.lightest) if words.lightest else None
    pictured = depth_of_picture(words.before) if words.before else None
    return chart_range(darkest or pictured, lightest or pictured)


def _worst(found: Consultation) -> float | None:
    if found.forecast is None:
        return None
    return max((b.last.to_goal for b in found.forecast.bands if len(b.stages) > 1), default=None)


def _told(name: str, works: bool | None, doubts: tuple[str, ...], found: Consultation) -> Candidate:
    blocking = [f for f in found.findings if f.verdict.blocks]
    plan = found.plan
    made = plan if isinstance(plan, Made) else plan.then if isinstance(plan, Held) else None
    case = plan.case if isinstance(plan, Made | Held) else None
    ledger = made.ledger if made else ()
    grown = max((a.passes_after - a.passes for a in ledger), default=None)
    white, cover = _white(found)
    costs = [p.cost for p in made.purchases] if made else []
    return Candidate(
        name,
        works,
        blocking[0] if blocking else None,
        doubts,
        _places(found),
        _worst(found),
        white,
        None if blocking else cover,
        max((a.passes_after for a in ledger), default=None),
        grown,
        (weeks_to_next(case), weeks_to_refresh(case)) if case else None,
        sum(p.packs for p in made.purchases) if made else None,
        sum(c for c in costs if c is not None) if costs and None not in costs else None,
    )


def _places(found: Consultation) -> tuple[Place, ...]:
    """Each stretch that is told apart, today and after."""
    if found.forecast is None:
        return ()
    said: dict[str, Place] = {}
    for band in found.forecast.bands:
        zones = (
            ""
            if len({b.zones for b in found.forecast.bands}) == 1
            else ", " + ", ".join(z.value for z in band.zones)
        )
        where = part_of(band.stretch) + zones
        now, after = band.stages[0].colour.seen, band.last.seen
        place = Place(
            where, f"{now.depth:g} {now.tone}", f"{after.depth:g} {after.tone}", (now.hex, after.hex)
        )
        said.setdefault(where, place)
    return tuple(said.values())


def _white(found: Consultation) -> tuple[str, float | None]:
    """What white hairs come out as where there are most of them and colour reaches them, and how far on the way to the
    goal that is: the colour difference to the goal that is left, of the one that was there."""
    bands = (
        [b for b in found.forecast.bands if b.white_share > 0 and len(b.stages) > 1] if found.forecast else []
    )
    if not bands:
        return "", None
    from consult.colour.difference import ciede2000

    band = max(bands, key=lambda b: b.white_share)
    before, after, goal = band.stages[0].colour.white, band.last.white, band.last.goal
    way = float(ciede2000(before.lab, goal.lab))
    cover = max(0.0, 1 - float(ciede2000(after.lab, goal.lab)) / way) if way else None
    return f"white hairs about {after.depth:g} {after.tone}", cover
