"""What comes of a consultation: a plan is stopped, incomplete, held or made."""

from functools import cached_property

from msgspec import Struct

from consult.gates.judge import Finding
from consult.plan.aftercare import Visit
from consult.plan.alternatives import Ways, alternatives
from consult.plan.application import Applications
from consult.plan.bowls import Mix
from consult.plan.case import Case
from consult.plan.ledger import Account
from consult.plan.lines import Line
from consult.plan.rounds import Working
from consult.plan.shopping import Purchase
from consult.plan.steps import Reasons, Step


class Stopped(Struct, frozen=True):
    """No colour, by these findings."""

    findings: tuple[Finding, ...]


class Incomplete(Struct, frozen=True):
    """No plan yet: the paths of the answers that are missing, and the findings that would hold it anyway."""

    missing: tuple[str, ...]
    findings: tuple[Finding, ...]


class Made(Struct, frozen=True, dict=True):
    """What is done, in full. Everything is read off `applications`; `working` is who goes over which sections,
    `reasons` what the rules say whose steps are among the others."""

    case: Case
    approach: str
    because: Line
    applications: Applications
    working: Working
    reasons: Reasons
    mixes: tuple[Mix, ...]
    purchases: tuple[Purchase, ...]
    amounts: tuple[Line, ...]
    sections: tuple[Line, ...]
    steps: tuple[Step, ...]
    timeline: tuple[Line, ...]
    ledger: tuple[Account, ...]
    cautions: tuple[Line, ...]
    aftercare: tuple[Line, ...]
    visit: Visit
    notes: tuple[Line, ...]
    ways: Ways

    @cached_property
    def alternatives(self) -> tuple[Line, ...]:
        """Other ways, each with its price; looked for when they are told."""
        return alternatives(self.ways)


class Held(Struct, frozen=True, dict=True):
    """Nothing is mixed while these findings stand, or before `ask` is answered.

    `applications` is what would be carried out, `then` the whole plan where waiting or a test is all that
    holds it; both are empty after a class of colour that is not planned, or while a doctor has to be seen.
    """

    findings: tuple[Finding, ...]
    ask: tuple[str, ...]
    case: Case | None = None
    applications: Applications = ()
    then: Made | None = None
    notes: tuple[Line, ...] = ()
    ways: Ways | None = None

    @cached_property
    def alternatives(self) -> tuple[Line, ...]:
        """Other ways, each with its price; looked for when they are told."""
        return alternatives(self.ways) if self.ways else ()


Plan = Stopped | Incomplete | Held | Made
