"""What is painted reaches the terminal at once."""

import time
from typing import Final

from textual.driver import Driver

ON_ITS_WAY: Final = 0.0004
"""Seconds in which a text passes the writer, the system and the terminal (measured where two cores are shared)."""


def handing_over(driver: type[Driver]) -> type[Driver]:
    """A driver that lets every text on its way before the program goes on.

    The writer is a thread, and a terminal is another program. Where few cores are shared, each is woken only to wait
    until this one pauses, or for the next tick of the system, which is 4 ms.
    """

    class HandingOver(driver):  # type: ignore[misc, valid-type]  # which one depends on the system
        def write(self, data: str) -> None:
            super().write(data)
            time.sleep(ON_ITS_WAY)

    return HandingOver
