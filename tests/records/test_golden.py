"""The records of the demo clients are as they stand in the repository."""

import pytest

from consult.records.demos import demo_files
from tests.golden import FOLDER, golden, record


@pytest.mark.parametrize("name", demo_files())
def test_a_demo_clients_record_is_the_golden_one(name: str) -> None:
    assert record(name) == golden(name).read_text("utf-8"), "look at the changes: python -m tests.golden"


def test_there_is_no_golden_record_without_its_client() -> None:
    assert {path.stem for path in FOLDER.glob("*.toml")} == set(demo_files())
