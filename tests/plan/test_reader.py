"""No plan contradicts itself: small here, 5,000 heads by `python -m tests.plan.reader 5000`.

The reader is tried itself: each thing it looks for is put wrong in a written record, and it has to see it.
"""

import tomllib
from collections.abc import Callable
from typing import Any

import pytest
import tomli_w

from consult.records.demos import demo_files
from consult.records.record import dump_record
from tests.demo import judged as judged_demo
from tests.plan.heads import head, judged
from tests.plan.reader import EFFECTS, contradictions

Table = dict[str, Any]


@pytest.mark.parametrize("name", demo_files())
def test_the_demo_clients(name: str) -> None:
    assert contradictions(dump_record(judged_demo(name))) == []


@pytest.mark.parametrize("tens", range(12))
def test_random_heads(tens: int) -> None:
    for seed in range(tens * 10, tens * 10 + 10):
        assert contradictions(dump_record(judged(head(seed)))) == [], seed


def spoiled(name: str, spoil: Callable[[Table], None], **changes: Any) -> str:
    """What the reader says of a record after something in it was put wrong."""
    record = tomllib.loads(dump_record(judged_demo(name, **changes)))
    spoil(record)
    return " | ".join(contradictions(tomli_w.dumps(record)))


def plan(record: Table) -> Table:
    found: Table = record["result"]["plan"]
    return found


def later(record: Table) -> None:
    for touch in plan(record)["applications"][0]["touches"]:
        touch["off"] += 6


def earlier(record: Table) -> None:
    for touch in plan(record)["applications"][0]["touches"]:
        touch["off"] = 10


def a_finding(rule: str) -> Callable[[Table], None]:
    def add(record: Table) -> None:
        record["result"]["findings"].append({"rule": rule, "verdict": "caution"})

    return add


WRONG: dict[str, tuple[str, Callable[[Table], None], str]] = {
    "longer than the leaflet": ("tomas", later, "allowed"),
    "shorter than the leaflet": ("tomas", earlier, "are the least"),
    "counted from the first touch": (
        "tomas",
        lambda r: r["product"].update(counted_from="the first touch"),
        "counted from the first touch",
    ),
    "a total limit": ("tomas", lambda r: r["product"].update(minutes_total=40.0), "from the first touch"),
    "far apart": ("tomas", lambda r: r["product"].update(counted_from="it does not say"), "minutes apart"),
    "an old mix": ("tomas", lambda r: r["product"].update(mix_minutes=10.0), "younger than 10"),
    "a bowl nobody mixes": ("jonas", lambda r: plan(r)["mixes"].pop(), "nobody mixes"),
    "too little mixed": ("tomas", lambda r: plan(r)["purchases"][0].update(expected_g=200), "expected"),
    "too little bought": ("jonas", lambda r: plan(r)["purchases"][0].update(mix_g=20), "than bought"),
    "packs that nobody has": ("wilma", lambda r: plan(r)["purchases"][0].update(packs=1), "bought"),
    "a demand for lengths": ("ines", a_finding("coloured-within-4-weeks"), "are to be left"),
    "a demand for developer": ("agnes", a_finding("relaxed"), "developer at most 3"),
    "a demand for no lift": ("jonas", a_finding("henna"), "nothing may be lifted"),
    "a demand for a strand test": ("tomas", a_finding("hard-water"), "a strand test first"),
    "a demand for a longer wait": ("tomas", a_finding("black-henna-exposed"), "are not over"),
    "a demand for a step": ("tomas", a_finding("asthma"), "is no step"),
    "a demand for the longest time": ("tomas", a_finding("white-resists"), "the longest time"),
    "a demand for the shortest time": ("tomas", a_finding("pregnancy"), "the shortest time"),
    "a stop above a plan": (
        "tomas",
        lambda r: r["result"]["findings"].append({"rule": "x", "verdict": "wait"}),
        "above a plan that is made",
    ),
    "a minute that is none": (
        "jonas",
        lambda r: plan(r)["steps"].append({"say": "At minute 77: stir."}),
        "no application does",
    ),
    "stinging told too late": ("tomas", lambda r: plan(r)["steps"].pop(0), "after the mixing"),
    "a pull-through that is not told": (
        "ines",
        lambda r: plan(r).update(steps=[s for s in plan(r)["steps"] if "draw it" not in s["say"]]),
        "in the applications",
    ),
    "a pass too many": (
        "tomas",
        lambda r: plan(r)["ledger"][-1].update(passes_after=9),
        "passes in the ledger",
    ),
    "a pass too few": (
        "tomas",
        lambda r: plan(r)["ledger"][0].update(passes_after=0),
        "passes in the ledger",
    ),
    "another depth": (
        "tomas",
        lambda r: r["result"]["forecast"]["bands"][0]["stages"][-1]["seen"].update(depth=9.0),
        "foreseen",
    ),
    "a stage nobody puts on": (
        "tomas",
        lambda r: r["result"]["forecast"]["bands"][0]["stages"].pop(),
        "stages foreseen",
    ),
    "a line that is passed": (
        "tomas",
        lambda r: plan(r)["applications"][0]["stretches"].append("lengths"),
        "the lengths are painted",
    ),
    "another tone today": (
        "tomas",
        lambda r: r["result"]["forecast"]["bands"][-1]["stages"][0]["seen"].update(tone="violet"),
        "violet told",
    ),
    "a third pass, and one more": (
        "tomas",
        lambda r: plan(r)["ledger"][-1].update(passes=3, passes_after=3),
        "are sent for another",
    ),
    "enough after one pass": (
        "ines",
        lambda r: [account.update(passes=0, passes_after=1) for account in plan(r)["ledger"]],
        "told to have had enough",
    ),
    "colour on what is left alone": (
        "rosa",
        lambda r: plan(r)["applications"][-1]["stretches"].append("at the scalp"),
        "said to be left alone",
    ),
    "all over, and it is not": (
        "agnes",
        lambda r: plan(r)["applications"][0].update(stretches=["lengths", "ends"]),
        "no new growth gets colour",
    ),
    "new growth only, and it is not": (
        "tomas",
        lambda r: plan(r).update(approach="lengths only"),
        "and new growth gets colour",
    ),
    "lengths that get nothing": (
        "tomas",
        lambda r: plan(r).update(approach="all over"),
        "no lengths get colour",
    ),
    "a zone forgotten": ("tomas", lambda r: plan(r)["applications"][0]["zones"].pop(), "get colour"),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_it_sees(wrong: str) -> None:
    name, spoil, seen = WRONG[wrong]
    assert seen in spoiled(name, spoil)


def test_a_hold_tells_nothing_to_buy_and_never_stands_under_clear() -> None:
    def prepare(record: Table) -> None:
        plan(record)["prepare"] = []

    def clear(record: Table) -> None:
        record["result"]["verdict"] = "clear"

    assert "tells what to buy" in spoiled("elif", prepare)
    assert "under the verdict clear" in spoiled("beata", clear)


def test_it_reads_the_effects_off_the_tables() -> None:
    assert EFFECTS["pregnancy"]["time"] == "shortest"
    assert sum(bool(effect) for effect in EFFECTS.values()) > 25
