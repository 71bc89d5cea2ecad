"""The working sheet of a result: what is carried to the basin, as data. How it looks on paper is not known here."""

from datetime import time

from msgspec import Struct
from msgspec.structs import replace

from consult.answers.base import known
from consult.answers.questions import question_of
from consult.consultation import Consultation
from consult.dates import when
from consult.gates.judge import Finding
from consult.gates.verdict import Verdict
from consult.gates.words import told_findings
from consult.plan.aftercare import EMERGENCY, LEAFLET_FIRST
from consult.plan.application import Applications
from consult.plan.counting import from_first_touch
from consult.plan.lines import Line
from consult.plan.steps import Step
from consult.plan.types import Held, Incomplete, Made, Plan, Stopped
from consult.products.kinds import Auxiliary, Filler
from consult.report import headline, open_paths, plan_headline
from consult.report.copies import STEP_IN_PERSON, Copy, health_answers, reveals, words_of
from consult.report.head_picture import HeadPicture, head_picture
from consult.report.sheet_bowls import BowlBox, bowl_boxes
from consult.report.strand_picture import StrandPicture, strand_pictures
from consult.report.time_picture import TimePicture, time_picture
from consult.trade import Voice

AFTERWARDS = "What colour it will be"
ONLY_IF = "What would come of it (nothing is to be mixed as things stand)"


class Told(Struct, frozen=True):
    """A sentence, what to do about it, and for a class the rule it comes of."""

    say: str
    do: str = ""
    rule: str = ""


class StepBox(Struct, frozen=True):
    """A step to tick off, with its minutes from the first touch where it lies on the clock."""

    number: int
    say: str
    minutes: tuple[int, int] | None = None
    checks: tuple[int, ...] = ()


class Work(Struct, frozen=True):
    """What a made plan is carried out from: nothing of it stands on any other sheet."""

    buy: tuple[str, ...]
    bowls: tuple[BowlBox, ...]
    head: HeadPicture
    dividing: tuple[str, ...]
    steps: tuple[StepBox, ...]
    time: TimePicture
    clock: tuple[str, ...]
    aftercare: tuple[str, ...]
    next_time: tuple[str, ...]


class Sheet(Struct, frozen=True):
    """One sheet. `do` is what comes first where nothing is mixed, `come_back` when; `ask` are questions still to be
    answered, `prepare` what to buy meanwhile; `start` is the time of the first touch, None where it is written in by
    hand; `parts` are those whose result is written down."""

    copy: Copy
    name: str
    judged: str
    verdict: str
    what: str
    before_all: str
    emergencies: tuple[str, ...]
    cautions: tuple[Told, ...]
    do: tuple[Told, ...]
    come_back: str
    ask: tuple[str, ...]
    prepare: tuple[str, ...]
    other_ways: tuple[str, ...]
    strands_title: str
    strands: tuple[StrandPicture, ...]
    work: Work | None
    start: time | None
    parts: tuple[str, ...]
    health: tuple[tuple[str, str], ...]


def working_sheet(found: Consultation, voice: Voice, copy: Copy, start: time | None = None) -> Sheet:
    """The sheet of a result, for the file or for the client."""
    plan = found.plan
    made = from_first_touch(plan) if isinstance(plan, Made) else None
    told = told_findings(found.findings, voice)
    strands = strand_pictures(found.forecast) if found.forecast else ()
    cautions = [_told(f, voice, copy) for f in told if not f.verdict.blocks]
    return Sheet(
        copy=copy,
        name=known(found.answers.client.name) or "",
        judged=when(found.now),
        verdict=_verdict(found, copy),
        what=_what(found, made, voice),
        before_all=LEAFLET_FIRST.say.in_voice(voice),
        emergencies=_emergencies(made, voice),
        cautions=(*cautions, *(Told(words) for words in _plan_cautions(made, voice))) if made else (),
        do=() if made else tuple(_told(f, voice, copy) for f in told if f.verdict.blocks),
        come_back="" if made else _come_back(found),
        ask=_ask(found, voice),
        prepare=_prepare(plan, voice),
        other_ways=_said(plan.alternatives, voice) if isinstance(plan, Held) else (),
        strands_title=AFTERWARDS if made else ONLY_IF,
        strands=strands,
        work=_work(made, found, voice, copy) if made else None,
        start=start,
        parts=tuple(dict.fromkeys(stripe.part for strand in strands for stripe in strand.stripes)),
        health=health_answers(found.answers) if copy is Copy.FILE else (),
    )


def _told(finding: Finding, voice: Voice, copy: Copy) -> Told:
    return Told(*words_of(finding, voice, copy), finding.rule if voice is Voice.TRAINER else "")


def _verdict(found: Consultation, copy: Copy) -> str:
    """For the client without what a wait is for, where that tells of health."""
    if copy is Copy.CLIENT and found.judgement.settled and found.verdict is Verdict.WAIT and found.until:
        return f"Wait until {when(found.until)}"
    return headline(found)


def _what(found: Consultation, made: Made | None, voice: Voice) -> str:
    """What is done, in a sentence."""
    if made:
        return made.because.say.in_voice(voice)
    return "No colour is mixed." if isinstance(found.plan, Stopped) else plan_headline(found)


def _emergencies(made: Made | None, voice: Voice) -> tuple[str, ...]:
    """What to do if it goes wrong; the first step of every plan is one of them."""
    if made is None:
        return (EMERGENCY.say.in_voice(voice),)
    eyes = made.cautions[-1]
    return (made.steps[0].say.in_voice(voice), *_said((EMERGENCY, eyes), voice))


def _plan_cautions(made: Made, voice: Voice) -> tuple[str, ...]:
    apart = (EMERGENCY, LEAFLET_FIRST, made.cautions[-1])
    return _said((*(c for c in made.cautions if c not in apart), *made.notes), voice)


def _said(lines: tuple[Line, ...], voice: Voice) -> tuple[str, ...]:
    return tuple(line.say.in_voice(voice) for line in lines)


def _come_back(found: Consultation) -> str:
    """When to come back, where nothing is mixed."""
    plan = found.plan
    if isinstance(plan, Stopped):
        return "A stop has no date and no way around it: no visit for colour is made."
    if found.until:
        return f"From {when(found.until)} on, not before; everything is asked anew then."
    if isinstance(plan, Incomplete):
        return 'When all that is "still to answer" is answered.'
    return "When what stands above is done; everything is asked anew then."


def _ask(found: Consultation, voice: Voice) -> tuple[str, ...]:
    """Questions still to be answered before a plan can be made."""
    if isinstance(found.plan, Made | Stopped):
        return ()
    return tuple(_question(path, voice) for path in open_paths(found))


def _prepare(plan: Plan, voice: Voice) -> tuple[str, ...]:
    """What to buy meanwhile, where a wait or a test is all that holds it."""
    then = plan.then if isinstance(plan, Held) else None
    return _said(tuple(purchase.line for purchase in then.purchases), voice) if then else ()


def _question(path: str, voice: Voice) -> str:
    question = question_of(path)
    return question.plain if voice is Voice.HOME else question.trade


def _work(made: Made, found: Consultation, voice: Voice, copy: Copy) -> Work:
    head = head_picture(made)
    hidden = {f.rule for f in found.findings if reveals(f)} if copy is Copy.CLIENT else set()
    return Work(
        buy=_said(tuple(purchase.line for purchase in made.purchases), voice),
        bowls=bowl_boxes(made),
        head=head,
        dividing=_said(made.sections, voice),
        steps=tuple(_step(n, step, voice, hidden) for n, step in enumerate(made.steps, 1)),
        time=time_picture(made, head.order),
        clock=(*_said(made.timeline, voice), *_when_late(made.applications)),
        aftercare=_said(made.aftercare, voice),
        next_time=_said(made.visit.lines, voice),
    )


def _step(number: int, step: Step, voice: Voice, hidden: set[str]) -> StepBox:
    box = StepBox(number, step.say.in_voice(voice), step.clock, step.checks)
    kept = not step.rules or not set(step.rules) <= hidden
    return box if kept else replace(box, say=STEP_IN_PERSON)


def _when_late(applications: Applications) -> tuple[str, ...]:
    """What becomes of the minutes when putting on takes another time than was reckoned."""
    first = next(a for a in applications if not isinstance(a.bowl.product, Auxiliary))
    product = first.bowl.product
    assert not isinstance(product, Auxiliary)
    leaflet = product.leaflet
    if leaflet.counted_from == "the first touch":
        return (
            f"The leaflet counts from the first touch: however long putting on takes, no hair has it on longer than "
            f"{leaflet.longest} minutes.",
        )
    what = "filler" if isinstance(product, Filler) else "leaflet"
    total = (
        f" From the first touch to the rinse it is {leaflet.total} minutes at most." if leaflet.total else ""
    )
    return (
        f"The {what}'s minutes count from the last parting, reckoned at minute {first.on_by}. Is it done earlier or "
        f"later, move every later minute by as much.{total} At most {leaflet.longest} minutes from the last parting.",
    )
