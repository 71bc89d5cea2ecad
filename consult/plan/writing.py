"""The ways of writing the list of applications: one function a way of working.

Each takes the case and the settings and gives the whole list, in the order it is carried out. A new kind of
service is a new function here and a line in `approach.py`; everything after reads the list.
"""

from dataclasses import replace

from consult.colour.values import Shade
from consult.plan.application import (
    Act,
    Application,
    Applications,
    Bowl,
    Ending,
    Target,
    Touch,
    Which,
)
from consult.plan.case import Case
from consult.plan.clock import full_minutes, refresh_joins
from consult.plan.lines import Line, line
from consult.plan.sections import round_minutes, round_over, section_minutes, section_order, start_place
from consult.plan.settings import Settings
from consult.products.kinds import Auxiliary, Developer, Filler, Leaflet, Product, Unpacked
from consult.sources import COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS, Stretch, Tone, Zone

# White share of the head -> share of natural shade in the colour, within what is taught: up to a quarter,
# a third to a half, a half to two thirds, two thirds to all (common practice).
BASE_SHARE = ((0.30, 0.0), (0.50, 1 / 2), (0.75, 2 / 3), (1.01, 3 / 4))
NATURAL: tuple[Tone, ...] = ("neutral",)
LONGEST_LAG = Number(20, "min that the lengths run ahead", COMMON_PRACTICE)
SOFTENER = Auxiliary(
    "3 % developer",
    float(Number(3, "% developer", COMMON_PRACTICE)),
    "Developer alone opens resistant white.",
)
SOFTENER_MINUTES = Number(10, "min", COMMON_PRACTICE)
SOFTENER_ON = Number(5, "min to dab it on", COMMON_PRACTICE)
FILLER_PERCENT = Number(3, "% developer", COMMON_PRACTICE)
FILLER_MINUTES = (Number(10, "min", COMMON_PRACTICE), Number(15, "min", COMMON_PRACTICE))
_FILL_TONE: dict[int, Tone] = {
    10: "gold",
    9: "gold",
    8: "gold",
    7: "gold",
    6: "copper",
    5: "copper red",
    4: "red",
}

SCALP = (Stretch.SCALP, Stretch.NEW_GROWTH)
BEYOND = (Stretch.LENGTHS, Stretch.ENDS)


def base_share(white: float) -> float:
    """Share of natural shade for a white share of 0 to 1 (common practice)."""
    return next(share for limit, share in BASE_SHARE if white < limit)


def colour_bowl(case: Case, product: Product, number: int) -> Bowl:
    """The product in its bowl; by the tube and on white hair part of it is the natural shade of its depth."""
    shade = product.shade
    share = base_share(case.head.white_mean)
    plain = case.wish.white not in ("cover", "blend") or shade.tone in NATURAL or share == 0
    if product.is_kit or product.passes == 0 or plain:
        return Bowl(number, product, ((shade, 1.0),))
    return Bowl(number, product, ((Shade(shade.depth, "neutral"), share), (shade, 1 - share)))


def filler_for(depth: float) -> Filler:
    """What fills lightened hair before it goes to a depth: warm, a level lighter, weak, for a few minutes."""
    least, most = (int(minutes) for minutes in FILLER_MINUTES)
    shade = Shade(min(depth + 1, 10), _FILL_TONE.get(int(depth), "red"))
    leaflet = Leaflet(most, most, 0, least, most)
    developer = Developer(float(FILLER_PERCENT), 1.0)
    return Filler("filler", shade, "", "no claim", leaflet, Unpacked(), None, developer)


# --- the ways -------------------------------------------------------------------------------------


def new_growth(case: Case, settings: Settings) -> Applications:
    """Nothing but what has grown; long new growth that is to be lightened is put on in two goes."""
    long = case.hair.new_growth_cm > THRESHOLDS["long-new-growth"] and case.lift > 0
    split = _in_two_goes(case, settings) if long and case.head.coloured else None
    return _softened(case, split or (_first(case, settings, SCALP, until=full_minutes(case, case.product)),))


def _in_two_goes(case: Case, settings: Settings) -> Applications | None:
    """First off the scalp, about half way the rest at the scalp; None where the leaflet leaves no room.

    The scalp's warmth makes up for the later start, but it gets the leaflet's shortest time all the same, and
    what was put on first never passes the longest.
    """
    leaflet, full = case.product.leaflet, full_minutes(case, case.product)
    sections = section_order(case, settings)
    on_for = round_minutes(sections, section_minutes(case, settings, lengths=False), case.work.hands)
    start = min(full // 2, leaflet.longest - leaflet.shortest - on_for)
    if start < 0:
        return None
    until = max(full, start + on_for + leaflet.shortest)
    off_scalp = replace(
        _first(case, settings, (Stretch.NEW_GROWTH,), until=until),
        reason=line(
            "Start off the scalp.",
            "Near the scalp warmth would make it run ahead; a warm band may show all the same.",
        ),
    )
    at_scalp = _round(
        case,
        settings,
        colour_bowl(case, case.product, 2),
        (Stretch.SCALP,),
        start=start,
        until=until,
        reason=line(
            "The scalp last, quickly.",
            f"The scalp's warmth makes up for the later start; it still gets the leaflet's {leaflet.shortest} minutes.",
        ),
    )
    return off_scalp, at_scalp


def refresh(case: Case, settings: Settings) -> Applications:
    """New growth, then the lengths for the last minutes: the rest of a kit's bowl, or a fresh one by weight."""
    joins = refresh_joins(case, case.product)
    until = joins + case.product.leaflet.refresh
    roots = _first(case, settings, SCALP, until=until)
    bowl = roots.bowl if case.product.is_kit else colour_bowl(case, case.product, 2)
    porous = " The lengths are porous and take colour fast." if case.head.porous_lengths else ""
    early = (
        f" The leaflet's longest time is {case.product.leaflet.longest} minutes in all, so the lengths join at minute "
        f"{joins}."
        if joins < full_minutes(case, case.product)
        else ""
    )
    through = Application(
        bowl,
        Target(BEYOND),
        Act.COMB_THROUGH,
        (Touch("lengths and ends", joins, joins),),
        until,
        Ending.RINSE,
        line(
            "Combed through for a short while.",
            f"The lengths are {case.hair.lengths_look}; a short pass is enough and anything longer darkens "
            f"them.{porous}{early}",
        ),
        water=True,
    )
    return _softened(case, (roots, through))


def all_over(case: Case, settings: Settings) -> Applications:
    """From scalp to ends, parting by parting."""
    full = full_minutes(case, case.product)
    return _softened(case, (_first(case, settings, (*SCALP, *BEYOND), until=full),))


def lengths_first(case: Case, settings: Settings) -> Applications:
    """Lengths, a wait, roots from a fresh bowl. The lengths' clock runs on while the roots develop.

    Where the leaflet leaves no room for two stages, its own order for hair never coloured counts.
    """
    full = full_minutes(case, case.product)
    sections = section_order(case, settings)
    roots = round_minutes(sections, section_minutes(case, settings, lengths=False), case.work.hands)
    room = case.product.leaflet.longest - full - roots
    if room < 0:
        one_go = all_over(case, settings)
        reason = line(
            "The leaflet leaves no room for two stages: follow its own order for hair never coloured before.",
            f"Its longest time is {case.product.leaflet.longest} minutes; the roots need {full} and the time to put "
            "them on, and no stretch may stay on longer.",
        )
        return (*one_go[:-1], replace(one_go[-1], reason=reason))
    waiting = min(room, max(0, int(LONGEST_LAG) - roots))
    until = waiting + roots + full
    first = _first(case, settings, BEYOND, until=until)
    reason = line("Lengths and ends first.", "Scalp warmth would make the first centimetre run ahead.")
    last = _round(
        case,
        settings,
        colour_bowl(case, case.product, 2),
        (Stretch.SCALP,),
        start=waiting,
        until=until,
        reason=line(
            "The roots last, from a fresh bowl.",
            f"Fresh mix at the roots. The lengths are on {until} minutes in the end, within the leaflet's "
            f"{case.product.leaflet.longest}.",
        ),
    )
    return _softened(case, (replace(first, reason=reason), last))


def fill_then_colour(case: Case, settings: Settings) -> Applications:
    """A warm filler on the lightened hair, blotted, then the colour over everything."""
    colour = all_over(case, settings)
    filler = filler_for(case.wish.depth)
    lengths = section_minutes(case, settings, lengths=True)
    sections = section_order(case, settings)
    on_for = round_minutes(sections, lengths, case.work.hands)
    until = min(a.start for a in colour)
    fill = Application(
        Bowl(0, filler, ((filler.shade, 1.0),)),
        Target(BEYOND, which=Which.LIGHTENED),
        Act.PAINT,
        round_over(sections, lengths, case.work.hands, until - filler.leaflet.longest - on_for),
        until,
        Ending.BLOT,
        line(
            "Warm pigment first.",
            "Lightened hair lacks the warm pigment that carries a darker shade.",
            ("ofqual-colour-correction", COMMON_PRACTICE),
        ),
    )
    return (fill, *colour)


def two_products(case: Case, settings: Settings) -> Applications:
    """New growth with the one product, lengths with the other, rinsed together.

    The second is put on so late that its own minutes end when those of the first do.
    """
    sections = section_order(case, settings)
    on_for = round_minutes(sections, section_minutes(case, settings, lengths=True), case.work.hands)
    needed = full_minutes(case, case.lengths_product)
    until = max(full_minutes(case, case.product), on_for + needed)
    roots = _first(case, settings, SCALP, until=until)
    through = _round(
        case,
        settings,
        Bowl(2, case.lengths_product, ((case.lengths_product.shade, 1.0),)),
        BEYOND,
        start=until - needed - on_for,
        until=until,
        reason=line(
            "The lengths with their own product.",
            f"Its leaflet gives {needed} minutes; put on so late, both are rinsed together.",
        ),
    )
    return _softened(case, (roots, through))


# --- what they share ------------------------------------------------------------------------------


def _first(case: Case, settings: Settings, stretches: tuple[Stretch, ...], *, until: int) -> Application:
    """The first round of colour; it ends at minute 0."""
    place = start_place(case)
    bowl = colour_bowl(case, case.product, 1)
    found = _round(case, settings, bowl, stretches, start=0, until=until, reason=place)
    ahead = found.on_by
    touches = tuple(Touch(t.section, t.start - ahead, t.end - ahead) for t in found.touches)
    return replace(found, touches=touches)


def _round(
    case: Case,
    settings: Settings,
    bowl: Bowl,
    stretches: tuple[Stretch, ...],
    *,
    start: int,
    until: int,
    reason: Line,
) -> Application:
    """One round over all sections from minute `start`, rinsed at minute `until`."""
    kept = tuple(s for s in stretches if not case.limits.leaves(s))
    each = section_minutes(case, settings, lengths=Stretch.LENGTHS in kept)
    touches = round_over(section_order(case, settings), each, case.work.hands, start)
    return Application(bowl, Target(kept), Act.PAINT, touches, until, Ending.RINSE, reason)


def _softened(case: Case, applications: Applications) -> Applications:
    """Resistant white is opened first, with developer alone and by a professional only."""
    if not (case.covers_white and case.hair.white_resists) or case.work.at_home:
        return applications
    until = min(a.start for a in applications)
    on = until - int(SOFTENER_MINUTES)
    stretches = tuple(dict.fromkeys(s for a in applications for s in a.target.stretches))
    zones = tuple(zone for zone in Zone if case.head.white[zone] > 0)
    softener = Application(
        Bowl(0, SOFTENER, ()),
        Target(stretches, zones, Which.WHITE),
        Act.DAB,
        (Touch("white hair", on - int(SOFTENER_ON), on),),
        until,
        Ending.BLOT,
        line(
            "This pre-softens the resistant white. Not on a sensitive scalp.",
            "Resistant white lets colour slide off; slightly opened it takes it.",
        ),
    )
    return (softener, *applications)
