"""One whole consultation with the keyboard alone, from an empty start to a written record."""

from pathlib import Path

import pytest

from consult import session as session_module
from consult.answers.access import get
from consult.answers.questions import Kind, question_of
from consult.interview.order import asked, is_told
from consult.interview.pages import page_of
from consult.records.codec import read_file
from consult.trade import Voice
from tests.demo import load
from tests.screens.driver import LARGE, SMALL, driven
from tests.screens.typist import type_all


@pytest.mark.parametrize(
    ("name", "voice", "size"),
    [
        ("noor", Voice.TRAINER, SMALL),
        ("hanna", Voice.HOME, LARGE),
    ],
)
async def test_typed_with_the_keyboard_and_read_back_from_the_record(
    name: str, voice: Voice, size: tuple[int, int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A demo client typed in: her record holds her answers and those alone."""
    demo = load(name)
    assert demo.consulted_at
    monkeypatch.setattr(session_module, "clock", lambda: demo.consulted_at)
    record = tmp_path / "record.toml"
    async with driven(size, voice=voice) as driver:
        await driver.type("1")
        typed = await type_all(driver, demo.answers)
        assert "NOT ASKED" not in driver.screen
        await driver.type("<f4>")
        await driver.type(f"{record}<enter>")
        await driver.sees("Written:", at="Toast")
    loaded = read_file(record, demo.consulted_at)
    assert loaded.consulted_at == demo.consulted_at
    needed = {
        path for path in asked(demo.answers) if not question_of(path).optional and get(demo.answers, path)
    }
    assert needed <= set(typed.asked) | {p for p in needed if page_of(p).ticks}
    for path in asked(demo.answers, implied=True):
        if question_of(path).kind is Kind.ENTRIES:
            continue  # What stands in its entries is compared.
        wanted, found = get(demo.answers, path), get(loaded.answers, path)
        left_out = question_of(path).optional and found is None and not is_told(loaded.answers, path)
        assert found == wanted or left_out, path
