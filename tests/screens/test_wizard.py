"""The wizard at the keyboard: moving, changing, undoing; no key is lost and none answers twice."""

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from textual import events
from textual.widgets import OptionList

from consult.answers.access import answer_paths, get
from consult.answers.questions import Kind, question_of
from consult.records.codec import read_file
from consult.records.store import drafts, home, save_text
from consult.screens import session as session_module
from consult.screens.page import LEAST_COLUMNS, LEAST_ROWS
from consult.screens.session import Session
from tests.screens.desk import LARGE, SMALL, Desk, at_the_desk, demo, sitting
from tests.sound import NOW, sound

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])


def draft() -> Any:
    (found,), faults = drafts()
    assert not faults
    return read_file(found.path, NOW + timedelta(days=3650))


async def test_back_loses_neither_an_answer_nor_what_is_half_typed() -> None:
    async with at_the_desk(session=sitting(sound(), "client.applied_by")) as desk:
        await desk.type("<pageup>")
        await desk.type("5")
        await desk.type("<pageup>")
        await desk.type("<pagedown>")
        assert desk.position == "client.age"
        assert desk.app.focused.value == "5"
        assert desk.answers == sound()
        await desk.type("<end>")
        await desk.type("2<enter>")
        assert desk.answers.client.age == 52


async def test_looking_at_review_and_result_leads_back_to_the_question_in_hand_as_it_was() -> None:
    async with at_the_desk(session=sitting(sound({"hair.length_cm": None}), "hair.length_cm")) as desk:
        await desk.type("3")
        for look in ("<f2>", "<f3>", "<f2>"):
            await desk.type(look)
            await desk.type("<pageup>")
        assert (desk.page, desk.position) == ("WizardPage", "hair.length_cm")
        await desk.type("4<enter>")
        assert desk.answers.hair.length_cm == 34


async def test_half_typed_text_is_in_the_draft_and_comes_back_at_the_next_start() -> None:
    async with at_the_desk(session=Session()) as desk:
        await desk.type("Ines<enter>")
        await desk.type("4")
    loaded = draft()
    assert (loaded.answers.client.name, loaded.position, loaded.typed) == ("Ines", "client.age", "4")
    async with at_the_desk() as desk:
        await desk.sees("Go on with Ines", "unfinished, saved")
        await desk.type("<tab>")
        await desk.type("2")
        assert desk.position == "client.age"
        assert desk.app.focused.value == "4"
        await desk.type("<end>")
        await desk.type("1<enter>")
        assert (desk.answers.client.age, desk.position) == (41, "client.applied_by")
    assert draft().answers.client.age == 41


async def test_undo_goes_back_answer_by_answer_and_shows_what_stood_before() -> None:
    async with at_the_desk(session=sitting(sound(), "client.age")) as desk:
        await desk.type("52<enter>")
        await desk.type("1")
        assert desk.answers.client.applied_by == "a licensed colourist"
        await desk.type("<ctrl+z>")
        assert (desk.position, desk.answers.client.applied_by) == ("client.applied_by", "myself at home")
        await desk.type("<ctrl+z>")
        assert desk.app.focused.value == "47"
        assert desk.answers == sound()
        await desk.type("<ctrl+z>")
        assert desk.answers == sound()


async def test_keys_typed_ahead_never_answer_the_next_question() -> None:
    async with at_the_desk(session=sitting(position="client.applied_by")) as desk:
        await desk.type("1111111111")
        assert (desk.position, desk.answers.client.gloves) == ("client.gloves", None)
    async with at_the_desk(session=sitting(position="client.age")) as desk:
        await desk.type("41<enter>1<enter>2<enter>")
        assert (desk.position, desk.answers.client.age) == ("client.applied_by", 41)
        assert desk.answers.client.applied_by is None
    async with at_the_desk(session=sitting(position="scalp.signs")) as desk:
        await desk.type("12<enter>111")
        assert desk.answers.scalp.signs == ("redness", "itching, soreness or tightness")
        assert (desk.position, desk.answers.scalp.scratched) == ("scalp.scratched", None)


async def test_keys_pressed_twice_close_one_page_and_open_one() -> None:
    async with at_the_desk(session=demo("ines")) as desk:
        await desk.type("<f3><f3><f3>")
        assert desk.pages == ["WizardPage", "ReviewPage", "ResultPage"]
        await desk.type("<f4><f4>")
        assert desk.pages[-2:] == ["ResultPage", "ExportWindow"]
        await desk.type("<pageup>")
        await desk.type("<pageup><pageup><pageup>")
        assert desk.pages == ["WizardPage", "ReviewPage"]
    async with at_the_desk() as desk:
        await desk.type("<tab>")
        await desk.type("<enter><enter><enter>")
        assert desk.pages == ["StartPage", "WizardPage"]


async def test_enter_ticks_no_sign_by_accident() -> None:
    async with at_the_desk(session=sitting(position="health.allergies")) as desk:
        await desk.type("<enter>")
        assert (desk.position, desk.answers.health.allergies) == ("health.allergies", None)
        await desk.sees("nothing is ticked", at="#fault")
        await desk.type("<end>")
        await desk.type("<up><enter>")
        assert (desk.position, desk.answers.health.allergies) == ("health.pregnancy", ())


async def test_none_and_not_sure_stand_alone_and_a_tick_takes_them_away() -> None:
    async with at_the_desk(session=sitting(position="health.medicines")) as desk:
        for keys, answer in (
            ("1", ("isotretinoin now or in the last 6 months",)),
            ("5", ()),
            ("6", "not sure"),
            ("2", ("medicine that makes skin sensitive",)),
        ):
            await desk.type(keys)
            assert desk.answers.health.medicines == answer
        await desk.type("2")
        assert desk.answers.health.medicines is None
        await desk.type("<enter>")
        assert desk.position == "health.medicines"


@pytest.mark.parametrize(
    ("path", "typed", "fault"),
    [
        ("client.age", "forty", "expected a whole number from 0 to 120 years"),
        ("client.age", "9" * 200, "expected a whole number from 0 to 120 years"),
        ("hair.natural_depth", "5.3", "halves allowed"),
        ("hair.length_cm", "12 ml", "expected a number from 0 to 200 cm"),
        ("hair.length_cm", "1", "this is less than 'new growth'"),
        ("hair.new_growth_cm", "50", "Length: this is less than 'new growth'"),
        ("product.minutes_refresh", "36", "Longest: this is less than 'refresh'"),
        ("allergy_test.applied_at", "2099-01-01", "lies after 2026-11-25 10:00"),
        ("allergy_test.applied_at", "1 hour ago", "First look at: this is before"),
    ],
)
async def test_an_answer_that_cannot_be_is_refused_kept_in_the_field_and_can_be_mended(
    path: str, typed: str, fault: str
) -> None:
    async with at_the_desk(session=sitting(sound(), path)) as desk:
        before = desk.app.focused.value
        await desk.type(f"{typed}<enter>")
        await desk.sees(fault, at="#fault")
        assert typed not in desk.read("#fault")
        assert (desk.position, desk.answers) == (path, sound())
        assert desk.app.focused.value == typed
        await desk.type("<home>")
        await desk.type("<ctrl+k>")
        await desk.type(f"{before}<enter>")
        assert (desk.position != path, desk.answers) == (True, sound())


async def test_a_superscript_key_is_no_number() -> None:
    async with at_the_desk(session=sitting(sound(), "client.applied_by")) as desk:
        await desk.type("²")
        assert desk.position == "client.applied_by"


async def test_what_is_pasted_brings_no_escape_code_along() -> None:
    async with at_the_desk(session=sitting(position="client.name")) as desk:
        desk.app.post_message(events.Paste("Zed\x1b]52;c;aGk=\x07[/]\u202e"))
        await desk.settle()
        await desk.sees("Zed ]52;c;aGk= [/]", at="#editor")
        await desk.type("<enter>")
        assert desk.answers.client.name == "Zed ]52;c;aGk= [/]"


async def test_entries_are_added_changed_and_removed() -> None:
    async with at_the_desk(session=sitting(position="history.services")) as desk:
        for key in ("1", "1", "2026-10-14<enter>", "1", *["<pageup>"] * 4):
            await desk.type(key)
        assert desk.position == "history.services"
        await desk.sees("3 permanent colour, 2026-10-14, new growth", at="#editor")
        await desk.type("3")
        assert desk.position == "history.services.0.kind"
        await desk.type("2")
        assert desk.answers.history.services[0].kind == "demi-permanent colour"
        await desk.type("<pageup>")
        await desk.type("<pageup>")
        await desk.type("<end>")
        await desk.type("<delete>")
        assert desk.answers.history.services == ()
        await desk.type("<ctrl+z>")
        assert desk.answers.history.services[0].stretch == "new growth"


@SIZES
async def test_every_question_of_every_kind_takes_the_focus_and_fits_the_window(
    size: tuple[int, int],
) -> None:
    answers = sound({"health.ever_reacted": "yes", "health.reactions": [{}], "history.services": [{}]})
    seen = set()
    async with at_the_desk(size, session=sitting(answers, "client.name", keep=False)) as desk:
        for path in answer_paths(answers):
            kind = question_of(path).kind
            if kind in seen and not path.startswith(("health.ever", "scalp.signs", "history.services.0.k")):
                continue
            seen.add(kind)
            desk.session.change(session_module.start(answers, path))
            await desk.app.screen.show_question()
            await desk.sees(question_of(path).plain, at="#question")
            assert desk.app.focused is not None
            assert desk.app.focused.region.y < size[1] - 2
            await desk.sees("PgUp back", at="#keys")
            await desk.sees("consult", at="#heading")
    assert seen == set(Kind)


async def test_everything_on_every_page_is_reached_with_the_keyboard() -> None:
    async with at_the_desk() as desk:
        await reaches_all(desk)
        await desk.type("<tab>")
        await desk.type("1")
        for path in ("client.name", "client.gloves", "scalp.signs", "history.services"):
            desk.session.change(session_module.start(sound(), path))
            await desk.app.screen.show_question()
            await reaches_all(desk)
        for page in ("<f2>", "<f3>"):
            await desk.type(page)
            await reaches_all(desk)


async def reaches_all(desk: Desk) -> None:
    focusable = {w for w in desk.app.screen.query("*") if w.focusable and w.region}
    reached = set()
    for _ in range(len(focusable)):
        reached.add(desk.app.focused)
        await desk.type("<tab>")
    assert reached == focusable


async def test_a_window_too_small_says_so_takes_no_answer_and_comes_back_as_it_was() -> None:
    async with at_the_desk(session=sitting(sound(), "client.age")) as desk:
        await desk.type("5")
        for width, height in ((LEAST_COLUMNS - 1, LEAST_ROWS), (LEAST_COLUMNS, LEAST_ROWS - 1), (20, 6)):
            await desk.resize(width, height)
            assert "The window needs at least" in desk.screen
            await desk.type("7<enter><pagedown><f2>")
            assert (desk.page, desk.position, desk.answers) == ("WizardPage", "client.age", sound())
        await desk.resize(LEAST_COLUMNS, LEAST_ROWS)
        await desk.sees("How old is the person", at="#question")
        await desk.type("<end>")
        await desk.type("6<enter>")
        assert desk.answers.client.age == 56


async def test_a_failed_save_is_said_and_the_consultation_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("kept")
    async with at_the_desk(LARGE, session=Session()) as desk:
        await desk.type("Ines<enter>")
        monkeypatch.setattr(desk.session, "draft", tmp_path / "file" / "draft.toml")
        await desk.type("41<enter>")
        await desk.sees("not saved", at="#fault")
        assert desk.position == "client.applied_by"
        await desk.type("3")
        assert desk.answers.client.applied_by == "myself at home"
        monkeypatch.setattr(desk.session, "draft", tmp_path / "draft.toml")
        await desk.type("1")
        await desk.settle()
        assert "not saved" not in desk.screen
    assert read_file(tmp_path / "draft.toml", NOW).answers.client.gloves == "yes"


async def test_a_place_for_drafts_that_cannot_even_be_looked_at_stops_nobody(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CONSULT_HOME", str(tmp_path / ("x" * 300)))
    async with at_the_desk(LARGE, session=Session()) as desk:
        await desk.type("Ines<enter>")
        await desk.sees("not saved", at="#fault")
        assert desk.answers.client.name == "Ines"


async def test_a_demo_client_leaves_nothing_on_the_disk() -> None:
    async with at_the_desk(session=demo("ines")) as desk:
        await desk.type("<pageup>")
        await desk.sees("demo client, nothing is kept", at="#heading")
        await desk.type("1")
    assert not home().exists()


async def test_back_from_a_client_opened_at_once_leads_to_the_start_page_and_into_another() -> None:
    async with at_the_desk(session=sitting(sound(), "client.name", keep=False), demos=True) as desk:
        for _ in range(3):
            await desk.type("<pageup><pageup>")
            await desk.sees("Demo clients", "Ines", "Tomas")
            assert desk.page == "StartPage"
            await desk.type("2")
            await desk.sees("Tomas", at="#heading")
            assert desk.answers.client.name == "Tomas"
            assert len(desk.pages) <= 3
            desk.session.change(session_module.start(desk.answers, "client.name"))
            await desk.type("<f2>")
            await desk.type("<pageup>")


async def test_a_spoilt_draft_is_named_at_the_start_without_what_stands_in_it() -> None:
    save_text(home() / "unfinished" / "broken.toml", "[client]\nage = zzsecretzz\n")
    async with at_the_desk(LARGE) as desk:
        await desk.sees("broken.toml", at="#fault")
        assert "zzsecretzz" not in desk.screen
        await desk.type("<tab>")
        await desk.type("1")
        assert desk.position == "client.name"


async def test_a_file_is_opened_from_the_start_page_for_a_judgement_of_today(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "mine.toml").write_text('[client]\nname = "Ines"\nage = 41\n')
    async with at_the_desk(LARGE) as desk:
        await desk.type("<tab>")
        await desk.type("2")
        await desk.type(f"{tmp_path}<enter>")
        await desk.sees("Is a directory", at="#fault")
        await desk.type("<home>")
        await desk.type("<ctrl+k>")
        await desk.type(f"{tmp_path / 'mine.toml'}<enter>")
        await desk.sees("Review of all answers", "Ines")
        assert get(desk.answers, "client.age") == 41


async def test_a_long_session_piles_up_no_pages() -> None:
    async with at_the_desk(session=demo("ines")) as desk:
        widgets = []
        for _ in range(30):
            for key in ("<f3>", "<f2>"):
                await desk.type(key)
            assert len(desk.app.screen_stack) <= 4
            widgets.append(len(list(desk.app._registry)))
        assert widgets[-1] <= widgets[1]


async def test_choosing_the_row_in_hand_from_the_outline_goes_on_with_its_field() -> None:
    async with at_the_desk(session=sitting(sound(), "client.age")) as desk:
        await desk.type("<tab><tab>")
        while not (isinstance(desk.app.focused, OptionList) and desk.app.focused.id == "outline"):
            await desk.type("<tab>")
        await desk.type("<enter>")
        await desk.type("52<enter>")
        assert desk.answers.client.age == 52


async def test_behind_a_demo_opened_directly_the_start_page_opens_everything() -> None:
    async with at_the_desk(session=sitting(sound(), "client.name", keep=False)) as desk:
        await desk.type("<pageup>")
        assert desk.page == "StartPage"
        await desk.type("1")
        await desk.type("1")
        assert (desk.page, desk.position) == ("WizardPage", "client.name")
        assert desk.answers.client.age is None
