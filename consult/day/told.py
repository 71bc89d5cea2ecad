"""The day in words: what is to be done, in trade words and in plain ones."""

import re
from collections.abc import Callable
from typing import Final

from consult.day.clock import TOLD_FROM, ahead
from consult.day.standing import OnSection, Phase, Standing, Task, What
from consult.day.work import MINUTE, Batch, Work
from consult.plan.application import Ending
from consult.trade import Phrase, both

_AT: Final = re.compile(r"At minute -?\d+: ")
_LOOK: Final = Phrase(
    "Wipe a strand clean, look, put colour back on it.",
    "Wipe one strand clean with a towel and look at its colour. Then put colour back on it.",
)
_STOPPED: Final = Phrase(
    "Stopped. Rinse at once, lukewarm, until the water runs clear; put nothing more on.",
    "Stopped. Rinse it all out now with lukewarm water until the water is clear. Put nothing more on.",
)
ENDED: Final = Phrase("All is off.", "All the colour is out.")


def clock_words(seconds: float) -> str:
    """A time as a clock shows it: 4:05, 1:04:05. Running down it shows 0:01 until it is over."""
    whole = int(seconds)
    hours, rest = divmod(whole, 3600)
    minutes, left = divmod(rest, 60)
    return f"{hours}:{minutes:02}:{left:02}" if hours else f"{minutes}:{left:02}"


def down_words(seconds: float) -> str:
    """A time that runs down, as a clock shows it; 0:00 only when it is over."""
    return clock_words(max(0.0, -(-seconds // 1)))


def task_words(work: Work, task: Task) -> Phrase:
    """What is to be done."""
    tell: dict[What, Callable[[], Phrase]] = {
        What.TICK: lambda: work.steps[int(task.of)].say,
        What.BEGIN: lambda: _begin(work, int(task.of)),
        What.PUT_ON: lambda: _put_on(work, task.of),
        What.LOOK: lambda: _LOOK,
        What.TAKE_OFF: lambda: _take_off(work, task.of),
        What.MUST_RINSE: lambda: _must(work, task.of),
        What.STOPPED: lambda: _stopped(work),
        What.END: lambda: ENDED,
    }
    return tell[task.what]()


def short_words(work: Work, task: Task) -> str:
    """The same in a few words, for what comes later."""
    match task.what:
        case What.TICK:
            return "mix"
        case What.BEGIN:
            return f"begin {work.rounds[int(task.of)].name}"
        case What.TAKE_OFF:
            return f"{_verb(work, task.of)} {_which(work, task.of)}"
        case _:
            return "look at a strand"


def press_words(task: Task) -> Phrase:
    """What Space says, in this task."""
    return {
        What.TICK: both("Space: done"),
        What.BEGIN: Phrase("Space: first touch", "Space: the first hair has it"),
        What.PUT_ON: Phrase("Space: last parting done", "Space: this part has it, down to its last parting"),
        What.LOOK: both("Space: looked"),
        What.END: both(""),
    }.get(task.what, both("Space: it is off"))


def _stopped(work: Work) -> Phrase:
    """The rinse, and what the first step of every plan says of a reaction."""
    first = work.steps[0].say
    return Phrase(f"{_STOPPED.trade} {first.trade}", f"{_STOPPED.plain} {first.plain}")


def _begin(work: Work, number: int) -> Phrase:
    say = work.rounds[number].say
    return Phrase(_opened(say.trade), _opened(say.plain))


def _opened(say: str) -> str:
    """Without the minute by plan: the clock on the screen counts."""
    left = _AT.sub("", say, count=1)
    return left[:1].upper() + left[1:]


def _put_on(work: Work, key: str) -> Phrase:
    a_round = next(r for r in work.rounds if any(s.key == key for s in r.sections))
    number, section = next((n, s) for n, s in enumerate(a_round.sections, 1) if s.key == key)
    of = f"{number} of {len(a_round.sections)}"
    return Phrase(
        f"Put on: {section.name}, {of} ({a_round.name}).",
        f"Colour goes on: {section.name}, part {of}, {a_round.name}.",
    )


def _batches(work: Work, keys: str) -> list[Batch]:
    own = set(keys.split())
    return [batch for batch in work.batches if own & set(batch.keys)]


def _which(work: Work, keys: str) -> str:
    """The sections of these keys; "all" where nothing that is rinsed by plan is left out."""
    own = keys.split()
    apart = [
        batch for batch in _batches(work, keys) if len(work.rounds[batch.round].sections) > len(batch.keys)
    ]
    if not apart:
        return "all of it"
    names = [s.name for r in work.rounds for s in r.sections if s.key in own]
    return " and ".join(dict.fromkeys(names))


def _verb(work: Work, keys: str) -> str:
    return "blot dry" if all(b.ending is Ending.BLOT for b in _batches(work, keys)) else "rinse"


def _how(work: Work, keys: str) -> Phrase:
    """How it is taken off, in the words of the plan's step."""
    batches = _batches(work, keys)
    if _verb(work, keys) == "blot dry":
        return both("Look at a strand, then blot dry; do not shampoo.")
    last: bool = max(batch.round for batch in batches) == work.rounds[-1].number
    return work.rinses[-1 if last else 0]


def _take_off(work: Work, keys: str) -> Phrase:
    how, which = _how(work, keys), _which(work, keys)
    verb = _verb(work, keys).upper()
    return Phrase(f"{verb}: {which}. {how.trade}", f"{verb}: {which}. {how.plain}")


def _must(work: Work, keys: str) -> Phrase:
    how = _how(work, keys)
    verb = _verb(work, keys).upper()
    longest = "The leaflet's longest minutes are reached"
    return Phrase(
        f"{verb} NOW: {_which(work, keys)}. {longest}. {how.trade}",
        f"{verb} NOW: {_which(work, keys)}. {longest}. {how.plain}",
    )


def phase_words(section: OnSection) -> str:
    """What a section is in, and for how long it may stay: "on 23:10, may stay 11:50"."""
    if section.phase is Phase.WAITS or section.phase is Phase.LEFT_OUT:
        return str(section.phase.value)
    if section.phase is Phase.OFF:
        return f"off after {clock_words(section.on)}"
    on = f"{'put on' if section.phase is Phase.PUT_ON else 'on'} {clock_words(section.on)}"
    if section.stays is None:
        return f"{on}, its clock starts at the last parting"
    stays = "RINSE" if section.stays <= 0 else f"may stay {down_words(section.stays)}"
    return f"{on}, {stays}"


def leaflet_words(batch: Batch) -> str:
    """Shortest and longest minutes: "25 to 35 min from the end of application"."""
    least = f"{batch.shortest / MINUTE:g} to " if 0 < batch.shortest < batch.longest else "at most "
    start = "first touch" if batch.from_touch else "end of application"
    return f"{least}{batch.longest / MINUTE:g} min from the {start}"


def notes(found: Standing) -> list[Phrase]:
    """What else has to be known: the two clocks, minutes that cannot be had any more."""
    told = [clocks] if (clocks := _clocks(found)) else []
    task, p = found.now, found.progress
    if task.what is What.PUT_ON and task.overdue:
        told.append(
            Phrase(
                "Longer than planned: is its last parting done? Press Space; the leaflet may count from there.",
                "This takes longer than planned. Is this part done? Then press Space: the minutes may count from "
                "there.",
            )
        )
    if task.what is What.BEGIN and (late := _late(found, int(task.of))):
        told.append(late)
    if task.what in (What.LOOK, What.TAKE_OFF) and found.early:
        told.append(both(f"The shortest minutes are not over for {down_words(found.early)}."))
    if task.what is What.MUST_RINSE and p.in_hand():
        told.append(both("Stop where you are: what has none yet gets none."))
    return told


def _late(found: Standing, number: int) -> Phrase | None:
    """A round that is begun too late to have its shortest minutes before the first has to come off."""
    a_round = found.progress.work.rounds[number]
    shortest = max(b.shortest for b in found.progress.work.batches if b.round == number)
    if found.stays is None or not shortest:
        return None
    has = found.stays - a_round.planned
    if has >= shortest:
        return None
    least = f"{shortest / MINUTE:g}"
    return both(
        f"Late: it can have {max(0, int(has // MINUTE))} minutes; the leaflet's shortest are {least}."
    )


def _clocks(found: Standing) -> Phrase | None:
    """What the two clocks say of the time since the first touch, where they do not agree."""
    p = found.progress
    apart = ahead(p.first, p.now)
    by = clock_words(abs(apart))
    if p.now.restarts > p.first.restarts:
        if apart < -TOLD_FROM:
            return Phrase(
                f"The computer was started anew and its clock went back ({by}): these are the least minutes. Look at "
                "a strand now; in doubt rinse.",
                "The computer was started anew and its clock is wrong: it has been on at least so long, perhaps "
                "longer. Look at a strand now. In doubt, rinse.",
            )
        return both("The computer was started anew meanwhile; the minutes went on.")
    if abs(apart) < TOLD_FROM:
        return None
    moved = f"went ahead {by}" if apart > 0 else f"was set back {by}"
    return both(f"The computer's clock {moved} against its own count. The longer time counts.")
