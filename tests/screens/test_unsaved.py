"""A disk that takes nothing: told on every page and at the door, another place offered, and never left in silence."""

import stat
from pathlib import Path

import pytest

from consult.records.codec import read_file
from consult.records.drafts import DraftFile, draft_folder, offered
from consult.screens.app import ConsultApp
from consult.session import Session
from tests.baseline import NOW
from tests.screens.driver import LARGE, SMALL, Driver, driven, sitting

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])


def fails(driver: Driver, place: Path) -> None:
    """From now on the draft belongs where no file can be."""
    place.write_text("a file, no folder")
    driver.session.draft = DraftFile(place / "draft.toml")


@SIZES
async def test_it_is_told_on_every_page_until_it_is_saved(size: tuple[int, int], tmp_path: Path) -> None:
    async with driven(size, session=sitting(None, "client.age")) as driver:
        fails(driver, tmp_path / "file")
        await driver.type("41<enter>")
        await driver.sees("not saved", "Not a directory", at="WizardPage #error")
        await driver.type("<f2>")
        await driver.sees("not saved", "Not a directory", at="ReviewPage #trouble")
        await driver.type("<f3>")
        await driver.sees("not saved", "Not a directory", at="ResultPage #trouble")
        driver.session.draft = DraftFile()
        await driver.type("<escape>")
        await driver.type("<escape>")
        assert driver.page == "WizardPage"
        await driver.type("1")
        await driver.type("<f2>")
        assert driver.page == "ReviewPage"
        assert "not saved" not in driver.screen
    assert len(offered().drafts) == 1


@SIZES
async def test_who_leaves_is_told_and_offered_another_place(size: tuple[int, int], tmp_path: Path) -> None:
    app = ConsultApp(session=Session())
    async with app.run_test(size=size) as pilot:
        driver = Driver(app, pilot)
        await driver.settle()
        await driver.type("Ines<enter>")
        fails(driver, tmp_path / "file")
        await driver.type("1<enter>")
        await driver.type("<f3>")
        await driver.type("<ctrl+q>")
        assert driver.page == "UnsavedWindow"
        await driver.sees("This consultation is not saved", "Not a directory", "Ctrl+Q again")
        await driver.type("<escape>")
        assert driver.page == "ResultPage"
        await driver.type("<ctrl+q>")
        await driver.type("<home>")
        await driver.type("<ctrl+k>")
        (tmp_path / "there.toml").write_text("old")
        await driver.type(f"{tmp_path / 'there.toml'}<enter>")
        await driver.sees("this file exists; Enter again replaces it")
        await driver.type("<home>")
        await driver.type("<ctrl+k>")
        await driver.type(f"{tmp_path / 'other.toml'}<enter>")
    assert (app.return_code, app.fatal) == (0, "")
    assert (tmp_path / "there.toml").read_text() == "old"
    loaded = read_file(tmp_path / "other.toml", NOW)
    assert (loaded.answers.client.name, loaded.answers.goal.areas) == ("Ines", ("scalp hair",))
    assert stat.S_IMODE((tmp_path / "other.toml").stat().st_mode) == 0o600


async def test_who_leaves_all_the_same_ends_in_one_line_and_exit_code_1(tmp_path: Path) -> None:
    app = ConsultApp(session=Session())
    async with app.run_test(size=SMALL) as pilot:
        driver = Driver(app, pilot)
        await driver.settle()
        fails(driver, tmp_path / "file")
        await driver.type("Ines<enter>")
        await driver.type("<ctrl+q>")
        await driver.type("<ctrl+q>")
    assert app.return_code == 1
    assert app.fatal.startswith("consult: left without saving; not saved: ")
    assert len(app.fatal.splitlines()) == 1
    assert "Ines" not in app.fatal


async def test_a_disk_that_has_room_again_keeps_nobody_at_the_door(tmp_path: Path) -> None:
    app = ConsultApp(session=Session())
    async with app.run_test(size=SMALL) as pilot:
        driver = Driver(app, pilot)
        await driver.settle()
        fails(driver, tmp_path / "file")
        await driver.type("Ines<enter>")
        driver.session.draft = DraftFile()
        await driver.type("<ctrl+q>")
    assert (app.return_code, app.fatal) == (0, "")
    assert [draft.name for draft in offered().drafts] == ["Ines"]


async def test_the_start_page_is_not_reached_without_saving_either(tmp_path: Path) -> None:
    async with driven(session=sitting(None, "client.name")) as driver:
        fails(driver, tmp_path / "file")
        await driver.type("Ines<enter>")
        await driver.type("<escape>")
        await driver.type("<escape>")
        assert driver.page == "UnsavedWindow"
        await driver.type("<home>")
        await driver.type("<ctrl+k>")
        await driver.type(f"{tmp_path / 'other.toml'}<enter>")
        assert driver.page == "StartPage"
    assert read_file(tmp_path / "other.toml", NOW).answers.client.name == "Ines"


async def test_the_same_consultation_in_two_windows_is_told_in_the_older_and_both_are_kept() -> None:
    async with driven(session=Session()) as older:
        await older.type("Ines<enter>")
        async with driven() as newer:
            await newer.type("<tab>")
            await newer.type("2")
            await newer.type("1<enter>")
        await older.type("2<enter>")
        await older.sees("opened in another window as well; both are kept", at="#error")
        await older.type("<f2>")
        await older.sees("both are kept", at="#trouble")
    areas = {read_file(path, NOW).answers.goal.areas for path in draft_folder().iterdir()}
    assert areas == {("scalp hair",), ("beard",)}


async def test_a_consultation_taken_meanwhile_is_told_at_the_start() -> None:
    async with driven(session=Session()) as writer:
        await writer.type("Ines<enter>")
    async with driven() as late:
        await late.sees("Go on with Ines")
        async with driven() as first:
            await first.type("<tab>")
            await first.type("2")
        await late.type("<tab>")
        await late.type("2")
        await late.sees("No such file", at="#error")
        await late.sees("Go on with Ines", at="#acts")
        await late.type("<tab><tab>")
        await late.type("2")
        assert late.answers.client.name == "Ines"
