"""Which of the products at hand comes nearest to the goal, under every constraint; ties stay ties.

Each product is put through the same gates, approach and checks as the plan's own, and its blends are
compared on the bands that its applications reach. Needs numpy; loaded only when a shelf is searched.
"""

from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime
from itertools import combinations_with_replacement

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.product import Product as Answered
from consult.answers.shelf import Shelf
from consult.colour.search import Candidates, search
from consult.colour.values import HairState, Shade
from consult.gates.judge import judge
from consult.gates.rules import RuleSet
from consult.gates.verdict import Verdict
from consult.head.bands import Band, Head
from consult.plan.application import Application, Applications, reaching
from consult.plan.approach import choose_approach
from consult.plan.bowls import shade_name
from consult.plan.case import Case, missing, read_case
from consult.plan.checks import check_plan
from consult.plan.developer import LEGAL_LIMIT, OutsideStrengths, alligate
from consult.plan.forecast import state_of, uptake_of
from consult.plan.handling import carry_out
from consult.plan.lines import Line, line
from consult.plan.phrasing import nearness, other_tone, percent
from consult.plan.settings import Settings
from consult.plan.writing import NATURAL, base_share
from consult.products.kinds import Auxiliary, Direct, Product, with_developer
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS, VIVID, Phrase, Zone

BLENDS = (0.25, 0.5, 0.75)
BLENDED_APART = Number(2.0, "levels", COMMON_PRACTICE)
"""Further apart a blend is darker than the number that its shares give: the darker shade's dye wins."""

SHOWN = 6
WHITE_DEVELOPER = THRESHOLDS["white-developer"]
Zones = tuple[Zone, ...]
_NOT_OF_THE_SHADE = ("mix-untested", "shade-misses-tone")


class Offer(Struct, frozen=True):
    """One mix from the shelf: shades with their shares, developer (0 where there is none), nearness in words."""

    name: str
    shades: tuple[tuple[str, float], ...]
    developer_percent: float
    minutes: int
    nearness: str


class ShelfChoice(Struct, frozen=True):
    """`best` are equals to the eye, the nearest of all among them; `tried` counts what was compared."""

    best: tuple[Offer, ...]
    ties: int
    tried: int
    refused: tuple[Line, ...]
    lines: tuple[Line, ...]


class _Kept(Struct, frozen=True):
    """A product of the shelf that may be looked at: its place there and its case on this head."""

    place: int
    case: Case


class _Mix(Struct, frozen=True):
    """Two places on the shelf (the same one twice for a shade alone), the share of the second, a strength."""

    first: int
    second: int
    share: float
    developer: float


class _Family(Struct, frozen=True):
    """Shades of one name that can be blended, all put on by the same applications."""

    kept: tuple[_Kept, ...]
    developer: float
    applications: Applications

    def case(self, shade: Shade) -> Case:
        """The family's case as if it were all of one shade."""
        case = self.kept[0].case
        product = replace(_with_strength(case.product, self.developer), shade=shade)
        return replace(case, product=product, lengths_product=product)


def search_shelf(
    answers: Answers,
    head: Head,
    shelf: Shelf,
    now: datetime,
    rules: RuleSet,
    settings: Settings,
) -> ShelfChoice:
    """Compare every shade, permitted blend and developer of the shelf for this head.

    A product that lacks an answer, that a rule stops, or that cannot do it is refused with its reason.
    Blends are made within one name only: different products are never mixed.
    """
    kept: list[_Kept] = []
    refused: list[Line] = []
    for place, product in enumerate(shelf.product):
        found = _case_of(answers, head, product, now, rules)
        if isinstance(found, Line):
            refused.append(found)
        else:
            kept.append(_Kept(place, found))
    mixes: list[tuple[_Family, _Mix]] = []
    by_strength: dict[str, Line] = {}
    by_shade: dict[str, Line] = {}
    for family in _families(kept, shelf, settings):
        against = _against_developer(family)
        if against is None:
            mixes += [(family, mix) for mix in _allowed(family, now, shelf, by_shade)]
            continue
        for one in family.kept:
            name = _name(shelf.product[one.place])
            by_strength.setdefault(name, _of(name, against))
    used = {_name(shelf.product[mix.first]) for _, mix in mixes}
    reasons = by_strength | by_shade
    refused += [told for name, told in reasons.items() if name not in used]
    if not mixes:
        return ShelfChoice((), 0, 0, tuple(refused), ())
    return _ranked(shelf, kept, mixes, head, refused)


def _name(product: Answered) -> str:
    return f"{product.name or 'unnamed product'} {product.shade or ''}".strip()


def _case_of(answers: Answers, head: Head, product: Answered, now: datetime, rules: RuleSet) -> Case | Line:
    mine = answers.model_copy(update={"product": product})
    unanswered = [path for path in missing(mine) if path.startswith("product.")]
    if unanswered:
        return line(
            f"{_name(product)}: its entry on the shelf lacks {', '.join(unanswered)}.",
            "Nothing about a product is guessed.",
        )
    judged = judge(mine, now, rules)
    stops = [f for f in judged.findings if f.verdict is Verdict.STOP]
    if stops:
        return line(
            f"{_name(product)}: {stops[0].trade}", stops[0].remedy, stops[0].sources, plain=stops[0].plain
        )
    case = read_case(mine, head, judged.limits)
    if case is None:
        return line(f"{_name(product)}: no plan is made for its class of colour.", "A service of its own.")
    return case


def _families(kept: list[_Kept], shelf: Shelf, settings: Settings) -> Iterator[_Family]:
    """Products that differ by shade alone, at every developer strength at hand."""
    alike: defaultdict[Product, list[_Kept]] = defaultdict(list)
    for one in kept:
        alike[replace(one.case.product, shade=Shade(1, "neutral"), printed="", price=None)].append(one)
    for members in alike.values():
        product = members[0].case.product
        strengths = (
            (0.0,) if isinstance(product, Direct) else shelf.strengths(shelf.product[members[0].place])
        )
        for developer in strengths:
            case = replace(members[0].case, product=_with_strength(product, developer))
            case = replace(case, lengths_product=case.product)
            handled = carry_out(case, choose_approach(case), settings)
            yield _Family(tuple(members), developer, handled.applications)


def _with_strength(product: Product, percent_: float) -> Product:
    return product if isinstance(product, Direct) else with_developer(product, percent_)


def _allowed(family: _Family, now: datetime, shelf: Shelf, reasons: dict[str, Line]) -> Iterator[_Mix]:
    """The shades and blends of a family that nothing speaks against; why the others are out goes to `reasons`.

    A blend is judged at its own depth, which few distinct numbers take, and by the tone of its larger part.
    """
    verdicts: dict[float, Line | None] = {}
    names = {one.place: _name(shelf.product[one.place]) for one in family.kept}
    blends = (0.0,) if family.kept[0].case.product.is_kit else (0.0, *BLENDS)
    for one, two in combinations_with_replacement(family.kept, 2):
        first, second = one.case.product.shade, two.case.product.shade
        if abs(first.depth - second.depth) > BLENDED_APART:
            continue
        for share in blends if one is not two else (0.0,):
            if share == 0.0 and one is not two:
                continue
            depth = (1 - share) * first.depth + share * second.depth
            if depth not in verdicts:
                verdicts[depth] = _against_depth(family, depth, now)
            against = verdicts[depth] or _against_tone(family, one, two, share)
            if against is None:
                yield _Mix(one.place, two.place, share, family.developer)
            else:
                name = names[one.place]
                if name not in reasons:
                    reasons[name] = _of(name, against)


def _of(name: str, against: Line) -> Line:
    say = Phrase(f"{name}: {against.say.trade}", f"{name}: {against.say.plain}")
    return replace(against, say=say)


def _against_developer(family: _Family) -> Line | None:
    """The first reason against a strength, whatever the shade."""
    if family.developer > LEGAL_LIMIT:
        return line("over the legal limit of peroxide.", f"{LEGAL_LIMIT:g} % at most.", (LEGAL_LIMIT.source,))
    case = family.kept[0].case
    by_weight = not case.product.is_kit and not isinstance(case.product, Direct)
    if case.covers_white and by_weight and family.developer != WHITE_DEVELOPER:
        return line(
            f"white hair is covered with {WHITE_DEVELOPER:g} % developer.",
            "Weaker does not open it enough, stronger leaves less colour in it.",
        )
    return None


def _against_depth(family: _Family, depth: float, now: datetime) -> Line | None:
    """The first reason against any mix of this family at a depth."""
    case = family.case(Shade(depth, family.kept[0].case.wish.tone))
    found = [f for f in check_plan(case, family.applications, now) if f.rule not in _NOT_OF_THE_SHADE]
    if found:
        worst = max(found, key=lambda f: f.verdict)
        return line(worst.trade, worst.remedy, worst.sources, plain=worst.plain)
    return None


def _against_tone(family: _Family, one: _Kept, two: _Kept, share: float) -> Line | None:
    """The first reason against the tones of a blend."""
    case = one.case
    first, second = case.product.shade, two.case.product.shade
    larger = first if share <= 0.5 else second
    if other_tone(larger.tone, case.wish.tone):
        return line(
            f"its tone is {larger.tone}; {case.wish.tone} is wanted.", "Another family is another colour."
        )
    by_weight = not case.product.is_kit and not isinstance(case.product, Direct)
    needed = base_share(case.head.white_mean)
    natural = share if second.tone in NATURAL else 1 - share if first.tone in NATURAL else 0.0
    vivid = {first.tone, second.tone} & VIVID
    if case.covers_white and vivid and by_weight and natural < needed - 0.01:
        return line(
            "a bright shade alone on white hair.",
            f"{percent(case.head.white_mean)} white asks for {percent(needed)} natural shade in the mix.",
        )
    return None


def _colouring(applications: Applications, band: Band, zones: Zones) -> Application | None:
    """The application that decides the colour of a band: the last that deposits."""
    mine = [a for a in reaching(applications, band, zones) if not isinstance(a.bowl.product, Auxiliary)]
    return mine[-1] if mine else None


def _ranked(
    shelf: Shelf, kept: list[_Kept], mixes: list[tuple[_Family, _Mix]], head: Head, refused: list[Line]
) -> ShelfChoice:
    goal = kept[0].case.wish.shade
    by_place = {one.place: one.case for one in kept}
    # Refused products keep their place in the list; no mix names them.
    shades = tuple(by_place[i].product.shade if i in by_place else goal for i in range(len(shelf.product)))
    states: dict[HairState, tuple[Band, Zones]] = {}
    for area in head.areas:
        for band in area.strand.bands:
            states.setdefault(state_of(band), (band, area.zones))
    uptakes = {id(family): _uptakes(family, list(states.values())) for family, _ in mixes}
    uptake = np.array([uptakes[id(family)] for family, _ in mixes])
    reached = uptake.max(axis=0) > 0
    lifts = {
        id(family): _with_strength(family.kept[0].case.product, family.developer).lifts for family, _ in mixes
    }
    candidates = Candidates(
        shades=shades,
        first=np.array([m.first for _, m in mixes]),
        second=np.array([m.second for _, m in mixes]),
        share=np.array([m.share for _, m in mixes]),
        lift=np.array([lifts[id(family)] for family, _ in mixes]),
        uptake=uptake[:, reached],
    )
    touched = [state for state, used in zip(states, reached, strict=True) if used]
    ranking = search(candidates, touched, goal)
    ties = [int(i) for i in ranking.groups[0]]
    shown = best_first(ties, [(mixes[i][1].share > 0, mixes[i][1].developer) for i in ties])
    offers = [_offer(shelf, *mixes[i], float(ranking.worst[i]), by_place) for i in shown]
    own_test = line(
        "Another product or shade needs its own allergy alert test before it is used.",
        "A test counts only for the very mix that was tested.",
        ("canada-cosmetic-regulations-22",),
    )
    return ShelfChoice(tuple(offers), len(ties), len(mixes), tuple(refused), (own_test,))


def best_first(ties: list[int], effort: list[tuple[bool, float]]) -> list[int]:
    """Which of the equals, nearest to the goal first, are shown: the plainer before the others (no blend, then the
    weaker developer), and the nearest of all among them whatever it takes."""
    plain = [mix for _, mix in sorted(zip(effort, ties, strict=True), key=lambda one: one[0])]
    return plain[:SHOWN] if ties[0] in plain[:SHOWN] else [*plain[: SHOWN - 1], ties[0]]


def _uptakes(family: _Family, bands: list[tuple[Band, Zones]]) -> list[float]:
    """Share of full uptake on each band; 0 where the family's applications leave it alone."""
    found = []
    for band, zones in bands:
        application = _colouring(family.applications, band, zones)
        found.append(uptake_of(family.kept[0].case, application, band.porosity) if application else 0.0)
    return found


def _offer(shelf: Shelf, family: _Family, mix: _Mix, worst: float, by_place: dict[int, Case]) -> Offer:
    first, second = shelf.product[mix.first], shelf.product[mix.second]
    shades: tuple[tuple[str, float], ...] = ((_shade(by_place[mix.first], first), 1 - mix.share),)
    if mix.share:
        shades = (*shades, (_shade(by_place[mix.second], second), mix.share))
    name = first.name if isinstance(first.name, str) else "unnamed product"
    minutes = next(a.minutes for a in family.applications if not isinstance(a.bowl.product, Auxiliary))
    return Offer(name, shades, mix.developer, minutes, nearness(worst))


def _shade(case: Case, product: Answered) -> str:
    printed = f" ({product.shade})" if product.shade else ""
    return f"{shade_name(case.product.shade)}{printed}"


def developer_at_hand(product: Answered, shelf: Shelf, grams: float) -> Line | None:
    """How the developer a tube asks for is made from the strengths at hand; None when it is there as it is."""
    wanted = product.developer_percent
    at_hand = sorted({p for d in shelf.developers if d.name == product.name for p in d.percents})
    if not isinstance(wanted, float) or product.kind == "retail kit" or not at_hand or wanted in at_hand:
        return None
    weak, strong = at_hand[0], at_hand[-1]
    try:
        made = alligate(strong, weak, wanted, grams)
    except OutsideStrengths as error:
        return line(
            f"The developer cannot be made from this shelf: {error}.", "Alligation.", ("alligation-texts",)
        )
    return line(
        f"{wanted:g} % developer from what is at hand: {made.strong_g:.0f} g of {strong:g} % and "
        f"{made.weak_g:.0f} g of {weak:g} % make {grams:.0f} g, if the leaflet allows mixing them.",
        f"Parts by alligation: ({wanted:g} - {weak:g}) of the stronger to ({strong:g} - {wanted:g}) of the weaker.",
        ("alligation-texts", ASSUMPTION),
    )
