"""Other ways to the goal or near it, each with its price in damage, upkeep and colour.

A way that is colour on this head is looked at like a plan before it is told: what would be refused is not
offered.
"""

from dataclasses import replace

from consult.plan.approach import choose_approach
from consult.plan.case import Case
from consult.plan.checks import objections
from consult.plan.handling import carry_out
from consult.plan.lines import Line, line
from consult.plan.settings import Settings
from consult.products.kinds import DemiPermanent, Developer, Leaflet, Tube
from consult.sources import COMMON_PRACTICE, Number
from consult.trade import LIGHTEST, THRESHOLDS

_CP = (COMMON_PRACTICE,)
_TO_BE_TESTED = ("mix-untested", "limit-strand-test", "too-early")
"""What is done, or waited for, before any other way as well."""
DEMI_DEVELOPER = Developer(float(Number(3, "% developer", COMMON_PRACTICE)), 2.0)
DEMI_LEAFLET = Leaflet(20, 20, 10, 5, 30)
"""A demi-permanent colour as it usually is (assumption); its own leaflet comes first."""


def _way(say: str, damage: str, upkeep: str, colour: str, sources: tuple[str, ...] = _CP) -> Line:
    """Another way with its price."""
    return line(say, f"Damage: {damage}. Upkeep: {upkeep}. Colour: {colour}.", sources)


def alternatives(case: Case, settings: Settings, *, reachable: bool) -> tuple[Line, ...]:
    """At least one other way, so that nobody is left with a bare no."""
    ways: list[Line] = []
    head, wish = case.head, case.wish
    if head.coloured and wish.depth > head.darkest_length + THRESHOLDS["same-depth"]:
        ways += _with_old_colour(case, settings)
    elif not reachable:
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
    if case.covers_white and _would_do(_blended(case), settings):
        ways.append(
            _way(
                "Blend the white hair with a demi-permanent colour instead of covering it.",
                "the least that colours",
                "fades without an edge in 6 to 8 weeks",
                "white stays visible, softened",
            )
        )
    if case.lift > 0 and _would_do(_at_depth(case, head.natural_depth), settings):
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


def _would_do(case: Case, settings: Settings) -> bool:
    """Nothing speaks against this case but tests that come first anyway."""
    handling = carry_out(case, choose_approach(case), settings)
    return all(check.id in _TO_BE_TESTED for check, _ in objections(case, handling.applications))


def _blended(case: Case) -> Case:
    """The same wish with a demi-permanent colour of its own depth, white hair blended."""
    own = case.product
    demi = DemiPermanent(
        own.name, case.wish.shade, "", "blends white", DEMI_LEAFLET, Tube(60.0), None, DEMI_DEVELOPER
    )
    return replace(case, wish=replace(case.wish, white="blend"), product=demi, lengths_product=demi)


def _at_depth(case: Case, depth: float) -> Case:
    """The same product in a shade of another depth, wished for."""
    wish = replace(case.wish, depth=depth)
    product = replace(case.product, shade=wish.shade)
    return replace(case, wish=wish, product=product, lengths_product=product)


def _wait(case: Case) -> Line:
    if not case.head.coloured:
        return _way("Leave it as it is for now.", "none", "none", "the natural one")
    return _way(
        "Wait and let it grow.",
        "none",
        "none; the line of demarcation wanders down about a centimetre a month",
        "the natural one",
    )


def _with_old_colour(case: Case, settings: Settings) -> list[Line]:
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
        *([keep] if _would_do(_at_depth(case, depth), settings) else []),
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
