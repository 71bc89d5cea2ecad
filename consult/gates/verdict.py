"""The verdicts, strongest first."""

from consult.grades import Grade


class Verdict(Grade):
    """How strongly a finding speaks; a greater value is a stronger verdict."""

    CLEAR = 0
    CAUTION = 1
    CHANGE_PRODUCT = 2
    LOOK_UP = 3
    TEST_FIRST = 4
    TREAT_FIRST = 5
    SEE_COLOURIST = 6
    WAIT = 7
    SEE_DOCTOR = 8
    STOP = 9

    @property
    def title(self) -> str:
        """The words for a reader: "See a doctor first"."""
        return _TITLES[self]

    @property
    def blocks(self) -> bool:
        """True when no colour may be mixed until the finding is gone."""
        return self > Verdict.CAUTION


_TITLES = {
    Verdict.CLEAR: "Clear",
    Verdict.CAUTION: "Go on with care",
    Verdict.CHANGE_PRODUCT: "Not this product for this goal",
    Verdict.LOOK_UP: "Look it up first",
    Verdict.TEST_FIRST: "Test first",
    Verdict.TREAT_FIRST: "Treat the hair first",
    Verdict.SEE_COLOURIST: "See a licensed colourist",
    Verdict.WAIT: "Wait",
    Verdict.SEE_DOCTOR: "See a doctor first",
    Verdict.STOP: "Stop: no colour",
}
