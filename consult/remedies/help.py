"""How much help is needed, the least first."""

from consult.grades import Grade


class Help(Grade):
    """Who sees to it; a greater value is more help."""

    CARE = 0
    WAIT = 1
    COLOURIST = 2
    DOCTOR = 3
    DOCTOR_NOW = 4
    EMERGENCY = 5

    @property
    def title(self) -> str:
        """The words for a reader."""
        return _TITLES[self]


_TITLES = {
    Help.CARE: "No emergency: see to it at home",
    Help.WAIT: "No emergency: wait, then it can be mended",
    Help.COLOURIST: "No emergency: see a licensed colourist",
    Help.DOCTOR: "See a doctor; no more colour",
    Help.DOCTOR_NOW: "See a doctor today, at once; no more colour",
    Help.EMERGENCY: "EMERGENCY: ring now",
}
