"""A record takes the salon's own rules and settings along, and is checked by them."""

from pathlib import Path

import pytest

from consult.cli import main
from consult.consultation import consult
from consult.records.codec import read_text
from consult.records.demos import demo_files
from consult.records.record import dump_record, salon_of
from consult.salon import read_config
from tests.baseline import NOW
from tests.demo import load

OWN = """
[settings]
sections = 5

[[raise]]
id = "porosity-differs"
verdict = "see_colourist"

[[rule]]
id = "salon-weekday"
when = { field = "client.gloves", is = "yes" }
verdict = "caution"
effect = { before = { trade = "Sign the book.", plain = "Sign the book." } }
trade = "A rule of the salon's own."
plain = "A rule of the salon's own."
remedy = "Sign the book."
sources = ["common practice"]
"""


@pytest.fixture
def salon_file(tmp_path: Path) -> Path:
    path = tmp_path / "salon.toml"
    path.write_text(OWN, "utf-8")
    return path


def test_a_record_is_judged_again_by_the_rules_it_was_judged_by(salon_file: Path) -> None:
    found = consult(load("agnes").answers, NOW, read_config(salon_file))
    assert "Sign the book." in [step.say.trade for step in getattr(found.plan, "steps", ())]
    record = dump_record(found)
    salon = salon_of(read_text(record, "record", NOW))
    assert salon is not None
    assert (salon.settings, salon.rules) == (found.salon.settings, found.salon.rules)
    again = consult(found.answers, NOW, salon)
    assert dump_record(again) == record
    assert again.judgement == found.judgement


def test_a_record_without_a_salon_has_none() -> None:
    record = dump_record(consult(load("agnes").answers, NOW))
    assert salon_of(read_text(record, "record", NOW)) is None


def test_check_uses_the_rules_in_the_record(
    tmp_path: Path, salon_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = tmp_path / "record.toml"
    assert main(["--salon", str(salon_file), "plan", str(demo_files()["agnes"]), "--out", str(record)]) == 0
    assert main(["check", str(record)]) == 0
    # The settings are lost: what stands under [result] does not follow from the record any more.
    record.write_text(record.read_text("utf-8").replace("sections = 5", "sections = 4"), "utf-8")
    capsys.readouterr()
    main(["check", str(record)])
    assert "not what this program computes" in capsys.readouterr().out


def test_a_record_whose_salon_cannot_be_used_is_one_line(
    tmp_path: Path, salon_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = tmp_path / "record.toml"
    main(["--salon", str(salon_file), "plan", str(demo_files()["agnes"]), "--out", str(record)])
    record.write_text(record.read_text("utf-8").replace('"porosity-differs"', '"no-such-rule"'), "utf-8")
    capsys.readouterr()
    assert main(["check", str(record)]) == 2
    error = capsys.readouterr().err
    assert error.count("\n") == 1
    assert "no rule 'no-such-rule'" in error
