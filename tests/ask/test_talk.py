"""Plain mode: the same consultation as in the wizard, line by line."""

import io
from pathlib import Path

import pytest

from consult.ask.console import Console
from consult.ask.talk import Talk
from consult.consultation import consult
from consult.records.demos import demo_files
from consult.records.record import dump_record
from consult.session import Session
from consult.trade import Voice
from tests.ask.person import Person, at_the_wizard
from tests.demo import load

DEMOS = list(demo_files())


@pytest.mark.parametrize("voice", [Voice.HOME, Voice.STYLIST])
@pytest.mark.parametrize("name", DEMOS)
def test_each_demo_client_typed_line_by_line_gives_the_wizards_record(
    name: str, voice: Voice, tmp_path: Path
) -> None:
    loaded = load(name)
    session = Session(voice, at=loaded.consulted_at)
    person, said = Person(loaded.answers, session), io.StringIO()
    record = tmp_path / "record.toml"
    Talk(session, Console(person, said), record).run()
    wizard = at_the_wizard(loaded.answers, Session(voice))
    assert loaded.consulted_at
    assert record.read_text("utf-8") == dump_record(consult(wizard, loaded.consulted_at))
    assert wizard == loaded.answers
