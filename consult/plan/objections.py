"""What speaks against carrying out a list of applications, and how a check says so."""

from collections.abc import Callable

from msgspec import Struct

from consult.gates.verdict import Verdict
from consult.plan.application import Applications
from consult.plan.case import Case
from consult.sources import COMMON_PRACTICE

CP = (COMMON_PRACTICE,)


class Objection(Struct, frozen=True):
    """What a check says: trade and plain words, what to do about it, and the answers it rests on."""

    trade: str
    remedy: str
    evidence: tuple[str, ...]
    sources: tuple[str, ...] = CP
    plain: str = ""
    until_days: float | None = None
    until_words: str = ""


Looks = Callable[[Case, Applications], Objection | None]


class Check(Struct, frozen=True):
    """One check: its id, its verdict, and what it looks for."""

    id: str
    verdict: Verdict
    objects: Looks


class Checks(list[Check]):
    """Checks in the order in which they are told."""

    def check(self, id_: str, verdict: Verdict) -> Callable[[Looks], Looks]:
        """Put a function on the list: `@CHECKS.check("too-early", Verdict.WAIT)`."""

        def register(look: Looks) -> Looks:
            self.append(Check(id_, verdict, look))
            return look

        return register
