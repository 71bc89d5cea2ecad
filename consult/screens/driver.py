"""What is painted reaches the terminal at once."""

import time

from textual.driver import Driver


def handing_over(driver: type[Driver]) -> type[Driver]:
    """A driver that gives its writer the turn for every text.

    The writer is a thread. Without this it waits for the interpreter until the program has nothing else to do, as the
    program's own short waits begin the writer's turn anew.
    """

    class HandingOver(driver):  # type: ignore[misc, valid-type]  # which one depends on the system
        def write(self, data: str) -> None:
            super().write(data)
            time.sleep(0)

    return HandingOver
