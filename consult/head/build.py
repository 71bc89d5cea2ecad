"""Build the head: each zone's strand by walking the service history.

Hair that is now x cm from the scalp left it x / growth rate ago. So every past service lies at a
computable place. What the eye sees overrides what history computes, and where the two disagree
that is kept as a disagreement.
"""

from datetime import date
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from consult.answers import Answers
from consult.answers.base import known
from consult.answers.hair import ALL_WHITE
from consult.answers.history import Service, each_time
from consult.answers.typed_colour import typed_lab
from consult.colour.values import Shade
from consult.growth import DAYS_A_MONTH, Growth, last_mark, leaves_a_mark, own, published, reaches_scalp
from consult.head.bands import Area, Artificial, Band, Disagreement, Head, Strand
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import AT_THE_SCALP, LIGHTENED, LIGHTEST, OXIDATIVE, THRESHOLDS, Stretch, Tone, Zone

ENDS_SHARE = Number(0.25, "of the length", ASSUMPTION)
WASHES_A_WEEK = Number(3, "a week", ASSUMPTION)
USUAL_DEVELOPER = Number(6, "% where the history names none", COMMON_PRACTICE)
USUAL_MINUTES = Number(30, "min of a past service", ASSUMPTION)
EYE_TOLERANCE = Number(1.0, "levels", COMMON_PRACTICE)
SHORTEST_BAND = Number(0.2, "cm", ASSUMPTION)
SCALP_CM = Number(1.3, "cm that the scalp warms", COMMON_PRACTICE)
# New growth hardly longer than the warm zone is one stretch with it: nobody colours 2 mm apart.
LEAST_BEYOND_SCALP = Number(0.5, "cm of new growth beyond the warm zone", ASSUMPTION)
# Henna stains copper red; what else is unknown is taken as neutral until the eye says more.
_STAIN_TONES: dict[str, Tone] = {"plain henna": "copper red", "compound or unknown henna": "copper red"}


class _Past(Struct, frozen=True):
    """A service laid on the strand: the cm it covers now, and its weeks ago."""

    service: Service
    start_cm: float
    end_cm: float
    weeks: float

    def covers(self, at: float) -> bool:
        return self.start_cm <= at < self.end_cm


def build_head(answers: Answers, today: date) -> Head | None:
    """The head today; None while length or natural depth is not known.

    Past and porosity are asked for the whole head, the white share zone by zone: zones with the same share
    are one area.
    """
    hair = answers.hair
    length, natural = known(hair.length_cm), _natural(answers)
    if not length or natural is None:
        return None
    services = _told(answers, length, today)
    new_growth = known(hair.new_growth_cm)
    growth, growth_disagrees = _growth(services, new_growth, known(hair.curl), today)
    past = _lay(services, growth, new_growth, length, today)
    ends = _Ends(*_stretch_ends(past, new_growth, length))
    cuts = _cuts({*ends.places, *(p.start_cm for p in past), *(p.end_cm for p in past)}, length)
    washes = known(answers.history.washes_per_week)
    washes = WASHES_A_WEEK if washes is None else washes
    plain = [_band(start, end, ends, natural, past, answers, washes) for start, end in pairwise(cuts)]
    seen, colour_disagrees = _as_seen(plain, answers)
    bands = _merged(seen)
    areas = tuple(
        Area(zones, Strand(tuple(replace(band, white_share=share) for band in bands)))
        for share, zones in _zones_by_white(answers).items()
    )
    disagreements = (*([growth_disagrees] if growth_disagrees else []), *colour_disagrees)
    return Head(areas, growth, disagreements)


def _natural(answers: Answers) -> float | None:
    """The natural depth; white hair stands where the ladder ends."""
    read = answers.hair.natural_depth
    if isinstance(read, str):
        return LIGHTEST if read == ALL_WHITE else None
    return read


def _zones_by_white(answers: Answers) -> dict[float, tuple[Zone, ...]]:
    """White share 0 to 1 -> the zones that have it; a zone not read is taken as the mean of those that are."""
    hair = answers.hair
    read = {
        Zone.FRONT: known(hair.white_front),
        Zone.TEMPLES: known(hair.white_temples),
        Zone.CROWN: known(hair.white_crown),
        Zone.NAPE: known(hair.white_nape),
    }
    shares = [share for share in read.values() if share is not None]
    mean = sum(shares) / len(shares) if shares else 0.0
    found: dict[float, tuple[Zone, ...]] = {}
    for zone, share in read.items():
        white = (mean if share is None else share) / 100
        found[white] = (*found.get(white, ()), zone)
    return found


def _told(answers: Answers, length: float, today: date) -> list[Service]:
    """Services that may still be on the hair, oldest first; those without a date count as the oldest.

    A service that even slow growth has carried past the tip was cut off; semi-permanent colour has washed
    out long ago. One whose date is not known may lie anywhere, so it stays.
    """
    services = [one for service in known(answers.history.services) or () for one in each_time(service)]
    slowest = published(None).low
    there = [
        s
        for s in services
        if not isinstance(s.on, date)
        or ((today - s.on).days / DAYS_A_MONTH * slowest < length and not _washed_out(s, s.on, today))
    ]
    return sorted(there, key=lambda s: s.on if isinstance(s.on, date) else date.min)


def _washed_out(service: Service, on: date, today: date) -> bool:
    return service.kind == "semi-permanent colour" and (today - on).days > THRESHOLDS["semi-permanent-life"]


def _growth(
    services: list[Service], new_growth: float | None, curl: str | None, today: date
) -> tuple[Growth, Disagreement | None]:
    fallback = published(curl)
    last = last_mark((s.kind, s.stretch, s.on) for s in services)
    if last is None or new_growth is None:
        return fallback, None
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
    rooted = [leaves_a_mark(s.kind) and reaches_scalp(s.stretch) for s in services]
    last_rooted = max((i for i, marks in enumerate(rooted) if marks), default=-1)
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
        if reaches_scalp(service.stretch) and days is not None:
            behind = scalp_then
    return laid


class _Ends(Struct, frozen=True):
    """Where the stretches end: the warm scalp zone, the new growth, the lengths; and whether any colour is told."""

    scalp_to: float
    new_growth_to: float
    ends_from: float

    @property
    def places(self) -> set[float]:
        return {self.scalp_to, self.new_growth_to, self.ends_from}

    def stretch(self, at: float) -> Stretch:
        """The stretch at a distance from the scalp."""
        if at < self.scalp_to:
            return Stretch.SCALP
        if at < self.new_growth_to:
            return Stretch.NEW_GROWTH
        return Stretch.ENDS if at >= self.ends_from else Stretch.LENGTHS


def _stretch_ends(past: list[_Past], new_growth: float | None, length: float) -> tuple[float, float, float]:
    """(scalp zone, new growth, lengths) end at so many cm.

    New growth is taken as seen, else up to where the newest colour begins. Hair never coloured has none,
    and its first stretch is the scalp zone alone.
    """
    coloured = [p.start_cm for p in past if leaves_a_mark(p.service.kind)]
    seen = min(coloured, default=0.0) if new_growth is None else new_growth
    grown = min(length, seen)
    if grown > 0 or coloured:
        scalp_to = grown if grown < SCALP_CM + LEAST_BEYOND_SCALP else float(SCALP_CM)
    else:
        scalp_to = min(length, SCALP_CM)
    return scalp_to, max(grown, scalp_to), max(grown, scalp_to, length * (1 - ENDS_SHARE))


def _cuts(places: set[float], length: float) -> list[float]:
    """Sorted band ends from 0 to the tip, those nearer than the shortest band drawn together."""
    cuts = [0.0]
    for place in sorted(places):
        if place - cuts[-1] >= SHORTEST_BAND and length - place >= SHORTEST_BAND:
            cuts.append(round(place, 1))
    return [*cuts, length]


def _band(
    start: float,
    end: float,
    ends: _Ends,
    natural: float,
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
        if service.kind in LIGHTENED:
            colour, lightened = None, True
        elif leaves_a_mark(service.kind):
            depth = known(service.depth)
            tone: Tone | None = known(service.tone)
            colour = Artificial(
                natural if depth is None else depth,
                tone or _STAIN_TONES.get(str(service.kind), "neutral"),
                round(event.weeks, 1),
                round(event.weeks * washes_a_week, 0),
                seen=False,
            )
    stretch = ends.stretch(middle)
    hair = answers.hair
    porosity = {Stretch.LENGTHS: hair.porosity_lengths, Stretch.ENDS: hair.porosity_ends}.get(
        stretch, hair.porosity_root
    )
    return Band(
        start_cm=start,
        end_cm=end,
        stretch=stretch,
        natural_depth=natural,
        white_share=0.0,
        colour=colour,
        lightened=lightened,
        porosity=known(porosity) or "normal",
        passes=sum(p.service.kind in OXIDATIVE or known(p.service.kind) is None for p in here),
        peroxide_minutes=sum(_peroxide_minutes(p.service) for p in here),
        natural_tone=known(hair.natural_tone) or "neutral",
    )


def _peroxide_minutes(service: Service) -> float:
    """Percent on the head times minutes of one past service; half the bottle's strength is on the head."""
    if service.kind not in OXIDATIVE:
        return 0.0
    percent = known(service.developer_percent)
    return float(USUAL_DEVELOPER if percent is None else percent) / 2 * USUAL_MINUTES


def _as_seen(bands: list[Band], answers: Answers) -> tuple[list[Band], list[Disagreement]]:
    """The eye's reading put over the computed bands of lengths and ends."""
    hair = answers.hair
    lengths_tone: Tone | None = known(hair.lengths_tone)
    ends_tone: Tone | None = known(hair.ends_tone)
    readings = {
        Stretch.LENGTHS: (known(hair.lengths_depth), lengths_tone),
        Stretch.ENDS: (known(hair.ends_depth), ends_tone),
    }
    conflicts: dict[Stretch, Disagreement] = {}
    seen_bands: list[Band] = []
    never_touched = all(band.virgin for band in bands)
    measured = known(hair.lengths_measured), known(hair.natural_measured)
    lengths_lab, natural_lab = (typed_lab(text) if text else None for text in measured)
    for band in bands:
        depth, tone = readings.get(band.stretch, (None, None))
        if depth is None:
            if natural_lab and band.virgin and band.stretch in AT_THE_SCALP:
                band = replace(band, reading=natural_lab)
            elif never_touched and lengths_tone and known(hair.natural_tone) is None:
                # Hair that nobody ever coloured is of one tone: what was read on the lengths grew so.
                band = replace(band, reading=Shade(band.natural_depth, lengths_tone))
            seen_bands.append(band)
            continue
        # Ends of which nobody told the tone look like the lengths.
        tone = tone or lengths_tone or (band.colour.tone if band.colour else "neutral")
        meter = lengths_lab if band.stretch is Stretch.LENGTHS else None
        band = replace(band, reading=meter or Shade(depth, tone))
        if abs(depth - band.depth) > EYE_TOLERANCE and not (band.lightened and depth > band.depth):
            conflicts[band.stretch] = _depth_disagrees(band.stretch.value, depth, band.depth)
        seen_bands.append(_seen_band(band, depth, tone))
    return seen_bands, list(conflicts.values())


def _seen_band(band: Band, depth: float, tone: Tone) -> Band:
    if band.colour:
        return replace(band, colour=replace(band.colour, depth=depth, tone=tone, seen=True))
    if depth < band.natural_depth - EYE_TOLERANCE or (band.lightened and depth <= band.natural_depth):
        # Darker than nature without a known colour: the stricter reading is that colour lies there.
        return replace(band, colour=Artificial(depth, tone, 0, 0, seen=True))
    if depth > band.natural_depth + EYE_TOLERANCE:
        # Lighter than nature: lightened, by a product or by the sun.
        return replace(band, colour=Artificial(depth, tone, 0, 0, seen=True), lightened=True)
    return band


def _depth_disagrees(part: str, seen: float, computed: float) -> Disagreement:
    return Disagreement(
        f"{part}-and-history-disagree",
        f"The {part} look depth {seen:g}; the history would leave depth {computed:g}.",
        f"The {part} look like number {seen:g}, but what was told would leave number {computed:g}.",
        "Ask again what was done to this stretch. The eye's reading is used; a strand test shows more.",
        (f"hair.{part}_depth", "history.services"),
    )


def _merged(bands: list[Band]) -> tuple[Band, ...]:
    """Neighbours with the same past and stretch become one band."""
    merged: list[Band] = []
    for band in bands:
        longer = replace(merged[-1], end_cm=band.end_cm) if merged else None
        if longer and longer == replace(band, start_cm=longer.start_cm):
            merged[-1] = longer
        else:
            merged.append(band)
    return tuple(merged)
