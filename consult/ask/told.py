"""What stands in the way, said as soon as it is there."""

from consult.ask.console import Console
from consult.dates import when
from consult.gates.judge import Finding, without_repeats
from consult.gates.verdict import Verdict
from consult.gates.words import reason_words
from consult.session import Session

AT_ONCE = Verdict.WAIT
"""From here on a finding is said at once; what is milder stands in the result."""


class Told:
    """The findings that have been said; each is said once, as long as it holds."""

    def __init__(self, console: Console, session: Session) -> None:
        self._console = console
        self._session = session
        self._rules: set[str] = set()
        self._stopped = False

    def tell(self) -> None:
        """Say what is new, and that something no longer holds. Beside a stop nothing milder is said."""
        found = [f for f in self._session.judgement().findings if f.verdict >= AT_ONCE]
        rules = {finding.rule for finding in found}
        stopped = any(finding.verdict is Verdict.STOP for finding in found)
        if self._rules - rules:
            self._console.say("What was said to stand in the way has changed with that answer.")
        new = [f for f in without_repeats(found) if f.rule not in self._rules or stopped != self._stopped]
        for finding in new:
            if finding.verdict is Verdict.STOP or not stopped:
                self._say(finding)
        if stopped and not self._stopped:
            self._console.say(
                "There is no way around a stop. If the answer was wrong, < goes back to it; result tells "
                "more; the other questions are for the record only."
            )
        self._rules, self._stopped = rules, stopped

    def _say(self, finding: Finding) -> None:
        until = f" Until {when(finding.until)}: {finding.until_words}." if finding.until else ""
        words = f"{reason_words(finding, self._session.voice)}{until} {finding.remedy}"
        self._console.say(words, first=f"!! {finding.verdict.title}: ", then="   ")
