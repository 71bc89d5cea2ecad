"""What to do when something went wrong: how much help, what now, what never, and whether it can be mended at home."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from functools import cached_property

from msgspec import Struct

from consult.answers import Answers
from consult.answers.base import NOT_SURE, known
from consult.consultation import Consultation, consult
from consult.gates.conditions import Condition
from consult.gates.evaluate import Program
from consult.gates.program import FALSE
from consult.plan.lines import Line, line
from consult.plan.settings import Settings
from consult.remedies.advice import Advice, Fault, Kind, book, placed
from consult.remedies.after import after
from consult.remedies.day import DayLog
from consult.remedies.help import Help
from consult.remedies.mend import Mend, find_mend
from consult.salon import SalonConfig, default_config


class Remedy(Struct, frozen=True, dict=True):
    """Everything that follows from a day that went wrong.

    record  the answers with the day written in, which the next consultation starts from
    ask     what nobody told and what would change the advice
    """

    day: DayLog
    help: Help
    now: tuple[Line, ...]
    never: tuple[Line, ...]
    then: tuple[Line, ...]
    say: tuple[Line, ...]
    ask: tuple[Line, ...]
    mend: Mend | None
    record: Answers
    salon: SalonConfig
    at: datetime

    @cached_property
    def recorded(self) -> Consultation:
        """The next consultation, as the record would have it: a reaction stops it by itself."""
        return consult(self.record, self.at, self.salon)


def remedy(answers: Answers, day: DayLog, now: datetime, salon: SalonConfig | None = None) -> Remedy:
    """What to do. `answers` may be empty: an emergency needs no record. Nothing here reads a clock."""
    salon = salon or default_config()
    if day.reacted and "itching or a rash" not in day.faults:
        day = day.model_copy(update={"what": (*day.faults, "itching or a rash")})
    faults = tuple(book().fault(what) for what in day.faults)
    body = any(fault.family == "body" for fault in faults)
    told = _applying(answers, day, now)
    colour = [fault for fault in faults if fault.family in ("colour", "hair")]
    several = [_SEVERAL] if len(colour) > 1 and not body else []
    helps = [fault.help for fault in faults] + [a.help for a in told if a.help is not None]
    needed = max([*helps, Help.COLOURIST] if several else helps, default=Help.CARE)
    if body:
        # The body comes first: beside it nothing is done to the hair, and nothing put on.
        families = {fault.what for fault in faults if fault.family == "body"}
        told = [a for a in told if a.kind == "never" or families & set(a.faults)]
    off = levels_off(answers, day)
    correction = any(f.correction for f in colour) or (bool(colour) and needed >= Help.COLOURIST)
    record = after(answers, day, now, correction=correction)
    mend = _mend(record, colour, day, needed, now, salon)
    mending = _lines(told, "mend", salon.settings) if mend else ()
    refused = _looked(colour, day, needed) and mend is None and any(fault.ways for fault in colour)
    return Remedy(
        day,
        Help.COLOURIST if refused else needed,
        _lines(told, "now", salon.settings),
        _lines(told, "never", salon.settings),
        (*_lines(told, "then", salon.settings), *several, *mending, *([_REFUSED] if refused else [])),
        _lines(told, "say", salon.settings),
        _open(answers, day, colour, off, body=body),
        mend,
        record,
        salon,
        now,
    )


def levels_off(answers: Answers, day: DayLog) -> float | None:
    """Levels from the goal at the worst place that was read; None where nobody read any or knows the goal."""
    goal = known(answers.goal.depth)
    read = [known(depth) for depth in (day.new_growth_depth, day.lengths_depth, day.ends_depth)]
    told = [depth for depth in read if depth is not None]
    return max(abs(depth - goal) for depth in told) if told and goal is not None else None


def _applying(answers: Answers, day: DayLog, now: datetime) -> list[Advice]:
    """The sentences for this day; a condition that nobody can answer counts as fulfilled."""
    mine = [advice for advice in book().advice if set(advice.faults) & set(day.faults)]
    conditions = [advice.condition for advice in mine if advice.condition is not None]
    states = iter(_states(conditions, answers, now))
    off = levels_off(answers, day)
    found = []
    for advice in mine:
        on_record = advice.condition is None or next(states) != FALSE
        if (
            on_record
            and (not advice.when or day.when is None or day.when in (NOT_SURE, *advice.when))
            and (not advice.signs or _any(day.signs, advice.signs))
            and (not advice.skin or day.skin in (NOT_SURE, *advice.skin))
            and (advice.off_over is None or off is None or off > advice.off_over)
        ):
            found.append(advice)
    return found


def _any(signs: object, wanted: tuple[str, ...]) -> bool:
    """One of these signs is there, or nobody can tell; what nobody was asked is asked instead."""
    return signs == NOT_SURE or (isinstance(signs, tuple) and bool(set(signs) & set(wanted)))


def _states(conditions: Sequence[Condition], answers: Answers, now: datetime) -> Iterable[int]:
    if not conditions:
        return []
    program = Program(conditions)
    return program.states(program.ask(answers, now).states)


def _mend(
    record: Answers, colour: list[Fault], day: DayLog, needed: Help, now: datetime, salon: SalonConfig
) -> Mend | None:
    """One colour fault, no reaction, calm skin, nothing that asks for more help: then the program is asked."""
    return find_mend(record, colour[0].ways, now, salon) if _looked(colour, day, needed) else None


def _looked(colour: list[Fault], day: DayLog, needed: Help) -> bool:
    """A mend may be looked for at all."""
    return needed <= Help.WAIT and not day.reacted and day.skin == "calm" and len(colour) == 1


def _lines(told: list[Advice], kind: Kind, settings: Settings) -> tuple[Line, ...]:
    return tuple(placed(advice.line, settings) for advice in told if advice.kind == kind)


_SEVERAL = line(
    "More than one thing is wrong with the colour at once: a licensed colourist sees to it.",
    "One mix does not put right two faults; that is colour correction.",
    ("uk-nos-correction",),
)
_REFUSED = line(
    "No way to mend it at home holds on this head, as far as the record tells: a licensed colourist sees to it.",
    "Each way was put through the same rules, checks, ledger and forecast as any plan.",
    ("uk-nos-correction", "common practice"),
)
_SKIN = line(
    "Say how the skin is now: calm, irritated, or broken or blistered.",
    "Nothing is planned while nobody has looked.",
    ("eu-1223-annex-iii",),
)
_SIGNS = line(
    "Say which signs there are, none among them.",
    "Swelling, hives and trouble breathing are an emergency.",
    ("anaphylaxis-uk",),
)
_DEPTHS = line(
    "Say how dark it came out, 1 to 10, at the new growth, the lengths and the ends.",
    "Within a level it may be mended; unknown counts as more.",
)

_RECORD = line(
    "Find the record of that day, if there is one: with it can be told whether it is mended at home, and perhaps why.",
    "What was wished, what lay on the hair and what went on stand in it; unknown, the stricter way is told.",
)


def _open(
    answers: Answers, day: DayLog, colour: list[Fault], off: float | None, *, body: bool
) -> tuple[Line, ...]:
    """What nobody told and what would change the advice; without the goal no reading says how far off it is."""
    goal = known(answers.goal.depth) is not None
    return tuple(
        told
        for told, wanted in (
            (_SIGNS, body and day.signs is None),
            (_SKIN, day.skin is None and not body),
            (_DEPTHS, off is None and goal and bool(colour) and not body),
            (_RECORD, not goal and bool(colour) and not body),
        )
        if wanted
    )
