"""The day on the screen: the clock, the keys, the bell, and what is kept of it."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from textual.app import App

import consult.screens.day as page
from consult.day import day as days
from consult.day.clock import Reading
from consult.records.store import HOME_VARIABLE
from consult.trade import Voice
from tests.screens.driver import LARGE, SMALL, Driver, demo, driven


@dataclass
class Hand:
    """The day of a demo client, a clock that goes as it is told, and how often the bell rang."""

    driver: Driver
    seconds: float = 0.0
    rung: int = 0

    @property
    def reading(self) -> Reading:
        return Reading(1_790_000_000.0 + self.seconds, 5_000.0 + self.seconds, "")

    async def wait(self, minutes: float) -> None:
        self.seconds += 60 * minutes
        await self.paint()

    async def paint(self) -> None:
        if self.driver.page == "DayPage":
            self.driver.app.screen.show_standing()  # type: ignore[attr-defined]
        await self.driver.settle()

    async def type(self, keys: str) -> None:
        await self.driver.type(keys)
        await self.paint()

    async def ready(self) -> None:
        """All steps before the first touch."""
        while "first touch" not in self.driver.read("#now") and "first hair" not in self.driver.read("#now"):
            await self.type(" ")

    async def put_on(self, *minutes: float) -> None:
        await self.ready()
        await self.type(" ")
        for each in minutes:
            await self.wait(each)
            await self.type(" ")

    def sees(self, *words: str) -> None:
        for word in words:
            assert word in self.driver.screen, f"{word} not in: {self.driver.screen}"

    def misses(self, *words: str) -> None:
        for word in words:
            assert word not in self.driver.screen


@asynccontextmanager
async def at_the_chair(
    monkeypatch: pytest.MonkeyPatch,
    name: str = "tomas",
    voice: Voice = Voice.STYLIST,
    size: tuple[int, int] = SMALL,
) -> AsyncIterator[Hand]:
    async with driven(size, session=demo(name, voice)) as driver:
        hand = Hand(driver)
        monkeypatch.setitem(days.open_day.__kwdefaults__, "clock", lambda: hand.reading)
        monkeypatch.setattr(page, "REPEATED", 0.0)

        def ring(app: App[None]) -> None:
            hand.rung += 1

        monkeypatch.setattr(App, "bell", ring)
        await driver.type("<f3><f8>")
        await driver.sees("The day")
        yield hand


SECTIONS = (7, 8, 7, 7)


@pytest.mark.parametrize("size", [SMALL, LARGE])
@pytest.mark.parametrize("voice", [Voice.STYLIST, Voice.HOME])
async def test_a_day_from_the_first_step_to_the_record(
    voice: Voice, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_the_chair(monkeypatch, "ines", voice, size) as hand:
        hand.sees("nothing is on the head", "Stinging", "Space: done")
        await hand.put_on(*SECTIONS)
        hand.sees(
            "Nothing to do for 5:00", "Next: look at a strand", "begin lengths and ends in 30:00", "on 29:00"
        )
        await hand.wait(5)
        hand.sees("Wipe", "may stay 30:00")
        await hand.wait(25)
        await hand.type(" ")
        assert "rinse all of it in 5:00" in hand.driver.screen
        await hand.wait(0)
        while "RINSE" not in hand.driver.read("#now"):
            await hand.type(" ")
            await hand.wait(1)
        await hand.type(" ")
        while "F4 writes it" not in hand.driver.screen:
            await hand.type(" ")
        day = hand.driver.session.day
        assert day is not None
        assert (day.minutes_new_growth, day.minutes_lengths) == (35, 5)
        assert day.minutes_putting_on == pytest.approx(29, abs=0.5)
        await hand.type("<f4>")
        hand.sees("the record, which can be opened again")


async def test_whatever_is_pressed_the_longest_minutes_end_in_the_rinse(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    async with at_the_chair(monkeypatch) as hand:
        await hand.put_on(*SECTIONS)
        await hand.wait(29)
        await hand.type("++++l")
        hand.sees("in 6:00", "may stay 6:00")
        await hand.wait(6)
        hand.sees("RINSE NOW", "longest minutes are reached")
        await hand.type("+l")
        hand.sees("RINSE NOW")
        hand.misses("put off for")


async def test_something_that_comes_due_rings_once_and_again_when_it_is_a_rinse(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    async with at_the_chair(monkeypatch) as hand:
        await hand.put_on(*SECTIONS)
        before = hand.rung
        await hand.wait(4)
        assert hand.rung == before
        await hand.wait(1)
        await hand.wait(0.1)
        assert hand.rung == before + 1
        await hand.type(" ")
        await hand.wait(31)
        assert hand.rung == before + 2


async def test_who_wants_less_motion_gets_the_bell_and_no_blink(monkeypatch: pytest.MonkeyPatch) -> None:
    for level, blinks in (("full", True), ("none", False)):
        async with at_the_chair(monkeypatch) as hand:
            hand.driver.app.animation_level = level  # type: ignore[assignment]
            await hand.put_on(*SECTIONS)
            rung = hand.rung
            await hand.wait(5)
            assert hand.rung == rung + 1
            assert hand.driver.app.screen.query_one("#now").has_class("blink") is blinks


async def test_stop_says_what_to_do_and_can_be_taken_back(monkeypatch: pytest.MonkeyPatch) -> None:
    async with at_the_chair(monkeypatch) as hand:
        await hand.put_on(7)
        await hand.type("s")
        hand.sees("Stopped. Rinse at once, lukewarm", "left out")
        await hand.type("u")
        hand.misses("Stopped")
        await hand.type("s ")
        hand.sees("All is off", "F4 writes it")


async def test_the_emergency_page_is_one_key_away_and_the_clock_goes_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for key in ("e", "<f9>"):
        async with at_the_chair(monkeypatch) as hand:
            await hand.put_on(7)
            await hand.type(key)
            hand.sees("EMERGENCY")
            await hand.wait(3)
            await hand.type("<escape>")
            hand.sees("on 10:00")


async def test_a_finger_that_lies_on_the_key_does_one_thing(monkeypatch: pytest.MonkeyPatch) -> None:
    async with at_the_chair(monkeypatch) as hand:
        await hand.put_on(7)
        monkeypatch.setattr(page, "REPEATED", 60.0)
        await hand.type("   <enter><enter>")
        hand.sees("Put on: front right")


async def test_a_plan_that_is_not_made_opens_no_day() -> None:
    async with driven(session=demo("mirela")) as driver:
        await driver.type("<f3><f8>")
        assert driver.page == "ResultPage"
        await driver.sees("No plan is made")


async def test_closed_and_opened_again_it_goes_on_where_the_hair_is(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv(HOME_VARIABLE, str(tmp_path))
    session = demo("tomas", Voice.STYLIST)
    session.keep = True
    for first in (True, False):
        async with driven(session=session) as driver:
            hand = Hand(driver, 0.0 if first else 29 * 60 + 20 * 60)
            monkeypatch.setitem(days.open_day.__kwdefaults__, "clock", lambda hand=hand: hand.reading)
            monkeypatch.setattr(page, "REPEATED", 0.0)
            await driver.type("<f3><f8>")
            await driver.sees("The day")
            if first:
                await hand.put_on(*SECTIONS)
            else:
                hand.sees("on 49:00, may stay 15:00")


async def test_of_two_windows_the_second_shows_the_day_and_takes_no_key(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv(HOME_VARIABLE, str(tmp_path))
    session = demo("tomas", Voice.STYLIST)
    session.keep = True
    hand_clock = Hand.__new__(Hand)
    hand_clock.seconds = 0.0
    monkeypatch.setitem(days.open_day.__kwdefaults__, "clock", lambda: hand_clock.reading)
    other = days.open_day(session.answers, None, session.now(), keep=True, clock=lambda: hand_clock.reading)
    async with driven(session=session) as driver:
        await driver.type("<f3><f8>")
        await driver.sees("open in another window")
        await driver.type(" s")
        assert "Stinging" in driver.read("#now")
        other.do(other.stands())
        driver.app.screen.show_standing()  # type: ignore[attr-defined]
        await driver.sees("Read the leaflet once more")
        other.close()
        driver.app.screen.show_standing()  # type: ignore[attr-defined]
        await driver.settle()
        assert "another window" not in driver.screen


@pytest.mark.parametrize(("size", "bars"), [((60, 20), 0), (SMALL, 0), (LARGE, 4), ((160, 50), 4)])
async def test_each_section_has_a_bar_of_its_minutes_where_there_is_room(
    size: tuple[int, int], bars: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_the_chair(monkeypatch, size=size) as hand:
        await hand.put_on(*SECTIONS)
        await hand.wait(7)
        drawn = [row for row in hand.driver.rows if "░" in row]
        assert len(drawn) == bars
        for row in drawn:  # seven of thirty-five minutes
            assert row.count("█") / (row.count("█") + row.count("░")) == pytest.approx(0.2, abs=0.02)
        await hand.wait(60)
        hand.sees("RINSE NOW")
        assert not [row for row in hand.driver.rows if "░" in row]
