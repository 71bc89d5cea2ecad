"""The wizard at the keyboard: moving, changing, undoing; no key is lost and none answers twice."""

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from textual import events
from textual.widgets import OptionList

from consult import session as session_module
from consult.interview import intake as steps
from consult.answers.access import answer_paths, get
from consult.answers.questions import Kind, question_of
from consult.records.codec import read_file
from consult.records.drafts import DraftFile, draft_folder, offered
from consult.records.store import home, save_text
from consult.screens.page import LEAST_COLUMNS, LEAST_ROWS
from consult.session import Session
from tests.baseline import NOW, baseline
from tests.screens.driver import LARGE, SMALL, Driver, demo, driven, sitting

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])


def draft() -> Any:
    (found,) = offered().drafts
    return read_file(found.path, NOW + timedelta(days=3650))


async def test_back_loses_neither_an_answer_nor_what_is_half_typed() -> None:
    async with driven(session=sitting(baseline(), "client.applied_by")) as driver:
        await driver.type("<pageup>")
        await driver.type("5")
        await driver.type("<pageup>")
        await driver.type("<pagedown>")
        assert driver.position == "client.age"
        assert driver.app.focused.value == "5"
        assert driver.answers == baseline()
        await driver.type("<end>")
        await driver.type("2<enter>")
        assert driver.answers.client.age == 52


async def test_looking_at_review_and_result_leads_back_to_the_question_in_hand_as_it_was() -> None:
    async with driven(session=sitting(baseline({"hair.length_cm": None}), "hair.length_cm")) as driver:
        await driver.type("3")
        for look in ("<f2>", "<f3>", "<f2>"):
            await driver.type(look)
            await driver.type("<pageup>")
        assert (driver.page, driver.position) == ("WizardPage", "hair.length_cm")
        await driver.type("4<enter>")
        assert driver.answers.hair.length_cm == 34


async def test_half_typed_text_is_in_the_draft_and_comes_back_at_the_next_start() -> None:
    async with driven(session=Session()) as driver:
        await driver.type("Ines<enter>")
        await driver.type("4")
    loaded = draft()
    assert (loaded.answers.client.name, loaded.position, loaded.typed) == ("Ines", "client.age", "4")
    async with driven() as driver:
        await driver.sees("Go on with Ines", "unfinished, saved")
        await driver.type("<tab>")
        await driver.type("2")
        assert driver.position == "client.age"
        assert driver.app.focused.value == "4"
        await driver.type("<end>")
        await driver.type("1<enter>")
        assert (driver.answers.client.age, driver.position) == (41, "client.applied_by")
    assert draft().answers.client.age == 41


async def test_undo_goes_back_answer_by_answer_and_shows_what_stood_before() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.type("52<enter>")
        await driver.type("1")
        assert driver.answers.client.applied_by == "a licensed colourist"
        await driver.type("<ctrl+z>")
        assert (driver.position, driver.answers.client.applied_by) == ("client.applied_by", "myself at home")
        await driver.type("<ctrl+z>")
        assert driver.app.focused.value == "47"
        assert driver.answers == baseline()
        await driver.type("<ctrl+z>")
        assert driver.answers == baseline()


async def test_keys_typed_ahead_never_answer_the_next_question() -> None:
    async with driven(session=sitting(position="client.applied_by")) as driver:
        await driver.type("1111111111")
        assert (driver.position, driver.answers.client.gloves) == ("client.gloves", None)
    async with driven(session=sitting(position="client.age")) as driver:
        await driver.type("41<enter>1<enter>2<enter>")
        assert (driver.position, driver.answers.client.age) == ("client.applied_by", 41)
        assert driver.answers.client.applied_by is None
    async with driven(session=sitting(position="scalp.signs")) as driver:
        await driver.type("12<enter>111")
        assert driver.answers.scalp.signs == ("redness", "itching, soreness or tightness")
        assert (driver.position, driver.answers.scalp.scratched) == ("scalp.scratched", None)


async def test_keys_pressed_twice_close_one_page_and_open_one() -> None:
    async with driven(session=demo("ines")) as driver:
        await driver.type("<f3><f3><f3>")
        assert driver.pages == ["WizardPage", "ReviewPage", "ResultPage"]
        await driver.type("<f4><f4>")
        assert driver.pages[-2:] == ["ResultPage", "ExportWindow"]
        await driver.type("<pageup>")
        await driver.type("<pageup><pageup><pageup>")
        assert driver.pages == ["WizardPage", "ReviewPage"]
    async with driven() as driver:
        await driver.type("<tab>")
        await driver.type("<enter><enter><enter>")
        assert driver.pages == ["StartPage", "WizardPage"]


async def test_enter_ticks_no_sign_by_accident() -> None:
    async with driven(session=sitting(position="health.allergies")) as driver:
        await driver.type("<enter>")
        assert (driver.position, driver.answers.health.allergies) == ("health.allergies", None)
        await driver.sees("nothing is ticked", at="#error")
        await driver.type("<end>")
        await driver.type("<up><enter>")
        assert (driver.position, driver.answers.health.allergies) == ("health.pregnancy", ())


async def test_none_and_not_sure_stand_alone_and_a_tick_takes_them_away() -> None:
    async with driven(session=sitting(position="health.medicines")) as driver:
        for keys, answer in (
            ("1", ("isotretinoin now or in the last 6 months",)),
            ("5", ()),
            ("6", "not sure"),
            ("2", ("medicine that makes skin sensitive",)),
        ):
            await driver.type(keys)
            assert driver.answers.health.medicines == answer
        await driver.type("2")
        assert driver.answers.health.medicines is None
        await driver.type("<enter>")
        assert driver.position == "health.medicines"


@pytest.mark.parametrize(
    ("path", "typed", "error"),
    [
        ("client.age", "forty", "expected a whole number from 0 to 120 years"),
        ("client.age", "9" * 200, "expected a whole number from 0 to 120 years"),
        ("hair.natural_depth", "5.3", "halves allowed"),
        ("hair.length_cm", "12 ml", "expected a number from 0.5 to 200 cm"),
        ("hair.length_cm", "1", "this is less than 'new growth'"),
        ("hair.new_growth_cm", "50", "Length: this is less than 'new growth'"),
        ("product.minutes_refresh", "36", "Longest: this is less than 'refresh'"),
        ("allergy_test.applied_at", "2099-01-01 9:00", "lies after 2026-11-25 10:00"),
        ("allergy_test.applied_at", "2 days ago", "add the time of day"),
        ("allergy_test.applied_at", "1 hour ago", "First look at: this is before"),
    ],
)
async def test_an_answer_that_cannot_be_is_refused_kept_in_the_field_and_can_be_corrected(
    path: str, typed: str, error: str
) -> None:
    async with driven(session=sitting(baseline(), path)) as driver:
        before = driver.app.focused.value
        await driver.type(f"{typed}<enter>")
        await driver.sees(error, at="#error")
        assert typed not in driver.read("#error")
        assert (driver.position, driver.answers) == (path, baseline())
        assert driver.app.focused.value == typed
        await driver.type("<home>")
        await driver.type("<ctrl+k>")
        await driver.type(f"{before}<enter>")
        assert (driver.position != path, driver.answers) == (True, baseline())


async def test_a_superscript_key_is_no_number() -> None:
    async with driven(session=sitting(baseline(), "client.applied_by")) as driver:
        await driver.type("²")
        assert driver.position == "client.applied_by"


async def test_what_is_pasted_brings_no_escape_code_along() -> None:
    async with driven(session=sitting(position="client.name")) as driver:
        driver.app.post_message(events.Paste("Zed\x1b]52;c;aGk=\x07[/]\u202e"))
        await driver.settle()
        await driver.sees("Zed ]52;c;aGk= [/]", at="#editor")
        await driver.type("<enter>")
        assert driver.answers.client.name == "Zed ]52;c;aGk= [/]"


async def test_entries_are_added_changed_and_removed() -> None:
    async with driven(session=sitting(position="history.services")) as driver:
        for key in ("1", "1", "2026-10-14<enter>", "1", *["<pageup>"] * 4):
            await driver.type(key)
        assert driver.position == "history.services"
        await driver.sees("3 permanent colour, 2026-10-14, new growth", at="#editor")
        await driver.type("3")
        assert driver.position == "history.services.0.kind"
        await driver.type("2")
        assert driver.answers.history.services[0].kind == "demi-permanent colour"
        await driver.type("<pageup>")
        await driver.type("<pageup>")
        await driver.type("<end>")
        await driver.type("<delete>")
        assert driver.answers.history.services == ()
        await driver.type("<ctrl+z>")
        assert driver.answers.history.services[0].stretch == "new growth"


@SIZES
async def test_every_question_of_every_kind_takes_the_focus_and_fits_the_window(
    size: tuple[int, int],
) -> None:
    answers = baseline({"health.ever_reacted": "yes", "health.reactions": [{}], "history.services": [{}]})
    seen = set()
    async with driven(size, session=sitting(answers, "client.name", keep=False)) as driver:
        for path in answer_paths(answers):
            kind = question_of(path).kind
            if kind in seen and not path.startswith(("health.ever", "scalp.signs", "history.services.0.k")):
                continue
            seen.add(kind)
            driver.session.change(session_module.start(answers, path))
            await driver.app.screen.show_question()
            await driver.sees(question_of(path).plain, at="#question")
            assert driver.app.focused is not None
            assert driver.app.focused.region.y < size[1] - 2
            await driver.sees("PgUp back", at="#keys")
            await driver.sees("consult", at="#heading")
    assert seen == set(Kind)


async def test_everything_on_every_page_is_reached_with_the_keyboard() -> None:
    async with driven() as driver:
        await reaches_all(driver)
        await driver.type("<tab>")
        await driver.type("1")
        for path in ("client.name", "client.gloves", "scalp.signs", "history.services"):
            driver.session.change(session_module.start(baseline(), path))
            await driver.app.screen.show_question()
            await reaches_all(driver)
        for page in ("<f2>", "<f3>"):
            await driver.type(page)
            await reaches_all(driver)


async def reaches_all(driver: Driver) -> None:
    focusable = {w for w in driver.app.screen.query("*") if w.focusable and w.region}
    reached = set()
    for _ in range(len(focusable)):
        reached.add(driver.app.focused)
        await driver.type("<tab>")
    assert reached == focusable


async def test_a_window_too_small_says_so_takes_no_answer_and_comes_back_as_it_was() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.type("5")
        for width, height in ((LEAST_COLUMNS - 1, LEAST_ROWS), (LEAST_COLUMNS, LEAST_ROWS - 1), (20, 6)):
            await driver.resize(width, height)
            assert "The window needs at least" in driver.screen
            await driver.type("7<enter><pagedown><f2>")
            assert (driver.page, driver.position, driver.answers) == ("WizardPage", "client.age", baseline())
        await driver.resize(LEAST_COLUMNS, LEAST_ROWS)
        await driver.sees("How old is the person", at="#question")
        await driver.type("<end>")
        await driver.type("6<enter>")
        assert driver.answers.client.age == 56


@pytest.mark.parametrize("key", ["<pageup>", "<pagedown>"])
async def test_a_list_that_was_never_laid_out_bears_a_page_key(key: str) -> None:
    async with driven((20, 6)) as driver:
        listed = driver.app.screen.query_one("#voices", OptionList)
        driver.app.screen.set_focus(listed)
        await driver.type(key)
        assert driver.page == "StartPage"


async def test_a_failed_save_is_said_and_the_consultation_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("kept")
    async with driven(LARGE, session=Session()) as driver:
        await driver.type("Ines<enter>")
        monkeypatch.setattr(driver.session, "draft", DraftFile(tmp_path / "file" / "draft.toml"))
        await driver.type("41<enter>")
        await driver.sees("not saved", at="#error")
        assert driver.position == "client.applied_by"
        await driver.type("3")
        assert driver.answers.client.applied_by == "myself at home"
        monkeypatch.setattr(driver.session, "draft", DraftFile(tmp_path / "draft.toml"))
        await driver.type("1")
        await driver.settle()
        assert "not saved" not in driver.screen
    assert read_file(tmp_path / "draft.toml", NOW).answers.client.gloves == "yes"


async def test_a_place_for_drafts_that_cannot_even_be_looked_at_stops_nobody(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("CONSULT_HOME", str(tmp_path / ("x" * 300)))
    async with driven(LARGE, session=Session()) as driver:
        await driver.type("Ines<enter>")
        await driver.sees("not saved", at="#error")
        assert driver.answers.client.name == "Ines"


async def test_a_demo_client_leaves_nothing_on_the_disk() -> None:
    async with driven(session=demo("ines")) as driver:
        await driver.type("<pageup>")
        await driver.sees("demo client, nothing is kept", at="#heading")
        await driver.type("1")
    assert not home().exists()


async def test_back_from_a_client_opened_at_once_leads_to_the_start_page_and_into_another() -> None:
    async with driven(session=sitting(baseline(), "client.name", keep=False), demos=True) as driver:
        for _ in range(3):
            await driver.type("<pageup><pageup>")
            await driver.sees("Demo clients", "Ines", "Tomas")
            assert driver.page == "StartPage"
            await driver.type("2")
            await driver.sees("Tomas", at="#heading")
            assert driver.answers.client.name == "Tomas"
            assert len(driver.pages) <= 3
            driver.session.change(session_module.start(driver.answers, "client.name"))
            await driver.type("<f2>")
            await driver.type("<pageup>")


async def test_a_spoilt_draft_is_named_at_the_start_without_what_stands_in_it() -> None:
    save_text(draft_folder() / "broken.toml", "[client]\nage = zzsecretzz\n")
    async with driven(LARGE) as driver:
        await driver.sees("broken.toml", at="#error")
        assert "zzsecretzz" not in driver.screen
        await driver.type("<tab>")
        await driver.type("1")
        assert driver.position == "client.name"


async def test_a_file_is_opened_from_the_start_page_for_a_judgement_of_today(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "mine.toml").write_text('[client]\nname = "Ines"\nage = 41\n')
    async with driven(LARGE) as driver:
        await driver.type("<tab>")
        await driver.type("2")
        await driver.type(f"{tmp_path}<enter>")
        await driver.sees("Is a directory", at="#error")
        await driver.type("<home>")
        await driver.type("<ctrl+k>")
        await driver.type(f"{tmp_path / 'mine.toml'}<enter>")
        await driver.sees("Review of all answers", "Ines")
        assert get(driver.answers, "client.age") == 41


async def test_a_long_session_piles_up_no_pages() -> None:
    async with driven(session=demo("ines")) as driver:
        widgets = []
        for _ in range(30):
            for key in ("<f3>", "<f2>"):
                await driver.type(key)
            assert len(driver.app.screen_stack) <= 4
            widgets.append(len(list(driver.app._registry)))
        assert widgets[-1] <= widgets[1]


async def test_choosing_the_row_in_hand_from_the_outline_goes_on_with_its_field() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.type("<tab><tab>")
        while not (isinstance(driver.app.focused, OptionList) and driver.app.focused.id == "outline"):
            await driver.type("<tab>")
        await driver.type("<enter>")
        await driver.type("52<enter>")
        assert driver.answers.client.age == 52


async def test_behind_a_demo_opened_directly_the_start_page_opens_everything() -> None:
    async with driven(session=sitting(baseline(), "client.name", keep=False)) as driver:
        await driver.type("<pageup>")
        assert driver.page == "StartPage"
        await driver.type("1")
        await driver.type("1")
        assert (driver.page, driver.position) == ("WizardPage", "client.name")
        assert driver.answers.client.age is None


async def test_a_full_list_takes_no_more_and_says_so() -> None:
    full = baseline({"history.services": [{"kind": "perm"}] * 100})
    async with driven(LARGE, session=sitting(full, "history.services")) as driver:
        await driver.type("1")
        await driver.sees("expected a list of at most 100 entries", at="#error")
        assert driver.position == "history.services"
        assert len(driver.answers.history.services) == 100


async def test_a_second_product_opens_its_own_section_and_leaves_with_its_answer() -> None:
    async with driven(session=sitting(baseline(), "goal.lengths_product")) as driver:
        assert "2nd product" not in driver.read("#rail")
        await driver.type("1")
        await driver.sees("2nd product", "Metals", at="#rail")
        session = driver.session
        session.change(steps.jump(session.intake, "lengths_product.kind"))
        await driver.app.screen.show_question()
        await driver.sees("Second product, for the lengths", at="#heading")
        await driver.type("2")
        await driver.type("5")
        assert driver.answers.lengths_product.colour_class == "direct (no developer)"
        session.change(steps.jump(session.intake, "goal.lengths_product"))
        await driver.app.screen.show_question()
        await driver.type("2")
        assert "2nd product" not in driver.read("#rail")
