"""Getting about: found by words, clicked, gone on with, removed, and told where it is kept."""

import pytest

from consult.records.drafts import draft_folder, offered
from consult.records.store import save_text
from consult.trade import Voice
from tests.baseline import baseline
from tests.screens.driver import LARGE, driven, sitting


@pytest.mark.parametrize("keys", ["/", "<ctrl+f>"])
async def test_a_question_is_found_by_some_letters_of_it(keys: str) -> None:
    async with driven(session=sitting(baseline(), "client.applied_by", voice=Voice.STYLIST)) as driver:
        await driver.type(f"{keys}poros len")
        await driver.sees("Porosity", at="#found")
        await driver.type("<enter>")
        assert driver.position == "hair.porosity_lengths"


async def test_an_action_is_found_and_done_as_if_its_key_were_pressed() -> None:
    async with driven(session=sitting(baseline(), "client.applied_by")) as driver:
        await driver.type("/verdict plan<enter>")
        assert driver.page == "ResultPage"
        await driver.type("/export<escape>")
        assert driver.page == "ResultPage"
        await driver.type("/write record<enter>")
        assert driver.page == "ExportWindow"


async def test_what_is_typed_into_a_field_may_hold_the_key_that_finds() -> None:
    async with driven(
        session=sitting(baseline({"history.services": [{}]}), "history.services.0.on")
    ) as driver:
        await driver.type("23/10")
        assert driver.app.focused.value == "23/10"
        await driver.type("<ctrl+f>nothing of that name")
        await driver.sees("nothing here has these letters", at=".window")
        assert "Age" not in driver.read("#found")
        await driver.type("<enter><escape>")
        assert (driver.page, driver.app.focused.value) == ("WizardPage", "23/10")


async def test_up_and_down_choose_among_what_is_found() -> None:
    places = []
    for moves in ("", "<down>", "<down><up>"):
        async with driven(LARGE, session=sitting(baseline(), "client.applied_by")) as driver:
            await driver.type(f"/white {moves}<enter>")
            places.append(driver.position)
    assert places[0] == places[2] != places[1]


async def test_every_key_of_the_key_line_can_be_clicked() -> None:
    async with driven(session=sitting(baseline(), "client.applied_by")) as driver:
        await driver.click("F2 review")
        assert driver.page == "ReviewPage"
        await driver.click("F3 result")
        assert driver.page == "ResultPage"
        await driver.click("Esc back")
        await driver.click("Esc back")
        assert driver.page == "WizardPage"
        await driver.click("Tab leave open")
        assert driver.position == "client.age"


async def test_the_marks_are_explained_in_the_help() -> None:
    async with driven((120, 70), session=sitting(baseline(), "client.applied_by")) as driver:
        await driver.type("<f1>")
        await driver.sees("+ - _ ·", "answered, begun, open, may stay open", at="HelpWindow #text")


async def test_all_unfinished_consultations_are_reached_and_removed_with_two_keys() -> None:
    for number in range(8):
        save_text(draft_folder() / f"2026-11-25-10000{number}.toml", f'[client]\nname = "Kim {number}"\n')
    async with driven(LARGE) as driver:
        await driver.type("<tab>7")
        names = [f"Kim {number}" for number in range(8)]
        await driver.sees(*names, at="#acts")
        await driver.type("<delete>")
        await driver.sees("Delete again", at="#error")
        assert len(offered(100).drafts) == 8
        await driver.type("<down><delete>")
        assert len(offered(100).drafts) == 8, "another one: it is asked again"
        await driver.type("<delete>")
        assert len(offered(100).drafts) == 7
        await driver.type("<escape>")
        await driver.sees("New consultation", at="#acts")


async def test_delete_removes_nothing_but_an_unfinished_consultation_in_its_list() -> None:
    save_text(draft_folder() / "2026-11-25-100000.toml", '[client]\nname = "Kim"\n')
    async with driven(LARGE) as driver:
        await driver.type("<tab><down><delete><delete>")
        assert len(offered().drafts) == 1
