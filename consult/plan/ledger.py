"""The exposure ledger: oxidative passes and peroxide-minutes of every band, before and after the plan."""

from dataclasses import dataclass

from consult.plan.brief import Brief
from consult.plan.clock import develop, full_minutes
from consult.plan.developer import on_head
from consult.plan.types import Approach, Line
from consult.sources import Number
from consult.strand.bands import Band, Zone

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


def minutes_on(brief: Brief, approach: Approach, band: Band) -> int:
    """Minutes this plan leaves product on a band, as the leaflet counts them; 0 where it stays away."""
    if approach is Approach.NEW_GROWTH:
        return full_minutes(brief) if band.zone is Zone.NEW_GROWTH else 0
    if approach is Approach.REFRESH:
        clock = develop(brief, refresh=True)
        return clock.end if band.zone is Zone.NEW_GROWTH else clock.end - clock.lengths_from
    return full_minutes(brief)


def keep_ledger(brief: Brief, approach: Approach) -> tuple[Entry, ...]:
    """One entry a band of the strand."""
    strength = on_head(brief.developer_percent, brief.ratio)
    entries = []
    for band in brief.strand.bands:
        minutes = minutes_on(brief, approach, band)
        entries.append(
            Entry(
                band.start_cm,
                band.end_cm,
                band.zone.value,
                band.passes,
                band.passes + (minutes > 0),
                round(band.peroxide_minutes, 1),
                round(band.peroxide_minutes + strength * minutes, 1),
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
            "Percent peroxide on the head times minutes, over the whole known history of this hair.",
            ("repeat-dyeing-2024",),
        )
        for e in entries
    )


def _es(count: int) -> str:
    return "" if count == 1 else "es"
