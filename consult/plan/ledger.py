"""The exposure ledger: oxidative passes and peroxide-minutes of every band, before and after the plan."""

from dataclasses import dataclass

from consult.plan.brief import Brief
from consult.plan.developer import on_head
from consult.plan.mix import PRE_PIGMENT_PERCENT
from consult.plan.timeline import Timeline
from consult.plan.types import Approach, Line
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.strand.bands import Band, Zone

FILLER_MINUTES = Number(15, "min of a filler", COMMON_PRACTICE)
CLEAR_DAMAGE_FROM = Number(3, "passes over one band", "repeat-dyeing-2024")


@dataclass(frozen=True)
class Entry:
    """One band: passes and peroxide-minutes (percent on the head times minutes) so far and afterwards."""

    start_cm: float
    end_cm: float
    zone: str
    passes: int
    passes_after: int
    peroxide_minutes: float
    peroxide_minutes_after: float


def minutes_on(timeline: Timeline, approach: Approach, band: Band) -> int:
    """Minutes of the plan on a band, as the leaflet counts them; 0 where the plan leaves it alone."""
    if approach in (Approach.NEW_GROWTH, Approach.REFRESH):
        stretch = "new growth" if band.zone is Zone.NEW_GROWTH else "lengths"
    elif timeline.exposures[0].stretch == "lengths":
        stretch = "roots" if band.zone is Zone.NEW_GROWTH else "lengths"
    else:
        stretch = timeline.exposures[0].stretch
    return max((e.clock for e in timeline.exposures if e.stretch == stretch), default=0)


def keep_ledger(brief: Brief, approach: Approach, timeline: Timeline) -> tuple[Entry, ...]:
    """One entry a band of the strand; a filler on lightened hair counts as a pass of its own."""
    strength = on_head(brief.developer_percent, brief.ratio)
    entries = []
    for band in brief.strand.bands:
        minutes = minutes_on(timeline, approach, band)
        filled = approach is Approach.PRE_PIGMENT and band.lightened
        filler = PRE_PIGMENT_PERCENT / 2 * FILLER_MINUTES if filled else 0.0
        entries.append(
            Entry(
                band.start_cm,
                band.end_cm,
                band.zone.value,
                band.passes,
                band.passes + (minutes > 0) + filled,
                round(band.peroxide_minutes, 1),
                round(band.peroxide_minutes + strength * minutes + filler, 1),
            )
        )
    return tuple(entries)


def ledger_lines(entries: tuple[Entry, ...]) -> tuple[Line, ...]:
    """One line a band; from the third pass over a band it says so."""
    return tuple(
        Line(
            f"{e.start_cm:g} to {e.end_cm:g} cm ({e.zone}): {e.passes} oxidative pass{_es(e.passes)} so far, "
            f"{e.passes_after} after this plan; peroxide-minutes {e.peroxide_minutes:.0f}, then "
            f"{e.peroxide_minutes_after:.0f}."
            + (
                " From the third pass damage becomes clear: keep colour off it when it can be helped."
                if e.passes_after >= CLEAR_DAMAGE_FROM and e.passes_after > e.passes
                else ""
            ),
            "Percent peroxide on the head times minutes, over the whole known history of this hair; what the "
            "history does not tell is estimated.",
            ("repeat-dyeing-2024", ASSUMPTION),
        )
        for e in entries
    )


def _es(count: int) -> str:
    return "" if count == 1 else "es"
