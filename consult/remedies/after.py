"""The record after the day: the same answers, with what was done and what came of it written in.

From here on the gates see the day by themselves: the service, the state of the hair, and a reaction, which stops
every later consultation.
"""

from datetime import datetime
from typing import Any

from consult.answers import Answers
from consult.answers.access import from_data
from consult.answers.base import NOT_SURE, known
from consult.answers.health import Reaction
from consult.answers.history import Service
from consult.growth import Growth
from consult.head.build import build_head
from consult.plan.rounds import HEAD_ARC_CM, MEASURED_ON_CM, parting_seconds
from consult.remedies.day import DayLog
from consult.sources import ASSUMPTION, Number
from consult.trade import AT_HOME, COLOURS, OXIDATIVE, ServiceKind

_SERVICE: dict[str, ServiceKind] = {
    "permanent": "permanent colour",
    "high-lift": "permanent colour",
    "demi-permanent": "demi-permanent colour",
    "powder lightener": "lightener all over",
    "direct (no developer)": "semi-permanent colour",
}
QUICKEST, SLOWEST = (Number(times, "times a trained hand's time", ASSUMPTION) for times in (0.5, 4))
_NOT_TAKEN = {"missed white", "nothing took"}
"""Faults after which the new growth still shows as before."""
_NOTE = "written by the log of that day"


def after(answers: Answers, day: DayLog, now: datetime, *, correction: bool) -> Answers:
    """The answers with the day written in. `correction`: what came out is for colour correction."""
    done_at = known(day.done_at) or now
    changed = paced(answers, day).model_copy(
        update={
            "history": _history(answers, day, done_at, correction=correction),
            "hair": answers.hair.model_copy(update=_hair(answers, day)),
        }
    )
    changed = changed.model_copy(update={"health": _health(answers, day, done_at)})
    # Round through the models, so that nothing out of range can be written.
    return from_data(changed.model_dump(exclude_none=True)).at_version(answers.version)


def service_kind(answers: Answers) -> ServiceKind:
    """What a colouring with the product of these answers is called in the history of a head."""
    return _SERVICE.get(str(answers.product.colour_class), "unknown home product")


def paced(answers: Answers, day: DayLog | None) -> Answers:
    """The answers with the pace that was timed on the day, for the next plan.

    Kept within bounds: one day's hand is no reason to plan for less than half of a trained hand's time, nor for more
    than four times it.
    """
    took = known(day.minutes_putting_on) if day else None
    if took is None:
        return answers
    trained = HEAD_ARC_CM * parting_seconds(MEASURED_ON_CM) / 60
    kept = round(min(max(took, QUICKEST * trained), SLOWEST * trained), 1)
    return answers.model_copy(
        update={"client": answers.client.model_copy(update={"minutes_new_growth": kept})}
    )


def with_reaction(answers: Answers, day: DayLog, now: datetime) -> Answers:
    """The answers with the reaction of a day that has not been written in yet: whoever told it is not asked again, and
    no consultation passes it over."""
    on_file = ("yes",) if day.reacted else ("yes", NOT_SURE)
    if answers.health.ever_reacted in on_file:
        return answers
    return answers.model_copy(update={"health": _health(answers, day, known(day.done_at) or now)})


def _health(answers: Answers, day: DayLog, done_at: datetime) -> Any:
    if day.reacted:
        return _reacted(answers, day, done_at)
    if day.in_doubt and answers.health.ever_reacted != "yes":
        # Not sure is never "no": the gates send it to a doctor.
        return answers.health.model_copy(update={"ever_reacted": NOT_SURE})
    return answers.health


def _history(answers: Answers, day: DayLog, done_at: datetime, *, correction: bool) -> Any:
    services = answers.history.services
    told = services if isinstance(services, tuple) else ()
    on = done_at.date()
    kind: ServiceKind = known(day.kind) or service_kind(answers)
    service = Service(
        kind=kind,
        on=on,
        # Where nobody said how far it went, it went everywhere: that counts the most.
        stretch=known(day.stretch) or "all over",
        depth=known(answers.product.depth) if kind in COLOURS else None,
        tone=known(answers.product.tone) if kind in COLOURS else None,
        developer_percent=known(answers.product.developer_percent) if kind in OXIDATIVE else None,
        by=_by(answers),
    )
    known_already = any(s.on == on and s.kind == kind for s in told)
    update: dict[str, Any] = {"services": told if known_already else (service, *told)}
    if correction:
        update["needs_correction"] = "yes"
    return answers.history.model_copy(update=update)


def _by(answers: Answers) -> Any:
    """Who did it; nobody says so where nobody was asked."""
    if known(answers.client.applied_by) is None:
        return None
    return "at home" if answers.client.applied_by in AT_HOME else "a salon"


def _hair(answers: Answers, day: DayLog) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name in ("lengths_depth", "lengths_tone", "ends_depth", "ends_tone"):
        if known(getattr(day, name)) is not None:
            found[name] = getattr(day, name)
    if not _NOT_TAKEN & set(day.faults):
        found["new_growth_cm"] = 0.0
    if "gummy or breaking" in day.faults:
        found["wet_stretch"] = "gummy or spongy"
    if {"bands", "patches"} & set(day.faults):
        found["lengths_look"] = "uneven"
    elif "bleeds or washes out" in day.faults:
        found["lengths_look"] = "faded"
    if "missed white" in day.faults:
        found["white_resists"] = "yes"
    return found


def _reacted(answers: Answers, day: DayLog, done_at: datetime) -> Any:
    """Health with this reaction; what it was to is the product that was on the head."""
    health = answers.health
    past = health.reactions if isinstance(health.reactions, tuple) else ()
    to: Any = "lightener or bleach" if answers.product.colour_class == "powder lightener" else "hair colour"
    signs: Any = day.signs if isinstance(day.signs, tuple) and day.signs else ("something else",)
    this = Reaction(to=to, signs=signs, year=done_at.year, note=_NOTE)
    update = {"ever_reacted": "yes", "reactions": past if this in past else (*past, this)}
    return health.model_copy(update=update)


def grown(answers: Answers, days: float, at: datetime) -> Answers:
    """The same head so many days later: new growth has come, the rest is as it was."""
    head = build_head(answers, at.date())
    new, length = known(answers.hair.new_growth_cm), known(answers.hair.length_cm)
    if head is None or new is None or length is None:
        return answers
    growth: Growth = head.growth
    longer = round(growth.cm(days), 1)
    hair = answers.hair.model_copy(
        update={"new_growth_cm": min(new + longer, length), "length_cm": length + longer}
    )
    return answers.model_copy(update={"hair": hair})
