"""Plain mode: the same consultation as in the wizard, line by line."""

import io
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path

import pytest

from consult.answers.access import get
from consult.answers.questions import question_of, questions
from consult.ask.console import Console
from consult.ask.opening import converse
from consult.ask.talk import Talk
from consult.ask.words import HELP
from consult.consultation import consult
from consult.exits import PLAN_MADE, STOPPED, UNFINISHED
from consult.interview import intake as steps
from consult.interview.intake import REVIEW
from consult.interview.pages import interview
from consult.records.codec import read_file
from consult.records.demos import demo_files
from consult.records.record import dump_record
from consult.records.wanted import Origin
from consult.session import Session, open_session
from consult.trade import Voice
from tests.ask.person import Person, at_the_wizard
from tests.baseline import NOW, baseline
from tests.demo import load

TYPISTS = list(zip(["samira", *list(demo_files())[::3]], cycle(Voice), strict=False))


@dataclass
class Talked:
    """What came of a few typed lines."""

    said: str
    session: Session
    code: int

    def answer(self, path: str) -> object:
        return get(self.session.answers, path)


def talk(*lines: str, out: Path | None = None, session: Session | None = None) -> Talked:
    session = session or Session(at=NOW)
    said = io.StringIO()
    code = converse(
        session, Console(io.StringIO("".join(f"{line}\n" for line in lines)), said), out, opened=Origin.NEW
    )
    return Talked(" ".join(said.getvalue().split()), session, code)


def at(position: str, *lines: str, changes: dict[str, object] | None = None) -> Talked:
    """The same for a sound client of whom a question is asked."""
    return talk(*lines, session=Session(intake=steps.start(baseline(changes), position), at=NOW))


@pytest.mark.parametrize(("name", "voice"), TYPISTS)
def test_each_demo_client_typed_line_by_line_gives_the_wizards_record(
    name: str, voice: Voice, tmp_path: Path
) -> None:
    """Byte for byte, and its answers are those of the client's file."""
    loaded = load(name)
    session = Session(voice, at=loaded.consulted_at)
    record = tmp_path / "record.toml"
    Talk(session, Console(Person(loaded.answers, session), io.StringIO()), record).run()
    wizard = at_the_wizard(loaded.answers, Session(voice))
    assert loaded.consulted_at
    assert record.read_text("utf-8") == dump_record(consult(wizard, loaded.consulted_at))
    assert wizard == loaded.answers


def test_a_question_is_told_with_its_place_its_words_and_keys() -> None:
    said = at("hair.porosity_root").said
    assert "Hair: How the hair is Question " in said
    assert "How does the hair near the scalp feel?" in said
    assert "slide finger and thumb" in said
    assert "1 low: smooth, resists colour 2 normal: slightly textured 3 high:" in said
    assert "Answered: normal." in said


@pytest.mark.parametrize(
    ("position", "typed", "answer"),
    [
        ("hair.thickness", "1", "fine"),
        ("hair.thickness", "Fine", "fine"),
        ("hair.thickness", "coa", "coarse"),
        ("hair.thickness", "?", "not sure"),
        ("hair.thickness", "don't know", "not sure"),
        ("hair.length_cm", "c", 54.0),
        ("hair.length_cm", '13"', 33.02),
        ("product.developer_percent", "b", 6.0),
        ("client.name", '"stop"', "stop"),
        ("client.name", "?", "not sure"),
        ("hair.porosity_lengths", "=", "normal"),
    ],
)
def test_an_answer_is_typed_by_key_by_word_or_as_people_write(
    position: str, typed: str, answer: object
) -> None:
    talked = at(position, typed, "stop", changes={"hair.porosity_lengths": "high"} if typed == "=" else None)
    assert talked.answer(position) == answer
    assert talked.session.intake.position != position


@pytest.mark.parametrize(
    ("position", "typed", "said"),
    [
        ("hair.thickness", "9", "type one of the keys 1, 2, 3; or ? for not sure"),
        ("client.applied_by", "a", "type one of the keys 1, 2, 3, 4"),
        ("client.applied_by", "a ", "type one of the keys 1, 2, 3, 4"),
        ("client.age", "forty", "expected a whole number from 0 to 120 years"),
        ("allergy_test.applied_at", "yesterday", "add the time of day"),
        ("allergy_test.applied_at", "today 23:00", "lies after Wed 25 Nov 2026, 10:00"),
        ("allergy_test.second_read_at", "3 weeks ago", "add the time of day"),
        ("product.minutes_min", "100", "is less than shortest"),
    ],
)
def test_what_does_not_fit_is_said_in_one_line_and_asked_again(position: str, typed: str, said: str) -> None:
    before = get(baseline(), position)
    talked = at(position, typed)
    assert said in talked.said
    assert talked.answer(position) == before
    assert talked.session.intake.position == position


def test_a_word_that_begins_two_answers_is_asked_back() -> None:
    talked = at("history.services.0.kind", "relaxer")
    assert "which: d relaxer, hydroxide, or e relaxer, thio, or f" in talked.said
    assert talked.answer("history.services.0.kind") == "permanent colour"


def test_two_readings_are_asked_and_neither_counts_by_itself() -> None:
    talked = at("product.developer_percent", "20")
    assert "Which is it? 1 20 vol (6 %) 2 20 % (65.9 vol) >" in talked.said
    assert talked.answer("product.developer_percent") == get(baseline(), "product.developer_percent")
    for lines, answer in (
        (["20", "1"], 6.0),
        (["20", "2"], 20.0),
        (["20", "", "9 %"], 9.0),
        (["20", "3 %"], 3.0),
    ):
        assert at("product.developer_percent", *lines).answer("product.developer_percent") == answer


def test_what_was_read_is_echoed() -> None:
    assert (
        "Applied at: Mon 23 November 2026, 09:00, 49 hours ago."
        in at("allergy_test.applied_at", "49 hours ago").said
    )
    assert "Length: 33.02 cm (13 in)." in at("hair.length_cm", "13 in").said


def test_signs_that_are_not_ticked_were_not_found_once_they_are_left() -> None:
    fresh = {"health.allergies": None, "health.ever_reacted": None}
    talked = at("health.allergies", "1 3", "", changes=fresh)
    ticked = talked.answer("health.allergies")
    assert isinstance(ticked, tuple)
    assert len(ticked) == 2
    assert f"Ticked: Allergies: {', '.join(ticked)}. An empty line goes on." in talked.said
    assert at("health.allergies", "1 3", "1", "0", changes=fresh).answer("health.allergies") == ticked[1:]
    assert at("health.allergies", "0", changes=fresh).answer("health.allergies") == ()
    assert at("health.allergies", "?", "0", changes=fresh).answer("health.allergies") == "not sure"


def test_a_line_of_signs_with_one_wrong_key_ticks_nothing() -> None:
    talked = at("health.allergies", "1 z", changes={"health.allergies": None})
    assert "type one of the keys" in talked.said
    assert talked.answer("health.allergies") is None


def test_signs_that_stand_together_are_doubted_one_by_one() -> None:
    opened = {"scalp.scratched": None, "scalp.washed": None}
    talked = at("scalp.scratched", "?", "?2", "", changes=opened)
    assert "not sure of which? Type ? and a key of it, such as ?1" in talked.said
    assert (talked.answer("scalp.scratched"), talked.answer("scalp.washed")) == ("no", "not sure")


def test_a_tick_brings_no_question_to_its_own_page() -> None:
    """Leaving the page would answer "none" to a question that nobody had been told."""
    for page in interview().pages:
        for path in page.questions if page.ticks else ():
            condition = question_of(path).only_if
            assert condition is None or condition[0] not in page.questions
            assert path not in interview().told


def test_signs_are_left_open_together() -> None:
    opened = {"scalp.scratched": None, "scalp.washed": None}
    talked = at("scalp.scratched", "skip", changes=opened)
    assert talked.answer("scalp.scratched") is talked.answer("scalp.washed") is None
    assert talked.session.intake.position == "hair.attached"


def test_none_of_these_does_not_take_ticks_away() -> None:
    """Under signs 0 means nothing more; elsewhere it would have taken back what somebody had just ticked."""
    talked = at("allergy_test.first_signs", "1", "0", changes={"allergy_test.first_signs": None})
    assert "its key takes it back" in talked.said
    assert talked.answer("allergy_test.first_signs") == ("itching",)


def test_a_stop_is_said_as_soon_as_it_is_there_and_once_and_that_it_is_gone() -> None:
    talked = at("health.ever_reacted", "1", "", "stop", changes={"health.ever_reacted": "no"})
    assert talked.said.count("!! Stop: no colour:") == 1
    assert "There is no way around a stop." in talked.said
    gone = at("health.ever_reacted", "1", "undo", changes={"health.ever_reacted": "no"})
    assert "has changed with that answer" in gone.said


def test_a_wait_is_said_with_its_end() -> None:
    said = at(
        "allergy_test.applied_at",
        "today 9:00",
        changes={"allergy_test.first_read_at": None, "allergy_test.second_read_at": None},
    ).said
    assert "!! Wait: " in said
    assert "Until Fri 27 Nov 2026, 09:00" in said


def test_back_skip_clear_undo_and_go() -> None:
    position = "hair.thickness"
    assert (
        at(position, "<").session.intake.position
        == at(position, "back").session.intake.position
        == "hair.density"
    )
    assert (
        at(position, ">").session.intake.position
        == at(position, "skip").session.intake.position
        == "hair.porosity_root"
    )
    assert at(position, "clear").answer(position) is None
    assert at(position, "1", "undo").answer(position) == get(baseline(), position)
    place = steps.start(baseline()).order.index("goal.depth") + 1  # type: ignore[arg-type]
    assert at(position, f"go {place}").session.intake.position == "goal.depth"
    assert "There are questions 1 to " in at(position, "go 9999").said


def test_a_needed_question_is_not_passed_with_an_empty_line() -> None:
    talked = at("hair.thickness", "", changes={"hair.thickness": None})
    assert "Not answered yet" in talked.said
    assert talked.session.intake.position == "hair.thickness"


def test_entries_are_added_copied_changed_and_removed() -> None:
    opened = at("history.services", "c", "stop")
    before = get(baseline(), "history.services")
    copied = opened.answer("history.services")
    assert isinstance(before, tuple)
    assert isinstance(copied, tuple)
    assert copied == (*before, before[-1])
    assert opened.session.intake.position == f"history.services.{len(before)}.kind"
    assert at("history.services", "remove 2").answer("history.services") == before[1:]
    assert "There is no entry with that key here." in at("history.services", "remove c").said


def test_an_answer_corrected_from_the_end_leads_back_to_it() -> None:
    place = steps.start(baseline()).order.index("hair.thickness") + 1  # type: ignore[arg-type]
    talked = at(REVIEW, "review", f"go {place}", "3", "stop")
    assert f"{place} Single hair: " in talked.said
    assert talked.answer("hair.thickness") == "coarse"
    assert talked.session.intake.position == REVIEW
    assert talked.code == UNFINISHED


def test_at_the_end_verdict_plan_and_record(tmp_path: Path) -> None:
    out = tmp_path / "clients" / "alma.toml"
    talked = talk("", out=out, session=Session(intake=steps.start(baseline(), REVIEW), at=NOW))
    assert talked.code == PLAN_MADE
    assert "VERDICT" in talked.said
    assert "STEP BY STEP" in talked.said
    assert f"The record is written: {out} (the folder {out.parent} was made for it)" in talked.said
    assert read_file(out, NOW).answers == baseline()
    assert talked.session.draft.path is None


def test_a_stopped_consultation_ends_with_its_own_code(tmp_path: Path) -> None:
    session = Session(intake=steps.start(baseline({"health.ever_reacted": "yes"}), REVIEW), at=NOW)
    assert talk("", out=tmp_path / "r.toml", session=session).code == STOPPED


def test_a_record_is_never_written_over(tmp_path: Path) -> None:
    out = tmp_path / "taken.toml"
    out.write_text("kept")
    talked = talk("", out=out, session=Session(intake=steps.start(baseline(), REVIEW), at=NOW))
    assert "this file exists" in talked.said
    assert out.read_text() == "kept"
    assert talked.session.draft.path


def test_end_of_input_leaves_a_draft_that_is_gone_on_with() -> None:
    talked = talk("Ines", "1")
    assert talked.code == UNFINISHED
    draft = talked.session.draft.path
    assert draft
    assert f"To go on: consult ask {draft}" in talked.said
    assert str(talked.session.intake.position) == "goal.areas"
    from consult.records.wanted import Wanted

    again = open_session(Wanted(Origin.DRAFT, Voice.HOME, draft))
    assert again.answers == talked.session.answers
    assert again.intake.position == "goal.areas"


def test_nothing_typed_leaves_nothing() -> None:
    talked = talk()
    assert (talked.code, talked.session.draft.path) == (UNFINISHED, None)
    assert "Nothing new was answered." in talked.said


def test_a_file_goes_on_with_what_it_leaves_out() -> None:
    session = Session(intake=steps.start(baseline({"hair.thickness": None})), at=NOW)
    said = io.StringIO()
    converse(session, Console(io.StringIO("stop\n"), said), None, opened=Origin.FILE)
    assert session.intake.position == "hair.thickness"


def test_no_word_of_a_command_is_an_answer_or_the_beginning_of_one() -> None:
    words = {word.strip('"') for name, _ in HELP for word in name.split(" or ")} - {
        "an empty line",
        "go 12",
        "remove b",
    }
    choices = {choice for question in questions().values() for choice in question.choices}
    assert {"stop", "finish", "clear", "undo", "result", "review", "skip", "back"} <= words
    assert not [(w, c) for w in words for c in choices if len(w) > 1 and c.lower().startswith(w)]
