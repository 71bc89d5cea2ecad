"""The interpreter's collector works between the keys, where nobody waits for it."""

import gc
from typing import Final

YOUNG: Final = 1
ALL: Final = 2
"""Its generations: what the last keys have left, and everything."""
ROUNDS: Final = 10
"""Of the young, after which all is gone through: the interpreter's own number. It takes some milliseconds."""
MOST_LITTER: Final = 50_000
"""Objects more than before at which it works all the same (assumption): a key makes a few thousand, and what computes
long without a key must not fill the memory."""


def begin() -> None:
    """From now on it works; what has been loaded lasts, and is not looked at again."""
    if gc.isenabled():
        return
    gc.collect()
    gc.freeze()
    gc.set_threshold(MOST_LITTER)
    gc.enable()


def between_keys() -> None:
    """A key has been dealt with, and none waits."""
    if gc.isenabled():
        gc.collect(ALL if gc.get_count()[ALL] >= ROUNDS else YOUNG)
