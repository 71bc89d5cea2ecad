"""The demo clients come out as their README says, and reach every verdict and every approach."""

import re
from pathlib import Path

import pytest

from consult.gates.verdict import Verdict
from consult.plan.types import Made, Plan, Stopped
from consult.records.codec import read_text
from consult.records.demos import demo_files, demo_folder
from consult.records.record import dump_record
from tests.demo import NOW, judged

ROW = re.compile(r"^\| (\d\d-(\w+)\.toml) \| (\w+) \| ([^|]+?) \| [^|]+ \|$", re.M)
TOLD = ROW.findall((demo_folder() / "README.md").read_text("utf-8"))


def test_every_demo_client_is_told_of_and_there_are_at_least_fourteen() -> None:
    assert [name for name, *_ in TOLD] == [path.name for path in demo_files().values()]
    assert len(TOLD) >= 14


@pytest.mark.parametrize(("file", "name", "verdict", "plan"), TOLD)
def test_each_comes_out_as_told(file: str, name: str, verdict: str, plan: str) -> None:
    found = judged(name)
    assert found.judgement.settled, file
    assert found.verdict.word == verdict
    assert outcome(found.plan) == plan


def outcome(plan: Plan) -> str:
    """What comes of it, as the README tells it."""
    if isinstance(plan, Made):
        return plan.approach
    return "none" if isinstance(plan, Stopped) else "hold"


def test_together_they_reach_every_verdict_and_every_approach() -> None:
    assert {verdict for _, _, verdict, _ in TOLD} == {verdict.word for verdict in Verdict}
    assert {plan for *_, plan in TOLD} == {
        "new growth only", "new growth, then refresh the lengths", "all over", "lengths first, roots last",
        "pre-pigment first", "new growth and lengths, each with its own", "hold", "none",
    }  # fmt: skip


@pytest.mark.parametrize("name", demo_files())
def test_the_record_read_back_and_run_again_is_the_same(name: str) -> None:
    first = judged(name)
    text = dump_record(first)
    loaded = read_text(text, name, NOW)
    assert loaded.consulted_at == first.now
    from consult.consultation import consult

    assert dump_record(consult(loaded.answers, loaded.consulted_at)) == text


def test_names_and_products_are_said_to_be_invented() -> None:
    for path in Path(demo_folder()).glob("*.toml"):
        assert "nvented" in path.read_text("utf-8").splitlines()[0]
