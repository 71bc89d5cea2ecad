"""Something went wrong: a short intake of the day, an emergency at once, and then what to do."""

from collections.abc import Sequence
from typing import ClassVar, cast

from textual.binding import BindingType

from consult.interview.mishap import MishapOf
from consult.interview.slip import Slip
from consult.plan.settings import Settings
from consult.remedies.day import DayLog
from consult.remedies.emergency import emergencies, emergency_of
from consult.remedies.help import Help
from consult.report.advice import advice_blocks
from consult.report.rows import Block
from consult.screens.blocks_page import BLOCK_KEYS, BlocksPage
from consult.screens.messages import OpenEmergency, OpenOver, OpenStart, Over
from consult.screens.slip_page import SLIP_KEYS, SlipPage
from consult.session import Session
from consult.widgets.keys import Key, bindings
from consult.widgets.text import Piece

STYLES = {
    Help.CARE: "bold $success",
    Help.WAIT: "bold $warning",
    Help.COLOURIST: "bold $warning",
    Help.DOCTOR: "bold $error",
    Help.DOCTOR_NOW: "bold reverse $error",
    Help.EMERGENCY: "bold reverse $error",
}


class WrongPage(SlipPage):
    """Asks about the day, what and the signs first. Whatever is an emergency opens its page with the answer."""

    KEYS: ClassVar[Sequence[Key]] = (
        *SLIP_KEYS,
        Key("F3", "what to do", "what to do, as far as it has been told", (("f3", "advice"),)),
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session) -> None:
        super().__init__(session, Slip(session.day or DayLog(), MishapOf(session.answers)))
        self._emergencies = emergencies(session.salon.settings if session.salon else Settings())
        self._shown = {emergency_of(self._day, self._emergencies)}

    def heading(self) -> str:
        return "Something went wrong"

    @property
    def _day(self) -> DayLog:
        return cast(DayLog, self.slip.given)

    def refused(self, value: object) -> str:
        if self.slip.here == "what" and not isinstance(value, tuple | None):
            return "tick what comes nearest; F9 says what to do when somebody is hurt"
        if self.slip.here == "what" and value == ():
            return "tick at least one; Esc goes back to the start"
        return ""

    def told(self, before: Slip) -> None:
        """It is kept; an emergency is said at once, each once."""
        self.session.tell_day(self._day)
        now = emergency_of(self._day, self._emergencies)
        if now is not None and now not in self._shown:
            self._shown.add(now)
            self.post_message(OpenEmergency(now))

    def finished(self) -> None:
        self.action_advice()

    def action_advice(self) -> None:
        if self._day.faults or self._day.reacted:
            self.post_message(OpenOver(Over.ADVICE))
        else:
            self.say("say first what went wrong; F9 says what to do when somebody is hurt")

    def left(self) -> None:
        self.post_message(OpenStart())


class AdvicePage(BlocksPage):
    """Is it an emergency; what to do now and what not; whom to tell what; whether it is mended, and why it happened."""

    KEYS: ClassVar[Sequence[Key]] = BLOCK_KEYS
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._found = session.remedy()

    def heading(self) -> str:
        return "What to do"

    def verdict(self) -> Sequence[Piece]:
        found = self._found
        urgent = found.day.reacted or found.help >= Help.DOCTOR
        told = [(found.help.title, STYLES[found.help])]
        kept = (
            "not on file yet, and must be: F4 writes the record"
            if urgent
            else "F4 writes the record with this day"
        )
        return [*told, (f"\n{kept}", "$muted")]

    def blocks(self) -> Sequence[Block]:
        known = MishapOf(self.session.answers).on_record
        return advice_blocks(self._found, self.session.answers if known else None, self.session.voice)
