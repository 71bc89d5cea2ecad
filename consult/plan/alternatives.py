"""Other ways to the goal or near it, each with its price in damage, upkeep and colour."""

from consult.plan.case import Case
from consult.plan.lines import Line, line
from consult.sources import COMMON_PRACTICE
from consult.trade import LIGHTEST, THRESHOLDS

_CP = (COMMON_PRACTICE,)


def _way(say: str, damage: str, upkeep: str, colour: str, sources: tuple[str, ...] = _CP) -> Line:
    """Another way with its price."""
    return line(say, f"Damage: {damage}. Upkeep: {upkeep}. Colour: {colour}.", sources)


def alternatives(case: Case, *, reachable: bool) -> tuple[Line, ...]:
    """At least one other way, so that nobody is left with a bare no."""
    ways: list[Line] = []
    head, wish = case.head, case.wish
    if head.coloured and wish.depth > head.darkest_length + THRESHOLDS["same-depth"]:
        ways += _with_old_colour(case)
    elif not reachable:
        ways.append(_nearest_shade(case))
        if case.lift > 0:
            ways.append(
                _way(
                    "Let a licensed colourist lighten it, in stages if need be.",
                    "the most, lightener on the whole head",
                    "new growth every 3 to 4 weeks",
                    "the goal itself",
                )
            )
    if case.covers_white:
        ways.append(
            _way(
                "Blend the white hair with a demi-permanent colour instead of covering it.",
                "the least that colours",
                "fades without an edge in 6 to 8 weeks",
                "white stays visible, softened",
            )
        )
    if case.lift > 0:
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


def _with_old_colour(case: Case) -> list[Line]:
    return [
        _way(
            f"Keep the lengths' depth {case.head.darkest_length:g} and match the new growth to it.",
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


def _nearest_shade(case: Case) -> Line:
    natural = case.head.natural_depth
    lift = THRESHOLDS["lift-at-home" if case.work.at_home else "lift-in-one-colouring"]
    claim = " and whose pack claims full cover" if case.covers_white else ""
    return _way(
        f"Choose a shade between depth {natural:g} and {min(LIGHTEST, natural + lift):g} whose chart holds depth "
        f"{natural:g}{claim}.",
        "as for any colouring",
        "by contrast to the natural depth",
        "the nearest this hair can reach in one colouring",
    )
