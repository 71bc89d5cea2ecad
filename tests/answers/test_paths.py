"""A path is taken apart in one place, and equals its own text."""

import re
from pathlib import Path

import pytest

import consult
from consult.answers.access import answer_paths, get
from consult.answers.paths import AnswerPath
from consult.answers.questions import questions
from tests.baseline import baseline

ROOMS = ("answers", "records", "screens", "widgets", "cli.py", "report.py", "session.py")
TAKEN_APART = re.compile(r"""split\(["']\.["']|partition\(["']\.["']|isdigit\(""")


def test_an_answer_in_a_section_is_named_by_section_and_question() -> None:
    path = AnswerPath.parse("hair.length_cm")
    assert (path.section, path.name, path.group) == ("hair", "length_cm", "hair")
    assert (path.list, path.entry, path.question) == (None, None, "hair.length_cm")
    assert path.beside("cut") == "hair.cut"


def test_an_answer_in_a_list_is_named_by_its_list_and_number_too() -> None:
    path = AnswerPath.parse("history.services.12.kind")
    assert (path.section, path.list, path.entry) == ("history", "history.services", 12)
    assert (path.name, path.question) == ("kind", "history.services.kind")
    assert path.beside("on") == "history.services.12.on"
    assert AnswerPath.parse("history.services").inside(12, "kind") == path


def test_the_question_of_a_list_has_no_number() -> None:
    path = AnswerPath.parse("history.services.kind")
    assert (path.list, path.entry, path.name) == ("history.services", None, "kind")
    assert path.question == path
    assert path.beside("on") == "history.services.on"


def test_two_answers_share_an_entry_only_with_the_same_list_and_number() -> None:
    path = AnswerPath.parse("history.services.1.kind")
    assert path.same_entry(AnswerPath.parse("history.services.1.on"))
    assert not path.same_entry(AnswerPath.parse("history.services.2.kind"))
    assert not path.same_entry(AnswerPath.parse("health.reactions.1.to"))
    assert not AnswerPath.parse("hair.cut").same_entry(AnswerPath.parse("hair.cut"))


def test_every_path_of_a_head_is_its_own_text_and_reads_the_same_answer() -> None:
    answers = baseline()
    for path in answer_paths(answers):
        assert type(str(path)) is str
        assert AnswerPath.parse(str(path)) == path == str(path)
        assert hash(path) == hash(str(path))
        assert get(answers, path) == get(answers, str(path))
        assert path.question in questions()


@pytest.mark.parametrize("text", ["", "review", ".", "a..b", "a.²", "hair.9999999999.x", "a.1.b.2.c"])
def test_any_text_at_all_is_taken_apart_and_is_no_question(text: str) -> None:
    assert AnswerPath.parse(text).question not in questions()


def test_no_other_room_takes_a_path_apart() -> None:
    package = Path(consult.__file__).parent
    files = [f for room in ROOMS for f in (package / room).rglob("*.py")] + [
        package / room for room in ROOMS if room.endswith(".py") and (package / room).exists()
    ]
    assert len(files) > 30
    found = [file.name for file in files if TAKEN_APART.search(file.read_text("utf-8"))]
    assert found == ["paths.py"]
