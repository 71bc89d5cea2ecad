"""The ways of writing the list of applications: one function a way of working.

Each takes the case and who goes over which sections, and gives the list for those sections, in the order it is
carried out. A new kind of service is a new function here and a line in `approach.py`; everything after reads
the list.
"""

from msgspec.structs import replace

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
from consult.plan.clock import full_minutes, minutes_after, refresh_joins, room_after
from consult.plan.lines import Line, line
from consult.plan.rounds import Working
from consult.plan.sections import start_place
from consult.products.kinds import Auxiliary, Developer, Filler, Leaflet, Product, Unpacked
from consult.sources import COMMON_PRACTICE, Number
from consult.trade import AT_THE_SCALP, BEYOND, THRESHOLDS, Stretch, Tone

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


def new_growth(case: Case, working: Working) -> Applications:
    """Nothing but what has grown; long new growth that is to be lightened is put on in two goes."""
    long = case.hair.new_growth_cm > THRESHOLDS["long-new-growth"] and case.lift > 0
    split = _in_two_goes(case, working) if long and case.head.coloured else None
    return _softened(case, working, split or (_first(case, working, AT_THE_SCALP),))


def _in_two_goes(case: Case, working: Working) -> Applications | None:
    """First off the scalp, about half way the rest at the scalp; None where the leaflet leaves no room.

    The scalp's warmth makes up for the later start, but it gets the leaflet's shortest time all the same, and
    what was put on first never passes the longest.
    """
    leaflet = case.product.leaflet
    off_scalp = _first(case, working, (Stretch.NEW_GROWTH,))
    on_for = working.minutes(case, (Stretch.SCALP,))
    room = room_after(leaflet, off_scalp.on_by - off_scalp.start)
    start = min(full_minutes(case, case.product) // 2, room - leaflet.shortest - on_for)
    if start < 0:
        return None
    until = max(off_scalp.until, start + on_for + leaflet.shortest)
    off_scalp = replace(
        off_scalp,
        until=until,
        reason=line(
            "Start off the scalp.",
            "Near the scalp warmth would make it run ahead; a warm band may show all the same.",
        ),
    )
    at_scalp = _round(
        case,
        working,
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


def refresh(case: Case, working: Working) -> Applications:
    """New growth, then the lengths for the last minutes; the lengths alone where what grows is the goal already.

    A kit has no second bowl for that: what lies on the new growth is emulsified and drawn through. By weight a
    little is mixed fresh, unless the first mix is still good.
    """
    if case.nature_is_the_goal:
        return (_drawn_through(case, working, colour_bowl(case, case.product, 1), 0, ""),)
    roots = _first(case, working, AT_THE_SCALP)
    on_for = roots.on_by - roots.start
    joins = refresh_joins(case, case.product, on_for)
    roots = replace(roots, until=joins + case.product.leaflet.refresh)
    leaflet = case.product.leaflet
    still_good = joins - roots.start <= leaflet.mix_life or not case.product.works_in_the_bowl
    emulsified = case.product.is_kit or still_good
    early = (
        f" The leaflet leaves no more room: the lengths join at minute {joins}."
        if joins < minutes_after(case, case.product, on_for)
        else ""
    )
    bowl = roots.bowl if emulsified else colour_bowl(case, case.product, 2)
    through = replace(_drawn_through(case, working, bowl, joins, early), emulsified=emulsified)
    return _softened(case, working, (roots, through))


def _drawn_through(case: Case, working: Working, bowl: Bowl, joins: int, early: str) -> Application:
    """The lengths for the leaflet's minutes of a refresh, thinned."""
    porous = " The lengths are porous and take colour fast." if case.head.porous_lengths else ""
    return Application(
        bowl,
        Target(BEYOND, working.zones),
        Act.COMB_THROUGH,
        (Touch("lengths and ends", joins, joins),),
        joins + case.product.leaflet.refresh,
        Ending.RINSE,
        line(
            "Drawn through for a short while.",
            f"The lengths are {case.hair.lengths_look}; a short pass is enough and anything longer darkens "
            f"them.{porous}{early}",
        ),
        water=True,
    )


def all_over(case: Case, working: Working) -> Applications:
    """From scalp to ends, parting by parting."""
    return _softened(case, working, (_first(case, working, (*AT_THE_SCALP, *BEYOND)),))


def lengths_first(case: Case, working: Working) -> Applications:
    """Lengths, a wait, roots from a fresh bowl. The lengths' clock runs on while the roots develop.

    Where the leaflet has another order for hair never coloured, or leaves no room for two stages, all is put on
    in one go.
    """
    leaflet = case.product.leaflet
    first = _first(case, working, BEYOND)
    roots_on = working.minutes(case, (Stretch.SCALP,))
    roots_after = minutes_after(case, case.product, roots_on)
    room = room_after(leaflet, first.on_by - first.start) - roots_on - roots_after
    if leaflet.first_time == "all at once":
        return _in_one_go(case, working, "The leaflet has hair that was never coloured done all at once.")
    if room < 0:
        return _in_one_go(
            case,
            working,
            f"Its longest time is {leaflet.longest} minutes; the roots need {roots_after} and the time to put them "
            "on, and no stretch may stay on longer.",
        )
    waiting = min(room, max(0, int(LONGEST_LAG) - roots_on))
    until = waiting + roots_on + roots_after
    reason = line("Lengths and ends first.", "Scalp warmth would make the first centimetre run ahead.")
    last = _round(
        case,
        working,
        colour_bowl(case, case.product, 2),
        (Stretch.SCALP,),
        start=waiting,
        until=until,
        reason=line(
            "The roots last, from a fresh bowl.",
            f"Fresh mix at the roots. The lengths are on {until} minutes in the end, within the leaflet's "
            f"{leaflet.longest}.",
        ),
    )
    return _softened(case, working, (replace(first, until=until, reason=reason), last))


def _in_one_go(case: Case, working: Working, why: str) -> Applications:
    one_go = all_over(case, working)
    reason = line("All in one go, roots last within each parting; watch the roots, they run ahead.", why)
    return (*one_go[:-1], replace(one_go[-1], reason=reason))


def fill_then_colour(case: Case, working: Working) -> Applications:
    """A warm filler on the lightened hair, blotted, then the colour over everything."""
    colour = all_over(case, working)
    filler = filler_for(case.wish.depth)
    until = min(a.start for a in colour)
    on_for = working.minutes(case, BEYOND)
    fill = Application(
        Bowl(0, filler, ((filler.shade, 1.0),)),
        Target(BEYOND, working.zones, Which.LIGHTENED),
        Act.PAINT,
        working.touches(case, BEYOND, until - filler.leaflet.longest - on_for),
        until,
        Ending.BLOT,
        line(
            "Warm pigment first.",
            "Lightened hair lacks the warm pigment that carries a darker shade.",
            ("ofqual-colour-correction", COMMON_PRACTICE),
        ),
    )
    return (fill, *colour)


def two_products(case: Case, working: Working) -> Applications:
    """New growth with the one product, lengths with the other, rinsed together.

    The second is put on so late that its own minutes end when those of the first do.
    """
    own = Bowl(2, case.lengths_product, ((case.lengths_product.shade, 1.0),))
    if case.nature_is_the_goal:
        return _softened(case, working, (_first(case, working, BEYOND, own),))
    roots = _first(case, working, AT_THE_SCALP)
    on_for = working.minutes(case, BEYOND)
    needed = minutes_after(case, case.lengths_product, on_for)
    until = max(roots.until, on_for + needed)
    through = _round(
        case,
        working,
        own,
        BEYOND,
        start=until - needed - on_for,
        until=until,
        reason=line(
            "The lengths with their own product.",
            f"Its leaflet gives {needed} minutes; put on so late, both are rinsed together.",
        ),
    )
    return _softened(case, working, (replace(roots, until=until), through))


# --- what they share ------------------------------------------------------------------------------


def _first(
    case: Case, working: Working, stretches: tuple[Stretch, ...], bowl: Bowl | None = None
) -> Application:
    """The first round of colour; it ends at minute 0, and is rinsed when its leaflet's minutes are over."""
    bowl = bowl or colour_bowl(case, case.product, 1)
    assert not isinstance(bowl.product, Auxiliary)
    found = _round(case, working, bowl, stretches, start=0, until=0, reason=start_place(case, working))
    on_for = found.on_by
    return replace(found.later(-on_for), until=minutes_after(case, bowl.product, on_for))


def _round(
    case: Case,
    working: Working,
    bowl: Bowl,
    stretches: tuple[Stretch, ...],
    *,
    start: int,
    until: int,
    reason: Line,
) -> Application:
    """One round over all sections from minute `start`, rinsed at minute `until`.

    Not on what findings leave, nor on new growth that is the goal already.
    """
    kept = tuple(s for s in stretches if not case.limits.leaves(s))
    if case.nature_is_the_goal and case.head.coloured:
        kept = tuple(s for s in kept if s not in AT_THE_SCALP)
    touches = working.touches(case, kept, start)
    return Application(bowl, Target(kept, working.zones), Act.PAINT, touches, until, Ending.RINSE, reason)


def _softened(case: Case, working: Working, applications: Applications) -> Applications:
    """Resistant white is opened first, with developer alone and by a professional only."""
    zones = tuple(zone for zone in working.zones if case.head.white[zone] > 0)
    if not (case.covers_white and case.hair.white_resists and zones) or case.work.at_home:
        return applications
    until = min(a.start for a in applications)
    on = until - int(SOFTENER_MINUTES)
    stretches = tuple(dict.fromkeys(s for a in applications for s in a.target.stretches))
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
