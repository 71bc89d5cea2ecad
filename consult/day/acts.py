"""What somebody does on the day: an act is written down with its moment, and never changed."""

from enum import Enum

from msgspec import Struct

from consult.day.clock import Reading


class Did(Enum):
    """What was done. Its value is the word that stands in the log."""

    OPEN = "open"
    STEP = "step"
    BEGIN = "begin"
    DONE = "done"
    LOOK = "look"
    OFF = "off"
    LATER = "later"
    ADD = "add"
    STOP = "stop"
    BACK = "back"
    END = "end"


TAKEN_BACK = tuple(did for did in Did if did not in (Did.OPEN, Did.BACK, Did.END))
"""What a BACK takes back: the last of these that still stands."""


class Act(Struct, frozen=True):
    """One act. `of` names what it was done to: the number of a step or round, the sections as `0.1 0.2`, what was
    put off, the minute by plan whose rinse is put off; `minutes` are those that were added."""

    did: Did
    at: Reading
    of: str = ""
    minutes: int = 0


def standing_acts(acts: tuple[Act, ...]) -> tuple[tuple[int, Act], ...]:
    """(place in the log, act) of those that were not taken back."""
    found: list[tuple[int, Act]] = []
    for place, act in enumerate(acts):
        if act.did is not Did.BACK:
            found.append((place, act))
            continue
        last = next((n for n in reversed(range(len(found))) if found[n][1].did in TAKEN_BACK), None)
        if last is not None:
            del found[last]
    return tuple(found)
