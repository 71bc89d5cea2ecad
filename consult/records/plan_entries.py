"""Head, plan and forecast as they stand in a record: from the program's own values to the file's models."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from consult.head.bands import Head
from consult.plan.application import Act, Application, Applications, Bowl, Ending, Which
from consult.plan.bowls import Mix
from consult.plan.ledger import Account
from consult.plan.lines import Line
from consult.plan.shopping import Purchase
from consult.plan.steps import Step
from consult.plan.types import Held, Incomplete, Made, Plan, Stopped
from consult.products.kinds import Auxiliary
from consult.records import plan_models as file
from consult.trade import Phrase, Stretch, Zone

if TYPE_CHECKING:
    # The forecast needs numpy, which is loaded only once there is one.
    from consult.colour.values import Seen
    from consult.plan.forecast import Forecast, Stage


# The words of the file beside those of the program: a renamed member must be met here on purpose.
_ZONES: dict[Zone, file.ZoneWord] = {
    Zone.FRONT: "front hairline",
    Zone.TEMPLES: "temples",
    Zone.CROWN: "crown",
    Zone.NAPE: "nape",
}
_STRETCHES: dict[Stretch, file.StretchWord] = {
    Stretch.SCALP: "at the scalp",
    Stretch.NEW_GROWTH: "new growth",
    Stretch.LENGTHS: "lengths",
    Stretch.ENDS: "ends",
}
_ACTS: dict[Act, file.ActWord] = {
    Act.PAINT: "paint",
    Act.COMB_THROUGH: "comb through",
    Act.DAB: "dab on",
}
_HAIRS: dict[Which, file.WhichWord] = {
    Which.EVERY: "every hair",
    Which.WHITE: "white hair",
    Which.LIGHTENED: "lightened hair",
}
_ENDINGS: dict[Ending, file.EndingWord] = {Ending.RINSE: "rinse", Ending.BLOT: "blot"}


def head_entry(head: Head) -> file.HeadEntry:
    """The head with every band of every area."""
    bands = [
        file.BandEntry(
            zones=_zones(area.zones),
            start_cm=_number(band.start_cm),
            end_cm=_number(band.end_cm),
            stretch=_STRETCHES[band.stretch],
            natural_depth=band.natural_depth,
            white_share=_number(band.white_share),
            depth=band.depth,
            tone=band.colour.tone if band.colour else None,
            seen=bool(band.colour and band.colour.seen),
            lightened=band.lightened,
            porosity=band.porosity,
            passes=band.passes,
            peroxide_minutes=_number(band.peroxide_minutes),
        )
        for area in head.areas
        for band in area.strand.bands
    ]
    return file.HeadEntry(
        growth_rate=_number(head.growth.rate), growth_because=head.growth.because, bands=bands
    )


def plan_entry(plan: Plan) -> file.PlanEntry:
    """What came of it, whichever of the four it is."""
    if isinstance(plan, Stopped):
        return file.PlanEntry(outcome="stopped", held_by=[f.rule for f in plan.findings])
    if isinstance(plan, Incomplete):
        return file.PlanEntry(
            outcome="incomplete", missing=list(plan.missing), held_by=[f.rule for f in plan.findings]
        )
    if isinstance(plan, Held):
        return file.PlanEntry(
            outcome="held",
            held_by=[f.rule for f in plan.findings],
            ask=[str(path) for path in plan.ask],
            afterwards=plan.then.approach if plan.then else None,
            prepare=_lines(plan.then.amounts) if plan.then else None,
            notes=_lines(plan.notes),
            alternatives=_lines(plan.alternatives),
        )
    return _made(plan)


def _made(plan: Made) -> file.PlanEntry:
    numbers = _bowl_numbers(plan.applications)
    return file.PlanEntry(
        outcome="made",
        approach=plan.approach,
        because=_line(plan.because),
        applications=[_application(a, numbers) for a in plan.applications],
        mixes=[_mix(mix, numbers) for mix in plan.mixes],
        purchases=[_purchase(purchase) for purchase in plan.purchases],
        amounts=_lines(plan.amounts),
        sections=_lines(plan.sections),
        steps=[_step(step) for step in plan.steps],
        timeline=_lines(plan.timeline),
        ledger=[_account(account) for account in plan.ledger],
        cautions=_lines(plan.cautions),
        aftercare=_lines(plan.aftercare),
        visit=file.VisitEntry(
            colour_on=plan.visit.colour_on,
            test_from=plan.visit.test_from,
            test_until=plan.visit.test_until,
            lines=_lines(plan.visit.lines),
        ),
        notes=_lines(plan.notes),
        alternatives=_lines(plan.alternatives),
    )


def _bowl_numbers(applications: Applications) -> dict[Bowl, int]:
    """Bowls numbered from 1 in the order they are used."""
    return {bowl: n for n, bowl in enumerate(dict.fromkeys(a.bowl for a in applications), 1)}


def _application(application: Application, numbers: dict[Bowl, int]) -> file.ApplicationEntry:
    target = application.target
    return file.ApplicationEntry(
        bowl=numbers[application.bowl],
        product=application.bowl.product.label,
        act=_ACTS[application.act],
        stretches=[_STRETCHES[stretch] for stretch in target.stretches],
        zones=_zones(target.zones),
        hairs=_HAIRS[target.which],
        touches=[
            file.TouchEntry(section=t.section, start=t.start, end=t.end, off=application.off(t))
            for t in application.touches
        ],
        until=application.until,
        minutes=application.minutes,
        ending=_ENDINGS[application.ending],
        water=application.water,
        emulsified=application.emulsified,
        reason=_line(application.reason),
    )


def _mix(mix: Mix, numbers: dict[Bowl, int]) -> file.MixEntry:
    return file.MixEntry(
        bowl=numbers[mix.bowl],
        what_for=mix.what_for,
        go=mix.go,
        of=mix.of,
        minute=mix.minute,
        packs=mix.packs,
        colours=[file.PartEntry(name=part.name, grams=_number(part.grams)) for part in mix.colours],
        developer_g=_number(mix.developer_g),
        rest_packs=mix.rest.packs,
        rest_g=_number(mix.rest.grams),
        peroxide_on_head=_number(mix.bowl.product.peroxide_on_head),
        line=_line(mix.line),
    )


def _purchase(purchase: Purchase) -> file.PurchaseEntry:
    product = purchase.product
    return file.PurchaseEntry(
        product=product.label,
        colour_class=None if isinstance(product, Auxiliary) else product.colour_class,
        packs=purchase.packs,
        developer_g=_number(purchase.developer_g),
        expected_g=purchase.expected_g,
        mix_g=_number(purchase.mix_g),
        run_out=list(purchase.run_out),
        cost=purchase.cost,
        line=_line(purchase.line),
    )


def _step(step: Step) -> file.StepEntry:
    return file.StepEntry(
        say=step.say.trade,
        plain=_plain(step.say),
        because=step.because.trade,
        sources=list(step.sources),
        rules=list(step.rules) or None,
        stretch=step.stretch or None,
        from_minute=step.clock[0] if step.clock else None,
        to_minute=step.clock[1] if step.clock else None,
        checks=list(step.checks) or None,
    )


def _account(account: Account) -> file.AccountEntry:
    return file.AccountEntry(
        zones=_zones(account.zones),
        start_cm=_number(account.start_cm),
        end_cm=_number(account.end_cm),
        stretch=_STRETCHES[account.stretch],
        passes=account.passes,
        passes_after=account.passes_after,
        peroxide_minutes=account.peroxide_minutes,
        peroxide_minutes_after=account.peroxide_minutes_after,
    )


def forecast_entry(forecast: "Forecast") -> file.ForecastEntry:
    """The forecast with every stage of every band."""
    return file.ForecastEntry(
        only_if=forecast.only_if,
        bands=[
            file.BandForecastEntry(
                zones=_zones(band.zones),
                start_cm=_number(band.start_cm),
                end_cm=_number(band.end_cm),
                stretch=_STRETCHES[band.stretch],
                stages=[_stage(stage) for stage in band.stages],
            )
            for band in forecast.bands
        ],
        warnings=_lines(forecast.warnings),
        lines=_lines(forecast.lines),
        weaknesses=list(forecast.weaknesses),
    )


def _stage(stage: "Stage") -> file.StageEntry:
    colour = stage.colour
    return file.StageEntry(
        name=stage.name,
        seen=_seen(colour.seen),
        pigmented=_seen(colour.pigmented),
        white=_seen(colour.white),
        to_goal=_number(colour.to_goal),
        spread=colour.spread.words,
    )


def _seen(seen: "Seen") -> file.SeenEntry:
    return file.SeenEntry(lab=[_number(v) for v in seen.lab], hex=seen.hex, depth=seen.depth, tone=seen.tone)


def _plain(say: Phrase) -> str | None:
    """The plain words, where they are others."""
    return say.plain if say.plain != say.trade else None


def _lines(lines: Iterable[Line]) -> list[file.LineEntry]:
    return [_line(told) for told in lines]


def _line(told: Line) -> file.LineEntry:
    return file.LineEntry(
        say=told.say.trade,
        plain=_plain(told.say),
        because=told.because.trade,
        sources=list(told.sources),
        rules=list(told.rules) or None,
    )


def _zones(zones: Iterable[Zone]) -> list[file.ZoneWord]:
    return [_ZONES[zone] for zone in zones]


def _number(value: float) -> float:
    """Three decimals: more is noise, and differs between machines."""
    return round(float(value), 3)
