"""A consultation as blocks of lines to read: the result screen and the command line show the same."""

from datetime import timedelta
from typing import TYPE_CHECKING

from consult.answers.access import get
from consult.answers.base import known
from consult.answers.questions import question_of
from consult.consultation import Consultation
from consult.dates import when
from consult.gates.judge import Finding
from consult.gates.limits import NO_EFFECT
from consult.gates.verdict import Verdict
from consult.gates.words import reason_words, told_findings
from consult.otherwise import Otherwise, facts, wishes
from consult.plan.contact import clock_starts
from consult.plan.ledger import ledger_lines
from consult.plan.steps import Step
from consult.plan.timeline import Bar, bars, scale
from consult.plan.types import Held, Incomplete, Made, Plan, Stopped
from consult.report.colour import colour_block, shelf_block
from consult.report.rows import Block, Row, line_rows
from consult.report.strand import strand_rows
from consult.sources import ASSUMPTION, COMMON_PRACTICE
from consult.trade import THRESHOLDS, Voice

if TYPE_CHECKING:
    # Needs numpy, which is loaded when a forecast is asked for.
    from consult.plan.forecast import Forecast

__all__ = ["Block", "Row", "headline", "plan_headline", "report"]

STILL_TO_ANSWER = "Still to answer"


def headline(consultation: Consultation) -> str:
    """The verdict in one line; while open questions could bring more, it is never called clear."""
    judged, verdict, until = consultation.judgement, consultation.verdict, consultation.until
    if not judged.settled:
        so_far = judged.verdict.title if judged.findings else "nothing against it so far"
        return f"Not settled yet: {so_far}"
    if verdict is Verdict.CHANGE_PRODUCT and judged.verdict is Verdict.CLEAR:
        return "No safety finding; not this product for this goal"
    if verdict is Verdict.WAIT and until:
        also = next((f.until_words for f in consultation.findings if f.until == until), "")
        return f"Wait until {when(until)}" + (f": {also}" if also else "")
    return verdict.title


def plan_headline(consultation: Consultation) -> str:
    """What comes of it in one line."""
    plan = consultation.plan
    if isinstance(plan, Stopped):
        return "No plan. The record with its reasons can still be kept."
    if isinstance(plan, Made):
        return f"Plan: {plan.approach}"
    if isinstance(plan, Held) and any(f.verdict is Verdict.CHANGE_PRODUCT for f in plan.findings):
        return "Hold: not with this product as things stand; nothing is mixed. See why, and what can be done instead."
    then = f" Afterwards: {plan.then.approach}." if isinstance(plan, Held) and plan.then else ""
    return f"Hold: nothing is mixed today.{then}"


def report(consultation: Consultation, voice: Voice, *, otherwise: bool = True) -> list[Block]:
    """All blocks that have something to say, in the order a person needs them; with what would do `otherwise`, which
    has to be tried out."""
    plan = consultation.plan
    blocks = [
        Block(
            "Why",
            (
                *(_finding_row(f, voice) for f in told_findings(consultation.findings, voice)),
                *_beside(consultation, voice),
            ),
        ),
        Block(STILL_TO_ANSWER, _open_rows(consultation)),
    ]
    if otherwise:
        blocks.append(Block("What would have to be different", _otherwise_rows(consultation, voice)))
    blocks += _plan_blocks(plan, consultation.forecast, voice)
    if consultation.from_shelf:
        blocks.append(shelf_block(consultation.from_shelf, voice))
    blocks.append(Block("The strand, root to tip", strand_rows(consultation.head, voice)))
    return [block for block in blocks if block.rows]


def _beside(consultation: Consultation, voice: Voice) -> tuple[Row, ...]:
    """What is told beside the findings: that a test will have run out by the end of a wait, and to a class the
    rules that a stop leaves without a say."""
    rows = []
    if _test_runs_out(consultation):
        rows.append(
            Row(
                "By the end of this wait the allergy alert test will have expired: a new one is needed then.",
                f"A test counts for {THRESHOLDS['test-life']:g} days and one colouring.",
                ("fda-hair-dye-qa", ASSUMPTION),
            )
        )
    milder = [f.rule for f in consultation.findings if f.verdict is not Verdict.STOP]
    if voice is Voice.TRAINER and consultation.verdict is Verdict.STOP and milder:
        rows.append(
            Row(
                f"Fired as well, and of no account beside a stop: {', '.join(milder)}.",
                "The strongest verdict decides.",
                (COMMON_PRACTICE,),
            )
        )
    return tuple(rows)


def _test_runs_out(consultation: Consultation) -> bool:
    applied, until = known(consultation.answers.allergy_test.applied_at), consultation.until
    if consultation.verdict is not Verdict.WAIT or applied is None or until is None:
        return False
    life = timedelta(days=float(THRESHOLDS["test-life"]))
    return consultation.now <= applied + life < until


def _finding_row(finding: Finding, voice: Voice) -> Row:
    until = f" Until {when(finding.until)}: {finding.until_words}." if finding.until else ""
    # A caution that demands nothing of the plan is told as what it is.
    tells = finding.verdict is Verdict.CAUTION and finding.effect == NO_EFFECT
    return Row(
        f"{'For information' if tells else finding.verdict.title}: {reason_words(finding, voice)}{until}",
        finding.remedy,
        finding.sources,
        finding.verdict,
        finding.rule,
        paths=finding.evidence,
    )


def open_paths(consultation: Consultation) -> tuple[str, ...]:
    """The questions whose answers could still change the verdict, and those without which no plan can be made."""
    plan, judged = consultation.plan, consultation.judgement
    missing = plan.missing if isinstance(plan, Incomplete) else ()
    return tuple(dict.fromkeys((*(() if judged.settled else judged.ask), *missing)))


def _open_rows(consultation: Consultation) -> tuple[Row, ...]:
    rows = []
    for path in open_paths(consultation):
        question = question_of(path)
        unsure = get(consultation.answers, path) is not None
        why = "Answered not sure; a plan is not guessed." if unsure else "Unasked is never read as no."
        rows.append(
            Row(question.trade, f"{why} {question.how_to_tell}".strip(), (COMMON_PRACTICE,), paths=(path,))
        )
    return tuple(rows)


def _otherwise_rows(consultation: Consultation, voice: Voice) -> tuple[Row, ...]:
    """Other wishes and products for everybody; for a class also the answers on which a hold rests."""
    rows = [
        Row(
            f"It would do with {_changes(way)}{', in a shade to match' if len(way.changes) > 1 else ''}.",
            "Tried out with everything else as it is.",
            (COMMON_PRACTICE,),
            paths=_paths(way),
        )
        for way in wishes(consultation)
    ]
    if voice is Voice.TRAINER:
        rows += [_fact_row(way) for way in facts(consultation)]
    return tuple(rows)


def _changes(way: Otherwise) -> str:
    """The first answer with its values: a shade goes with its goal."""
    path, words = way.changes[0]
    return f"{_short(path).lower()} {words}"


def _fact_row(way: Otherwise) -> Row:
    past = ", ".join(_short(path) for path in way.past)
    return Row(
        " and ".join(f"{_short(path)}: {words or 'another answer'}" for path, words in way.changes)
        + (f"   (a fact of the past: {past})" if past else ""),
        "The past cannot be changed; the hold stays."
        if past
        else "With another true answer the hold would go.",
        (COMMON_PRACTICE,),
        paths=_paths(way),
    )


def _short(path: str) -> str:
    return question_of(path).short


def _paths(way: Otherwise) -> tuple[str, ...]:
    return tuple(path for path, _ in way.changes)


def _plan_blocks(plan: Plan, forecast: "Forecast | None", voice: Voice) -> list[Block]:
    blocks = []
    if isinstance(plan, Made):
        blocks.append(Block("Approach", line_rows((plan.because,), voice)))
    if isinstance(plan, Made | Held):
        blocks.append(Block("About this product here", line_rows(plan.notes, voice)))
    if forecast:
        blocks.append(colour_block(forecast, voice))
    if isinstance(plan, Held) and plan.then:
        blocks.append(Block("To buy and prepare meanwhile", line_rows(plan.then.amounts, voice)))
    if isinstance(plan, Made):
        blocks += _made_blocks(plan, voice)
    if isinstance(plan, Made | Held):
        blocks.append(Block("Instead", line_rows(plan.alternatives, voice)))
    return blocks


def _made_blocks(plan: Made, voice: Voice) -> list[Block]:
    return [
        Block("Cautions", line_rows(plan.cautions, voice)),
        Block("Mix", line_rows(tuple(mix.line for mix in plan.mixes), voice)),
        Block("How much", line_rows(plan.amounts, voice)),
        Block("Sections and order", line_rows(plan.sections, voice)),
        Block("Step by step", tuple(_step_row(n, step, voice) for n, step in enumerate(plan.steps, 1))),
        Block("Time line", _timeline_rows(plan, voice)),
        Block("Afterwards", line_rows(plan.aftercare, voice)),
        Block("Next time", line_rows(plan.visit.lines, voice)),
        Block("Exposure of this hair", line_rows(ledger_lines(plan.ledger), voice)),
    ]


def _step_row(number: int, step: Step, voice: Voice) -> Row:
    timing = ""
    if step.clock:
        checks = ", ".join(str(minute) for minute in step.checks)
        timing = f" [minute {step.clock[0]} to {step.clock[1]}; check at {checks}]"
    return Row(f"{number}. {step.say.in_voice(voice)}{timing}", step.because.in_voice(voice), step.sources)


def _timeline_rows(plan: Made, voice: Voice) -> tuple[Row, ...]:
    """A bar for every section of every application, on one common scale."""
    start, end = scale(plan.applications)
    first = Row(
        f"From minute {start} to {end}; minute 0 is the end of the first round.  : put on  - on the hair  "
        "= the leaflet's clock",
        "What is put on first has the longest contact.",
        (COMMON_PRACTICE,),
    )
    return (first, *(_bar_row(bar) for bar in bars(plan.applications)), *line_rows(plan.timeline, voice))


def _bar_row(bar: Bar) -> Row:
    application, touch = bar.application, bar.touch
    off, counts = application.off(touch), application.off(touch) - clock_starts(application, touch)
    return Row(
        f"{touch.section:<16} {bar.cells} {counts:>3} min",
        f"Put on from minute {touch.start} to {touch.end}, taken off at {off}: {counts} minutes on the leaflet's "
        f"clock, {off - touch.start} on the first hair.",
        (COMMON_PRACTICE,),
    )
