"""The wizard at the keyboard: moving, changing, undoing; no key is lost and none answers twice."""

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from textual import events
from textual.widgets import OptionList

from consult.answers.access import get, with_answer
from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, question_of
from consult.interview import intake as steps
from consult.records.codec import read_file
from consult.records.drafts import DraftFile, draft_folder, offered
from consult.records.store import home, save_text
from consult.records.used import remember_products
from consult.screens.page import LEAST_COLUMNS, LEAST_ROWS
from consult.session import Session
from consult.trade import Voice
from tests.baseline import NOW, baseline
from tests.screens.driver import LARGE, SMALL, Driver, demo, driven, sitting

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])


def draft() -> Any:
    (found,) = offered().drafts
    return read_file(found.path, NOW + timedelta(days=3650))


async def test_back_loses_neither_an_answer_nor_what_is_half_typed() -> None:
    async with driven(session=sitting(baseline(), "client.applied_by")) as driver:
        await driver.type("<escape>")
        assert driver.position == "goal.areas"
        await driver.type("<escape>")
        assert driver.position == "client.name"
        await driver.type("<end>x<tab><escape>")
        assert driver.position == "client.name"
        assert driver.app.focused.value == "Almax"
        assert driver.answers == baseline()
        await driver.type("<end>y<enter>")
        assert driver.answers.client.name == "Almaxy"


async def test_looking_at_review_and_result_leads_back_to_the_question_in_hand_as_it_was() -> None:
    async with driven(session=sitting(baseline({"hair.length_cm": None}), "hair.length_cm")) as driver:
        await driver.type("3")
        for look in ("<f2>", "<f3>", "<f2>"):
            await driver.type(look)
            await driver.type("<escape>")
        assert (driver.page, driver.position) == ("WizardPage", "hair.length_cm")
        await driver.type("4<enter>")
        assert driver.answers.hair.length_cm == 34


async def test_half_typed_text_is_in_the_draft_and_comes_back_at_the_next_start() -> None:
    async with driven(session=sitting(None, "client.age")) as driver:
        await driver.type("4")
    loaded = draft()
    assert (loaded.position, loaded.typed) == ("client.age", "4")
    async with driven() as driver:
        await driver.sees("Go on with no name yet", "unfinished, saved")
        await driver.type("<tab>2")
        assert driver.position == "client.age"
        assert driver.app.focused.value == "4"
        await driver.type("<end>1<enter>")
        assert (driver.answers.client.age, driver.position) == (41, "client.gloves")
    assert draft().answers.client.age == 41


async def test_undo_goes_back_answer_by_answer_and_shows_what_stood_before() -> None:
    async with driven(session=sitting(baseline(), "client.applied_by")) as driver:
        await driver.type("152<enter>")
        assert (driver.answers.client.applied_by, driver.answers.client.age) == ("a licensed colourist", 52)
        await driver.type("<ctrl+z>")
        assert (driver.position, driver.app.focused.value) == ("client.age", "47")
        await driver.type("<ctrl+z>")
        assert (driver.position, driver.answers) == ("client.applied_by", baseline())
        await driver.type("<ctrl+z>")
        assert driver.answers == baseline()


@pytest.mark.parametrize("voice", Voice)
async def test_keys_typed_ahead_belong_to_the_questions_that_they_are_pressed_at(voice: Voice) -> None:
    """Typed all at once: each key is taken when what the one before it brought about stands on the screen."""
    async with driven(session=sitting(None, "client.applied_by", voice=voice)) as driver:
        await driver.type("141<enter>11")
        client = driver.answers.client
        assert (client.applied_by, client.age, client.gloves) == ("a licensed colourist", 41, "yes")
        assert (driver.answers.allergy_test.done, driver.position) == ("yes", "allergy_test.same_product")


async def test_keys_typed_ahead_over_a_stop_answer_nothing_that_was_not_on_the_screen() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.type("15<enter>3")
        assert (driver.page, driver.position) == ("WizardPage", "client.gloves")
        assert driver.answers.client.gloves == "yes"


async def test_keys_pressed_twice_close_one_page_and_open_one() -> None:
    async with driven(session=demo("ines")) as driver:
        await driver.type("<f3><f3><f3>")
        assert driver.pages == ["WizardPage", "ReviewPage", "ResultPage"]
        await driver.type("<f4><f4>")
        assert driver.pages[-2:] == ["ResultPage", "ExportWindow"]
        await driver.type("<escape><escape>")
        assert driver.pages == ["WizardPage", "ReviewPage"]


async def test_enter_ticks_no_sign_by_accident() -> None:
    async with driven(session=sitting(None, "goal.areas")) as driver:
        await driver.type("<enter>")
        assert (driver.position, driver.answers.goal.areas) == ("goal.areas", None)
        await driver.sees("not answered yet", at="#error")
        await driver.type("0")
        assert driver.answers.goal.areas == ()


async def test_none_of_these_counts_only_of_signs_that_have_been_on_the_screen() -> None:
    async with driven(session=sitting(None, "scalp.signs", voice=Voice.STYLIST)) as driver:
        shown = driver.screen
        await driver.type("0")
        await driver.sees("there are more signs below", at="#error")
        while driver.answers.scalp.signs is None:
            shown += driver.screen
            await driver.type("0")
        for sign in (
            *question_of("scalp.signs").choices,
            "Scalp scratched",
            "Pool or well water",
            "Bands, patches",
        ):
            assert sign in shown, "what counts as not found was on the screen"
        given = driver.answers
        assert (given.scalp.signs, given.scalp.scratched, given.hair.sheen) == ((), "no", "no")
    async with driven((160, 60), session=sitting(None, "scalp.signs", voice=Voice.STYLIST)) as driver:
        await driver.type("0")
        assert (driver.answers.scalp.signs, driver.answers.hair.attached) == ((), "no")


async def test_signs_are_ticked_with_one_key_each_and_unticked_with_the_same() -> None:
    async with driven(LARGE, session=sitting(None, "scalp.signs", voice=Voice.TRAINER)) as driver:
        await driver.type("1f2")
        await driver.sees("[x] redness", "[x] Scalp scratched", at="#form")
        await driver.type("2")
        scalp = driver.answers.scalp
        assert (scalp.signs, scalp.scratched, scalp.washed) == (("redness",), "yes", None)
        await driver.type("<enter>")
        assert driver.answers.scalp.washed == "no"


async def test_not_sure_is_one_key_at_every_kind_of_question() -> None:
    answers = baseline({"history.services": [{}]})
    wanted = (
        "client.age",
        "client.applied_by",
        "goal.areas",
        "history.services.0.on",
        "allergy_test.applied_at",
    )
    for path in wanted:
        async with driven(session=sitting(with_answer(answers, path, None), path)) as driver:
            await driver.type("?")
            assert get(driver.answers, path) == NOT_SURE
    async with driven(LARGE, session=sitting(None, "health.pregnancy", voice=Voice.STYLIST)) as driver:
        await driver.type("?")
        assert driver.answers.health.pregnancy == NOT_SURE
        await driver.sees("not sure", at="#form")


async def test_the_same_as_above_is_one_key() -> None:
    async with driven(session=sitting(None, "hair.white_front", voice=Voice.STYLIST)) as driver:
        await driver.type("b===")
        hair = driver.answers.hair
        assert (hair.white_front, hair.white_temples, hair.white_crown, hair.white_nape) == (10, 10, 10, 10)


@pytest.mark.parametrize(
    ("path", "typed", "error"),
    [
        ("client.age", "forty", "expected a whole number from 0 to 120 years"),
        ("client.age", "9" * 200, "expected a whole number from 0 to 120 years"),
        ("hair.natural_depth", "5.3", "halves allowed"),
        ("hair.length_cm", "12 ml", "expected a number from 0.5 to 200 cm"),
        ("hair.length_cm", "1", "1 cm is shorter than new growth (1.5 cm)"),
        ("hair.new_growth_cm", "50", "Length: 34 cm is shorter than new growth (50 cm)"),
        ("product.minutes_refresh", "36", "Longest: 35 min is less than refresh (36 min)"),
        ("allergy_test.applied_at", "2099-01-01 9:00", "lies after Wed 25 Nov 2026, 10:00"),
        ("allergy_test.applied_at", "2 days ago", "add the time of day"),
        ("allergy_test.applied_at", "1 hour ago", "First look at: this is earlier"),
    ],
)
async def test_an_answer_that_cannot_be_is_refused_kept_in_the_field_and_can_be_corrected(
    path: str, typed: str, error: str
) -> None:
    async with driven(LARGE, session=sitting(baseline(), path)) as driver:
        before = driver.app.focused.value
        await driver.type(f"{typed}<enter>")
        await driver.sees(error, at="#error")
        # Two answers that cannot both be right are told; one that cannot be read may be about health and is not.
        assert typed not in driver.read("#error") or f"{typed} " in error
        assert (driver.position, driver.answers) == (path, baseline())
        assert driver.app.focused.value == typed
        await driver.type("<home><ctrl+k>")
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
        await driver.sees("Zed ]52;c;aGk= [/]", at="#field")
        await driver.type("<enter>")
        assert driver.answers.client.name == "Zed ]52;c;aGk= [/]"


async def test_entries_are_added_changed_and_removed() -> None:
    async with driven(LARGE, session=sitting(None, "history.services", voice=Voice.STYLIST)) as driver:
        await driver.type("112026-10-14<enter>1<escape><escape><escape><escape>")
        assert driver.position == "history.services"
        await driver.sees("2 permanent colour, 2026-10-14, new growth", at="#form")
        await driver.type("2")
        assert driver.position == "history.services.0.kind"
        await driver.type("2")
        assert driver.answers.history.services[0].kind == "demi-permanent colour"
        await driver.type("<escape><escape>")
        await driver.type("<down><down><down><down><delete>")
        assert driver.answers.history.services == ()
        await driver.type("<ctrl+z>")
        assert driver.answers.history.services[0].stretch == "new growth"


@SIZES
@pytest.mark.parametrize("voice", [Voice.STYLIST, Voice.HOME])
async def test_every_question_is_in_sight_with_the_focus_where_it_is_answered(
    size: tuple[int, int], voice: Voice
) -> None:
    answers = baseline({"health.ever_reacted": "yes", "health.reactions": [{}], "history.services": [{}]})
    seen = set()
    session = sitting(answers, "client.name", keep=False, voice=voice)
    async with driven(size, session=session) as driver:
        for path in session.intake.order:
            question = question_of(path)
            seen.add(question.kind)
            driver.session.change(steps.jump(session.intake, path))
            driver.app.screen.show_question()
            words = question.plain if voice is Voice.HOME else question.trade
            await driver.sees(words, at="#form")
            assert driver.app.focused is not None
            await driver.sees("Esc back", at="#keys")
            await driver.sees("question ", " of about ", at="#heading")
    assert seen == set(Kind)


async def test_everything_on_every_other_page_is_reached_with_the_keyboard() -> None:
    async with driven() as driver:
        await reaches_all(driver)
        await driver.type("<tab>1")
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


async def test_a_click_answers_goes_to_a_question_and_to_a_chapter() -> None:
    async with driven(LARGE, session=sitting(None, "client.applied_by", voice=Voice.STYLIST)) as driver:
        await driver.click("a trainee under supervision")
        assert driver.answers.client.applied_by == "a trainee under supervision"
        await driver.click("Gloves ready")
        assert driver.position == "client.gloves"
        await driver.click("1 yes")
        assert driver.answers.client.gloves == "yes"
        await driver.click("Goal")
        assert driver.position == "goal.depth"


async def test_a_window_too_small_says_so_takes_no_answer_and_comes_back_as_it_was() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.type("5")
        for width, height in ((LEAST_COLUMNS - 1, LEAST_ROWS), (LEAST_COLUMNS, LEAST_ROWS - 1), (20, 6)):
            await driver.resize(width, height)
            assert "The window needs at least" in driver.screen
            await driver.type("7<enter><tab><f2>")
            assert (driver.page, driver.position, driver.answers) == ("WizardPage", "client.age", baseline())
        await driver.resize(LEAST_COLUMNS, LEAST_ROWS)
        await driver.sees("How old is the person", at="#form")
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
    async with driven(LARGE, session=sitting(None, "client.age")) as driver:
        await driver.type("41<enter>")
        monkeypatch.setattr(driver.session, "draft", DraftFile(tmp_path / "file" / "draft.toml"))
        await driver.type("1")
        await driver.sees("not saved", at="#error")
        assert driver.position == "allergy_test.done"
        monkeypatch.setattr(driver.session, "draft", DraftFile(tmp_path / "draft.toml"))
        await driver.type("2")
        assert "not saved" not in driver.screen
    assert read_file(tmp_path / "draft.toml", NOW).answers.allergy_test.done == "no"


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
        await driver.type("<escape>")
        await driver.sees("demo client, nothing is kept", at="#heading")
        await driver.type("1")
    assert not home().exists()


async def test_back_from_a_client_opened_at_once_leads_to_the_start_page_and_into_another() -> None:
    async with driven(session=sitting(baseline(), "client.name", keep=False), demos=True) as driver:
        for _ in range(3):
            await driver.type("<escape>")
            await driver.sees("Demo clients", "Ines", "Tomas")
            assert driver.page == "StartPage"
            await driver.type("2")
            await driver.sees("Tomas", at="#heading")
            assert driver.answers.client.name == "Tomas"
            assert len(driver.pages) <= 3
            assert driver.position == "client.name"


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
        await driver.type("4")
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


async def test_behind_a_demo_opened_directly_the_start_page_opens_everything() -> None:
    async with driven(session=sitting(baseline(), "client.name", keep=False)) as driver:
        await driver.type("<escape>")
        assert driver.page == "StartPage"
        await driver.type("11")
        assert (driver.page, driver.position) == ("WizardPage", "client.name")
        assert driver.answers.client.age is None


async def test_a_full_list_takes_no_more_and_says_so() -> None:
    full = baseline({"history.services": [{"kind": "perm"}] * 100})
    async with driven(LARGE, session=sitting(full, "history.services")) as driver:
        await driver.type("1")
        await driver.sees("expected a list of at most 100 entries", at="#error")
        assert driver.position == "history.services"
        assert len(driver.answers.history.services) == 100


async def test_a_second_product_opens_its_own_chapter_and_leaves_with_its_answer() -> None:
    async with driven(session=sitting(baseline(), "goal.lengths_product")) as driver:
        assert "2nd product" not in driver.read("#rail")
        await driver.type("1")
        await driver.sees("2nd product", "Tests", at="#rail")
        assert driver.position == "lengths_product.kind"
        await driver.sees("Product for the lengths, as its pack says", at="#title")
        session = driver.session
        session.change(steps.jump(session.intake, "goal.lengths_product"))
        driver.app.screen.show_question()
        await driver.type("2")
        assert "2nd product" not in driver.read("#rail")


async def test_a_product_that_was_used_before_is_picked_with_one_key() -> None:
    product = baseline().product.model_copy(update={"name": "Amberley kit", "shade": "5 gold"})
    remember_products(product)
    async with driven(LARGE, session=sitting(None, "product.kind", voice=Voice.STYLIST)) as driver:
        await driver.sees("Amberley kit 5 gold", at="#form")
        await driver.type("3")
        assert driver.answers.product == product.model_copy(update={"pack": None})
        assert driver.position == "product.pack"


async def test_at_home_a_small_window_shows_every_depth_by_name() -> None:
    async with driven(session=sitting(baseline(), "hair.natural_depth", voice=Voice.HOME)) as driver:
        await driver.sees("10 (lightest blonde)", "7 (medium blonde / dark blonde)", "1 (black)", at="#form")
        await driver.resize(60, 20)
        assert "lightest blonde)" not in driver.screen


async def test_what_is_typed_stays_in_sight_when_its_page_has_less_room() -> None:
    """As when the gate panel below has more to say."""
    answers = baseline({"hair.ends_depth": None, "hair.ends_tone": None})
    async with driven((80, 30), session=sitting(answers, "hair.ends_depth", voice=Voice.HOME)) as driver:
        form, field = driver.app.screen.query_one("#form"), driver.app.screen.query_one("#field")
        for height in range(30, LEAST_ROWS - 1, -1):
            await driver.resize(80, height)
            await driver.pilot.pause(0.05)
            assert form.region.contains_region(field.region), height


async def test_a_list_of_signs_that_is_jumped_to_shows_its_signs() -> None:
    session = sitting(baseline(), "health.skin_conditions", voice=Voice.STYLIST)
    async with driven(session=session) as driver:
        await driver.sees(
            "Skin conditions, now or in the past", "eczema", "another skin condition", at="#form"
        )
