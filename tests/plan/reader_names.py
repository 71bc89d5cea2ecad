"""A part of the reader: whether what things are called, today, in the plan's name and for next time, is what is done.

It shares no code with what writes a record either.
"""

from collections.abc import Iterator
from typing import Any

DAMAGE_FROM = 3
"""Passes over the same hair from which damage is clear (repeated dyeing, `repeat-dyeing-2024`)."""
AT_THE_SCALP, BEYOND = {"at the scalp", "new growth"}, {"lengths", "ends"}

Table = dict[str, Any]


def names(record: Table) -> Iterator[str]:
    """What is called something else than it is."""
    yield from _approach(record)
    yield from _today(record)
    yield from _afterwards(record)


def _approach(record: Table) -> Iterator[str]:
    """The name of the approach, and where colour goes."""
    plan = record["result"]["plan"]
    name, reached = plan["approach"], {s for a in plan["applications"] for s in a["stretches"]}
    everywhere = name == "all over"
    if (everywhere or "new growth" in name or "roots" in name) and not reached & AT_THE_SCALP:
        yield f"{name}, and no new growth gets colour"
    if (everywhere or "lengths" in name) and not reached & BEYOND:
        yield f"{name}, and no lengths get colour"
    if name in ("lengths only", "refresh the lengths") and reached & AT_THE_SCALP:
        yield f"{name}, and new growth gets colour"


def _today(record: Table) -> Iterator[str]:
    """What the eye has read of lengths and ends, in the head and in the forecast of it."""
    read = {b["start_cm"]: b for b in record["result"]["head"]["bands"] if b["seen"]}
    for band in record["result"]["forecast"]["bands"]:
        eye, seen = read.get(band["start_cm"]), band["stages"][0]["seen"]
        metered = band["stretch"] == "lengths" and "lengths_measured" in record["hair"]
        if eye and not metered and (eye["depth"], eye["tone"]) != (seen["depth"], seen["tone"]):
            yield (
                f"{band['stretch']}: {eye['depth']:g} {eye['tone']} read, today {seen['depth']:g} {seen['tone']} told"
            )


def _afterwards(record: Table) -> Iterator[str]:
    """Next time, as aftercare, next date and ledger tell it."""
    plan = record["result"]["plan"]
    told = " ".join(line["say"] for line in (*plan["aftercare"], *plan["visit"]["lines"]))
    passes = [a["passes_after"] for a in plan["ledger"] if a["stretch"] in BEYOND]
    again = [words for words in ("will want a refresh", "demi-permanent refresh") if words in told]
    if max(passes, default=0) >= DAMAGE_FROM and again:
        yield f"{max(passes)} passes on the lengths, and they are sent for another"
    if max(passes, default=0) < DAMAGE_FROM and "without developer, or not at all" in told:
        yield f"{max(passes)} passes on the lengths, and they are told to have had enough"
    near = [a for a in plan["applications"] if AT_THE_SCALP & set(a["stretches"])]
    if ("that was left alone" in told) is bool(near):
        yield "new growth gets colour and is said to be left alone, or the other way round"
