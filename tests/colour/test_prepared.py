"""The tables that are kept ready are the very tables that the model computes."""

import numpy as np
import pytest

from consult.colour import prepared
from consult.colour.prepare import compute_tables


def test_every_table_is_there_for_the_sources_as_they_are() -> None:
    """After a change of the model: python -m consult.colour.prepare."""
    ready, computed = prepared._ready(), compute_tables()
    assert set(ready) == set(computed)
    for name, table in computed.items():
        np.testing.assert_allclose(ready[name], table, rtol=1e-12, atol=1e-12, err_msg=name)


def test_other_sources_are_never_served_by_these_tables(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(prepared, "SOURCES", ("cie", "dyes"))
    assert not prepared.file_of_tables().exists()


def test_without_the_file_a_table_is_computed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(prepared, "_ready", dict)
    assert prepared.table("ladder", lambda: np.ones(3)).tolist() == [1, 1, 1]
