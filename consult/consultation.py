"""The whole program without a face: answers in, findings, strand, plan and forecast out."""

from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING

from consult.answers import Answers
from consult.answers.shelf import Shelf
from consult.gates.judge import Finding, Judgement
from consult.gates.verdict import Verdict
from consult.judging import judge_head
from consult.plan import make_plan
from consult.plan.approach import choose_approach
from consult.plan.brief import missing, read_brief
from consult.plan.types import Line, Plan
from consult.salon import SalonConfig, default_config
from consult.strand.bands import Strand
from consult.strand.build import build_strand

FORECAST_CLASSES = ("permanent", "demi-permanent", "high-lift")

if TYPE_CHECKING:
    from consult.plan.forecast import Forecast
    from consult.plan.shelf import ShelfChoice


@dataclass(frozen=True)
class Consultation:
    """Everything that follows from the answers at one moment."""

    answers: Answers
    now: datetime
    judgement: Judgement
    strand: Strand | None
    plan: Plan | None
    salon: SalonConfig
    shelf: Shelf | None = None

    @cached_property
    def forecast(self) -> "Forecast | None":
        """The colours to come, computed when first asked for; None after a stop, before a doctor has been
        seen, or while answers lack. Where the plan is held, it says what would come of it all the same.
        """
        doctor_first = self.judgement.verdict is Verdict.SEE_DOCTOR
        if self.plan is None or self.strand is None or doctor_first or missing(self.answers):
            return None
        if self.answers.product.colour_class not in FORECAST_CLASSES:
            return None
        from consult.plan.forecast import forecast

        brief = read_brief(self.answers, self.strand)
        approach = self.plan.approach if self.plan.made else choose_approach(brief)[0]
        return forecast(brief, approach, only_if=not self.plan.made)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The judgement's findings and those of the forecast of a plan, strongest first."""
        foreseen: tuple[Finding, ...] = ()
        if self.plan and self.plan.made and self.forecast:
            foreseen = tuple(_foreseen(line) for line in self.forecast.warnings)
        return tuple(sorted((*self.judgement.findings, *foreseen), key=lambda f: -f.verdict))

    @property
    def verdict(self) -> Verdict:
        """The strongest verdict of all findings."""
        return self.findings[0].verdict if self.findings else Verdict.CLEAR

    @cached_property
    def from_shelf(self) -> "ShelfChoice | None":
        """What the shelf offers for this head; None without a shelf, after a stop or while answers lack."""
        lacking = [path for path in missing(self.answers) if not path.startswith("product.")]
        doctor_first = self.judgement.verdict is Verdict.SEE_DOCTOR
        if self.shelf is None or self.plan is None or self.strand is None or lacking or doctor_first:
            return None
        from consult.plan.shelf import developer_at_hand, search_shelf

        found = search_shelf(self.answers, self.strand, self.shelf, self.now, self.salon.rules)
        needed = sum(mix.developer_g for mix in self.plan.mixes)
        made = developer_at_hand(self.answers.product, self.shelf, needed) if needed else None
        return replace(found, lines=(*found.lines, made)) if made else found


def consult(
    answers: Answers, now: datetime, salon: SalonConfig | None = None, shelf: Shelf | None = None
) -> Consultation:
    """Run the flow: gates, strand, plan. `now` is an aware moment; nothing here reads a clock."""
    salon = salon or default_config()
    strand = build_strand(answers, now.date())
    judged = judge_head(answers, strand, now, salon.rules)
    plan = make_plan(answers, judged, strand, now.date(), salon.settings)
    return Consultation(answers, now, judged, strand, plan, salon, shelf)


def _foreseen(line: Line) -> Finding:
    return Finding(
        rule="forecast",
        verdict=Verdict.CAUTION,
        trade=line.say,
        plain=line.say,
        remedy="Show this before anything is mixed; a strand test shows it on the hair. See the other ways.",
        sources=line.sources,
        evidence=("goal.depth", "goal.tone", "product.depth", "product.tone"),
    )
