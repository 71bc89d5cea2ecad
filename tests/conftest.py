"""A fixed place and a fixed time zone for every test."""

import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Nothing is read from or written to the developer's own folders, and local time is UTC."""
    monkeypatch.setenv("CONSULT_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("TZ", "UTC")
    time.tzset()
    yield
    os.environ.pop("TZ", None)
    time.tzset()
