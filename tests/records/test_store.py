"""Files on this machine: whole or not at all, readable by their owner, never named by a user."""

import errno
import os
import stat
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from consult.answers import Answers
from consult.answers.access import with_answer
from consult.records.codec import dump_draft
from consult.records.store import (
    CannotSave,
    drafts,
    home,
    new_draft_path,
    new_export_path,
    remove_draft,
    save_text,
)
from consult.trade import Voice
from tests.baseline import NOW

HOSTILE_NAME = "../../../etc/passwd\x00; rm -rf ~ [/]"


def full_disk(*_: Any) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_on_a_full_disk_the_old_file_stays_whole_and_nothing_is_left_behind(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "record.toml"
    save_text(path, "old")
    monkeypatch.setattr(os, step, full_disk)
    with pytest.raises(CannotSave, match="No space left on device; free some space") as error:
        save_text(path, "new")
    assert len(str(error.value).splitlines()) == 1
    assert str(path) in str(error.value)
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_file_is_readable_by_its_owner_only_also_when_it_replaces_an_open_one(tmp_path: Path) -> None:
    path = tmp_path / "new folder" / "record.toml"
    save_text(path, "one")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    path.chmod(0o644)
    save_text(path, "two")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert path.read_text() == "two"


def test_lines_end_the_same_on_every_machine(tmp_path: Path) -> None:
    save_text(tmp_path / "record.toml", "a = 1\nb = 2\n")
    assert (tmp_path / "record.toml").read_bytes() == b"a = 1\nb = 2\n"


@pytest.mark.parametrize("place", ["a folder", "inside a file", "a pipe", "/dev/full", "too long a name"])
def test_a_place_that_takes_no_file_is_refused_in_one_line(place: str, tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_text("kept")
    os.mkfifo(tmp_path / "pipe")
    path = {
        "a folder": tmp_path,
        "inside a file": file / "record.toml",
        "a pipe": tmp_path / "pipe",
        "/dev/full": Path("/dev/full"),
        "too long a name": tmp_path / ("x" * 300),
    }[place]
    before = sorted(tmp_path.iterdir())
    with pytest.raises(CannotSave, match="choose another place") as error:
        save_text(path, "new")
    assert len(str(error.value).splitlines()) == 1
    assert sorted(tmp_path.iterdir()) == before
    assert file.read_text() == "kept"
    assert stat.S_ISCHR(Path("/dev/full").stat().st_mode)


def test_the_home_variable_says_where_everything_lies(tmp_path: Path) -> None:
    assert home() == tmp_path / "home"
    assert new_draft_path(NOW).parent.parent == home()
    assert new_export_path(NOW).parent.parent == home()


def test_names_come_from_the_clock_and_are_never_taken_twice() -> None:
    first = new_draft_path(NOW)
    save_text(first, "")
    second = new_draft_path(NOW)
    assert first.name == "2026-11-25-100000.toml"
    assert second.name == "2026-11-25-100000-2.toml"


def test_what_a_user_typed_never_becomes_a_path() -> None:
    answers = with_answer(Answers(), "client.name", HOSTILE_NAME)
    save_text(new_draft_path(NOW), dump_draft(answers, Voice.HOME, "client.age"))
    found, errors = drafts()
    assert [draft.path.name for draft in found] == ["2026-11-25-100000.toml"]
    assert not errors
    assert [path for path in home().rglob("*") if path.is_file()] == [found[0].path]


def test_drafts_are_offered_newest_first_by_when_they_were_saved() -> None:
    for number, name in enumerate(["Ada", "Bea", "Cleo"]):
        path = new_draft_path(NOW)
        save_text(path, dump_draft(with_answer(Answers(), "client.name", name), Voice.HOME, "client.age"))
        os.utime(path, (number, number if name != "Ada" else 9))
    found, _ = drafts()
    assert [draft.name for draft in found] == ["Ada", "Cleo", "Bea"]
    assert found[0].saved_at == datetime.fromtimestamp(9, UTC)


def test_a_spoilt_draft_is_told_and_hides_no_other() -> None:
    save_text(new_draft_path(NOW), dump_draft(Answers(), Voice.HOME, "client.age"))
    save_text(new_draft_path(NOW), "[client]\nage = zzsecretzz\n")
    save_text(new_draft_path(NOW), f"[client]\nage = {'9' * 5000}\n")
    found, errors = drafts()
    assert len(found) == 1
    assert len(errors) == 2
    assert not any("zzsecretzz" in error for error in errors)


def test_a_home_that_cannot_be_made_holds_no_drafts_and_takes_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("kept")
    monkeypatch.setenv("CONSULT_HOME", str(tmp_path / "file"))
    assert drafts() == ([], [])
    with pytest.raises(CannotSave):
        save_text(new_draft_path(NOW), "new")


def test_removing_a_draft_twice_is_no_fault() -> None:
    path = new_draft_path(NOW)
    save_text(path, "")
    remove_draft(path)
    remove_draft(path)
    assert not path.exists()
