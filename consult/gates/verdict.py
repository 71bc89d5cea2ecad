"""The verdicts, strongest first."""

from enum import IntEnum


class Verdict(IntEnum):
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
    def word(self) -> str:
        """The word used in rule tables and records: `see_doctor`."""
        return self.name.lower()

    @property
    def title(self) -> str:
        """The words for a reader: "See a doctor first"."""
        return _TITLES[self]

    @property
    def blocks(self) -> bool:
        """True when no colour may be mixed until the finding is gone."""
        return self > Verdict.CAUTION

    @classmethod
    def of(cls, word: str) -> "Verdict":
        """The verdict of a table's word. Raises ValueError for any other word."""
        for verdict in cls:
            if verdict.word == word:
                return verdict
        raise ValueError(f"no such verdict; use one of: {', '.join(v.word for v in cls)}")


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
