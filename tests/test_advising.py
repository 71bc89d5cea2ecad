"""`consult buy` and `consult wrong`: what they print, what they write, how they end; the demo people as told."""

import json
import re
import subprocess
import sys
from datetime import timedelta
from pathlib import Path

import pytest

from consult.buying.look import look_for
from consult.cli import main
from consult.consultation import consult
from consult.exits import BAD_INPUT, HELD, PLAN_MADE, STOPPED
from consult.plan.usual import as_if_tested
from consult.records.codec import read_file
from consult.records.demos import demo_folder
from consult.remedies.after import grown
from consult.remedies.day import DayLog
from consult.remedies.remedy import remedy
from tests.demo import NOW

FOLDER = demo_folder()
README = (FOLDER / "README.md").read_text("utf-8")
BUYING = re.findall(r"^\| (before_buying/[\w-]+\.toml) \| ([^|]+) \| [^|]+ \|$", README, re.M)
WRONG = re.findall(r"^\| (gone_wrong/[\w-]+\.toml) \| (\w+) \| ([\w-]+) \| (\w+) \| [^|]+ \|$", README, re.M)
MARIT = str(FOLDER / "gone_wrong" / "01-marit.toml")
BIRTE = str(FOLDER / "before_buying" / "01-birte.toml")
CANDIDATES = str(FOLDER / "before_buying" / "candidates.toml")


def out(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str]:
    code = main(list(arguments))
    return code, capsys.readouterr().out


def test_every_demo_person_is_told_of() -> None:
    for folder, told in (("before_buying", BUYING), ("gone_wrong", WRONG)):
        files = {f"{folder}/{path.name}" for path in (FOLDER / folder).glob("[0-9]*.toml")}
        assert {row[0] for row in told} == files
        assert len(files) == 5
    for path in (*FOLDER.glob("*/*.toml"),):
        assert "nvented" in path.read_text("utf-8").splitlines()[0]


@pytest.mark.parametrize(("file", "kind"), BUYING)
def test_each_before_buying_comes_out_as_told(file: str, kind: str) -> None:
    loaded = read_file(FOLDER / file, NOW)
    assert loaded.answers.product.colour_class is None
    assert loaded.consulted_at
    found = look_for(loaded.answers, loaded.consulted_at)
    assert (found.shades.kind if found.shades else "nothing") == kind


@pytest.mark.parametrize(("file", "help_", "mended", "then"), WRONG)
def test_each_gone_wrong_comes_out_as_told(file: str, help_: str, mended: str, then: str) -> None:
    loaded = read_file(FOLDER / file, NOW)
    assert loaded.day
    found = remedy(loaded.answers, loaded.day, loaded.day.done_at)  # type: ignore[arg-type]
    assert found.help.word == help_
    assert (f"{found.mend.at:%Y-%m-%d}" if found.mend else "no") == mended
    later = loaded.day.done_at + timedelta(days=60)  # type: ignore[operator]
    again = as_if_tested(grown(found.record, 60, later), later)
    assert consult(again, later).verdict.word == then


def test_a_card_is_as_narrow_as_a_phone(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = out(capsys, "buy", BIRTE)
    assert code == PLAN_MADE
    assert max(len(line) for line in text.splitlines()) <= 44
    titles = [line for line in text.splitlines() if line.isupper()]
    assert titles == ["LOOK FOR", "DO NOT BUY", "PHOTOGRAPH IN THE SHOP"]


def test_where_nothing_is_to_be_bought_it_ends_so(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = out(capsys, "buy", str(FOLDER / "before_buying" / "04-malou.toml"))
    assert code == STOPPED
    assert "Buy nothing now." in text
    assert "DO NOT BUY" not in text
    assert out(capsys, "buy", str(FOLDER / "before_buying" / "05-salome.toml"))[0] == HELD


def test_candidates_side_by_side(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = out(capsys, "buy", BIRTE, "--shelf", CANDIDATES)
    assert code == PLAN_MADE
    titles = [line for line in text.splitlines() if line.isupper()]
    assert titles[0].endswith("AMBERLEY COLOUR KIT GOLDEN LIGHT BROWN 5: WORKS")
    assert any(t.startswith("CORVANE") and t.endswith("PERHAPS") for t in titles)
    assert sum(t.endswith("DOES NOT WORK") for t in titles) == 2
    assert "look for a number" in " ".join(text.split())


def test_a_shelf_of_seven_is_too_many(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["buy", BIRTE, "--shelf", str(FOLDER / "shelf.toml")]) == BAD_INPUT
    assert "2 to 6" in capsys.readouterr().err


def test_a_year_also_without_a_product(capsys: pytest.CaptureFixture[str]) -> None:
    for file in (BIRTE, str(FOLDER / "01-ines.toml")):
        code, text = out(capsys, "buy", "--year", file)
        assert code == PLAN_MADE
        assert all(f"EVERY {weeks} WEEKS, A YEAR" in text for weeks in (4, 6, 8))
    assert out(capsys, "buy", "--year", str(FOLDER / "09-hanna.toml"))[0] == STOPPED


def test_an_emergency_takes_no_file(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = out(capsys, "wrong", "--what", "swallow")
    assert code == STOPPED
    assert text.startswith("EMERGENCY")
    assert "112" in text


@pytest.mark.parametrize("arguments", [[], ["--what", "it went blue"], ["--what", "too"], ["--skin", "calm"]])
def test_what_is_not_understood_is_one_line(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["wrong", *arguments]) == BAD_INPUT
    err = capsys.readouterr().err
    assert len(err.splitlines()) == 1
    assert len(err) <= 310
    assert "blue" not in err


def test_a_reaction_is_written_and_stops_the_next_consultation(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = tmp_path / "record.toml"
    code, text = out(
        capsys, "wrong", MARIT, "--what", "itching or a rash", "--sign", "itching", "--out", str(record)
    )
    assert code == STOPPED
    assert "not on file" not in text
    assert main(["check", str(record)]) == PLAN_MADE
    assert "valid record" in capsys.readouterr().out
    assert main(["plan", "--now", str(record)]) == STOPPED
    assert "Stop: no colour" in capsys.readouterr().out
    again = read_file(record, NOW)
    assert again.day
    assert again.day.faults == ("itching or a rash",)
    code, text = out(capsys, "wrong", MARIT, "--what", "itching or a rash")
    assert "not on file yet, and must be" in text


def test_a_mend_and_its_causes_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = out(capsys, "wrong", MARIT)
    assert code == PLAN_MADE
    words = " ".join(text.split())
    assert "Not before 2026-12-09" in words
    assert "18 minutes instead of the planned 30" in words
    assert "It may explain" in words


def test_json_names_help_mend_and_the_next_verdict(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = out(capsys, "wrong", MARIT, "--json")
    data = json.loads(text)
    assert code == PLAN_MADE
    assert data["help"] == "wait"
    assert data["mend"]["not_before"].startswith("2026-12-09")
    assert data["next_consultation"] == "wait"
    code, text = out(capsys, "buy", BIRTE, "--json")
    assert json.loads(text)["blocks"][0]["title"] == "Look for"


def test_each_voice_has_its_words(capsys: pytest.CaptureFixture[str]) -> None:
    home = out(capsys, "buy", BIRTE)[1]
    assert out(capsys, "--voice", "stylist", "buy", BIRTE)[1] != home


def test_a_bad_log_is_one_line_and_repeats_no_answer(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "day.toml"
    file.write_text('[day]\nsigns = ["my secret"]\n', "utf-8")
    assert main(["wrong", str(file)]) == BAD_INPUT
    err = capsys.readouterr().err
    assert "day.signs" in err
    assert "secret" not in err
    assert len(err.splitlines()) == 1


def test_a_sign_alone_is_a_reaction(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = out(capsys, "wrong", "--sign", "hives")
    assert code == STOPPED
    assert text.startswith("EMERGENCY")


def test_a_plan_written_again_keeps_the_log_of_the_day(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = tmp_path / "record.toml"
    out(capsys, "plan", MARIT, "--out", str(record))
    before = read_file(Path(MARIT), NOW).day
    assert before is not None
    assert read_file(record, NOW).day == before


def test_standard_input_is_read() -> None:
    run = subprocess.run(
        [sys.executable, "-m", "consult", "wrong", "-", "--what", "bands"],
        input=Path(MARIT).read_text("utf-8"), capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    assert run.returncode == HELD
    assert "licensed colourist" in run.stdout


def test_a_day_can_be_empty() -> None:
    assert DayLog().faults == ()
    assert not DayLog().reacted


def test_the_emergency_page_is_printed_with_the_numbers_of_the_place(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code, told = out(capsys, "emergency")
    assert code == PLAN_MADE
    assert told.splitlines()[0].startswith("EMERGENCY: ring 112")
    for words in (
        "IN THE EYE",
        "SWALLOWED",
        "A CHILD GOT AT IT",
        "FACE OR TONGUE SWELLING",
        "BLISTERS",
        "RASH",
    ):
        assert words in told
    salon = tmp_path / "salon.toml"
    salon.write_text('[settings]\nemergency_number = "911"\npoison_centre = "1-800-222-1222"\n', "utf-8")
    _, there = out(capsys, "--salon", str(salon), "emergency", "--why")
    assert there.startswith("EMERGENCY: ring 911\n")
    assert "1-800-222-1222" in there
    assert "112" not in there
    assert "Anaphylaxis UK" in there
