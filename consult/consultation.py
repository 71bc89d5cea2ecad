"""The whole program without a face: answers in, findings, head, plan and forecast out."""

from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from consult.answers import Answers
from consult.gates.judge import Finding, Judgement
from consult.gates.verdict import Verdict
from consult.head.bands import Head
from consult.head.build import build_head
from consult.judging import judge_head
from consult.plan import make_plan
from consult.plan.case import missing
from consult.plan.lines import Line
from consult.plan.types import Held, Made, Plan, Stopped
from consult.salon import SalonConfig, default_config

if TYPE_CHECKING:
    from consult.answers.shelf import Shelf

    # These two need numpy, which is loaded when a result is shown and not before.
    from consult.plan.forecast import Forecast
    from consult.plan.shelf import ShelfChoice


class Consultation(Struct, frozen=True, dict=True):
    """Everything that follows from the answers at one moment."""

    answers: Answers
    now: datetime
    judgement: Judgement
    head: Head | None
    plan: Plan
    salon: SalonConfig
    shelf: "Shelf | None" = None

    @cached_property
    def forecast(self) -> "Forecast | None":
        """The colours to come, computed when first asked for; None where nothing would be put on.

        Where the plan is held, it says what would come of it all the same.
        """
        plan = self.plan
        if not isinstance(plan, Made | Held) or plan.case is None or not plan.applications:
            return None
        if any(_whatever_is_wished(f) for f in self.judgement.findings):
            return None
        from consult.plan.forecast import forecast

        only_if, results = isinstance(plan, Held), self.salon.results
        return forecast(plan.case, plan.applications, only_if=only_if, results=results)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Those of the gates, of the plan's checks and of a made plan's forecast, strongest first."""
        found = dict.fromkeys(self.judgement.findings)
        if isinstance(self.plan, Held):
            found |= dict.fromkeys(self.plan.findings)
        if isinstance(self.plan, Made) and self.forecast:
            found |= dict.fromkeys(_foreseen(told) for told in self.forecast.warnings)
        return tuple(sorted(found, key=lambda f: -f.verdict))

    @property
    def verdict(self) -> Verdict:
        """The strongest verdict of all findings."""
        return self.findings[0].verdict if self.findings else Verdict.CLEAR

    @property
    def until(self) -> datetime | None:
        """The end of the longest wait among all findings."""
        return max((f.until for f in self.findings if f.until), default=None)

    @cached_property
    def from_shelf(self) -> "ShelfChoice | None":
        """What the shelf offers for this head; None without a shelf, after a stop or while answers are missing."""
        open_answers = [path for path in missing(self.answers) if not path.startswith("product.")]
        doctor_first = self.judgement.verdict is Verdict.SEE_DOCTOR
        stopped = isinstance(self.plan, Stopped)
        if self.shelf is None or self.head is None or stopped or open_answers or doctor_first:
            return None
        from consult.plan.shelf import developer_at_hand, search_shelf

        found = search_shelf(
            self.answers,
            self.head,
            self.shelf,
            self.now,
            self.salon.rules,
            self.salon.settings,
        )
        needed = sum(mix.developer_g for mix in self.plan.mixes) if isinstance(self.plan, Made) else 0.0
        made = developer_at_hand(self.answers.product, self.shelf, needed) if needed else None
        return replace(found, lines=(*found.lines, made)) if made else found


def consult(
    answers: Answers, now: datetime, salon: SalonConfig | None = None, shelf: "Shelf | None" = None
) -> Consultation:
    """Run the flow: head, gates, plan, forecast. `now` is an aware moment; nothing here reads a clock."""
    salon = salon or default_config()
    head = build_head(answers, now.date())
    judged = judge_head(answers, head, now, salon.rules)
    plan = make_plan(answers, judged, head, now, salon.settings, salon.rules)
    return _checked(Consultation(answers, now, judged, head, plan, salon, shelf))


def _whatever_is_wished(finding: Finding) -> bool:
    """The hair itself holds it, and no other goal or product would change that: no colour is foreseen for it."""
    about_the_wish = any(path.startswith(("goal.", "product.")) for path in finding.evidence)
    return finding.verdict in (Verdict.TREAT_FIRST, Verdict.SEE_COLOURIST) and not about_the_wish


def _checked(found: Consultation) -> Consultation:
    """With the plan held, where it is made and its forecast tells of another colour."""
    if not isinstance(found.plan, Made) or found.forecast is None:
        return found
    from consult.plan.foreseen import held_by_forecast

    held = held_by_forecast(found.plan, found.forecast)
    return replace(found, plan=held) if held else found


def _foreseen(told: Line) -> Finding:
    return Finding(
        rule="forecast",
        verdict=Verdict.CAUTION,
        trade=told.say.trade,
        plain=told.say.plain,
        remedy="Show this before anything is mixed; a strand test shows it on the hair. See what can be done instead.",
        sources=told.sources,
        evidence=("goal.depth", "goal.tone", "product.depth", "product.tone"),
    )
