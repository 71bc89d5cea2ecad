"""What is missing in the tables of advice, and what in them can never be said."""

from consult.gates.audit import can_hold
from consult.remedies.advice import Book, book
from consult.remedies.day import SIGNS
from consult.remedies.words import SKINS, WHATS, WHENS

_CLEAR = {"calm"}
"""Calm skin needs no sentence."""
_ALWAYS_TOLD = ("now", "never")


def unmentioned(of: Book | None = None) -> list[str]:
    """Faults without a table, and signs, states of the skin and times that no sentence looks at."""
    of = of or book()
    told = {fault.what for fault in of.faults}
    read = {word for a in of.advice for word in (*a.signs, *a.skin, *a.when)}
    return [what for what in WHATS if what not in told] + [
        word for word in (*SIGNS, *SKINS, *WHENS) if word not in read | _CLEAR
    ]


def incomplete(of: Book | None = None) -> list[str]:
    """Faults that leave somebody without what to do now or what not to do, whenever it shows."""
    of = of or book()
    found = []
    for fault in of.faults:
        for when in WHENS:
            mine = [a for a in of.advice if fault.what in a.faults and (not a.when or when in a.when)]
            sure = {a.kind for a in mine if not (a.signs or a.skin or a.condition or a.off_over is not None)}
            found += [f"{fault.what}, {when}: {kind}" for kind in _ALWAYS_TOLD if kind not in sure]
        told = {a.kind for a in of.advice if fault.what in a.faults}
        if fault.ways and "mend" not in told:
            found.append(f"{fault.what}: mend")
    return found


def never_said(of: Book | None = None) -> list[str]:
    """Sentences whose condition contradicts itself, or whose help is not more than their faults ask for anyway."""
    of = of or book()
    base = {fault.what: fault.help for fault in of.faults}
    return [
        a.id
        for a in of.advice
        if (a.condition is not None and not can_hold((a.condition, False)))
        or (a.help is not None and all(a.help <= base[what] for what in a.faults))
    ]


def redundant(of: Book | None = None) -> list[tuple[str, str]]:
    """(sentence, other): both say the same of the same fault."""
    of = of or book()
    return [
        (a.id, b.id)
        for n, a in enumerate(of.advice)
        for b in of.advice[n + 1 :]
        if a.line.say == b.line.say and set(a.faults) & set(b.faults)
    ]
