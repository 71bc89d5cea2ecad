"""Other ways to the goal or near it, each with its price in damage, upkeep and colour."""

from consult.plan.brief import Brief
from consult.plan.types import Line
from consult.sources import COMMON_PRACTICE, Number

SAME_DEPTH = Number(0.5, "levels", COMMON_PRACTICE)
LIFT_HOME = Number(2.0, "levels", COMMON_PRACTICE)
LIFT_PROFESSIONAL = Number(3.0, "levels", COMMON_PRACTICE)
_CP = (COMMON_PRACTICE,)


def _way(say: str, damage: str, upkeep: str, colour: str, sources: tuple[str, ...] = _CP) -> Line:
    """Another way with its price."""
    return Line(say, f"Damage: {damage}. Upkeep: {upkeep}. Colour: {colour}.", sources)


def alternatives(brief: Brief, *, reachable: bool) -> list[Line]:
    """At least one other way, so that nobody is left with a bare no."""
    ways: list[Line] = []
    if brief.coloured and brief.goal_depth > brief.lengths_depth + SAME_DEPTH:
        ways += _with_old_colour(brief)
    elif not reachable:
        ways.append(_nearest_shade(brief))
        if brief.lift > 0:
            ways.append(
                _way(
                    "Let a licensed colourist lighten it, in stages if need be.",
                    "the most, lightener on the whole head",
                    "new growth every 3 to 4 weeks",
                    "the goal itself",
                )
            )
    if brief.covers_white:
        ways.append(
            _way(
                "Blend the white hair with a demi-permanent colour instead of covering it.",
                "the least that colours",
                "fades without an edge in 6 to 8 weeks",
                "white stays visible, softened",
            )
        )
    if brief.lift > 0:
        ways.append(
            _way(
                f"Stay at the natural depth {brief.natural:g} and change the tone only.",
                "little, no lift is needed",
                "little contrast at the new growth",
                "no lighter than now",
            )
        )
    ways.append(
        _way(
            "Wait and let it grow." if brief.coloured else "Leave it as it is for now.",
            "none",
            "none; the line of demarcation wanders down about a centimetre a month"
            if brief.coloured
            else "none",
            "the natural one",
        )
    )
    return ways


def _with_old_colour(brief: Brief) -> list[Line]:
    return [
        _way(
            f"Keep the lengths' depth {brief.lengths_depth:g} and match the new growth to it.",
            "only the new growth is treated",
            "as now",
            "not lighter, but even",
        ),
        _way(
            "Have the old colour taken out by a licensed colourist; removing it is a service of its own.",
            "high",
            "a toner every few weeks",
            "the goal, in one or more visits",
            ("uk-nos-correction",),
        ),
    ]


def _nearest_shade(brief: Brief) -> Line:
    lightest = brief.natural + (LIFT_HOME if brief.at_home else LIFT_PROFESSIONAL)
    claim = " and whose pack claims full cover" if brief.covers_white else ""
    return _way(
        f"Choose a shade between depth {brief.natural:g} and {min(10.0, lightest):g} whose chart holds depth "
        f"{brief.natural:g}{claim}.",
        "as for any colouring",
        "by contrast to the natural depth",
        "the nearest this hair can reach in one colouring",
    )
