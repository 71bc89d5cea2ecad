"""A consultation as blocks of lines to read: the result screen and the command line show the same."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from consult.answers.access import get
from consult.answers.questions import question_of
from consult.consultation import Consultation
from consult.gates.explain import what_would_lift
from consult.gates.judge import Finding, without_repeats
from consult.gates.verdict import Verdict
from consult.gates.words import reason_words, when
from consult.head.bands import Band, Head
from consult.plan.ledger import ledger_lines
from consult.plan.lines import Line
from consult.plan.phrasing import nearness, percent
from consult.plan.steps import Step
from consult.plan.targets import part_of
from consult.plan.timeline import Bar, bars, scale
from consult.plan.types import Held, Incomplete, Made, Plan, Stopped
from consult.sources import ASSUMPTION, COMMON_PRACTICE, cite
from consult.trade import THRESHOLDS, Voice, Zone, depth_name

if TYPE_CHECKING:
    # Needs numpy, which is loaded when a forecast is asked for.
    from consult.colour.values import Seen
    from consult.plan.forecast import BandForecast, Forecast
    from consult.plan.shelf import ShelfChoice

MOST_LIFTS = 6


@dataclass(frozen=True)
class Row:
    """One line to read; `because` and `sources` open behind it. `verdict` marks a finding.

    `swatches` are (word, #rrggbb) pairs drawn before the text; each colour has its word.
    """

    say: str
    because: str
    sources: tuple[str, ...]
    verdict: Verdict | None = None
    rule: str = ""
    swatches: tuple[tuple[str, str], ...] = ()

    @property
    def cited(self) -> str:
        return "; ".join(cite(source) for source in self.sources)

    @property
    def cited_shortly(self) -> str:
        """The first two sources; the record names them all."""
        more = len(self.sources) - 2
        shown = "; ".join(cite(source) for source in self.sources[:2])
        return f"{shown}; and {more} more in the record" if more > 0 else shown


@dataclass(frozen=True)
class Block:
    title: str
    rows: tuple[Row, ...]


def headline(consultation: Consultation) -> str:
    """The verdict in one line; while open questions could bring more, it is never called clear."""
    judged, verdict, until = consultation.judgement, consultation.verdict, consultation.until
    if not judged.settled:
        so_far = judged.verdict.title if judged.findings else "nothing against it so far"
        return f"Not settled yet: {so_far}"
    if verdict is Verdict.WAIT and until:
        also = next((f.until_words for f in consultation.findings if f.until == until), "")
        return f"Wait until {when(until)}" + (f": {also}" if also else "")
    return verdict.title


def plan_headline(consultation: Consultation) -> str:
    """What comes of it in one line."""
    plan = consultation.plan
    if isinstance(plan, Stopped):
        return "No plan. The record with its reasons can still be kept."
    if isinstance(plan, Made):
        return f"Plan: {plan.approach}"
    if isinstance(plan, Held) and any(f.verdict is Verdict.CHANGE_PRODUCT for f in plan.findings):
        return "Hold: this product will not give that goal here; nothing is mixed. See the other ways."
    then = f" Afterwards: {plan.then.approach}." if isinstance(plan, Held) and plan.then else ""
    return f"Hold: nothing is mixed today.{then}"


def report(consultation: Consultation, voice: Voice) -> list[Block]:
    """All blocks that have something to say, in the order a person needs them."""
    plan = consultation.plan
    blocks = [
        Block("Why", tuple(_finding_row(f, voice) for f in _told(consultation, voice))),
        Block("Still to answer", _open_rows(consultation)),
    ]
    if voice is Voice.TRAINER:
        blocks.append(Block("What would have to be different", _lift_rows(consultation)))
    blocks += _plan_blocks(plan, consultation.forecast, voice)
    if consultation.from_shelf:
        blocks.append(shelf_block(consultation.from_shelf, voice))
    blocks.append(Block("The strand, root to tip", _strand_rows(consultation.head)))
    return [block for block in blocks if block.rows]


def _told(consultation: Consultation, voice: Voice) -> tuple[Finding, ...]:
    """A class sees every finding; others are spared what one doubtful answer repeats."""
    findings = consultation.findings
    return findings if voice is Voice.TRAINER else without_repeats(findings)


def _finding_row(finding: Finding, voice: Voice) -> Row:
    until = f" Until {when(finding.until)}: {finding.until_words}." if finding.until else ""
    return Row(
        f"{finding.verdict.title}: {reason_words(finding, voice)}{until}",
        finding.remedy,
        finding.sources,
        finding.verdict,
        finding.rule,
    )


def _open_rows(consultation: Consultation) -> tuple[Row, ...]:
    plan = consultation.plan
    asked = dict.fromkeys(() if consultation.judgement.settled else consultation.judgement.ask)
    for path in plan.missing if isinstance(plan, Incomplete) else ():
        asked.setdefault(path)
    rows = []
    for path in asked:
        question = question_of(path)
        unsure = get(consultation.answers, path) is not None
        why = "Answered not sure; a plan is not guessed." if unsure else "Unasked is never read as no."
        rows.append(Row(question.trade, f"{why} {question.how_to_tell}".strip(), (COMMON_PRACTICE,)))
    return tuple(rows)


def _lift_rows(consultation: Consultation) -> tuple[Row, ...]:
    """For a class: the smallest sets of answers on which the hold rests."""
    found = what_would_lift(consultation.answers, consultation.now, consultation.salon.rules)
    rows = []
    for lift in found[:MOST_LIFTS]:
        names = " and ".join(question_of(path).short for path in lift.paths)
        past = ", ".join(question_of(path).short for path in lift.past)
        rows.append(
            Row(
                f"{names}" + (f"   (a fact of the past: {past})" if past else ""),
                "The past cannot be changed; the hold stays."
                if past
                else "With another true answer the hold would go.",
                (COMMON_PRACTICE,),
            )
        )
    return tuple(rows)


def _lines(lines: tuple[Line, ...], voice: Voice) -> tuple[Row, ...]:
    return tuple(Row(told.say.in_voice(voice), told.because.in_voice(voice), told.sources) for told in lines)


def _plan_blocks(plan: Plan, forecast: "Forecast | None", voice: Voice) -> list[Block]:
    blocks = []
    if isinstance(plan, Made):
        blocks.append(Block("Approach", _lines((plan.because,), voice)))
    if isinstance(plan, Made | Held):
        blocks.append(Block("About this product here", _lines(plan.notes, voice)))
    if forecast:
        blocks.append(colour_block(forecast, voice))
    if isinstance(plan, Held) and plan.then:
        blocks.append(Block("To buy and prepare meanwhile", _lines(plan.then.amounts, voice)))
    if isinstance(plan, Made):
        blocks += _made_blocks(plan, voice)
    if isinstance(plan, Made | Held):
        blocks.append(Block("Other ways", _lines(plan.alternatives, voice)))
    return blocks


def _made_blocks(plan: Made, voice: Voice) -> list[Block]:
    return [
        Block("Mix", _lines(tuple(mix.line for mix in plan.mixes), voice)),
        Block("How much", _lines(plan.amounts, voice)),
        Block("Sections and order", _lines(plan.sections, voice)),
        Block("Step by step", tuple(_step_row(n, step, voice) for n, step in enumerate(plan.steps, 1))),
        Block("Time line", _timeline_rows(plan, voice)),
        Block("Cautions", _lines(plan.cautions, voice)),
        Block("Afterwards", _lines(plan.aftercare, voice)),
        Block("Next time", _lines(plan.visit.lines, voice)),
        Block("Exposure of this hair", _lines(ledger_lines(plan.ledger), voice)),
    ]


def _step_row(number: int, step: Step, voice: Voice) -> Row:
    timing = ""
    if step.clock:
        checks = ", ".join(str(minute) for minute in step.checks)
        timing = f" [minute {step.clock[0]} to {step.clock[1]}; check at {checks}]"
    return Row(f"{number}. {step.say.in_voice(voice)}{timing}", step.because.in_voice(voice), step.sources)


def _timeline_rows(plan: Made, voice: Voice) -> tuple[Row, ...]:
    """A bar for every section of every application, on one common scale."""
    start, end = scale(plan.applications)
    first = Row(
        f"From minute {start} to {end}; minute 0 is the end of the first round.  : put on  - on the hair  "
        "= the leaflet's clock",
        "What is put on first has the longest contact; the leaflet counts from the end of application.",
        (COMMON_PRACTICE,),
    )
    return (first, *(_bar_row(bar) for bar in bars(plan.applications)), *_lines(plan.timeline, voice))


def _bar_row(bar: Bar) -> Row:
    application, touch = bar.application, bar.touch
    contact = application.contact(touch, application.until)
    return Row(
        f"{touch.section:<16} {bar.cells} {application.minutes:>3} min",
        f"Put on from minute {touch.start} to {touch.end}, taken off at {application.until}: {application.minutes} "
        f"minutes on the leaflet's clock, {contact} on the first hair.",
        (COMMON_PRACTICE,),
    )


def colour_block(forecast: "Forecast", voice: Voice) -> Block:
    """What colour it will be, band by band, with words beside every swatch."""
    title = "What colour it will be"
    if forecast.only_if:
        title = "What would come of it (nothing is to be mixed as things stand)"
    rows = [_colour_row(told, voice) for told in _alike(forecast.bands)]
    rows += _lines((*forecast.warnings, *forecast.lines), voice)
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
    return Block("From this shelf", (*rows, *_lines(choice.lines, voice), *_lines(choice.refused, voice)))


def seen_words(seen: "Seen") -> str:
    """A colour in words: depth number and tone family."""
    return f"depth {seen.depth:g} {seen.tone}"


@dataclass(frozen=True)
class _Told:
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
        _natural_words(band) if band.natural and n == 0 else f"{stage.name} {seen_words(stage.colour.seen)}"
        for n, stage in enumerate(band.stages)
    )
    if len(band.stages) == 1:
        stages += "; left alone"
    apart = ""
    if band.white_share and len(band.stages) > 1:
        apart = (
            f" White hairs come out about number {last.white.depth:g}, the others about {last.pigmented.depth:g}."
            if voice is Voice.HOME
            else f" White hairs {seen_words(last.white)}, the others {seen_words(last.pigmented)}."
        )
    elsewhere = " Where less is white it comes out up to half a level darker." if told.nearly else ""
    strip = (
        ("darker end", last.spread.low.hex),
        ("likely", last.seen.hex),
        ("lighter end", last.spread.high.hex),
    )
    today = (("today", band.stages[0].colour.seen.hex),)
    return Row(
        f"{where}: {stages}: {nearness(last.to_goal)}, {last.spread.words}.{apart}{elsewhere}",
        "Swatches: today, then the darkest, the likely and the lightest result. Screens differ; the strand test "
        "decides.",
        ("scanavez-2000", ASSUMPTION),
        swatches=today + strip if len(band.stages) > 1 else today,
    )


def _natural_words(band: "BandForecast") -> str:
    """Natural hair as a colourist says it: its depth, and how much of it is white."""
    white = f", {percent(band.white_share)} white" if band.white_share else ""
    return f"today natural {band.natural_depth:g}{white}"


def _strand_rows(head: Head | None) -> tuple[Row, ...]:
    """The bands of the first area: zones differ in their white hair only."""
    if head is None:
        return ()
    strand = head.areas[0].strand
    bands = tuple(_band_row(band, head) for band in strand.bands)
    if not strand.demarcations:
        return bands
    places = ", ".join(f"{at:g}" for at in strand.demarcations)
    lines = Row(
        f"Lines of demarcation: {places} cm from the scalp.",
        "There the hair's past changes: colour, or lightening, begins or ends.",
        (COMMON_PRACTICE,),
    )
    return (lines, *bands)


def _band_row(band: Band, head: Head) -> Row:
    what = f"depth {depth_name(band.depth)}"
    if band.colour:
        seen = "as seen" if band.colour.seen else "by its history"
        what += f" {band.colour.tone}, coloured ({seen})"
    else:
        what += ", natural"
    lightened = ", lightened" if band.lightened else ""
    passes = f", {band.passes} oxidative pass{'es' if band.passes != 1 else ''}" if band.passes else ""
    return Row(
        f"{band.start_cm:g} to {band.end_cm:g} cm ({band.stretch.value}): {what}{lightened}; "
        f"porosity {band.porosity}{passes}.",
        f"Hair so far out left the scalp {band.start_cm / head.growth.rate:.0f} to "
        f"{band.end_cm / head.growth.rate:.0f} months ago; growth: {head.growth.because}.",
        (head.growth.source,) if not head.growth.own else (COMMON_PRACTICE,),
    )
