"""The program in a browser: who is let in, and what is said where it cannot be served."""

import importlib.util
import socket
from pathlib import Path

import pytest

from consult.cli import main
from consult.exits import BAD_INPUT
from tests.hands.browser import refused, served


async def test_only_this_machine_with_the_key_is_let_in(tmp_path: Path) -> None:
    async with served(tmp_path) as address:
        assert address.startswith("http://127.0.0.1:")
        assert await refused(address) == []


def test_nothing_on_the_page_comes_from_elsewhere() -> None:
    folder = Path(__file__).parent.parent / "consult/serving"
    for path in (*folder.glob("templates/*"), *folder.glob("own/*")):
        assert "//" not in path.read_text().replace("<!DOCTYPE", "").replace("\n//", "").lstrip("/"), path


def test_a_port_that_is_taken_is_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        assert main(["serve", "--port", str(taken.getsockname()[1])]) == BAD_INPUT
    error = capsys.readouterr().err
    assert "choose another" in error
    assert error.count("\n") == 1


def test_a_port_that_is_none_is_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["serve", "--port", "80"]) == BAD_INPUT
    assert "--port" in capsys.readouterr().err


def test_without_the_package_it_says_how_to_get_it(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    assert main(["serve"]) == BAD_INPUT
    assert "pip install 'consult[serve]'" in capsys.readouterr().err
