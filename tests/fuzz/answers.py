"""Answers files and records as nobody should write them: `python -m tests.fuzz.answers 200000`."""

import math
from pathlib import Path
from typing import Any

from consult.answers.access import answer_paths, get
from consult.answers.questions import Kind, question_of
from consult.consultation import Consultation, consult
from consult.files import BadFile
from consult.plan.types import Made
from consult.records.codec import read_file
from consult.records.demos import demo_files
from consult.records.record import dump_record, result_data, salon_of
from consult.salon import BadConfig
from tests.baseline import NOW
from tests.fuzz import main, numbers
from tests.golden import golden

RANGES = {"_cm": (0, 200), "_percent": (0, 100), "_g": (0, 20_000), "_ml": (0, 20_000), "depth": (1, 10)}
"""How the name of a number ends -> what it may be."""
ANY = (-1_000_000, 1_000_000)


def sound_files() -> list[bytes]:
    """The demo clients, and the records of three of them."""
    records = [golden(name).read_bytes() for name in ("ines", "hanna", "elif")]
    return [path.read_bytes() for path in demo_files().values()] * 2 + records


def read(path: Path, number: int) -> str:
    """Read a file and carry it as far as it goes."""
    loaded = read_file(path, NOW)
    for where in answer_paths(loaded.answers):
        question, value = question_of(where), get(loaded.answers, where)
        if question.kind is Kind.NUMBER and isinstance(value, int | float):
            assert question.low is not None
            assert question.high is not None
            assert question.low <= value <= question.high, where
    try:
        salon = salon_of(loaded)
    except (BadConfig, BadFile):
        return "salon refused"
    found = consult(loaded.answers, loaded.consulted_at or NOW, salon)
    if not isinstance(found.plan, Made):
        return "held"
    _check(found, result_data(found))
    if number % 50 == 0:
        dump_record(found)
    return "planned"


def _check(found: Consultation, data: dict[str, Any]) -> None:
    for name, value in numbers({key: data.get(key) for key in ("head", "plan", "forecast")}):
        low, high = next((limits for end, limits in RANGES.items() if name.endswith(end)), ANY)
        assert math.isfinite(value), name
        assert low <= value <= high, f"{name} = {value}"


if __name__ == "__main__":
    main(read, sound_files())
