"""The strand from root to tip, in lines."""

from consult.head.bands import Band, Head
from consult.plan.ledger import times_words
from consult.plan.phrasing import percent
from consult.report.rows import Row
from consult.sources import COMMON_PRACTICE
from consult.trade import Voice, depth_name


def strand_rows(head: Head | None, voice: Voice) -> tuple[Row, ...]:
    """The bands of the first area: zones differ in their white hair only."""
    if head is None:
        return ()
    strand = head.areas[0].strand
    bands = tuple(_band_row(band, head, voice) for band in strand.bands)
    if not strand.demarcations:
        return bands
    places = ", ".join(f"{at:g}" for at in strand.demarcations)
    name = "Lines between two colours" if voice is Voice.HOME else "Lines of demarcation"
    lines = Row(
        f"{name}: {places} cm from the scalp.",
        "There the hair's past changes: colour, or lightening, begins or ends.",
        (COMMON_PRACTICE,),
    )
    return (lines, *bands)


def _white_words(head: Head) -> str:
    """How much of the hair is white, as a colourist says it."""
    most = max(head.white, key=lambda zone: head.white[zone])
    least = min(head.white.values())
    if least == head.white_most:
        return f"{percent(least)} white"
    return f"up to {percent(head.white_most)} white at the {most.value}"


def _band_row(band: Band, head: Head, voice: Voice) -> Row:
    what = f"depth {depth_name(band.depth)}"
    if band.colour:
        seen = "as seen" if band.colour.seen else "by its history"
        what += f" {band.colour.tone}, coloured ({seen})"
    else:
        what += ", natural" + (f", {_white_words(head)}" if head.white_most else "")
    lightened = ", lightened" if band.lightened else ""
    times = f"coloured {times_words(band.passes)} with developer"
    counted = (
        times if voice is Voice.HOME else f"{band.passes} oxidative pass{'es' if band.passes != 1 else ''}"
    )
    passes = f", {counted}" if band.passes else ""
    return Row(
        f"{band.start_cm:g} to {band.end_cm:g} cm ({band.stretch.value}): {what}{lightened}; "
        f"porosity {band.porosity}{passes}.",
        f"Hair so far out left the scalp {band.start_cm / head.growth.rate:.0f} to "
        f"{band.end_cm / head.growth.rate:.0f} months ago; growth: {head.growth.because}.",
        (head.growth.source,) if not head.growth.own else (COMMON_PRACTICE,),
    )
