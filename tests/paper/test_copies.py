"""The client's copy tells of nobody's health; the file copy tells it all; nothing that is to be done is lost."""

import re
from collections.abc import Iterator

import pytest

from consult.answers.access import answer_paths, get
from consult.answers.questions import question_of
from consult.consultation import Consultation
from consult.records.demos import demo_files
from consult.report.copies import Copy
from consult.trade import Voice
from tests.demo import judged
from tests.paper.sheets import EVERYBODY, sheet

HEALTH_SECTIONS = ("health",)
# Words of the trade or of every sheet that are no answer by themselves.
OF_EVERY_SHEET = {"itching", "rash", "swelling", "burning", "hair colour"}


def health_answers(found: Consultation) -> Iterator[str]:
    """What was told of health, as single words, where it is more than no."""
    for path in answer_paths(found.answers):
        question, value = question_of(path), get(found.answers, path)
        if not (question.sensitive or question.section in HEALTH_SECTIONS):
            continue
        for one in value if isinstance(value, tuple) else (value,):
            if isinstance(one, str) and not question.is_clear(one) and one not in ("yes", "no", "not sure"):
                yield one


def told(name: str, copy: Copy, voice: Voice, **changes: object) -> str:
    return " ".join(sheet(name, ".txt", copy=copy, voice=voice, **changes).split()).lower()


CHANGED: list[tuple[str, dict[str, object]]] = [
    *((name, {}) for name in EVERYBODY),
    ("ines", {"health__asthma": "yes"}),
    ("ines", {"health__pregnancy": "pregnant", "health__pregnancy_week": 20}),
    ("ines", {"health__allergies": ("latex", "fragrance or preservative")}),
    ("ines", {"health__skin_conditions": ("psoriasis",)}),
    ("ines", {"health__skin_conditions": ("hand eczema",)}),
    ("ines", {"health__medicines": ("isotretinoin now or in the last 6 months",)}),
    ("ines", {"health__black_henna": "yes, it reacted"}),
    ("ines", {"health__treatments": ("chemotherapy now",)}),
    ("ines", {"scalp__signs": ("blisters or swelling", "round bald scaly patches")}),
]
ROOTS = (
    "asthma|inhaler|pregnan|breastfe|latex|fragrance|psoria|eczema|dermatit|isotretinoin|henna|chemo|radioth|"
    "alopecia|bald|blister|hives|medicine that|medicines|stitches|surgery|lupus|persulf|epilep|diabet"
)


@pytest.mark.parametrize("voice", list(Voice))
@pytest.mark.parametrize(("name", "changes"), CHANGED)
def test_the_clients_copy_holds_no_word_of_health(
    name: str, changes: dict[str, object], voice: Voice
) -> None:
    mine = told(name, Copy.CLIENT, voice, **changes)
    every = told("ines", Copy.CLIENT, voice)
    for answer in health_answers(judged(name, **changes)):
        if answer not in OF_EVERY_SHEET:
            assert answer.lower() not in mine, answer
    beyond = [word for word in re.findall(ROOTS, mine) if word not in every]
    # Of plain henna on the hair the history tells, which is no answer about health.
    history = {str(service.kind) for service in judged(name).answers.history.services or ()}
    if any("henna" in kind for kind in history):
        beyond = [word for word in beyond if word != "henna"]
    assert not beyond
    assert "health, scalp and test" not in mine


@pytest.mark.parametrize("name", EVERYBODY)
def test_the_file_copy_holds_every_answer_about_health(name: str) -> None:
    mine = told(name, Copy.FILE, Voice.STYLIST)
    for answer in health_answers(judged(name)):
        assert answer.lower() in mine


def test_a_finding_about_health_is_told_in_the_file_and_replaced_for_the_client() -> None:
    file, client = (told("ines", copy, Voice.STYLIST, health__asthma="yes") for copy in Copy)
    assert "inhaler at hand" in file
    assert "asthma: yes" in file
    assert "a step of this client's own, told in person" in client
    assert "ask before anything is mixed" in client


def test_no_step_is_lost_on_the_clients_copy() -> None:
    for name in demo_files():
        file, client = (re.findall(r"\[ \] (\d+)\. ", sheet(name, ".txt", copy=copy)) for copy in Copy)
        assert file == client


@pytest.mark.parametrize("name", ["hanna", "piet"])
def test_a_stop_for_health_is_a_stop_on_the_clients_copy(name: str) -> None:
    client = told(name, Copy.CLIENT, Voice.HOME)
    assert "stop: no colour" in client
    assert "no hair colour and no test with hair colour on the skin, here or at home" in client
    assert "a stop has no date and no way around it" in client


def test_what_is_not_about_health_is_told_to_the_client_as_well() -> None:
    assert "new colour does not make old colour lighter" in told("elif", Copy.CLIENT, Voice.STYLIST)
    assert "until fri 27 nov 2026, 10:00" in told("mirela", Copy.CLIENT, Voice.HOME)
