"""Build the strand by walking the service history.

Hair that is now x cm from the scalp left it x / growth rate ago. So every past service lies at a
computable place. What the eye sees overrides what history computes, and where the two disagree
that is kept as a disagreement.
"""

from dataclasses import dataclass, replace
from datetime import date
from itertools import pairwise
from typing import Any

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.answers.history import Service
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.strand.bands import Artificial, Band, Disagreement, Strand, Zone
from consult.strand.growth import DAYS_A_MONTH, Growth, own, published
from consult.trade import COLOURS, LIGHTENERS, OXIDATIVE, STAINS

ENDS_SHARE = Number(0.25, "of the length", ASSUMPTION)
WASHES_A_WEEK = Number(3, "a week", ASSUMPTION)
USUAL_DEVELOPER = Number(6, "% where the history names none", COMMON_PRACTICE)
USUAL_MINUTES = Number(30, "min of a past service", ASSUMPTION)
EYE_TOLERANCE = Number(1.0, "levels", COMMON_PRACTICE)
SHORTEST_BAND = Number(0.2, "cm", ASSUMPTION)
# Henna stains copper red; what else is unknown is taken as neutral until the eye says more.
_STAIN_TONES = {"plain henna": "copper red", "compound or unknown henna": "copper red"}
_REACHES_SCALP = ("new growth", "new growth and lengths", "all over")


@dataclass(frozen=True)
class _Past:
    """A service laid on the strand: the cm it covers now, and its weeks ago."""

    service: Service
    start_cm: float
    end_cm: float
    weeks: float

    def covers(self, at: float) -> bool:
        return self.start_cm <= at < self.end_cm


def known(value: Any) -> Any:
    """The answer, or None when it is unasked or not sure."""
    return None if value == NOT_SURE else value


def build_strand(answers: Answers, today: date) -> Strand | None:
    """The strand today; None while length or natural depth is not known."""
    hair = answers.hair
    length, natural = known(hair.length_cm), known(hair.natural_depth)
    if not length or natural is None:
        return None
    services = _told(answers, length, today)
    new_growth: float | None = known(hair.new_growth_cm)
    growth, odd_growth = _growth(services, new_growth, known(hair.curl), today)
    past = _lay(services, growth, new_growth, length, today)
    root_end = min(length, _root_end(past, new_growth))
    ends_from = max(root_end, length * (1 - ENDS_SHARE))
    zones = [known(getattr(hair, f"white_{zone}")) for zone in ("front", "temples", "crown", "nape")]
    seen = [share for share in zones if share is not None]
    plain_band = Band(
        start_cm=0,
        end_cm=length,
        zone=Zone.NEW_GROWTH,
        natural_depth=natural,
        white_share=sum(seen) / len(seen) / 100 if seen else 0.0,
        colour=None,
        lightened=False,
        porosity="normal",
        passes=0,
        peroxide_minutes=0.0,
    )
    cuts = _cuts({root_end, ends_from, *(p.start_cm for p in past), *(p.end_cm for p in past)}, length)
    washes = known(answers.history.washes_per_week)
    washes = WASHES_A_WEEK if washes is None else washes
    bands = [
        _band(plain_band, start, end, root_end, ends_from, past, answers, washes)
        for start, end in pairwise(cuts)
    ]
    bands, odd_colour = _as_seen(bands, answers)
    disagreements = tuple(d for d in (odd_growth, *odd_colour) if d)
    return Strand(_merged(bands), growth, disagreements)


def _told(answers: Answers, length: float, today: date) -> list[Service]:
    """Services that may still be on the hair, oldest first; those without a date count as the oldest.

    A service that even slow growth has carried past the tip was cut off. One whose date is not known may
    lie anywhere, so it stays.
    """
    services = known(answers.history.services) or ()
    slowest = published(None).low
    there = [
        s
        for s in services
        if not isinstance(s.on, date) or (today - s.on).days / DAYS_A_MONTH * slowest < length
    ]
    return sorted(there, key=lambda s: s.on if isinstance(s.on, date) else date.min)


def _marks(service: Service) -> bool:
    """The service leaves colour or lightness that shows where it began; a kind not known may."""
    return known(service.kind) is None or service.kind in (*COLOURS, *LIGHTENERS, *STAINS, "colour remover")


def _reaches_scalp(service: Service) -> bool:
    """It went on at the scalp; a stretch not known may have."""
    return known(service.stretch) is None or service.stretch in _REACHES_SCALP


def _growth(
    services: list[Service], new_growth: float | None, curl: str | None, today: date
) -> tuple[Growth, Disagreement | None]:
    fallback = published(curl)
    rooted = [s.on for s in services if _marks(s) and _reaches_scalp(s) and isinstance(s.on, date)]
    if not rooted or new_growth is None:
        return fallback, None
    last = rooted[-1]
    found = own(new_growth, last, today)
    if found:
        return found, None
    # Fresh colour shows no new growth yet; that is no disagreement.
    weeks = (today - last).days / 7
    if abs(new_growth - fallback.cm((today - last).days)) < 0.6:
        return fallback, None
    return fallback, Disagreement(
        "growth-and-history-disagree",
        f"{new_growth:g} cm new growth does not fit a colour {weeks:.0f} weeks ago.",
        f"{new_growth:g} cm of new growth does not fit a colouring {weeks:.0f} weeks ago.",
        "Measure the new growth again and check the date of the last colour. The eye's reading is used.",
        ("hair.new_growth_cm", "history.services"),
    )


def _lay(
    services: list[Service], growth: Growth, new_growth: float | None, length: float, today: date
) -> list[_Past]:
    """Each service at its place on today's strand, oldest first; what was cut off is left out.

    A service of unknown date is laid over all that is not new growth.
    """
    laid: list[_Past] = []
    last_rooted = max((i for i, s in enumerate(services) if _marks(s) and _reaches_scalp(s)), default=-1)
    behind = length
    for index, service in enumerate(services):
        days = (today - service.on).days if isinstance(service.on, date) else None
        scalp_then = new_growth or 0.0 if days is None else growth.cm(days)
        if index == last_rooted and new_growth is not None:
            scalp_then = new_growth
        if scalp_then >= length:
            continue
        start, end = scalp_then, length
        if service.stretch == "new growth":
            end = max(behind, start)
        elif service.stretch == "lengths":
            start = max(start, behind if behind < length else start)
        elif service.stretch == "ends":
            start = max(start, length * (1 - ENDS_SHARE))
        laid.append(_Past(service, start, end, (days or 0) / 7))
        if _reaches_scalp(service) and days is not None:
            behind = scalp_then
    return laid


def _root_end(past: list[_Past], new_growth: float | None) -> float:
    """Where the new growth ends: as seen, else where the newest colour begins. Virgin hair has none."""
    if new_growth is not None:
        return new_growth
    return min((p.start_cm for p in past if _marks(p.service)), default=0.0)


def _cuts(places: set[float], length: float) -> list[float]:
    """Sorted band ends from 0 to the tip, those nearer than the shortest band drawn together."""
    cuts = [0.0]
    for place in sorted(places):
        if place - cuts[-1] >= SHORTEST_BAND and length - place >= SHORTEST_BAND:
            cuts.append(round(place, 1))
    return [*cuts, length]


def _band(
    base: Band,
    start: float,
    end: float,
    root_end: float,
    ends_from: float,
    past: list[_Past],
    answers: Answers,
    washes_a_week: float,
) -> Band:
    middle = (start + end) / 2
    here = [p for p in past if p.covers(middle)]
    colour: Artificial | None = None
    lightened = False
    for event in here:
        service = event.service
        if service.kind in LIGHTENERS or service.kind == "colour remover":
            colour, lightened = None, True
        elif _marks(service):
            depth, tone = known(service.depth), known(service.tone) or _STAIN_TONES.get(str(service.kind))
            colour = Artificial(
                base.natural_depth if depth is None else depth,
                tone or "neutral",
                round(event.weeks, 1),
                round(event.weeks * washes_a_week, 0),
                seen=False,
            )
    zone = Zone.NEW_GROWTH if middle < root_end else Zone.ENDS if middle >= ends_from else Zone.LENGTHS
    porosity = {
        Zone.NEW_GROWTH: answers.hair.porosity_root,
        Zone.LENGTHS: answers.hair.porosity_lengths,
        Zone.ENDS: answers.hair.porosity_ends,
    }[zone]
    return replace(
        base,
        start_cm=start,
        end_cm=end,
        zone=zone,
        colour=colour,
        lightened=lightened,
        porosity=known(porosity) or "normal",
        passes=sum(p.service.kind in OXIDATIVE or known(p.service.kind) is None for p in here),
        peroxide_minutes=sum(_peroxide_minutes(p.service) for p in here),
    )


def _peroxide_minutes(service: Service) -> float:
    """Percent on the head times minutes of one past service; half the bottle's strength is on the head."""
    if service.kind not in OXIDATIVE:
        return 0.0
    percent = known(service.developer_percent)
    return float(USUAL_DEVELOPER if percent is None else percent) / 2 * USUAL_MINUTES


def _as_seen(bands: list[Band], answers: Answers) -> tuple[list[Band], list[Disagreement]]:
    """The eye's reading put over the computed bands of lengths and ends."""
    odd: dict[str, Disagreement] = {}
    seen_bands: list[Band] = []
    for band in bands:
        part = {Zone.LENGTHS: "lengths", Zone.ENDS: "ends"}.get(band.zone)
        depth = known(getattr(answers.hair, f"{part}_depth")) if part else None
        if depth is None:
            seen_bands.append(band)
            continue
        tone = known(getattr(answers.hair, f"{part}_tone"))
        tone = tone or (band.colour.tone if band.colour else "neutral")
        if abs(depth - band.depth) > EYE_TOLERANCE and not (band.lightened and depth > band.depth):
            odd[str(part)] = _odd_depth(str(part), depth, band.depth)
        seen_bands.append(_seen_band(band, depth, tone))
    return seen_bands, list(odd.values())


def _seen_band(band: Band, depth: float, tone: str) -> Band:
    if band.colour:
        return replace(band, colour=replace(band.colour, depth=depth, tone=tone, seen=True))
    if depth < band.natural_depth - EYE_TOLERANCE or (band.lightened and depth <= band.natural_depth):
        # Darker than nature without a known colour: the stricter reading is that colour lies there.
        return replace(band, colour=Artificial(depth, tone, 0, 0, seen=True))
    if depth > band.natural_depth + EYE_TOLERANCE:
        # Lighter than nature: lightened, by a product or by the sun.
        return replace(band, colour=Artificial(depth, tone, 0, 0, seen=True), lightened=True)
    return band


def _odd_depth(part: str, seen: float, computed: float) -> Disagreement:
    return Disagreement(
        f"{part}-and-history-disagree",
        f"The {part} look depth {seen:g}; the history would leave depth {computed:g}.",
        f"The {part} look like number {seen:g}, but what was told would leave number {computed:g}.",
        "Ask again what was done to this stretch. The eye's reading is used; a strand test shows more.",
        (f"hair.{part}_depth", "history.services"),
    )


def _merged(bands: list[Band]) -> tuple[Band, ...]:
    """Neighbours with the same past and zone become one band."""
    merged: list[Band] = []
    for band in bands:
        if merged and replace(merged[-1], end_cm=band.end_cm) == replace(band, start_cm=merged[-1].start_cm):
            merged[-1] = replace(merged[-1], end_cm=band.end_cm)
        else:
            merged.append(band)
    return tuple(merged)
