"""What a key costs: nothing moves that need not move, nobody waits for the writer or for the collector of litter."""

import gc
import time
import weakref
from typing import Any

import pytest
from textual.content import Content
from textual.driver import Driver as ScreenDriver
from textual.screen import Screen

from consult.screens import litter
from consult.screens.driver import handing_over
from consult.trade import Voice
from consult.widgets.text import TextBlock, styled
from tests.baseline import baseline
from tests.screens.driver import SMALL, Driver, demo, driven, sitting


async def test_the_questions_do_not_move_while_their_page_is_answered() -> None:
    """A high porosity has a caution, a normal one none; the gate panel shrinks with the next page."""
    session = sitting(baseline(), "hair.porosity_root", voice=Voice.STYLIST)
    async with driven(SMALL, session=session) as driver:
        gate = driver.app.screen.query_one("#gate")
        low = gate.size.height
        await driver.type("3")
        high = gate.size.height
        assert high > low
        await driver.type("<shift+tab>2")
        assert "Clear" in driver.read("#gate")
        assert gate.size.height == high
        await driver.resize(100, 24)
        assert gate.size.height == low
        await driver.type("<shift+tab>3<shift+tab>2")
        assert gate.size.height > low
        while driver.position.startswith("hair."):
            await driver.type("<tab>")
        assert gate.size.height == low


async def test_a_text_of_as_many_lines_lays_nothing_out_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    laid_out = 0
    lay_out = Screen._refresh_layout

    def counted(self: Screen[Any], *given: Any, **options: Any) -> None:
        nonlocal laid_out
        laid_out += 1
        lay_out(self, *given, **options)

    async with driven(SMALL, session=demo("ines", Voice.HOME)) as driver:
        await driver.type("<f3>l")
        why = driver.app.screen.query_one("#why", TextBlock)
        why.show(styled("nothing"))
        await driver.settle()
        monkeypatch.setattr(Screen, "_refresh_layout", counted)
        for text in ("one", "one\ntwo", "one\ntwo\nthree"):
            why.show(styled(text))
            await driver.settle()
            assert (laid_out, why.size.height) == (0, 3)
            assert driver.read("#why") == text.replace("\n", " ")
        long = "word " * 70  # 350 characters on 78 columns
        for text, lines, anew in (
            ("1\n2\n3\n4\n5", 5, True),
            (long, 5, False),
            ("\n".join("123456789"), 7, True),
            ("\n".join("12345678"), 7, False),
            ("one", 3, True),
        ):
            laid_out = 0
            why.show(styled(text))
            await driver.settle()
            assert why.size.height == lines
            assert bool(laid_out) == anew


async def test_a_part_in_hand_is_in_sight_and_marked_without_its_texts_being_drawn_anew() -> None:
    async with driven((60, 20), session=demo("ines", Voice.HOME)) as driver:
        await driver.type("<f3>")
        parts = driver.app.screen.query_one("#parts")
        await driver.type("<up>")
        last = driver.app.screen.focused
        assert last
        assert last.id == "clock"
        assert parts.region.contains_region(last.region)
        assert driver.rows[last.region.y][last.region.x] in "▌█▎"


class Painter(ScreenDriver):
    """What the framework's driver is asked to do, in order."""

    def __init__(self) -> None:
        self.done: list[str] = []

    def write(self, data: str) -> None:
        self.done.append(data)

    def start_application_mode(self) -> None: ...
    def disable_input(self) -> None: ...
    def stop_application_mode(self) -> None: ...


def test_the_writer_has_its_turn_after_every_text(monkeypatch: pytest.MonkeyPatch) -> None:
    painter = handing_over(Painter)()  # type: ignore[call-arg]
    monkeypatch.setattr(time, "sleep", lambda _seconds: painter.done.append("turn"))
    painter.write("a")
    painter.write("b")
    assert painter.done == ["a", "turn", "b", "turn"]


class Litter:
    """Something that only the collector finds."""

    def __init__(self) -> None:
        self.itself = self


async def test_litter_is_cleared_away_behind_a_key_and_what_is_older_behind_some() -> None:
    before = gc.get_threshold()
    gc.set_threshold(0)  # The collector does nothing by itself.
    try:
        async with driven(SMALL, session=sitting(baseline(), "client.age")) as driver:
            gone = weakref.ref(Litter())
            assert gone()
            await driver.type("<down>")
            assert not gone()
            old = Litter()
            gone = weakref.ref(old)
            gc.collect()
            del old
            await driver.type("<up>")
            assert gone()
            for _ in range(litter.ROUNDS):
                await driver.type("<down>")
            assert not gone()
    finally:
        gc.set_threshold(*before)


def colours(driver: Driver) -> list[tuple[str, str]]:
    """Every text on the screen with its style."""
    rows = driver.app.screen._compositor.render_strips()
    return [(part.text, str(part.style)) for row in rows for part in row]


async def test_lines_that_are_kept_are_drawn_anew_in_another_look() -> None:
    """The same words have other colours then: those that they have in a program that was begun in this look."""

    def begun() -> Any:
        return driven(SMALL, session=sitting(baseline(), "hair.porosity_root", voice=Voice.STYLIST))

    async with begun() as driver:
        seen = {driver.app.theme: colours(driver)}
        for _ in range(2):
            await driver.type("<f6>")
            seen[driver.app.theme] = colours(driver)
    assert len(seen) == 3
    for look, shown in seen.items():
        async with begun() as driver:
            driver.app.theme = look
            await driver.settle()
            await driver.type("<down><up>")
            assert colours(driver) == shown


async def test_only_the_lines_that_changed_are_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[str] = []
    draw = Content.render_strips

    def noted(self: Content, *given: Any) -> Any:
        drawn.append(self.plain)
        return draw(self, *given)

    async with driven(
        SMALL, session=sitting(baseline(), "hair.porosity_root", voice=Voice.STYLIST)
    ) as driver:
        monkeypatch.setattr(Content, "render_strips", noted)
        await driver.type("<down>")
        before = colours(driver)
        await driver.type("<right>")
        assert colours(driver) != before  # The same words, one of them in hand.
    assert any("lengths" in line for line in drawn)
    assert not any("Length " in line for line in drawn)
