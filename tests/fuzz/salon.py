"""Salon files as nobody should write them: `python -m tests.fuzz.salon 200000`."""

from functools import cache
from importlib.resources import files
from pathlib import Path

from consult.consultation import Consultation, consult
from consult.gates.rules import TABLES, builtin_rules
from consult.plan.types import Made
from consult.records.record import dump_record
from consult.salon import read_config
from tests.demo import judged
from tests.fuzz import main

EVERY = 20
"""One accepted file in so many judges and plans a head."""
_OWN = b"""
[settings]
run_out_chance = 0.02
sections = 5
seconds_a_parting = 25
scale_g = 1

[group]
"our kits" = ["retail kit", "separate colour and developer"]

[condition]
"grown up" = { field = "client.age", at_least = 18 }

[[raise]]
id = "asthma"
verdict = "see_doctor"

[[rule]]
id = "salon-18"
when = { not = { condition = "grown up" } }
verdict = "wait"
unsure = "test_first"
until = { days = 30, months = 2, words = "a grown-up comes along" }
kinds = ["permanent", "high-lift"]
effect = { developer_at_most = 6, time = "shortest", leave = ["lengths"], test_hours = 72, strand_test = true }
trade = "Under 18."
plain = "Under 18."
remedy = "Ask a grown-up."
sources = ["common practice"]
"""


def sound_files() -> list[bytes]:
    """A salon's file, and the program's own tables under other names."""
    tables = files("consult.gates").joinpath("rules")
    own = [tables.joinpath(f"{name}.toml").read_bytes() for name in TABLES]
    return [_OWN, *(text.replace(b'\nid = "', b'\nid = "own-') for text in own), _OWN]


@cache
def _heads() -> tuple[Consultation, ...]:
    return tuple(judged(name) for name in ("agnes", "rosa", "ines", "carmen"))


def read(path: Path, number: int) -> str:
    """Read a file; now and then judge and plan a head by it. What the program itself forbids stays forbidden."""
    salon = read_config(path)
    known = {rule.id: rule for rule in salon.rules}
    assert all(known[rule.id].verdict >= rule.verdict for rule in builtin_rules())
    if number % EVERY:
        return "taken"
    head = _heads()[number // EVERY % len(_heads())]
    found = consult(head.answers, head.now, salon)
    assert found.judgement.verdict >= head.judgement.verdict
    dump_record(found)
    return "planned" if isinstance(found.plan, Made) else "held"


if __name__ == "__main__":
    main(read, sound_files())
