"""The interpreter's collector works between the keys, where nobody waits for it."""

import gc
from typing import Final

YOUNG: Final = 1
"""The two younger of its generations: what the last keys have left."""
MOST_LITTER: Final = 50_000
"""Objects more than before at which it works all the same (assumption): a key makes a few thousand, and what computes
long without a key must not fill the memory."""
LEISURE_SECONDS: Final = 2.0
"""Without a key, after which everything is gone through (assumption)."""


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
        gc.collect(YOUNG)


def at_leisure() -> None:
    """Nothing has been pressed for a while."""
    if gc.isenabled():
        gc.collect()
