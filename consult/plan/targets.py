"""Targets in words: what is coloured, as a colourist and as a home user would say it."""

from consult.plan.application import Target, Which
from consult.trade import Phrase, Stretch, Zone

_ALL = set(Stretch)
_NEW = {Stretch.SCALP, Stretch.NEW_GROWTH}
_BEYOND = {Stretch.LENGTHS, Stretch.ENDS}


def part_of(stretch: Stretch) -> str:
    """The stretch as it is told: what lies at the scalp is new growth, as far as anybody asks."""
    return "new growth" if stretch is Stretch.SCALP else stretch.value


def name_of(target: Target) -> str:
    """A short name: "new growth", "lengths and ends", "all over"."""
    stretches = set(target.stretches)
    if target.which is Which.WHITE:
        name = "white hair that resists"
    elif target.which is Which.LIGHTENED:
        name = "lightened hair"
    elif stretches == _ALL:
        name = "all over"
    elif stretches == _NEW:
        name = "new growth"
    elif stretches == _BEYOND:
        name = "lengths and ends"
    elif stretches == {Stretch.SCALP}:
        name = "roots"
    elif stretches == {Stretch.NEW_GROWTH}:
        name = "new growth off the scalp"
    else:
        name = " and ".join(s.value for s in Stretch if s in stretches)
    where = "" if set(target.zones) == set(Zone) else ": " + ", ".join(zone.value for zone in target.zones)
    return name + where


def where_of(target: Target, from_cm: float, to_cm: float) -> Phrase:
    """Where the brush goes, with its centimetres."""
    name = name_of(target)
    if target.which is not Which.EVERY:
        return Phrase(f"the {name} only", f"the {name} only")
    stretches = set(target.stretches)
    if stretches == _ALL:
        return Phrase("the hair from scalp to ends", "all the hair, from the scalp to the tips")
    if stretches == _NEW:
        return Phrase(
            f"the new growth, {to_cm:g} cm",
            f"the hair that has grown since last time, {to_cm:g} cm from the scalp",
        )
    if stretches == {Stretch.SCALP}:
        return Phrase(f"the last {to_cm:g} cm at the scalp", f"the {to_cm:g} cm next to the scalp")
    return Phrase(
        f"the {name}, from {from_cm:g} cm off the scalp",
        f"the {name}, starting {from_cm:g} cm away from the scalp",
    )
