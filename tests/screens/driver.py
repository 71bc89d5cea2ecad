"""A person at the keyboard: keys written as they are pressed, and the screen as it is read."""

import asyncio
import re
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import Any

from textual import events
from textual.geometry import Region
from textual.keys import _character_to_key
from textual.pilot import Pilot

from consult.answers import Answers
from consult.interview import intake as steps
from consult.records.codec import read_file
from consult.records.demos import demo_files
from consult.screens.app import ConsultApp
from consult.session import Session
from consult.trade import Voice
from tests.baseline import NOW

SMALL, LARGE = (80, 24), (120, 40)
LONGEST = 10.0
"""Seconds for one text that is typed."""
_KEY = re.compile(r"<([a-z0-9+]+)>|(.)", re.DOTALL)
_PATH = re.compile(r"/[^<]*/[^<]{6,}")
_CHARACTERS = {"enter": "\r", "space": " "}


@dataclass
class Driver:
    """The running program, its keyboard and its screen."""

    app: ConsultApp
    pilot: Pilot[None]

    async def type(self, keys: str) -> None:
        """Press keys without a pause between them, then wait until all is done: `41<enter>`, `<f2>n`. A path is
        pasted."""
        if path := _PATH.match(keys):
            self.app.post_message(events.Paste(path[0]))
            keys = keys[path.end() :]
        for name, character in self.keys_of(keys):
            key = name or _character_to_key(character)
            self.app.post_message(events.Key(key, character or _CHARACTERS.get(name)))
        await self.settle()

    @staticmethod
    def keys_of(keys: str) -> list[tuple[str, str]]:
        """The key presses in a text: (name, "") of a named key, or ("", character)."""
        return _KEY.findall(keys)

    async def settle(self) -> None:
        """Until every widget has answered its messages, and the messages that came of them."""
        await self.pilot._wait_for_screen()
        deadline, keyboard = time.monotonic() + LONGEST, self.app.keyboard
        while (keyboard._in_hand or not keyboard._waiting.empty()) and not self.app._exit:
            assert time.monotonic() < deadline, "the keyboard is stuck"
            await asyncio.sleep(0)
        if not self.app._exit:
            async with asyncio.timeout(LONGEST):
                await keyboard._settled()

    async def click(self, words: str) -> None:
        """Click on the first place where these words stand."""
        row = next(number for number, text in enumerate(self.rows) if words in text)
        await self.pilot.click(offset=(self.rows[row].index(words) + 1, row))
        await self.settle()

    async def sees(self, *words: str, at: str = "Screen") -> None:
        """Wait until the words stand on the screen; the painter may be a moment behind."""
        for _ in range(300):
            seen = self.screen if at == "Screen" else self.read(at)
            if all(word in seen for word in words):
                return
            await self.pilot.pause(0.01)
        raise AssertionError(f"{[word for word in words if word not in seen]} not in: {seen}")

    async def resize(self, width: int, height: int) -> None:
        await self.pilot.resize_terminal(width, height)
        await self.pilot.pause()
        await self.settle()

    @property
    def rows(self) -> list[str]:
        """What stands on the screen, row by row."""
        return [strip.text.rstrip() for strip in self.app.screen._compositor.render_strips()]

    @property
    def screen(self) -> str:
        """The same in one line of single-spaced words."""
        return _words(self.rows)

    def read(self, part: str) -> str:
        """What stands on one part of the screen, so that a sentence is found where it wraps."""
        found = self.app.screen.query(part)
        region = found.first().region if found else Region()
        return _words([row[region.x : region.right] for row in self.rows[region.y : region.bottom]])

    @property
    def page(self) -> str:
        return type(self.app.screen).__name__

    @property
    def pages(self) -> list[str]:
        return [type(page).__name__ for page in self.app.screen_stack]

    @property
    def session(self) -> Session:
        assert self.app.session
        return self.app.session

    @property
    def answers(self) -> Answers:
        return self.session.answers

    @property
    def position(self) -> str:
        return self.session.intake.position


def _words(rows: list[str]) -> str:
    return " ".join(re.sub("[│┃▊▎▔▁━─┏┓┗┛▇▆▅▄▃▂█]", " ", "\n".join(rows)).split())


@asynccontextmanager
async def driven(size: tuple[int, int] = SMALL, **options: Any) -> AsyncIterator[Driver]:
    """The program as it starts. Whatever fails inside it fails the test."""
    app = ConsultApp(**options)
    async with app.run_test(size=size, notifications=True) as pilot:
        driver = Driver(app, pilot)
        await driver.settle()
        yield driver
    assert app.fatal == ""


def sitting(answers: Answers | None = None, position: str | None = None, **options: Any) -> Session:
    """A consultation at a fixed moment, as it stands after some answers."""
    return Session(intake=steps.start(answers, position), at=NOW, **options)


def demo(name: str, voice: Voice = Voice.HOME) -> Session:
    """A demo client with every answer on one page."""
    session = Session.demo(read_file(demo_files()[name], NOW), voice)
    session.intake = steps.jump(session.intake, steps.REVIEW)
    return session
