"""Files on this machine: whole or not at all, readable by their owner, never named by a user."""

import errno
import os
import stat
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from consult.records.drafts import draft_folder
from consult.records.store import PART, CannotSave, Taken, home, new_export_path, remove_leftovers, save_text
from tests.baseline import NOW


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
    assert draft_folder().parent == home()
    assert new_export_path(NOW).parent.parent == home()


def test_a_new_file_is_written_only_where_there_is_none(tmp_path: Path) -> None:
    save_text(tmp_path / "record.toml", "first", new=True)
    with pytest.raises(Taken, match="this file exists"):
        save_text(tmp_path / "record.toml", "second", new=True)
    assert (tmp_path / "record.toml").read_text() == "first"
    assert new_export_path(NOW).name == "2026-11-25-1000.toml"
    save_text(new_export_path(NOW), "record", new=True)
    assert new_export_path(NOW).name == "2026-11-25-1000-2.toml"


def test_the_folder_of_records_is_the_owners_alone_and_a_folder_of_the_users_own_stays_as_it_is(
    tmp_path: Path,
) -> None:
    for folder in (home() / "records", tmp_path / "desk"):
        folder.mkdir(parents=True)
        folder.chmod(0o755)
        save_text(folder / "record.toml", "record")
    assert stat.S_IMODE((home() / "records").stat().st_mode) == 0o700
    assert stat.S_IMODE((tmp_path / "desk").stat().st_mode) == 0o755


def test_the_disk_is_asked_to_keep_the_file_and_after_the_rename_its_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A rename lasts only when its folder is synced too: fsync(2) of Linux, "Calling fsync() does not necessarily
    ensure that the entry in the directory containing the file has also reached disk"."""
    done: list[str] = []
    fsync, replace = os.fsync, os.replace

    def noted_fsync(handle: int) -> None:
        done.append("folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "file")
        fsync(handle)

    def noted_replace(*paths: Any) -> None:
        done.append("rename")
        replace(*paths)

    monkeypatch.setattr(os, "fsync", noted_fsync)
    monkeypatch.setattr(os, "replace", noted_replace)
    save_text(tmp_path / "record.toml", "text")
    assert done == ["file", "rename", "folder"]


def test_what_a_killed_save_left_goes_and_what_is_being_written_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / f"{PART}killed").write_text("all answers")
    os.mkfifo(tmp_path / f"{PART}pipe")
    (tmp_path / ".writing-of-another-program").write_text("not ours")
    replace, seen = os.replace, []

    def cleaned_meanwhile(source: str, target: Path) -> None:
        """Another program cleans at the worst moment: the file is written and not yet in its place."""
        cleaner = "import sys, pathlib; from consult.records.store import remove_leftovers as r; "
        cleaner += "r(pathlib.Path(sys.argv[1]))"
        subprocess.run([sys.executable, "-c", cleaner, str(tmp_path)], check=True)
        seen.extend(sorted(path.name for path in tmp_path.iterdir()))
        replace(source, target)

    monkeypatch.setattr(os, "replace", cleaned_meanwhile)
    save_text(tmp_path / "record.toml", "text")
    assert (tmp_path / "record.toml").read_text() == "text"
    assert f"{PART}killed" not in seen
    remove_leftovers(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        f"{PART}pipe",
        ".writing-of-another-program",
        "record.toml",
    ]
