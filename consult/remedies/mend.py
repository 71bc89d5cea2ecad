"""Whether it can be mended at home, when and with which plan: the whole program is asked, at that later day.

Nothing is offered that it would hold. The allergy alert test and the strand test of that day are taken as clear, since
both are made before; everything else is judged as it stands in the record.
"""

from datetime import datetime, timedelta

from msgspec import Struct

from consult.answers import Answers
from consult.answers.base import known
from consult.answers.goal import Goal
from consult.answers.product import Product
from consult.consultation import Consultation, consult
from consult.plan.ledger import CLEAR_DAMAGE_FROM
from consult.plan.types import Made
from consult.plan.usual import as_if_tested, usual, with_product
from consult.remedies.advice import Way
from consult.remedies.after import grown
from consult.salon import SalonConfig
from consult.trade import ColourClass, Stretch


class Mend(Struct, frozen=True):
    """A way that holds: from when, with what, and the whole consultation of that day, whose plan is made."""

    way: Way
    at: datetime
    found: Consultation

    @property
    def plan(self) -> Made:
        assert isinstance(self.found.plan, Made)
        return self.found.plan


def find_mend(record: Answers, ways: tuple[Way, ...], now: datetime, salon: SalonConfig) -> Mend | None:
    """The first way that the program makes a plan for; None where it holds every one.

    record  the answers with the day written in
    """
    for way in ways:
        at = now + timedelta(days=way.days)
        product = _product(record, way)
        if product is None:
            continue
        later = grown(record, way.days, at).model_copy(update={"goal": _goal(record.goal, way)})
        found = consult(as_if_tested(with_product(later, product), at), at, salon)
        if fits(found) and _reaches(found, way):
            return Mend(way, at, found)
    return None


def fits(found: Consultation) -> bool:
    """The plan is made, nothing blocks, and the ledger bears it: no stretch that it touches gets the pass from which
    damage becomes clear."""
    if not isinstance(found.plan, Made) or found.verdict.blocks:
        return False
    return all(a.passes_after == a.passes or a.passes_after < CLEAR_DAMAGE_FROM for a in found.plan.ledger)


def _reaches(found: Consultation, way: Way) -> bool:
    """The plan goes where the fault is: what is to be mended all over has its lengths treated too."""
    assert isinstance(found.plan, Made)
    lengths = any(Stretch.LENGTHS in a.target.stretches for a in found.plan.applications)
    return lengths or way.extent != "all over"


def _goal(goal: Goal, way: Way) -> Goal:
    """What the mend alone is to reach: a deposit tones what has been covered, it covers no white anew."""
    update: dict[str, str] = {"extent": way.extent}
    if way.tone:
        update["tone"] = way.tone
    if way.product != "the same" and goal.white == "cover":
        update["white"] = "blend"
    return goal.model_copy(update=update)


def _product(record: Answers, way: Way) -> Product | None:
    if way.product == "the same":
        # A new pack of the same: what was opened is thrown away.
        return record.product.model_copy(update={"pack": ()})
    depth, tone = known(record.goal.depth), way.tone or known(record.goal.tone)
    if depth is None or tone is None:
        return None
    kind: ColourClass = "demi-permanent" if way.product == "demi-permanent" else "direct (no developer)"
    return usual(kind, depth, tone)
