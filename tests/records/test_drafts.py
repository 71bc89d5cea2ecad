"""Unfinished consultations: never named by a user, never two windows in one file, offered quickly."""

import os
import stat
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from consult.answers import Answers
from consult.answers.access import with_answer
from consult.files import HEAD, BadFile
from consult.records import drafts as module
from consult.records.codec import dump_draft
from consult.records.drafts import LOOKED_AT_FOR_ONE, MOST_OFFERED, DraftFile, draft_folder, offered
from consult.records.store import PART, CannotSave, home, own_folder
from consult.trade import Voice
from tests.baseline import NOW

LATER = NOW + timedelta(seconds=1)
HOSTILE_NAME = "../../../etc/passwd\x00; rm -rf ~ [/]"


def text(name: str) -> str:
    return dump_draft(with_answer(Answers(), "client.name", name), Voice.HOME, "client.age")


def kept(words: str, now: datetime = NOW) -> Path:
    """A file that holds the words, written as a window writes it."""
    file = DraftFile()
    file.save(words, now)
    assert file.path
    return file.path


def files() -> list[str]:
    return sorted(path.read_text() for path in draft_folder().iterdir())


def test_names_come_from_the_clock_and_are_never_taken_twice() -> None:
    assert kept(text("Ada")).name == "2026-11-25-100000-000000.toml"
    assert kept(text("Bea")).name == "2026-11-25-100000-000000-2.toml"


def test_what_a_user_typed_never_becomes_a_path() -> None:
    kept(text(HOSTILE_NAME))
    (draft,) = offered().drafts
    assert draft.path.name == "2026-11-25-100000-000000.toml"
    assert [path for path in home().rglob("*") if path.is_file()] == [draft.path]


def test_folder_and_file_are_the_owners_alone_also_where_the_folder_stood_open() -> None:
    draft_folder().mkdir(parents=True)
    draft_folder().chmod(0o755)
    offered()
    assert stat.S_IMODE(draft_folder().stat().st_mode) == 0o700
    draft_folder().chmod(0o755)
    path = kept(text("Ada"))
    assert stat.S_IMODE(draft_folder().stat().st_mode) == 0o700
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_the_older_of_two_windows_is_told_and_both_consultations_are_kept() -> None:
    first = DraftFile()
    assert first.save("one", NOW) is False
    assert first.path
    second = DraftFile.taken(first.path, LATER)
    assert second.save("two", NOW) is False
    assert first.save("one more", NOW) is True
    assert first.save("one more, changed", NOW) is False
    assert second.save("two, changed", NOW) is False
    assert files() == ["one more, changed", "two, changed"]


def test_opening_in_a_second_window_at_the_very_moment_of_a_save_overwrites_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    first = DraftFile()
    first.save("one", NOW)
    write, seconds = module.write, []

    def taken_meanwhile(path: Path, words: str) -> object:
        if not seconds:
            seconds.append(DraftFile.taken(path, LATER))
        return write(path, words)

    monkeypatch.setattr(module, "write", taken_meanwhile)
    first.save("one more", NOW)
    seconds[0].save("two", NOW)
    first.save("one more, changed", NOW)
    assert files() == ["one more, changed", "two"]


def test_a_file_changed_by_hand_is_not_written_over() -> None:
    window = DraftFile()
    window.save("window", NOW)
    assert window.path
    window.path.write_text("by hand")
    assert window.save("window, changed", NOW) is True
    assert files() == ["by hand", "window, changed"]
    window.remove()
    assert files() == ["by hand"]


def test_who_comes_second_is_told_that_it_is_gone() -> None:
    path = kept("one")
    DraftFile.taken(path, LATER)
    with pytest.raises(BadFile, match="opened in another window meanwhile"):
        DraftFile.taken(path, LATER)
    assert files() == ["one"]


def test_removing_leaves_what_somebody_else_has_had_since() -> None:
    window = DraftFile()
    window.save("one", NOW)
    assert window.path
    DraftFile.taken(window.path, LATER)
    window.remove()
    assert files() == ["one"]
    window.remove()


def test_a_failed_first_save_leaves_no_name_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    window = DraftFile()
    monkeypatch.setattr(module, "write", full)
    with pytest.raises(CannotSave, match="No space left on device"):
        window.save("one", NOW)
    assert window.path is None
    assert files() == []


def test_drafts_are_offered_newest_first_by_when_they_were_saved() -> None:
    for number, name in enumerate(["Ada", "Bea", "Cleo"]):
        os.utime(kept(text(name)), (number, number if name != "Ada" else 9))
    found = offered().drafts
    assert [draft.name for draft in found] == ["Ada", "Cleo", "Bea"]
    assert found[0].saved_at == datetime.fromtimestamp(9, UTC)


def test_a_spoilt_draft_is_told_and_hides_no_other() -> None:
    kept(text("Ada"))
    kept("[client]\nage = zzsecretzz\n")
    kept(f"[client]\nage = {'9' * 5000}\n")
    offer = offered()
    assert len(offer.drafts) == 1
    assert len(offer.errors) == 2
    assert not any("zzsecretzz" in error for error in offer.errors)


def test_a_name_is_read_off_the_head_however_long_and_whatever_the_rest() -> None:
    long = "x" * 60
    kept(text(long) + "[history]\n" + "# rest\n" * 200_000)
    kept("# nothing\n" * HEAD)
    kept('[client]\nname = "Bea"\n\n[health]\nage = zzsecretzz\n')
    offer = offered()
    assert {draft.name for draft in offer.drafts} == {long, "", "Bea"}
    assert offer.errors == []


def test_a_home_that_cannot_be_made_holds_no_drafts_and_takes_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("kept")
    monkeypatch.setenv("CONSULT_HOME", str(tmp_path / "file"))
    assert offered().drafts == []
    with pytest.raises(CannotSave):
        DraftFile().save("new", NOW)


def test_a_name_just_taken_is_not_offered_and_goes_when_it_is_old() -> None:
    kept("")
    (path,) = draft_folder().iterdir()
    assert offered() == module.Offer([], [], 0)
    assert path.exists()
    os.utime(path, (1, 1))
    offered()
    assert not path.exists()


def test_what_killed_programs_left_is_cleaned_when_drafts_are_looked_at() -> None:
    kept(text("Ada"))
    (draft_folder() / f"{PART}killed").write_text("all answers")
    offered()
    assert len(files()) == 1


def test_a_hostile_folder_is_looked_at_in_no_time() -> None:
    """The limits are this project's own: a start page may take a tenth of a second for it, not seconds."""
    folder = draft_folder()
    names = [kept(text(f"Client {number}"), NOW + timedelta(seconds=number)) for number in range(20)]
    for number, path in enumerate(names):
        os.utime(path, (number, number))
    (folder / "zero.toml").symlink_to("/dev/zero")
    (folder / "gone.toml").symlink_to(folder / "nowhere")
    os.mkfifo(folder / "pipe.toml")
    (folder / "folder.toml").mkdir()
    (folder / "huge.toml").write_bytes(b"a = 1\n" * 10_000_000)
    (folder / "deep.toml").write_text("a." * 60_000 + "a = 1\n")
    (folder / "binary.toml").write_bytes(bytes(range(256)) * 1000)
    started = time.perf_counter()
    offer = offered()
    assert time.perf_counter() - started < 0.2
    assert [draft.name for draft in offer.drafts][1:4] == ["Client 19", "Client 18", "Client 17"]
    assert all(len(error) <= 290 and "\n" not in error for error in offer.errors)
    # What is wrong behind its head, or in a first line that never ends, is told when it is opened.
    assert {"zero", "pipe", "folder", "binary", "huge"} == {
        Path(error.split(": ")[0]).stem for error in offer.errors
    }


def test_hundreds_of_drafts_cost_no_more_than_those_that_are_offered(monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(300):
        draft_folder().mkdir(parents=True, exist_ok=True)
        (draft_folder() / f"{number}.toml").write_text(text(f"Client {number}"))
    read, seen = module.read_head, []
    monkeypatch.setattr(module, "read_head", lambda *a: seen.append(a) or read(*a))
    offer = offered()
    assert (len(seen), len(offer.drafts), offer.more) == (MOST_OFFERED, MOST_OFFERED, 300 - MOST_OFFERED)
    for path in draft_folder().iterdir():
        path.write_text("spoilt")
    seen.clear()
    offer = offered()
    assert (len(seen), len(offer.drafts), offer.more) == (
        MOST_OFFERED * LOOKED_AT_FOR_ONE,
        0,
        300 - MOST_OFFERED * LOOKED_AT_FOR_ONE,
    )


def test_what_a_killed_program_left_half_written_beside_the_folder_goes_too() -> None:
    """Role and products are remembered there."""
    own_folder("unfinished")
    left = home() / f"{PART}killed"
    left.write_text("role")
    offered()
    assert not left.exists()
