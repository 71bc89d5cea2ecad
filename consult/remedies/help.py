"""How much help is needed, the least first."""

from enum import IntEnum


class Help(IntEnum):
    """Who sees to it; a greater value is more help."""

    CARE = 0
    WAIT = 1
    COLOURIST = 2
    DOCTOR = 3
    DOCTOR_NOW = 4
    EMERGENCY = 5

    @property
    def word(self) -> str:
        """The word used in tables and records: `doctor_now`."""
        return self.name.lower()

    @property
    def title(self) -> str:
        """The words for a reader."""
        return _TITLES[self]

    @classmethod
    def of(cls, word: str) -> "Help":
        """The help of a table's word. Raises ValueError for any other word."""
        for help_ in cls:
            if help_.word == word:
                return help_
        raise ValueError(f"no such help; use one of: {', '.join(h.word for h in cls)}")


_TITLES = {
    Help.CARE: "No emergency: see to it at home",
    Help.WAIT: "No emergency: wait, then it can be mended",
    Help.COLOURIST: "No emergency: see a licensed colourist",
    Help.DOCTOR: "See a doctor; no more colour",
    Help.DOCTOR_NOW: "See a doctor today, at once; no more colour",
    Help.EMERGENCY: "EMERGENCY: ring now",
}
