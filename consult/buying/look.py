"""Before buying: what to look for on this head, found by asking the whole program what packs of each kind would do.

Nothing is read off a rule of thumb: a kind, a depth and a tone stand on the card only where the program makes a plan
with them, both tests taken as clear, and the mildest kind that does is named.
"""

from datetime import datetime
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.base import known
from consult.answers.product import Product as Answered
from consult.consultation import Consultation, consult
from consult.gates.judge import Finding, Judgement
from consult.gates.verdict import Verdict
from consult.plan.case import missing
from consult.plan.phrasing import NEAR, SAME, other_tone
from consult.plan.shopping import USUAL_PACK_ML
from consult.plan.types import Held, Made
from consult.plan.usual import KINDS, as_if_tested, usual, with_product
from consult.salon import SalonConfig, default_config
from consult.sources import COMMON_PRACTICE, Number
from consult.trade import DARKEST, LIGHTEST, THRESHOLDS, TONES, ColourClass, Tone

SMALL_PACK_ML = Number(60, "ml", COMMON_PRACTICE)
PACKS_ML: Final = (SMALL_PACK_ML, *USUAL_PACK_ML)
_TESTS = ("allergy_test.", "strand_test.")
_OF_A_PACK = ("product.", *_TESTS)
_OF_A_TEST = (*_TESTS, "health.black_henna")
"""What says how long the test of a pack takes."""
FAR: Final = 2
"""Levels either side of the goal in which shades are looked for."""
STRENGTHS: Final = (3.0, 6.0, 9.0, 12.0)


class Shop(Struct, frozen=True):
    """One head as somebody who has nothing in hand yet asks about it."""

    answers: Answers
    now: datetime
    salon: SalonConfig

    def tried(self, product: Answered) -> Consultation:
        """What would come of a pack, its tests taken as clear."""
        answers = as_if_tested(with_product(self.answers, product), self.now)
        return consult(answers, self.now, self.salon)


class Shades(Struct, frozen=True):
    """The shades of one kind that reach the goal: (depth, tone) nearest to the goal first, and the consultation of the
    best."""

    kind: ColourClass
    found: tuple[tuple[float, Tone], ...]
    best: tuple[float, Tone]
    plan: Consultation

    @property
    def by_tone(self) -> dict[Tone, tuple[float, float]]:
        """Tone family -> its darkest and lightest depth that does, the wished tone's own way first."""
        tones = dict.fromkeys([self.best[1], *TONES])
        found = {tone: [depth for depth, its in self.found if its == tone] for tone in tones}
        return {tone: (min(depths), max(depths)) for tone, depths in found.items() if depths}


class LookFor(Struct, frozen=True):
    """What to look for. `shades` is None where nothing is bought: by `against`, by what is `missing`, or because
    `nothing_needed`. `packs` are (ml of one pack, how many)."""

    shop: Shop
    shades: Shades | None
    against: tuple[Finding, ...] = ()
    missing: tuple[str, ...] = ()
    nothing_needed: bool = False
    packs: tuple[tuple[float, int], ...] = ()
    strengths: tuple[float, ...] = ()
    ammonia: tuple[Finding, ...] = ()


def empty_handed(answers: Answers) -> Answers:
    """The answers without any product. What an earlier test found stays: it is of the person, not of the pack."""
    goal = answers.goal.model_copy(update={"lengths_product": None})
    return answers.model_copy(update={"product": Answered(), "lengths_product": Answered(), "goal": goal})


def _of_the_pack(finding: Finding) -> bool:
    """It only says that a test with the pack is still to be made."""
    made_later = finding.verdict in (Verdict.WAIT, Verdict.TEST_FIRST)
    return made_later and all(path.startswith(_OF_A_TEST) for path in finding.evidence)


def of_the_head(judged: Judgement) -> Judgement:
    """What is left of a judgement while there is no pack: what speaks of the head, and what is asked about it."""
    ask = tuple(path for path in judged.ask if not path.startswith(_OF_A_PACK))
    findings = tuple(finding for finding in judged.findings if not _of_the_pack(finding))
    return replace(
        judged, findings=findings, ask=ask, could_become=judged.could_become if ask else Verdict.CLEAR
    )


def held_anyway(shop: Shop) -> tuple[Finding, ...]:
    """What holds this head whatever is bought."""
    found = consult(shop.answers, shop.now, shop.salon).judgement.findings
    return tuple(f for f in found if f.verdict.blocks and not _of_the_pack(f))


def still_to_answer(shop: Shop) -> tuple[str, ...]:
    """Questions about the head that are open, each once."""
    asked = consult(shop.answers, shop.now, shop.salon).judgement.ask
    return tuple(dict.fromkeys(p for p in (*missing(shop.answers), *asked) if not p.startswith(_OF_A_PACK)))


def look_for(answers: Answers, now: datetime, salon: SalonConfig | None = None) -> LookFor:
    """What to look for in the shop; a product in the answers is not looked at. Nothing here reads a clock."""
    shop = Shop(empty_handed(answers), now, salon or default_config())
    against, lacking = held_anyway(shop), still_to_answer(shop)
    if against or lacking:
        return LookFor(shop, None, against, lacking)
    depth = known(answers.goal.depth)
    tone: Tone | None = known(answers.goal.tone)
    assert depth is not None
    assert tone is not None
    refused: dict[str, Finding] = {}
    for kind in KINDS:
        shades = find_shades(shop, kind, depth, tone, refused)
        if shades:
            return _with_facts(shop, shades)
    if "already-the-goal" in refused:
        return LookFor(shop, None, nothing_needed=True)
    return LookFor(shop, None, tuple(sorted(refused.values(), key=lambda f: -f.verdict)))


def find_shades(
    shop: Shop, kind: ColourClass, depth: float, tone: Tone, refused: dict[str, Finding]
) -> Shades | None:
    """The shades of a kind that the program makes a plan with; why the wished one is refused goes to `refused`."""
    depths = sorted(
        {depth} | {float(n) for n in range(int(DARKEST), int(LIGHTEST) + 1) if abs(n - depth) <= FAR}
    )
    tones = [other for other in TONES if not other_tone(other, tone)]
    made: list[tuple[float, float, Tone, Consultation]] = []
    for its_depth in depths:
        for its_tone in tones:
            found = shop.tried(usual(kind, its_depth, its_tone, **chart_of(shop)))
            if does(found):
                made.append((_off(found), its_depth, its_tone, found))
            elif (its_depth, its_tone) == (depth, tone):
                refused.update({f.rule: f for f in found.findings if f.verdict.blocks})
    if not made:
        return None
    least = min(off for off, *_ in made)
    # Of those that the eye cannot tell apart, the one that prints what is wished.
    made.sort(key=lambda one: (one[0] > least + SAME, abs(one[1] - depth), one[2] != tone, one[0]))
    _, best_depth, best_tone, plan = made[0]
    return Shades(kind, tuple((d, t) for _, d, t, _ in made), (best_depth, best_tone), plan)


def does(found: Consultation) -> bool:
    """A plan is made, and it comes near the goal wherever it colours."""
    return isinstance(found.plan, Made) and not found.verdict.blocks and _off(found) < NEAR


def _off(found: Consultation) -> float:
    """Colour difference to the goal where the plan colours: at the worst band."""
    assert found.forecast
    return max(band.last.to_goal for band in found.forecast.bands if len(band.stages) > 1)


def chart_of(shop: Shop) -> dict[str, float]:
    """A chart that holds this head's natural depth; all white hair is on no chart."""
    natural = shop.answers.hair.natural_depth
    return {"chart_from": natural, "chart_to": natural} if isinstance(natural, float) else {}


def _with_facts(shop: Shop, shades: Shades) -> LookFor:
    """Packs of each usual size, the strengths that do, and what ammonia adds."""
    assert isinstance(shades.plan.plan, Made)

    def tried(**known_: Any) -> Consultation:
        return shop.tried(usual(shades.kind, *shades.best, **{**chart_of(shop), **known_}))

    packs = tuple((float(ml), _packs(tried(pack_ml=float(ml)))) for ml in PACKS_ML)
    mixed = shades.kind != "direct (no developer)"
    least = float(THRESHOLDS["white-developer"]) if shades.plan.plan.case.covers_white else 0.0
    able = [s for s in STRENGTHS if s >= least and does(tried(developer_percent=s))]
    strengths = tuple(able) if mixed else ()
    usual_rules = {f.rule for f in shades.plan.findings}
    ammonia = tuple(f for f in tried(contains_ammonia="yes").findings if f.rule not in usual_rules)
    return LookFor(shop, shades, packs=packs, strengths=strengths, ammonia=ammonia)


def _packs(found: Consultation) -> int:
    plan = found.plan.then if isinstance(found.plan, Held) else found.plan
    return sum(purchase.packs for purchase in plan.purchases) if isinstance(plan, Made) else 0
