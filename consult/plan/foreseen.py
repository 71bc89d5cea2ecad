"""What the forecast has against a plan that is made: a colour that is clearly not the one that is promised.

The checks reckon by the trade's rules of thumb before anything is computed. Where the computed colour tells
another story nobody mixes either: the plan is held, unless a strand test has shown the colour on this very hair.
"""

from consult.gates.judge import Finding
from consult.gates.verdict import Verdict
from consult.plan.case import Case
from consult.plan.forecast import BandForecast, Forecast, cool_objections
from consult.plan.targets import part_of
from consult.plan.types import Held, Made
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number

ANOTHER_COLOUR = Number(1.0, "levels from the goal, beyond which it is another colour", COMMON_PRACTICE)
_SHOWS_IT = "A strand test shows which it is: as wanted, and it is judged again. Or choose another shade."


def held_by_forecast(plan: Made, forecast: Forecast) -> Held | None:
    """The hold, or None where what is foreseen is what is promised, or a strand test came out as wanted."""
    case = plan.case
    found = (_another_depth(case, forecast), _turns_green(case))
    findings = tuple(finding for finding in found if finding)
    if not findings or case.tests.strand_as_wanted:
        return None
    return Held(findings, (), case, plan.applications, None, plan.notes, plan.ways)


def _another_depth(case: Case, forecast: Forecast) -> Finding | None:
    off: dict[str, float] = {}
    for band in forecast.bands:
        depth = _promised(case, band)
        if len(band.stages) > 1 and abs(depth - case.wish.depth) > ANOTHER_COLOUR:
            off.setdefault(part_of(band.stretch), depth)
    if not off:
        return None
    told = ", ".join(f"{part} about depth {depth:g}" for part, depth in off.items())
    return Finding(
        rule="another-colour-foreseen",
        verdict=Verdict.TEST_FIRST,
        trade=f"Another colour is foreseen than the wanted depth {case.wish.depth:g}: {told}.",
        plain=f"This product is expected to give another colour than the wanted depth {case.wish.depth:g}: {told}.",
        remedy=_SHOWS_IT,
        sources=(COMMON_PRACTICE, ASSUMPTION),
        evidence=("goal.depth", "product.depth", "hair.natural_depth", "strand_test.colour"),
    )


def _promised(case: Case, band: BandForecast) -> float:
    """The depth that counts: of all hair, but of natural hair whose white is not covered that of the other hair."""
    apart = band.natural and not case.covers_white
    return (band.last.pigmented if apart else band.last.seen).depth


def _turns_green(case: Case) -> Finding | None:
    """A cool shade that is refused on what lightening leaves."""
    refused = next((one for one in cool_objections(case) if one.weight == "reject"), None)
    if refused is None:
        return None
    return Finding(
        rule="cool-turns-green",
        verdict=Verdict.TEST_FIRST,
        trade=f"{case.product.shade.tone.capitalize()} on hair this light: {refused.words}",
        plain="This cool shade on hair as light as this is expected to look greenish.",
        remedy=_SHOWS_IT,
        sources=(COMMON_PRACTICE,),
        evidence=("product.tone", "goal.depth", "hair.lengths_depth", "strand_test.colour"),
    )
