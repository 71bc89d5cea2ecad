"""What is opened becomes a session: at which moment, at which question, and by which questions."""

from pathlib import Path

import pytest

from consult.answers.base import SCHEMA
from consult.cli import main
from consult.consultation import consult
from consult.interview.intake import REVIEW
from consult.records.codec import dump_draft, read_file
from consult.records.demos import demo_files
from consult.records.drafts import draft_folder
from consult.records.record import dump_record
from consult.records.wanted import Origin, Wanted
from consult.session import open_session
from consult.trade import Voice
from tests.baseline import NOW, baseline


@pytest.fixture
def old_record(tmp_path: Path) -> Path:
    """A record whose answers were given to the first version of the questions."""
    path = tmp_path / "old.toml"
    path.write_text(dump_record(consult(baseline().at_version(1), NOW)), "utf-8")
    return path


def test_a_new_consultation_knows_nothing_and_speaks_in_the_wanted_voice() -> None:
    session = open_session(Wanted(Origin.NEW, Voice.TRAINER))
    assert (session.voice, session.intake.position, session.at) == (Voice.TRAINER, "client.name", None)
    assert session.keep


def test_a_record_is_opened_at_the_review_for_a_judgement_of_today_by_todays_questions(
    old_record: Path,
) -> None:
    session = open_session(Wanted(Origin.FILE, Voice.STYLIST, old_record))
    assert (session.intake.position, session.at, session.voice) == (REVIEW, None, Voice.STYLIST)
    assert session.answers.version == SCHEMA


def test_an_unfinished_consultation_goes_on_in_its_own_voice_by_todays_questions() -> None:
    path = draft_folder() / "draft.toml"
    path.parent.mkdir(parents=True)
    text = dump_draft(baseline(), Voice.TRAINER, "hair.length_cm", "3")
    path.write_text(text.replace(f"schema = {SCHEMA}", "schema = 1"), "utf-8")
    session = open_session(Wanted(Origin.DRAFT, Voice.HOME, path))
    assert (session.voice, session.intake.position, session.typed) == (Voice.TRAINER, "hair.length_cm", "3")
    assert session.answers.version == SCHEMA
    assert session.draft.path
    assert list(draft_folder().iterdir()) == [session.draft.path]


def test_a_demo_client_is_judged_at_its_own_moment_and_nothing_is_kept() -> None:
    session = open_session(Wanted(Origin.DEMO, Voice.HOME, demo_files()["ines"]))
    assert session.now() == NOW
    assert not session.keep


@pytest.mark.parametrize(("options", "version"), [([], 1), (["--now"], SCHEMA)])
def test_a_record_run_again_keeps_its_questions_and_a_judgement_of_today_asks_todays(
    options: list[str], version: int, old_record: Path, tmp_path: Path
) -> None:
    main(["plan", str(old_record), "--out", str(tmp_path / "new.toml"), *options])
    assert read_file(tmp_path / "new.toml", NOW).answers.version == version


def test_the_log_of_a_day_that_went_wrong_stays_with_its_record(tmp_path: Path) -> None:
    """Opened in the wizard, cut short, gone on with and exported: nothing of the day is lost."""
    path = min((Path(__file__).parents[1] / "demo_clients" / "gone_wrong").glob("*.toml"))
    day = read_file(path, NOW).day
    assert day
    session = open_session(Wanted(Origin.FILE, Voice.HOME, path))
    session.change(session.intake)
    assert session.draft.path
    again = open_session(Wanted(Origin.DRAFT, Voice.HOME, session.draft.path))
    again.export(tmp_path / "record.toml", new=True)
    assert read_file(tmp_path / "record.toml", NOW).day == day
