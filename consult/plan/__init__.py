"""The plan: suitability, approach, mix, quantity, sections, steps, aftercare, next dates."""

from datetime import date

from consult.answers import Answers
from consult.answers.questions import question_of
from consult.gates.judge import Judgement, without_repeats
from consult.gates.verdict import Verdict
from consult.plan.aftercare import CAUTIONS, plan_aftercare, plan_visit
from consult.plan.approach import choose_approach
from consult.plan.brief import missing, read_brief
from consult.plan.holds import too_long_alone, untested_products
from consult.plan.ledger import keep_ledger
from consult.plan.mix import plan_mixes
from consult.plan.quantity import plan_quantity
from consult.plan.sections import plan_sections
from consult.plan.settings import Settings
from consult.plan.steps import plan_steps
from consult.plan.suitability import judge_product
from consult.plan.timeline import simulate
from consult.plan.types import Approach, Line, Plan
from consult.sources import COMMON_PRACTICE
from consult.strand.bands import Strand

__all__ = ["make_plan"]

USUAL = Settings()


def make_plan(
    answers: Answers,
    judgement: Judgement,
    strand: Strand | None,
    today: date,
    settings: Settings = USUAL,
) -> Plan | None:
    """The plan; None after a stop. Nothing is mixed while a finding holds or an answer is missing."""
    if judgement.verdict is Verdict.STOP:
        return None
    lacking = missing(answers)
    if lacking or strand is None:
        held = _held(judgement) if judgement.verdict.blocks else ()
        names = ", ".join(question_of(path).short for path in lacking)
        return Plan(
            Approach.HOLD,
            (
                *held,
                Line(f"Still needed for a plan: {names}.", "A plan is not guessed.", (COMMON_PRACTICE,)),
            ),
            missing=lacking,
        )
    brief = read_brief(answers, strand)
    suitability = judge_product(brief)
    approach, because = choose_approach(brief)
    if not suitability.reachable:
        held = _held(judgement) if judgement.verdict.blocks else ()
        return Plan(Approach.HOLD, (*held, *suitability.outcome), suitability)
    timeline = simulate(brief, approach, settings)
    mixes = plan_mixes(brief, approach, settings, timeline)
    quantity = plan_quantity(brief, approach, settings, mixes)
    # Where a doctor has to be seen first nobody knows whether there will be an afterwards.
    if judgement.verdict is Verdict.SEE_DOCTOR:
        return Plan(Approach.HOLD, _held(judgement))
    holds = (*_held(judgement), *untested_products(brief, mixes), *too_long_alone(brief, timeline))
    if holds:
        return Plan(Approach.HOLD, holds, suitability, then=approach, quantity=quantity)
    return Plan(
        approach,
        (because,),
        suitability,
        quantity=quantity,
        mixes=mixes,
        sections=plan_sections(brief, approach, settings),
        steps=plan_steps(brief, approach, timeline),
        timeline=timeline,
        ledger=keep_ledger(brief, approach, timeline),
        cautions=CAUTIONS,
        aftercare=plan_aftercare(brief, approach),
        visit=plan_visit(brief, today),
    )


def _held(judgement: Judgement) -> tuple[Line, ...]:
    holding = [f for f in without_repeats(judgement.findings) if f.verdict.blocks]
    lines = [Line(f.remedy, f.plain, f.sources) for f in holding]
    if not judgement.settled:
        names = ", ".join(question_of(path).short for path in judgement.ask)
        lines.append(
            Line(f"Answer first: {names}.", "An unasked question is never read as no.", (COMMON_PRACTICE,))
        )
    return tuple(lines)
