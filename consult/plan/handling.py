"""How the list of applications is carried out so that every hair keeps within its leaflet's minutes.

What a colourist has to make it fit, tried in this order: nothing; wider partings where no white shows; rinsing
section by section in the order of application, which only a salon can; one half of the head after the other
from fresh bowls. A second pair of hands is an answer, not a choice of the plan's. Where nothing fits, the plain
way stands and a check says what would make it fit.
"""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from consult.plan.application import Applications, on_this_head, within
from consult.plan.approach import Approach
from consult.plan.case import Case
from consult.plan.clock import full_minutes
from consult.plan.contact import fits
from consult.plan.lines import Line, line
from consult.plan.rounds import Working, in_sections
from consult.plan.settings import Settings
from consult.products.kinds import Auxiliary, Filler
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

RINSE_A_SECTION = Number(3, "min to rinse one section at the basin", ASSUMPTION)
BETWEEN_HALVES = Number(15, "min to rinse, towel and dry one half of the head", ASSUMPTION)
_SECOND_HALF = 10
"""Added to the numbers of its bowls, so that they are bowls of their own."""


class Handling(Struct, frozen=True):
    """Applications as they are carried out, by whom and in which sections; `why` where it is not the plain way."""

    applications: Applications
    working: Working
    why: Line | None = None


def carry_out(case: Case, approach: Approach, settings: Settings) -> Handling:
    """The first handling under which every hair keeps within its minutes; the plain one where none does."""
    handlings = _handlings(case, approach, in_sections(case, settings))
    plain = next(handlings)
    if fits(plain.applications):
        return plain
    return next((handling for handling in handlings if fits(handling.applications)), plain)


def _handlings(case: Case, approach: Approach, working: Working) -> Iterator[Handling]:
    yield Handling(_written(case, approach, working), working)
    ways, wide = [(working, "")], replace(working, wide=True)
    if any(wide.parting_cm(case, s) > working.parting_cm(case, s) for s in working.sections):
        ways.append((wide, " Take wider partings where no white shows."))
        wider = (
            "Wider partings where no white shows.",
            "So the first and the last hair have the colour on for nearly the same time.",
        )
        yield Handling(_written(case, approach, wide), wide, line(*wider))
    if not case.work.at_home:
        for one, also in ways:
            in_order = _rinsed_in_order(case, _written(case, approach, one))
            if in_order:
                why = line(
                    f"Rinse section by section, in the order of application.{also}",
                    "So every section has the leaflet's minutes of its own and none has more.",
                    (COMMON_PRACTICE, ASSUMPTION),
                )
                yield Handling(in_order, one, why)
    for one, also in ways:
        why = line(
            "One half of the head after the other, each from a fresh bowl; the other half stays dry and clipped "
            f"away.{also}",
            "In one go the first hair would have the colour on far longer than the last.",
            (COMMON_PRACTICE, ASSUMPTION),
        )
        yield Handling(_in_halves(case, approach, one), one, why)


def _written(case: Case, approach: Approach, working: Working) -> Applications:
    kept = on_this_head(case.head, within(case.limits, approach.write(case, working)))
    painted = {a.bowl for a in kept if not a.emulsified}
    # Where nothing lies on the new growth there is nothing to draw through.
    return tuple(a for a in kept if not a.emulsified or a.bowl in painted)


def _rinsed_in_order(case: Case, applications: Applications) -> Applications | None:
    """Each section taken off when its own minutes are over; None for more than one round of colour."""
    colours = [a for a in applications if not isinstance(a.bowl.product, Auxiliary | Filler)]
    if len(colours) != 1:
        return None
    colour = colours[0]
    product = colour.bowl.product
    assert not isinstance(product, Auxiliary)
    touches, free = [], colour.start
    for touch in colour.touches:
        own = touch.end - touch.start
        after = full_minutes(case, product)
        if product.leaflet.counted_from == "the first touch":
            after = max(after - own, product.leaflet.shortest)
        off = max(touch.end + after, free)
        free = off + int(RINSE_A_SECTION)
        touches.append(replace(touch, off=off))
    rinsed = replace(colour, touches=tuple(touches), until=max(t.off or 0 for t in touches))
    return tuple(rinsed if a is colour else a for a in applications)


def _in_halves(case: Case, approach: Approach, working: Working) -> Applications:
    """The half that is begun first, then the other from bowls of its own, once the first is rinsed and dry."""
    back_first = working.sections[0].back
    first = _written(case, approach, working.half(back=back_first))
    second = _written(case, approach, working.half(back=not back_first))
    if not first or not second:
        return first or second
    begins = max(a.until for a in first) + int(BETWEEN_HALVES)
    later = begins - min(a.start for a in second)
    return (
        *first,
        *(replace(a.later(later), bowl=replace(a.bowl, number=a.bowl.number + _SECOND_HALF)) for a in second),
    )
