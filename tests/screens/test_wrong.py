"""Something went wrong: the day told at the keyboard, an emergency first, and the advice of the command line."""

import json
import re
from datetime import datetime
from pathlib import Path

import pytest

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind
from consult.cli import main
from consult.interview import slip as steps
from consult.interview.mishap import MishapOf
from consult.records.codec import read_file
from consult.records.demos import demo_folder
from consult.records.drafts import offered
from consult.records.wanted import Origin, Purpose, Wanted
from consult.remedies.day import DayLog
from consult.report.advice import blocks_data
from consult.screens.wrong import AdvicePage, WrongPage
from consult.trade import Voice
from tests.demo import NOW
from tests.screens.driver import LARGE, SMALL, Driver, driven

PEOPLE = sorted((demo_folder() / "gone_wrong").glob("*.toml"))
NO_RECORD = "221"
"""At home, something went wrong, no record at hand."""


def _keys(page: WrongPage, wanted: DayLog) -> str:
    row = steps.row_in_hand(page.slip, Voice.HOME)
    value = getattr(wanted, page.slip.here)
    if value is None:
        return "<tab>"
    if value == NOT_SURE:
        return "?"
    if row.kind is Kind.SEVERAL:
        picked = "".join(next(o.key for o in row.options if o.value == one) for one in value)
        return f"{picked}<enter>" if picked else "0"
    if row.kind is Kind.CHOICE:
        return next(option.key for option in row.options if option.value == value)
    return f"{value:%Y-%m-%d %H:%M}<enter>" if isinstance(value, datetime) else f"{value:g}<enter>"


async def tell(driver: Driver, wanted: DayLog) -> None:
    """Answer what is asked as the log has it, and read whatever is an emergency."""
    while not isinstance(driver.app.screen, AdvicePage):
        page = driver.app.screen
        if driver.page == "EmergencyPage":
            await driver.type("<escape>")
            continue
        assert isinstance(page, WrongPage)
        before = page.slip
        for key in re.findall(r"<\w+>|[^<]+", _keys(page, wanted)):
            await driver.type(key)
            if driver.page == "EmergencyPage":
                await driver.type("<escape>")
        assert page.slip != before or isinstance(driver.app.screen, AdvicePage), before.here


@pytest.mark.parametrize("file", PEOPLE, ids=lambda file: file.stem)
async def test_the_demo_people_told_at_the_keyboard_get_what_the_command_line_says(
    file: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["wrong", "--json", str(file)])
    told = json.loads(capsys.readouterr().out)
    text = file.read_text("utf-8")
    record = tmp_path / "record.toml"
    record.write_text(text[: text.index("[day]")], "utf-8")
    day = read_file(file, NOW).day
    assert day
    async with driven() as driver:
        await driver.type("222")
        await driver.type(f"{record}<enter>")
        await tell(driver, day)
        page = driver.app.screen
        assert isinstance(page, AdvicePage)
        assert blocks_data(page.blocks()) == told["blocks"]
        assert driver.session.remedy().help.word == told["help"]
        assert driver.session.remedy().recorded.verdict.word == told["next_consultation"]
        await driver.sees(driver.session.remedy().help.title, at="#verdict")


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_a_reaction_is_said_at_once_and_its_record_stops_the_next_consultation(
    size: tuple[int, int], tmp_path: Path
) -> None:
    record = tmp_path / "record.toml"
    async with driven(size) as driver:
        await driver.type(NO_RECORD)
        await driver.type("4")
        assert driver.page == "EmergencyPage"
        await driver.sees("DO NOW See a doctor", "Rinse it all out now", at="#steps")
        await driver.type("<escape><enter>")
        await driver.type("4")  # the face swells: graver than what has been said
        await driver.sees("DO NOW EMERGENCY: ring now", "ring 112 before anything else", at="#steps")
        await driver.type("<escape><enter>")
        await driver.type("21c")
        await driver.sees("EMERGENCY: ring now", "must be: F4", at="#verdict")
        await driver.type("<f4>")
        await driver.type(f"{record}<enter>")
        await driver.sees("The record is written", at="Toast")
    loaded = read_file(record, NOW)
    assert loaded.day
    assert loaded.result
    assert loaded.result["verdict"] == "stop"
    assert isinstance(loaded.answers.history.services, tuple)
    assert [service.stretch for service in loaded.answers.history.services] == ["all over"]
    assert loaded.day.signs == ("swelling of face, eyes or scalp",)
    async with driven(opening=Wanted(Origin.FILE, Voice.HOME, record)) as driver:
        await driver.sees("Stop: no colour", "You have reacted to hair colour")


@pytest.mark.parametrize(
    ("what", "signs", "page"),
    [
        ("2", "", "Rinse the eye at once"),
        ("1", "", "Ring the poison centre"),
        ("3", "", "Take it away, wipe the mouth"),
        ("4<escape><enter>", "?", "ring 112 before anything else"),
        ("4<escape><enter>", "2", "cool running water for 20 minutes"),
        ("6<enter>", "8", "ring 112 before anything else"),
    ],
)
async def test_whatever_is_an_emergency_opens_its_page_with_the_answer(
    what: str, signs: str, page: str
) -> None:
    async with driven() as driver:
        await driver.type(NO_RECORD)
        await driver.type(what + signs)
        assert driver.page == "EmergencyPage"
        await driver.sees(page, at="#steps")


async def test_what_went_wrong_is_asked_first_and_nothing_is_advised_before() -> None:
    async with driven((80, 70)) as driver:
        await driver.type(NO_RECORD)
        for key in ("0", "?", "<f3>", "<enter>"):
            await driver.type(key)
            assert driver.page == "WrongPage"
            await driver.sees("What went wrong?")
        await driver.type("6<f3>")
        assert driver.page == "AdvicePage"
        await driver.sees("Still to tell", "how the skin is now", at="#lines")


async def test_a_day_half_told_is_offered_again_as_what_it_is() -> None:
    async with driven() as driver:
        await driver.type(NO_RECORD)
        await driver.type("6<enter>0")
    assert [draft.purpose for draft in offered().drafts] == [Purpose.WRONG]
    async with driven() as driver:
        await driver.sees("Go on with no name yet something went wrong, saved")
        await driver.type("22")
        assert driver.page == "WrongPage"
        await driver.sees("How are scalp and skin now?")
        assert driver.session.day == DayLog(what=("too dark",), signs=())


async def test_the_numbers_of_the_record_count(tmp_path: Path) -> None:
    record = tmp_path / "record.toml"
    record.write_text('[client]\nage = 40\n\n[salon.settings]\nemergency_number = "911"\n', "utf-8")
    wanted = Wanted(Origin.FILE, Voice.HOME, record, Purpose.WRONG)
    async with driven(opening=wanted) as driver:
        await driver.sees("What went wrong?")
        await driver.type("2")
        await driver.sees("EMERGENCY: ring 911")


async def test_undo_and_back_take_an_answer_back() -> None:
    async with driven() as driver:
        await driver.type(NO_RECORD)
        await driver.type("67<ctrl+z>")
        assert driver.session.day == DayLog(what=("too dark",))
        await driver.type("<enter><escape><delete>")
        assert driver.session.day == DayLog()
        await driver.type("<escape>")
        assert driver.page == "StartPage"


def test_only_what_the_advice_needs_is_asked() -> None:
    nobody, marit = (
        MishapOf(Answers()),
        MishapOf(read_file(PEOPLE[0], NOW).answers),
    )
    for asks in (nobody, marit):
        assert asks(DayLog())[:3] == ("what", "signs", "skin")
        assert "minutes_new_growth" not in asks(DayLog(what=("in the eye",)))
        assert "minutes_new_growth" not in asks(DayLog(what=("too dark",), skin="irritated"))
    assert "lengths_depth" not in nobody(DayLog(what=("too dark",)))
    assert "lengths_depth" in marit(DayLog(what=("too dark",)))
    assert "white_left" in marit(DayLog(what=("missed white",)))
    assert "white_left" not in marit(DayLog(what=("too dark",)))
    assert "kind" in nobody(DayLog(what=("too dark",)))
    assert "kind" not in marit(DayLog(what=("too dark",)))
