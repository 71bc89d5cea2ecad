"""The emergency page: one key from anywhere, whom to ring first, and nothing that was open is lost."""

from pathlib import Path

import pytest

from consult.records.demos import demo_files
from consult.records.wanted import Origin, Wanted
from consult.salon import config_from_data
from consult.screens.app import ConsultApp
from consult.trade import Voice
from tests.baseline import baseline
from tests.screens.driver import SMALL, Driver, demo, driven, sitting


async def opens_and_leaves(driver: Driver) -> None:
    below = driver.pages
    await driver.type("<f9>")
    assert driver.page == "EmergencyPage"
    await driver.sees("EMERGENCY: ring 112", "1 Hard to breathe", "6 Itching", 'say "anaphylaxis"')
    await driver.type("<f9>")  # Whoever is afraid presses it twice.
    assert driver.page == "EmergencyPage"
    await driver.type("<escape>")
    assert driver.pages == below


async def test_it_opens_over_every_page_and_every_window_and_leads_back_there() -> None:
    async with driven(session=demo("ines")) as driver:
        for keys, page in (
            ("", "ReviewPage"),
            ("<f3>", "ResultPage"),
            ("<f4>", "ExportWindow"),
            ("<escape><f1>", "HelpWindow"),
            ("<escape>/", "FindWindow"),
            ("<escape><escape><escape>", "WizardPage"),
        ):
            await driver.type(keys)
            assert driver.page == page
            await opens_and_leaves(driver)
    async with driven() as driver:
        await opens_and_leaves(driver)


async def test_it_opens_over_a_stop_and_the_stop_is_there_again() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.type("15<enter>")
        assert driver.page == "StopNotice"
        await opens_and_leaves(driver)
        assert driver.page == "StopNotice"


async def test_what_is_half_typed_is_there_again() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.type("4")
        await driver.type("<f9>3<escape>1<enter>")
        assert driver.answers.client.age == 41


async def test_a_digit_says_what_is_seen_and_the_first_act_is_in_sight() -> None:
    async with driven() as driver:
        await driver.type("<f9>")
        for digit, first in enumerate(
            (
                "ring 112 before anything else",
                "Rinse the eye at once",
                "Ring the poison centre",
                "Ring the poison centre",
                "cool running water for 20 minutes",
                "Rinse it all out now",
            ),
            1,
        ):
            await driver.type(str(digit))
            await driver.sees("DO NOW", first, "DO NOT", at="#steps")


async def test_the_numbers_are_those_of_the_place() -> None:
    settings = {"emergency_number": "911", "poison_centre": "1-800-222-1222"}
    async with driven(salon=config_from_data({"settings": settings}, "s")) as driver:
        await driver.type("<f9>")
        await driver.sees("EMERGENCY: ring 911", "1-800-222-1222")
        assert "112" not in driver.screen.replace("1-800-222-1222", "")


@pytest.mark.parametrize("size", [(40, 12), (58, 18), SMALL])
async def test_it_needs_no_room(size: tuple[int, int]) -> None:
    async with driven(size) as driver:
        await driver.type("<f9>")
        await driver.sees("EMERGENCY: ring 112", "1 Hard to breathe", "DO NOW")
        await driver.type("<pagedown>" * 20)
        await driver.sees("Consumer Products)")


async def test_what_is_being_opened_opens_all_the_same(tmp_path: Path) -> None:
    wanted = Wanted(Origin.DEMO, Voice.HOME, demo_files()["ines"])
    app = ConsultApp(opening=wanted)
    async with app.run_test(size=SMALL) as pilot:
        driver = Driver(app, pilot)
        await driver.type("<f9>")
        await driver.type("<escape>")
        await driver.sees("question 1 of", at="#heading")
