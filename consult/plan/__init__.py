"""The plan: what is put where, in what order, for how long, out of what, and whether it may be.

A case is read from the answers and the head. An approach writes the ordered list of applications for it,
under the limits that the findings set, and the list is handled so that every hair keeps within its minutes.
The checks say what speaks against it. Everything else - bowls, amounts, shopping, sections, time line, steps,
ledger - is read off the list.
"""

from datetime import datetime

from consult.answers import Answers
from consult.gates.judge import Judgement
from consult.gates.rules import RuleSet
from consult.gates.verdict import Verdict
from consult.head.bands import Head
from consult.plan.aftercare import plan_aftercare, plan_cautions, plan_visit
from consult.plan.alternatives import Ways
from consult.plan.approach import Approach, choose_approach
from consult.plan.bowls import mix_bowls, write_recipes
from consult.plan.case import missing, read_case
from consult.plan.checks import check_plan, not_planned
from consult.plan.handling import Handling, carry_out
from consult.plan.ledger import keep_ledger
from consult.plan.notes import plan_notes
from consult.plan.sections import plan_sections
from consult.plan.settings import Settings
from consult.plan.shopping import amount_lines, buy
from consult.plan.steps import Reasons, plan_steps
from consult.plan.timeline import timeline_lines
from consult.plan.types import Held, Incomplete, Made, Plan, Stopped
from consult.trade import Phrase

__all__ = ["make_plan"]

PASSING = (Verdict.WAIT, Verdict.TEST_FIRST)
"""What goes away by itself or with a test: the plan behind it is worth preparing."""


def make_plan(
    answers: Answers,
    judgement: Judgement,
    head: Head | None,
    now: datetime,
    settings: Settings,
    rules: RuleSet,
) -> Plan:
    """The plan. Nothing is mixed while a finding blocks or an answer is missing."""
    blocking = tuple(f for f in judgement.findings if f.verdict.blocks)
    if judgement.verdict is Verdict.STOP:
        return Stopped(tuple(f for f in blocking if f.verdict is Verdict.STOP))
    unanswered = missing(answers)
    if unanswered or head is None:
        return Incomplete(unanswered, blocking)
    ask = () if judgement.settled else judgement.ask
    case = read_case(answers, head, judgement.limits)
    if case is None:
        return Held((*blocking, not_planned(str(answers.product.colour_class))), ask)
    approach = choose_approach(case)
    handling = carry_out(case, approach, settings)
    found = (*blocking, *check_plan(case, handling.applications, now))
    # Where a doctor has to be seen first nobody knows whether there will be an afterwards.
    if any(f.verdict is Verdict.SEE_DOCTOR for f in found):
        return Held(found, ask)
    reasons = {f.rule: Phrase(f.trade, f.plain) for f in judgement.findings}
    ways = Ways(answers, case, now, settings, rules, tuple(f.verdict for f in found))
    if not found and not ask:
        return _made(ways, approach, handling, reasons)
    passing = all(f.verdict in PASSING for f in found) and handling.applications
    then = _made(ways, approach, handling, reasons) if passing else None
    return Held(found, ask, case, handling.applications, then, plan_notes(case), ways)


def _made(ways: Ways, approach: Approach, handling: Handling, reasons: Reasons) -> Made:
    case, applications, settings = ways.case, handling.applications, ways.settings
    recipes = write_recipes(case, applications)
    mixes = mix_bowls(case, recipes, settings)
    purchases = buy(recipes, mixes, settings)
    ledger = keep_ledger(case.head, applications)
    return Made(
        case=case,
        approach=approach.name,
        because=approach.because,
        applications=applications,
        working=handling.working,
        reasons=reasons,
        mixes=mixes,
        purchases=purchases,
        amounts=amount_lines(case, recipes, purchases),
        sections=plan_sections(case, applications, handling.working, handling.why),
        steps=plan_steps(case, applications, mixes, handling.working, reasons),
        timeline=timeline_lines(applications),
        ledger=ledger,
        cautions=plan_cautions(applications),
        aftercare=plan_aftercare(applications, ledger),
        visit=plan_visit(case, applications, ledger, ways.now.date()),
        notes=plan_notes(case),
        ways=ways,
    )
