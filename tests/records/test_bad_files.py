"""Files that are broken, cut short, hostile or something else: one line each, and no answer in it."""

import os
import re
import tracemalloc
from pathlib import Path

import pytest

from consult.answers.base import SCHEMA
from consult.cli import main
from consult.consultation import consult
from consult.files import LARGEST_FILE, LONGEST_ERROR, BadFile
from consult.records.codec import read_file, read_text
from consult.records.record import dump_record
from tests.baseline import NOW
from tests.demo import load

SECRET = "zzsecretzz"

BAD = [
    ("a text without its end", f'[client]\nname = "{SECRET}\n', r"line 2"),
    ("no value", "[client]\nage =\n", r"line 2"),
    ("twice the same answer", f'[client]\nname = "{SECRET}"\nname = "{SECRET}"\n', r"line 3"),
    ("twice the same section", "[client]\nage = 4\n[client]\n", r"line 3"),
    ("a bare escape code", f'[client]\nname = "\x1b]52;{SECRET}"\n', r"line 2"),
    ("no such section", f'[shoes]\nsize = "{SECRET}"\n', r"shoes: there is no such question"),
    ("no such question", f'[client]\nshoes = "{SECRET}"\n', r"client\.shoes: there is no such question"),
    ("a section that is a value", f'client = "{SECRET}"\n', r"client: expected a table"),
    ("a section that is a list", f'[[client]]\nname = "{SECRET}"\n', r"client: expected a table"),
    ("a number as text", f'[client]\nage = "{SECRET}"\n', r"client\.age: expected a whole number"),
    ("a truth value as number", "[client]\nage = true\n", r"client\.age: expected a whole number"),
    ("a number as a name", "[client]\nname = 8675309\n", r"client\.name: expected a text"),
    ("not a choice", f'[client]\ngloves = "{SECRET}"\n', r"client\.gloves: expected one of: yes, no"),
    ("one of several, bare", '[health]\nallergies = "latex"\n', r"health\.allergies: expected a list from"),
    ("a list of the wrong", f'[health]\nallergies = ["{SECRET}"]\n', r"health\.allergies"),
    ("an entry that is a value", f'[history]\nservices = ["{SECRET}"]\n', r"history\.services"),
    ("a wrong date in an entry", '[[history.services]]\non = "last May"\n', r"history\.services\.0\.on"),
    ("a day that does not exist", "[[history.services]]\non = 2026-02-30\n", r"line 2"),
    ("a day to come", "[[history.services]]\non = 2099-01-01\n", r"history\.services\.0\.on: this date lies"),
    ("not a number", "[hair]\nlength_cm = nan\n", r"hair\.length_cm: expected a number from 0\.5 to 200"),
    ("without end", "[hair]\nlength_cm = inf\n", r"hair\.length_cm"),
    ("more digits than there are", f"[client]\nage = {'9' * 5000}\n", r"too many digits"),
    (
        "the edge of the calendar",
        '[allergy_test]\ndone = "yes"\napplied_at = 0001-01-01 00:00:00+00:00\n',
        r"applied_at",
    ),
    ("nested too deeply", "x = " + "[" * 10_000, r"nested too deeply"),
    ("nested and closed", "x = " + "[" * 900 + "]" * 900, r"nested too deeply"),
    ("a key of many dots", "client" + ".a" * 50_000 + " = 1\n", r"line 1: too many dots"),
    (
        "a newer file",
        f"[record]\nschema = {SCHEMA + 1}\n",
        r"record\.schema: expected a whole number from 1 to \d+; .* newer",
    ),
    (
        "newer questions",
        "[record]\nschema = 1\nquestions = 2\n",
        r"record\.questions: expected a whole number",
    ),
    ("a strange schema", '[record]\nschema = "1"\n', r"record\.schema: expected a whole number"),
    ("a strange header", f'[record]\nowner = "{SECRET}"\n', r"record\.owner: there is no such entry"),
    ("no header at all", f'record = "{SECRET}"\n', r"\[record\] must be a table"),
    (
        "a header's day",
        "[record]\nconsulted_at = 2026-05-31\n",
        r"record\.consulted_at: expected a date and time",
    ),
    (
        "a header's year",
        "[record]\nconsulted_at = 9999-12-31 23:59:00\n",
        r"record\.consulted_at: .* of the years 1950 to 2200",
    ),
    ("a header's text", "[record]\nposition = 3\n", r"record\.position: expected a text"),
    ("a header's voice", f'[record]\nvoice = "{SECRET}"\n', r"record\.voice: expected one of: stylist, home"),
    (
        "a header's length",
        f'[record]\nshows = "{SECRET * 30}"\n',
        r"record\.shows: expected a text of at most 200",
    ),
    ("a salon that is no table", f'salon = "{SECRET}"\n', r"\[salon\] must be a table"),
    ("a hostile key", f'[client]\n"a\\u001b[31m\\nb" = "{SECRET}"\n', r"client\.a \[31m b: there is no such"),
]


@pytest.mark.parametrize(("text", "names"), [row[1:] for row in BAD], ids=[row[0] for row in BAD])
def test_a_bad_file_is_one_line_that_names_the_place(text: str, names: str) -> None:
    with pytest.raises(BadFile, match=names) as bad:
        read_text(text, "some.toml", NOW)
    message = str(bad.value)
    assert message.startswith("some.toml: ")
    assert SECRET not in message
    assert message.isprintable()
    assert len(message) <= LONGEST_ERROR


def test_on_the_command_line_a_bad_file_is_exit_code_2_and_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    files = []
    for number, (_, text, _) in enumerate(BAD):
        files.append(tmp_path / f"{number}.toml")
        files[-1].write_text(text, "utf-8")
    assert main(["check", *map(str, files)]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == len(files)
    for line, file in zip(lines, files, strict=True):
        assert line.startswith(f"consult: {file}: ")


@pytest.mark.parametrize(
    ("name", "raw", "names"),
    [
        ("missing", None, "No such file"),
        ("not UTF-8", b'[client]\nage = 4\nname = "J\xf6rg"\n', "line 3: not UTF-8"),
        ("UTF-16", '[client]\nname = "Ines"\n'.encode("utf-16"), "line 1: not UTF-8"),
        ("two megabytes", b"#" * 2_000_000, "larger than 1 MB"),
        ("null bytes", b"\0" * 100, "line 1"),
    ],
)
def test_what_is_no_text_file(tmp_path: Path, name: str, raw: bytes | None, names: str) -> None:
    path = tmp_path / "some.toml"
    if raw is not None:
        path.write_bytes(raw)
    with pytest.raises(BadFile, match=names) as bad:
        read_file(path, NOW)
    assert str(bad.value).isprintable()


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(BadFile, match="Is a directory"):
        read_file(tmp_path, NOW)


def test_an_endless_file_is_not_read_to_its_end(tmp_path: Path) -> None:
    path = tmp_path / "some.toml"
    path.touch()
    os.truncate(path, 50 * LARGEST_FILE)
    tracemalloc.start()
    with pytest.raises(BadFile, match="larger than 1 MB"):
        read_file(path, NOW)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 3 * LARGEST_FILE


def test_the_largest_file_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    path = tmp_path / "some.toml"
    path.write_bytes(b"#" * LARGEST_FILE)
    assert read_file(path, NOW)
    path.write_bytes(b"#" * (LARGEST_FILE + 1))
    with pytest.raises(BadFile):
        read_file(path, NOW)


def test_a_record_cut_anywhere_is_read_or_refused_in_one_line() -> None:
    loaded = load("hanna")
    assert loaded.consulted_at
    raw = dump_record(consult(loaded.answers, loaded.consulted_at)).encode()
    refusals = []
    for end in range(0, len(raw), len(raw) // 400):
        try:
            read_text(raw[:end].decode("utf-8", "ignore"), "cut", NOW)
        except BadFile as bad:
            refusals.append(str(bad))
    assert 100 < len(refusals) < 400
    for message in refusals:
        assert message.isprintable()
        assert "Hanna" not in message
        assert "itching" not in re.sub("expected .*", "", message)


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        ("Zed[/]", "Zed[/]"),
        ("[@click=app.quit]x[/]", "[@click=app.quit]x[/]"),
        ("Zed\\u001b]52;c;aGk=\\u0007", "Zed ]52;c;aGk="),
        ("Zed\\u202egnp", "Zed gnp"),
        ("Zed\\u009b31m", "Zed 31m"),
    ],
)
def test_hostile_text_is_read_as_plain_text(written: str, kept: str) -> None:
    loaded = read_text(f'[client]\nname = "{written}"\n[record]\nshows = "{written}"\n', "hostile", NOW)
    assert loaded.answers.client.name == kept
    assert loaded.shows == kept
