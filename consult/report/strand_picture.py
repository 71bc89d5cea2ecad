"""The strand from scalp to tip as a picture: what a page or a terminal needs to draw it, each colour with its words.

Nothing here knows how it is drawn.
"""

from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec import Struct

from consult.plan.targets import part_of
from consult.report.colour import natural_words, seen_words
from consult.trade import Zone

if TYPE_CHECKING:
    # Needs numpy, which is loaded when a forecast is asked for.
    from consult.colour.prediction import Border
    from consult.colour.values import Prediction
    from consult.plan.forecast import BandForecast, Forecast


class Patch(Struct, frozen=True):
    """One colour, #rrggbb, and its words."""

    colour: str
    words: str


class Stripe(Struct, frozen=True):
    """A piece of the strand that looks alike, in cm from the scalp; `after` is None where nothing is put on it."""

    start_cm: float
    end_cm: float
    part: str
    before: Patch
    after: Patch | None
    goal: Patch


class Demarcation(Struct, frozen=True):
    """A line that the eye sees across the strand, so many cm from the scalp: today, afterwards, or both."""

    cm: float
    before: bool
    after: bool

    @property
    def words(self) -> str:
        """When it shows."""
        if self.before and self.after:
            return "shows today and afterwards"
        return "shows today, gone afterwards" if self.before else "shows afterwards"


class StrandPicture(Struct, frozen=True):
    """The strand of some zones, from edge to edge."""

    zones: tuple[Zone, ...]
    stripes: tuple[Stripe, ...]
    lines: tuple[Demarcation, ...]

    @property
    def length_cm(self) -> float:
        return self.stripes[-1].end_cm

    @property
    def where(self) -> str:
        """The zones in words."""
        return "whole head" if set(self.zones) == set(Zone) else ", ".join(zone.value for zone in self.zones)


def strand_pictures(forecast: "Forecast") -> tuple[StrandPicture, ...]:
    """A strand for each area of the head; areas that look the same from scalp to tip share one."""
    by_area: dict[tuple[Zone, ...], list[BandForecast]] = {}
    for band in forecast.bands:
        by_area.setdefault(band.zones, []).append(band)
    alike: dict[tuple[object, ...], StrandPicture] = {}
    for zones, bands in by_area.items():
        picture = _picture(zones, bands)
        looks = tuple(_looks(stripe) for stripe in picture.stripes)
        same = alike.get(looks)
        together = tuple(z for z in Zone if z in zones or (same and z in same.zones))
        alike[looks] = StrandPicture(together, (same or picture).stripes, (same or picture).lines)
    return tuple(alike.values())


def _picture(zones: tuple[Zone, ...], bands: "list[BandForecast]") -> StrandPicture:
    stripes = [_stripe(band) for band in bands]
    lines = _lines(bands)
    seen = {line.cm for line in lines}
    joined: list[Stripe] = []
    for stripe in stripes:
        last = joined[-1] if joined else None
        if last and _reads(last) == _reads(stripe) and stripe.start_cm not in seen:
            # The longer piece gives the colour of both: they differ by less than the eye sees.
            lead = max(last, stripe, key=lambda s: s.end_cm - s.start_cm)
            joined[-1] = Stripe(last.start_cm, stripe.end_cm, last.part, lead.before, lead.after, lead.goal)
        else:
            joined.append(stripe)
    return StrandPicture(zones, tuple(joined), lines)


def _stripe(band: "BandForecast") -> Stripe:
    today, last = band.stages[0].colour.seen, band.last.seen
    words = natural_words(band).removeprefix("today ") if band.natural else seen_words(today)
    goal = band.last.goal
    return Stripe(
        band.start_cm,
        band.end_cm,
        part_of(band.stretch),
        Patch(today.hex, words),
        Patch(last.hex, seen_words(last)) if len(band.stages) > 1 else None,
        Patch(goal.hex, seen_words(goal)),
    )


def _lines(bands: "list[BandForecast]") -> tuple[Demarcation, ...]:
    """Where neighbours differ by more than the eye overlooks, before or after."""
    meet = list(pairwise(bands))
    before = _borders([(near.stages[0].colour, far.stages[0].colour) for near, far in meet])
    after = _borders([(near.last, far.last) for near, far in meet])
    return tuple(
        Demarcation(far.start_cm, today.visible, then.visible)
        for (_, far), today, then in zip(meet, before, after, strict=True)
        if today.visible or then.visible
    )


def _borders(pairs: "list[tuple[Prediction, Prediction]]") -> "list[Border]":
    from consult.colour.prediction import lines_between

    return lines_between(pairs)


def _reads(stripe: Stripe) -> tuple[str, ...]:
    after = stripe.after.words if stripe.after else ""
    return stripe.part, stripe.before.words, after, stripe.goal.words


def _looks(stripe: Stripe) -> tuple[object, ...]:
    return stripe.start_cm, stripe.end_cm, *_reads(stripe)
