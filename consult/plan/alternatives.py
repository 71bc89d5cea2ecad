"""Other ways to the goal or near it, each with its price in damage, upkeep and colour.

A way that is colour on this head is judged and checked like a plan before it is told: what would be refused is
not offered.
"""

from datetime import datetime
from typing import Any

from msgspec import Struct

from consult.answers import Answers
from consult.gates.rules import RuleSet
from consult.gates.verdict import Verdict
from consult.judging import judge_head
from consult.plan.approach import choose_approach
from consult.plan.case import Case, read_case
from consult.plan.checks import objections
from consult.plan.handling import carry_out
from consult.plan.lines import Line, line
from consult.plan.rounds import MUCH_WHITE
from consult.plan.settings import Settings
from consult.plan.usual import DEMI
from consult.sources import COMMON_PRACTICE
from consult.trade import LIGHTEST, THRESHOLDS

_CP = (COMMON_PRACTICE,)
_FIRST_ANYWAY = (Verdict.WAIT, Verdict.TEST_FIRST)
"""What is waited for, or tested, before any other way as well."""
_TO_BE_DONE = ("mix-untested", "limit-strand-test", "too-early")


class Ways(Struct, frozen=True):
    """What other ways are looked for with: the answers, and how they are judged."""

    answers: Answers
    case: Case
    now: datetime
    settings: Settings
    rules: RuleSet
    against: tuple[Verdict, ...] = ()
    """The verdicts that speak against the plan these are the other ways to."""

    def would_do(self, goal: dict[str, Any], product: dict[str, Any]) -> bool:
        """Nothing speaks against these answers, so changed, but waits and tests that come first anyway."""
        answers = self.answers.model_copy(
            update={
                "goal": self.answers.goal.model_copy(update={**goal, "lengths_product": None}),
                "product": self.answers.product.model_copy(update=product),
            }
        )
        judged = judge_head(answers, self.case.head, self.now, self.rules)
        if any(f.verdict.blocks and f.verdict not in _FIRST_ANYWAY for f in judged.findings):
            return False
        case = read_case(answers, self.case.head, judged.limits)
        if case is None:
            return False
        handling = carry_out(case, choose_approach(case), self.settings)
        return all(check.id in _TO_BE_DONE for check, _ in objections(case, handling.applications))

    def blend(self) -> bool:
        """White hair blended with a demi-permanent colour of the wished shade."""
        wish = self.case.wish
        return self.would_do({"white": "blend"}, {**DEMI, "depth": wish.depth, "tone": wish.tone})

    def at_depth(self, depth: float) -> bool:
        """The same product in a shade of another depth, wished for."""
        return self.would_do({"depth": depth}, {"depth": depth, "tone": self.case.wish.tone})


def _way(
    say: str, damage: str, upkeep: str, colour: str, sources: tuple[str, ...] = _CP, *, plain: str = ""
) -> Line:
    """Another way with its price."""
    return line(say, f"Damage: {damage}. Upkeep: {upkeep}. Colour: {colour}.", sources, plain=plain)


def alternatives(ways_to: Ways) -> tuple[Line, ...]:
    """At least one other way, so that nobody is left with a bare no."""
    case = ways_to.case
    ways: list[Line] = []
    head, wish = case.head, case.wish
    if head.coloured and wish.depth > head.darkest_length + THRESHOLDS["same-depth"]:
        ways += _with_old_colour(ways_to)
    elif Verdict.CHANGE_PRODUCT in ways_to.against:
        ways.append(_nearest_shade(case))
        if case.lift > 0 and not case.limits.no_lift:
            ways.append(
                _way(
                    "Let a licensed colourist lighten it, in stages if need be.",
                    "the most, lightener on the whole head",
                    "new growth every 3 to 4 weeks",
                    "the goal itself",
                )
            )
    # Where more than half is white, most of it would stay in sight.
    if case.covers_white and head.white_mean <= MUCH_WHITE and ways_to.blend():
        ways.append(
            _way(
                "Blend the white hair with a demi-permanent colour instead of covering it.",
                "the least that colours",
                "fades without an edge in 6 to 8 weeks",
                "white stays visible, softened",
                plain="Blend the white hair with a demi-permanent colour, one that fades in some weeks, instead of "
                "covering it.",
            )
        )
    if case.lift > 0 and ways_to.at_depth(head.natural_depth):
        ways.append(
            _way(
                f"Stay at the natural depth {head.natural_depth:g} and change the tone only.",
                "little, no lift is needed",
                "little contrast at the new growth",
                "no lighter than now",
            )
        )
    ways.append(_wait(case))
    return tuple(ways)


def _wait(case: Case) -> Line:
    if not case.head.coloured:
        return _way("Leave it as it is for now.", "none", "none", "the natural one")
    return _way(
        "Wait and let it grow.",
        "none",
        "none; the line of demarcation wanders down about a centimetre a month",
        "the natural one",
    )


def _with_old_colour(ways_to: Ways) -> list[Line]:
    case = ways_to.case
    depth = case.head.darkest_length
    keep = _way(
        f"Keep the lengths' depth {depth:g} and match the new growth to it.",
        "only the new growth is treated",
        "as now",
        "not lighter, but even",
    )
    removed = _way(
        "Have the old colour taken out by a licensed colourist; removing it is a service of its own.",
        "high",
        "a toner every few weeks",
        "the goal, in one or more visits",
        ("uk-nos-correction",),
    )
    return [
        *([keep] if ways_to.at_depth(depth) else []),
        *([] if case.limits.no_lift else [removed]),
    ]


def _nearest_shade(case: Case) -> Line:
    natural = case.head.natural_depth
    lift = THRESHOLDS["lift-at-home" if case.work.at_home else "lift-in-one-colouring"]
    lightest = natural if case.limits.no_lift else min(LIGHTEST, natural + lift)
    claim = " and whose pack claims full cover" if case.covers_white else ""
    return _way(
        f"Choose a shade between depth {natural:g} and {lightest:g} whose chart holds depth {natural:g}{claim}."
        if lightest > natural
        else f"Choose a shade at depth {natural:g} whose chart holds that depth{claim}.",
        "as for any colouring",
        "by contrast to the natural depth",
        "the nearest this hair can reach in one colouring",
    )
