"""Keys are taken one after the other: the next one when all that the last one brought about is on the screen.

Without this, a key that was pressed while a page was changing would reach a page that is no longer there, or answer
a question that nobody has seen yet.
"""

import asyncio
from collections.abc import Callable
from contextlib import suppress
from typing import Final

from textual import events
from textual.app import App
from textual.message_pump import MessagePump

from consult.screens import litter

Pressed = events.Key | events.Paste
LONGEST_WAIT: Final = 2.0
"""Seconds after which the next key is taken all the same (assumption): a page must not hold the keyboard for ever."""
LOOK_AGAIN: Final = 0.01
LEAD_AWAY: Final = ("escape", "f9", "ctrl+q")
QUIET_ROUNDS: Final = 2
"""How often nothing at all must be under way: a message may have been passed back while the others were asked."""


class Keyboard:
    """The keys that wait, and the one place that hands them to the program."""

    def __init__(self, app: App[None]) -> None:
        self._app = app
        self._waiting: asyncio.Queue[Pressed] = asyncio.Queue()
        self._in_hand: Pressed | None = None

    def holds(self, event: events.Event) -> bool:
        """True when the event is a key that has to wait its turn; it is kept."""
        if not isinstance(event, Pressed) or event.is_forwarded or event is self._in_hand:
            return False
        self._waiting.put_nowait(event)
        return True

    async def run(self) -> None:
        """Hand over one key after the other, for as long as the program runs."""
        while True:
            self._in_hand = await self._waiting.get()
            while self._is_busy(self._in_hand):
                await asyncio.sleep(LOOK_AGAIN)
            self._app.post_message(self._in_hand)
            try:
                async with asyncio.timeout(LONGEST_WAIT):
                    await self._settled()
            except TimeoutError:
                pass
            self._in_hand = None
            if self._waiting.empty():
                litter.between_keys()

    def _is_busy(self, pressed: Pressed) -> bool:
        """Whether the page is still working out what keys are for; a key that leads away does not wait for that."""
        away = isinstance(pressed, events.Key) and pressed.key in LEAD_AWAY
        return not away and getattr(self._app.screen, "busy", False)

    async def _settled(self) -> None:
        """Until no message is under way and the screen has been painted.

        The painting comes first: asking everything that may have a message takes as long as a part of it.
        """
        await self._painted()
        quiet = 0
        while quiet < QUIET_ROUNDS:
            quiet = 0 if self._under_way() else quiet + 1
            await _answered([pump.call_later for pump in self._pumps()])
        await self._painted()

    async def _painted(self) -> None:
        """Until the page has been painted, or is another one."""
        while self._under_way():
            await asyncio.sleep(0)
        page, painted = self._app.screen, asyncio.Event()
        page.call_after_refresh(painted.set)
        while not painted.is_set() and self._app.screen is page:
            with suppress(TimeoutError):
                async with asyncio.timeout(LOOK_AGAIN):
                    await painted.wait()

    def _under_way(self) -> bool:
        return any(pump.message_queue_size for pump in self._pumps())

    def _pumps(self) -> list[MessagePump]:
        """Whatever may have a message: the program, its page, and the widgets on it."""
        page = self._app.screen
        return [self._app, page, *page.walk_children()]


async def _answered(ways: list[Callable[[Callable[[], None]], bool]]) -> None:
    """Until everything that takes a call has answered one; what is closing takes none."""
    answers = asyncio.Semaphore(0)
    asked = [way(answers.release) for way in ways]
    for _ in range(sum(asked)):
        await answers.acquire()
