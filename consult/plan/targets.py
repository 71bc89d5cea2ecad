"""Targets in words: what is coloured, as a colourist and as a home user would say it."""

from consult.plan.application import Target, Which
from consult.trade import AT_THE_SCALP, BEYOND, Phrase, Stretch, Zone

HALVES = {
    frozenset({Zone.FRONT, Zone.TEMPLES}): "front half",
    frozenset({Zone.CROWN, Zone.NAPE}): "back half",
}
_ALL = set(Stretch)
_NEW = set(AT_THE_SCALP)
_BEYOND = set(BEYOND)


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
    return name + _zones(target, ": ")


def _zones(target: Target, before: str) -> str:
    """Which part of the head is meant, where it is not all of it."""
    zones = frozenset(target.zones)
    if len(zones) == len(Zone):
        return ""
    if zones in HALVES:
        return f" of the {HALVES[zones]}"
    return before + ", ".join(zone.value for zone in target.zones)


def in_a_sentence(name: str) -> str:
    """A target's name within a sentence: "the new growth", "the whole head"."""
    return "the whole head" + name.removeprefix("all over") if name.startswith("all over") else f"the {name}"


def where_of(target: Target, from_cm: float, to_cm: float) -> Phrase:
    """Where the brush goes, with its centimetres."""
    name = name_of(target)
    if target.which is not Which.EVERY:
        return Phrase(f"the {name} only", f"the {name} only")
    stretches, half = set(target.stretches), _zones(target, " of the ")
    if stretches == _ALL:
        return Phrase(f"the hair from scalp to ends{half}", f"all the hair{half}, from the scalp to the tips")
    if stretches == _NEW:
        return Phrase(
            f"the new growth{half}, {to_cm:g} cm",
            f"the hair{half} that has grown since last time, the first {to_cm:g} cm at the scalp",
        )
    if stretches == {Stretch.SCALP}:
        return Phrase(
            f"the last {to_cm:g} cm at the scalp{half}", f"the {to_cm:g} cm next to the scalp{half}"
        )
    return Phrase(
        f"the {name}, from {from_cm:g} cm off the scalp",
        f"the {name}, starting {from_cm:g} cm away from the scalp",
    )
