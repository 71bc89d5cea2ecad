"""What colour it will be, in lines: band by band, zones that read alike together; and what a shelf offers."""

from typing import TYPE_CHECKING

from msgspec import Struct

from consult.plan.phrasing import percent
from consult.plan.targets import part_of
from consult.report.rows import Block, Row, line_rows
from consult.sources import ASSUMPTION, COMMON_PRACTICE
from consult.trade import THRESHOLDS, Voice, Zone

if TYPE_CHECKING:
    # Needs numpy, which is loaded when a forecast is asked for.
    from consult.colour.values import Seen
    from consult.plan.forecast import BandForecast, Forecast
    from consult.plan.shelf import ShelfChoice


def colour_block(forecast: "Forecast", voice: Voice) -> Block:
    """What colour it will be, band by band, with words beside every swatch."""
    title = "What colour it will be"
    if forecast.only_if:
        title = "What would come of it (nothing is to be mixed as things stand)"
    rows = [_colour_row(told, voice) for told in _alike(forecast.bands)]
    rows += line_rows((*forecast.warnings, *forecast.lines), voice)
    rows += [
        Row(f"Take with care: {words}", "What the forecast cannot know.", (ASSUMPTION,))
        for words in forecast.weaknesses
    ]
    return Block(title, tuple(rows))


def shelf_block(choice: "ShelfChoice", voice: Voice) -> Block:
    """What the shelf offers: the nearest mixes, ties shown as ties, and why the others are out."""
    rows = [
        Row(
            f"{offer.name}: "
            + " + ".join(f"{percent(share)} {shade}" for shade, share in offer.shades)
            + (f", developer {offer.developer_percent:g} %" if offer.developer_percent else "")
            + f", {offer.minutes} minutes: {offer.nearness}.",
            f"Nearest on its worst band; {choice.ties} of {choice.tried} mixes are equals to the eye, one above the "
            "other by nearness, then by effort.",
            (ASSUMPTION,),
        )
        for offer in choice.best
    ]
    if not rows:
        rows = [Row("Nothing on this shelf will do it.", "See what speaks against each.", (COMMON_PRACTICE,))]
    return Block(
        "From this shelf", (*rows, *line_rows(choice.lines, voice), *line_rows(choice.refused, voice))
    )


def seen_words(seen: "Seen") -> str:
    """A colour in words: depth number and tone family."""
    return f"depth {seen.depth:g} {seen.tone}"


class _Told(Struct, frozen=True):
    """Neighbouring bands told in one line: those of the zone with most white, and the zones they stand for.

    `nearly` when other zones come out a little different, within half a level and of the same tone.
    """

    run: "list[BandForecast]"
    zones: tuple[Zone, ...]
    nearly: bool


def _alike(bands: "tuple[BandForecast, ...]") -> list[_Told]:
    """What a reader would tell as one line, from the scalp outwards."""
    runs: list[list[BandForecast]] = []
    for zones in dict.fromkeys(band.zones for band in bands):
        for n, band in enumerate(band for band in bands if band.zones == zones):
            if n and _reads(runs[-1][0]) == _reads(band):
                runs[-1].append(band)
            else:
                runs.append([band])
    left = sorted(runs, key=lambda run: (run[0].start_cm, -run[0].white_share))
    told: list[_Told] = []
    while left:
        lead, *others = left
        near = [run for run in others if _nearly(lead, run)]
        left = [run for run in others if run not in near]
        zones = tuple(zone for run in (lead, *near) for zone in run[0].zones)
        told.append(_Told(lead, zones, nearly=any(_reads(run[0]) != _reads(lead[0]) for run in near)))
    return told


def _nearly(one: "list[BandForecast]", other: "list[BandForecast]") -> bool:
    """The same piece of the strand in other zones, which nobody would tell apart from this one."""
    same_piece = (one[0].start_cm, one[-1].end_cm) == (other[0].start_cm, other[-1].end_cm)
    a, b = one[0].last.seen, other[0].last.seen
    return same_piece and a.tone == b.tone and abs(a.depth - b.depth) <= THRESHOLDS["same-depth"]


def _reads(band: "BandForecast") -> tuple[str, ...]:
    stages = tuple(f"{stage.name} {seen_words(stage.colour.seen)}" for stage in band.stages)
    return (part_of(band.stretch), *stages)


def _zone_words(zones: tuple[Zone, ...]) -> str:
    return "" if set(zones) == set(Zone) else ", " + ", ".join(zone.value for zone in zones)


def _colour_row(told: _Told, voice: Voice) -> Row:
    run, band, last = told.run, told.run[0], told.run[0].last
    where = f"{band.start_cm:g} to {run[-1].end_cm:g} cm, {part_of(band.stretch)}{_zone_words(told.zones)}"
    stages = "; ".join(
        natural_words(band) if band.natural and n == 0 else f"{stage.name} {seen_words(stage.colour.seen)}"
        for n, stage in enumerate(band.stages)
    )
    if len(band.stages) == 1:
        stages += "; left alone"
    apart = ""
    if 0 < band.white_share < 1 and len(band.stages) > 1:
        apart = (
            f" White hairs come out about number {last.white.depth:g}, the others about {last.pigmented.depth:g}."
            if voice is Voice.HOME
            else f" White hairs {seen_words(last.white)}, the others {seen_words(last.pigmented)}."
        )
    elsewhere = (
        " Where less is white it comes out up to half a level darker."
        if told.nearly and last.white.depth > last.pigmented.depth
        else ""
    )
    strip = (
        ("darker end", last.spread.low.hex),
        ("likely", last.seen.hex),
        ("lighter end", last.spread.high.hex),
    )
    today = (("today", band.stages[0].colour.seen.hex),)
    return Row(
        f"{where}: {stages}: {band.how_near}, {last.spread.words}.{apart}{elsewhere}",
        "Swatches: today, then the darkest, the likely and the lightest result. Screens differ; the strand test "
        "decides.",
        ("scanavez-2000", ASSUMPTION),
        swatches=today + strip if len(band.stages) > 1 else today,
    )


def natural_words(band: "BandForecast") -> str:
    """Natural hair as a colourist says it: its depth, and how much of it is white."""
    if band.white_share >= 1:
        return "today all white"
    white = f", {percent(band.white_share)} white" if band.white_share else ""
    return f"today natural {band.natural_depth:g}{white}"
