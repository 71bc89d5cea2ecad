"""Which of the products at hand comes nearest to the goal, under every constraint; ties stay ties.

Needs numpy; loaded only when a shelf is searched.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import cast

import numpy as np

from consult.answers import Answers
from consult.answers.product import Product
from consult.answers.shelf import Shelf
from consult.colour.fade import uptake_after
from consult.colour.search import Candidates, search
from consult.colour.values import Shade
from consult.gates.judge import judge
from consult.gates.rules import Rule
from consult.gates.verdict import Verdict
from consult.plan.approach import choose_approach
from consult.plan.brief import Brief, missing, read_brief
from consult.plan.clock import full_minutes
from consult.plan.developer import LEGAL_LIMIT, OutsideStrengths, alligate, on_head
from consult.plan.forecast import stretch_of, uptake_share
from consult.plan.mix import NATURAL_TONES, base_share
from consult.plan.suitability import BRIGHT_TONES, WHITE_DEVELOPER, judge_product, lift_bound
from consult.plan.types import Approach, Line
from consult.plan.words import nearness, percent
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.strand.bands import Band, Strand
from consult.trade import Porosity, Tone

BLENDS = (0.25, 0.5, 0.75)
MINUTE_STEP = Number(5, "min between the times that are tried", ASSUMPTION)
SHOWN = 6


@dataclass(frozen=True)
class Offer:
    """One mix from the shelf: shades with their shares, developer, minutes, nearness in words."""

    name: str
    shades: tuple[tuple[str, float], ...]
    developer_percent: float
    minutes: int
    nearness: str


@dataclass(frozen=True)
class ShelfChoice:
    """`best` are equals within the model's own error; `tried` counts what was compared."""

    best: tuple[Offer, ...]
    ties: int
    tried: int
    refused: tuple[Line, ...]
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class _Mix:
    first: int
    second: int
    share: float
    developer: float
    minutes: int


def search_shelf(
    answers: Answers, strand: Strand, shelf: Shelf, now: datetime, rules: tuple[Rule, ...]
) -> ShelfChoice:
    """Compare every shade, permitted blend, developer and time of the shelf for this head.

    A product that lacks an answer, that a rule stops, or that cannot do it is refused with its reason.
    Blends are made within one name only: different products are never mixed.
    """
    briefs: dict[int, Brief] = {}
    refused: list[Line] = []
    for index, product in enumerate(shelf.product):
        found = _brief_of(answers, strand, product, now, rules)
        if isinstance(found, Line):
            refused.append(found)
        else:
            briefs[index] = found
    mixes, reasons = [], dict[str, Line]()
    for mix in _mixes(shelf, briefs):
        brief = replace(briefs[mix.first], developer_percent=mix.developer)
        against = _against(brief, briefs[mix.second], mix)
        if against is None:
            mixes.append(mix)
        else:
            name = _name(shelf.product[mix.first])
            reasons.setdefault(name, Line(f"{name}: {against.say}", against.because, against.sources))
    used = {_name(shelf.product[m.first]) for m in mixes}
    refused += [line for name, line in reasons.items() if name not in used]
    if not mixes:
        return ShelfChoice((), 0, 0, tuple(refused), ())
    return _ranked(shelf, briefs, mixes, strand, refused)


def _name(product: Product) -> str:
    return f"{product.name or 'unnamed product'} {product.shade or ''}".strip()


def _brief_of(
    answers: Answers, strand: Strand, product: Product, now: datetime, rules: tuple[Rule, ...]
) -> Brief | Line:
    mine = answers.model_copy(update={"product": product})
    lacking = [path for path in missing(mine) if path.startswith("product.")]
    if lacking:
        return Line(
            f"{_name(product)}: its entry on the shelf lacks {', '.join(lacking)}.",
            "Nothing about a product is guessed.",
            (COMMON_PRACTICE,),
        )
    stops = [f for f in judge(mine, now, rules).findings if f.verdict is Verdict.STOP]
    if stops:
        return Line(f"{_name(product)}: {stops[0].trade}", stops[0].remedy, stops[0].sources)
    return read_brief(mine, strand)


def _mixes(shelf: Shelf, briefs: dict[int, Brief]) -> Iterator[_Mix]:
    """Every single shade and every blend of two tubes of one name, at each strength and time."""
    for i, brief in briefs.items():
        product = shelf.product[i]
        for developer in shelf.strengths(product):
            for minutes in _times(brief):
                yield _Mix(i, i, 0.0, developer, minutes)
                for j, other in briefs.items():
                    if j > i and not brief.kit and not other.kit and shelf.product[j].name == product.name:
                        for share in BLENDS:
                            yield _Mix(i, j, share, developer, minutes)


def _times(brief: Brief) -> list[int]:
    """Times within the leaflet; white hair always gets its full time."""
    full = full_minutes(brief)
    if brief.covers_white:
        return [full]
    return sorted({*range(brief.minutes_min, brief.minutes_max + 1, int(MINUTE_STEP)), full})


def _against(brief: Brief, other: Brief, mix: _Mix) -> Line | None:
    """The first reason against a mix; None when it may be used."""
    if mix.developer > LEGAL_LIMIT or on_head(mix.developer, brief.ratio) > LEGAL_LIMIT:
        return Line("over the legal limit of peroxide.", f"{LEGAL_LIMIT:g} % at most.", (LEGAL_LIMIT.source,))
    depth = (1 - mix.share) * brief.depth + mix.share * other.depth
    suits = judge_product(replace(brief, depth=depth))
    if not suits.reachable:
        return suits.outcome[0]
    if brief.covers_white and brief.tone in BRIGHT_TONES and not brief.kit:
        natural = mix.share if other.tone in NATURAL_TONES else 0.0
        if natural < base_share(brief.white_mean) - 0.01:
            return Line(
                "a bright shade alone on white hair.",
                f"{percent(brief.white_mean)} white asks for {percent(base_share(brief.white_mean))} natural shade in "
                "the mix.",
                (COMMON_PRACTICE,),
            )
    if brief.covers_white and not brief.kit and mix.developer != WHITE_DEVELOPER:
        return Line(
            f"white hair is covered with {WHITE_DEVELOPER:g} % developer.",
            "Weaker does not open it enough, stronger leaves less colour in it.",
            (COMMON_PRACTICE,),
        )
    return None


def _ranked(
    shelf: Shelf, briefs: dict[int, Brief], mixes: list[_Mix], strand: Strand, refused: list[Line]
) -> ShelfChoice:
    any_brief = next(iter(briefs.values()))
    goal = Shade(any_brief.goal_depth, cast(Tone, any_brief.goal_tone))
    # Refused products keep their place in the list; no mix names them.
    shades = tuple(
        Shade(briefs[i].depth, cast(Tone, briefs[i].tone)) if i in briefs else goal
        for i in range(len(shelf.product))
    )
    stretches = [stretch_of(band) for band in strand.bands]
    approaches = {i: choose_approach(brief)[0] for i, brief in briefs.items()}
    uptake = np.array(
        [[_uptake(briefs[m.first], approaches[m.first], m, b) for b in strand.bands] for m in mixes]
    )
    reached = uptake.max(axis=0) > 0
    candidates = Candidates(
        shades=shades,
        first=np.array([m.first for m in mixes]),
        second=np.array([m.second for m in mixes]),
        share=np.array([m.share for m in mixes]),
        lift=np.array([_lift(briefs[m.first], m.developer) for m in mixes]),
        uptake=uptake[:, reached],
    )
    touched = [stretch for stretch, used in zip(stretches, reached, strict=True) if used]
    ranking = search(candidates, touched, goal)
    # Among equals the plainer comes first: no blend, the weaker developer, the shorter time.
    best = sorted(
        ranking.groups[0], key=lambda i: (mixes[i].share > 0, mixes[i].developer, mixes[i].minutes, i)
    )
    offers = [_offer(shelf, mixes[int(i)], float(ranking.worst[int(i)]), briefs) for i in best[:SHOWN]]
    return ShelfChoice(
        tuple(offers),
        len(best),
        len(mixes),
        tuple(refused),
        (
            Line(
                "Another product or shade needs its own allergy alert test before it is used.",
                "A test counts only for the very mix that was tested.",
                ("canada-cosmetic-regulations-22",),
            ),
        ),
    )


def developer_at_hand(product: Product, shelf: Shelf, grams: float) -> Line | None:
    """How the developer a tube asks for is made from the strengths at hand; None when it is there as it is."""
    wanted = product.developer_percent
    at_hand = sorted({p for d in shelf.developers if d.name == product.name for p in d.percents})
    if not isinstance(wanted, float) or product.kind == "retail kit" or not at_hand or wanted in at_hand:
        return None
    weak, strong = at_hand[0], at_hand[-1]
    try:
        made = alligate(strong, weak, wanted, grams)
    except OutsideStrengths as fault:
        return Line(
            f"The developer cannot be made from this shelf: {fault}.", "Alligation.", ("alligation-texts",)
        )
    return Line(
        f"{wanted:g} % developer from what is at hand: {made.strong_g:.0f} g of {strong:g} % and "
        f"{made.weak_g:.0f} g of {weak:g} % make {grams:.0f} g, if the leaflet allows mixing them.",
        f"Parts by alligation: ({wanted:g} - {weak:g}) of the stronger to ({strong:g} - {wanted:g}) of the weaker.",
        ("alligation-texts",),
    )


def _lift(brief: Brief, developer: float) -> float:
    return 0.0 if brief.colour_class == "demi-permanent" else lift_bound(developer)


def _uptake(brief: Brief, approach: Approach, mix: _Mix, band: Band) -> float:
    full = max(1, full_minutes(brief))
    return uptake_share(brief, approach, band) * uptake_after(
        mix.minutes, full, cast(Porosity, band.porosity)
    )


def _offer(shelf: Shelf, mix: _Mix, worst: float, briefs: dict[int, Brief]) -> Offer:
    first, second = shelf.product[mix.first], shelf.product[mix.second]
    shades: tuple[tuple[str, float], ...] = ((_shade(briefs[mix.first], first), 1 - mix.share),)
    if mix.share:
        shades = (*shades, (_shade(briefs[mix.second], second), mix.share))
    name = first.name if isinstance(first.name, str) else "unnamed product"
    return Offer(name, shades, mix.developer, mix.minutes, nearness(worst))


def _shade(brief: Brief, product: Product) -> str:
    printed = f" ({product.shade})" if product.shade else ""
    return f"depth {brief.depth:g} {brief.tone}{printed}"
