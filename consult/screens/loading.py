"""What is loaded behind the first page, while somebody reads it."""

import asyncio
from importlib import import_module

from consult.screens import litter

LATER = (
    "consult.answers",
    "consult.records.codec",
    "consult.interview.rows",
    "consult.session",
    "consult.screens.wizard",
    "consult.screens.emergency",
    "consult.gates.rules",
    "consult.plan.application",
    "consult.plan",
    "consult.consultation",
    "consult.widgets.verdicts",
    "consult.screens.review",
    "numpy",
    "consult.colour.values",
    "consult.plan.forecast",
    "consult.plan.foreseen",
    "consult.report",
    "consult.screens.result",
    "consult.screens.lines",
    "consult.screens.find",
)
"""In the order in which they need each other, so that none takes long by itself: a key waits no longer than for one."""
BREATH_SECONDS = 0.005  # between two modules, for a key that waits


async def load_the_rest() -> None:
    """Import what comes after the first page while somebody reads it, so that opening and the first result are quick.

    One module after the other between the keys, and in no thread: two threads that import can lock each other out.
    The collector was off meanwhile, as cli.py has it.
    """
    for name in LATER:
        import_module(name)
        await asyncio.sleep(BREATH_SECONDS)
    from consult.gates.rules import builtin_rules

    builtin_rules()
    litter.begin()
