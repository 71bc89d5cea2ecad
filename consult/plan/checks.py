"""What the plan itself has against a case: findings with ids, like those of the gates.

A check looks at the case and at the applications that would be carried out, and says what would be seen
instead, or what is demanded and cannot be met. All that fire are kept; any of them holds the plan.
"""

from datetime import datetime, timedelta

from consult.gates.judge import Finding
from consult.gates.verdict import Verdict
from consult.plan.application import Applications
from consult.plan.approach import change_of_lengths, needs_filling
from consult.plan.bowls import shade_name
from consult.plan.case import Case
from consult.plan.contact import MOST_APART, contact_of, misses_by
from consult.plan.demands import DEMANDS
from consult.plan.objections import CP, Check, Checks, Objection
from consult.plan.phrasing import other_tone, percent
from consult.plan.targets import in_a_sentence, name_of
from consult.plan.timeline import working_minutes
from consult.products.kinds import (
    Auxiliary,
    DemiPermanent,
    Direct,
    Filler,
    HighLift,
    Kit,
    Leaflet,
    Product,
    lift_bound,
)
from consult.sources import ASSUMPTION, COMMON_PRACTICE, Number
from consult.trade import THRESHOLDS

SAME_DEPTH = THRESHOLDS["same-depth"]
LEAST_NEW_GROWTH = Number(0.5, "cm", ASSUMPTION)
WORTH_COLOURING = Number(1.0, "cm of new growth", COMMON_PRACTICE)
LONGEST_ALONE = Number(60, "min of application for one person at home", ASSUMPTION)
_CHECKS = Checks()


def all_checks() -> tuple[Check, ...]:
    """Every check, those of what findings demand last."""
    return (*_CHECKS, *DEMANDS)


def objections(case: Case, applications: Applications) -> tuple[tuple[Check, Objection], ...]:
    """Every check that fires, with what it says."""
    found = ((check, check.objects(case, applications)) for check in all_checks())
    return tuple((check, objection) for check, objection in found if objection)


def check_plan(case: Case, applications: Applications, now: datetime) -> tuple[Finding, ...]:
    """Every check that fires, as a finding."""
    return tuple(_finding(check, objection, now) for check, objection in objections(case, applications))


def _finding(check: Check, objection: Objection, now: datetime) -> Finding:
    days = objection.until_days
    return Finding(
        rule=check.id,
        verdict=check.verdict,
        trade=objection.trade,
        plain=objection.plain or objection.trade,
        remedy=objection.remedy,
        sources=objection.sources,
        evidence=objection.evidence,
        until=None if days is None else now + timedelta(days=days),
        until_words=objection.until_words,
    )


def not_planned(colour_class: str) -> Finding:
    """The finding for a class of colour that has no plan at all."""
    return Finding(
        rule="class-not-planned",
        verdict=Verdict.CHANGE_PRODUCT,
        trade=f"No mix is planned for this class ({colour_class}): a service of its own.",
        plain=f"This program makes no plan for this sort of product ({colour_class}).",
        remedy="Follow its own leaflet, in the hands of a licensed colourist.",
        sources=("uk-nos-advanced-colour", COMMON_PRACTICE),
        evidence=("product.colour_class",),
    )


def expected_depth(case: Case, product: Product) -> float:
    """Depth the new growth is expected to reach.

    A kit's chart promises the shade for the depths on it. By the tube, a shade lighter than the hair lands half
    way (common practice), a shade at or below it lands on itself, and so it does on white hair that is covered.
    """
    depth, natural = product.shade.depth, case.head.natural_depth
    if product.is_kit or depth <= natural:
        return depth
    white = case.head.white_mean if case.covers_white else 0.0
    return white * depth + (1 - white) * (natural + depth) / 2


# --- can it be done at all ------------------------------------------------------------------------


@_CHECKS.check("too-early", Verdict.WAIT)
def _too_early(case: Case, applications: Applications) -> Objection | None:
    grown = case.hair.new_growth_cm
    if not case.head.coloured or grown >= LEAST_NEW_GROWTH or change_of_lengths(case):
        return None
    return Objection(
        f"Too early: there is {grown:g} cm of new growth, next to nothing to colour at the scalp, and every round "
        "adds up.",
        "Wait until it is about 1 cm, or have faded lengths refreshed with a colour that only deposits.",
        ("hair.new_growth_cm",),
        until_days=case.head.growth.days(WORTH_COLOURING - grown),
        until_words="about 1 cm has grown",
    )


@_CHECKS.check("nothing-to-colour", Verdict.CHANGE_PRODUCT)
def _nothing_to_colour(case: Case, applications: Applications) -> Objection | None:
    if any(not isinstance(a.bowl.product, Auxiliary | Filler) for a in applications):
        return None
    return Objection(
        "Nothing is left to colour: what is wished for lies where no colour may go, is not there, or is the goal "
        "already.",
        "Look at the findings that keep colour off, and at the extent that is wished for.",
        ("goal.extent", "hair.new_growth_cm"),
    )


@_CHECKS.check("already-the-goal", Verdict.CHANGE_PRODUCT)
def _already_the_goal(case: Case, applications: Applications) -> Objection | None:
    if case.head.coloured or case.head.lightened or not case.nature_is_the_goal:
        return None
    return Objection(
        f"The hair is the goal already: natural depth {case.head.natural_depth:g}, a neutral tone wanted, and no white "
        "that is to change.",
        "Leave it as it is, or wish for another depth or tone.",
        ("goal.depth", "goal.tone", "hair.natural_depth"),
    )


@_CHECKS.check("too-long-alone", Verdict.SEE_COLOURIST)
def _too_long_alone(case: Case, applications: Applications) -> Objection | None:
    working = working_minutes(applications)
    if not case.work.at_home or working <= LONGEST_ALONE:
        return None
    return Objection(
        f"Not alone: putting it on would take about {working} minutes. Beyond about {LONGEST_ALONE:g} minutes the "
        "first hair is long done before the last is begun.",
        "Let somebody help (and answer so), or have it done in a salon.",
        ("client.applied_by", "client.helper"),
        (COMMON_PRACTICE, ASSUMPTION),
    )


@_CHECKS.check("minutes-do-not-fit", Verdict.CHANGE_PRODUCT)
def _minutes_do_not_fit(case: Case, applications: Applications) -> Objection | None:
    """Some hair would have it on longer than its leaflet allows, or shorter than it asks for."""
    worst = max(applications, key=misses_by, default=None)
    if worst is None or misses_by(worst) <= 0:
        return None
    product = worst.bowl.product
    assert not isinstance(product, Auxiliary)
    leaflet, on_for = product.leaflet, worst.on_by - worst.start
    longest = contact_of(worst).longest
    return Objection(
        f"The minutes do not fit: colouring {in_a_sentence(name_of(worst.target))} takes about {on_for} minutes, so "
        f"the first hair would have it on {longest}; {_allowed(product)}.",
        f"{_would_fit(case, leaflet, on_for)} Or have half of the head done on another day, with an allergy alert test "
        "of its own; or choose a product that leaves more room.",
        ("product.minutes_max", "product.minutes_min", "client.helper")
        if product is case.product
        else ("lengths_product.minutes_max", "lengths_product.minutes_min", "client.helper"),
        (COMMON_PRACTICE, ASSUMPTION),
    )


def _allowed(product: Product) -> str:
    leaflet = product.leaflet
    label = "its leaflet" if not product.name else f"the leaflet of {product.label}"
    total = "" if leaflet.total is None else f" and {leaflet.total} from the first touch to the rinse"
    counts = {
        "the end of application": "counted from the end of application",
        "the first touch": "counted from the first touch",
        "it does not say": f"does not say how they are counted, and first and last hair stay within {MOST_APART:g} "
        "minutes of each other then",
    }[leaflet.counted_from]
    return f"{label} allows {leaflet.shortest} to {leaflet.longest} minutes{total}, {counts}"


def _would_fit(case: Case, leaflet: Leaflet, on_for: int) -> str:
    """What would make it fit, with its value: the time that putting on may take, and who would keep to it."""
    room = (
        leaflet.longest - leaflet.shortest if leaflet.counted_from == "the first touch" else int(MOST_APART)
    )
    if leaflet.total is not None:
        room = min(room, leaflet.total - leaflet.shortest)
    if room <= 0:
        return "No hand is quick enough for this leaflet; a product that leaves more room would fit."
    # Two people take half the time, and half of that again for one half of the head after the other.
    if case.work.hands == 1 and on_for / 4 <= room:
        return (
            f"It would fit if putting on took {room} minutes at most: with a second pair of hands it would."
        )
    return f"It would fit if putting on took {room} minutes at most."


# --- this product, this hair ----------------------------------------------------------------------


@_CHECKS.check("chart-starts-lighter", Verdict.CHANGE_PRODUCT)
def _chart_starts_lighter(case: Case, applications: Applications) -> Objection | None:
    package, natural = case.product.package, case.head.natural_depth
    if not isinstance(package, Kit) or not package.chart or natural >= package.chart[0]:
        return None
    return Objection(
        f"This product will not give depth {case.wish.depth:g} on natural depth {natural:g}: no visible change, or at "
        f"most a warm cast at the root. The hair is darker than its chart: {_span(package.chart)}.",
        "A kit adds colour and lifts only a little; on hair this dark the new colour does not show. Choose one whose "
        "chart holds this depth.",
        ("hair.natural_depth", "product.chart_from"),
    )


@_CHECKS.check("chart-ends-darker", Verdict.CHANGE_PRODUCT)
def _chart_ends_darker(case: Case, applications: Applications) -> Objection | None:
    package, natural = case.product.package, case.head.natural_depth
    if (
        not isinstance(package, Kit)
        or not package.chart
        or natural <= package.chart[1]
        or case.head.all_white
    ):
        return None
    return Objection(
        f"This product will not give its picture on natural depth {natural:g}: the tone comes out stronger or off, and "
        f"the depth darker. The hair is lighter than its chart: {_span(package.chart)}.",
        "Light hair has too little warmth of its own to carry the shade. Choose one whose chart holds this depth.",
        ("hair.natural_depth", "product.chart_to"),
    )


def _span(chart: tuple[float, float]) -> str:
    return f"the chart starts at depth {chart[0]:g} and ends at {chart[1]:g}"


@_CHECKS.check("shade-misses-depth", Verdict.CHANGE_PRODUCT)
def _shade_misses_depth(case: Case, applications: Applications) -> Objection | None:
    reached = expected_depth(case, case.product)
    if case.tests.strand_as_wanted or abs(reached - case.wish.depth) <= SAME_DEPTH:
        return None
    return Objection(
        f"Depth {case.product.shade.depth:g} on natural depth {case.head.natural_depth:g} does not give the wanted "
        f"{case.wish.depth:g}.",
        "More than half a level away is another colour. Choose another shade, or another goal.",
        ("goal.depth", "product.depth", "hair.natural_depth"),
    )


@_CHECKS.check("shade-misses-tone", Verdict.CHANGE_PRODUCT)
def _shade_misses_tone(case: Case, applications: Applications) -> Objection | None:
    tone = next((p.shade.tone for p in case.products if other_tone(p.shade.tone, case.wish.tone)), None)
    if tone is None:
        return None
    return Objection(
        f"This shade is {tone}; {case.wish.tone} is wanted.",
        "Tone families that do not pass into one another are another colour. Choose a shade of the wanted family.",
        ("goal.tone", "product.tone"),
    )


@_CHECKS.check("lengths-shade-misses-depth", Verdict.CHANGE_PRODUCT)
def _lengths_shade_misses_depth(case: Case, applications: Applications) -> Objection | None:
    shade = case.lengths_product.shade
    if not case.two_products or abs(shade.depth - case.wish.depth) <= SAME_DEPTH:
        return None
    return Objection(
        f"The product for the lengths is {shade_name(shade)}, not the wanted depth {case.wish.depth:g}.",
        "More than half a level away shows as a line. Choose its shade at the goal's depth.",
        ("goal.depth", "lengths_product.depth"),
    )


@_CHECKS.check("filling-at-home", Verdict.SEE_COLOURIST)
def _filling_at_home(case: Case, applications: Applications) -> Objection | None:
    if not (case.work.at_home and needs_filling(case)):
        return None
    if case.wish.extent == "new growth only":
        return None
    return Objection(
        f"Not at home: the lightened hair goes {case.darker_by:g} levels darker and needs warm pigment put back first; "
        "without a filler it turns dull, greenish or grey.",
        "See a licensed colourist and ask for pre-pigmentation, or colour the new growth only.",
        ("client.applied_by", "hair.lengths_depth", "history.services"),
        ("ofqual-colour-correction", COMMON_PRACTICE),
        plain="Not at home: the bleached hair needs a warm base before it goes darker, or it turns dull or "
        "greenish.",
    )


@_CHECKS.check("deposit-only-and-lift", Verdict.CHANGE_PRODUCT)
def _deposit_only_and_lift(case: Case, applications: Applications) -> Objection | None:
    if case.lift <= 0 or not isinstance(case.product, DemiPermanent | Direct):
        return None
    return Objection(
        f"{case.product.colour_class.capitalize()} colour does not lighten: the new growth stays at its own depth, and "
        f"the goal is {case.lift:g} level(s) lighter.",
        "This class only deposits. Stay at the natural depth, or choose another class.",
        ("goal.depth", "hair.natural_depth", "product.colour_class"),
        ("modern-hair-science",),
    )


@_CHECKS.check("developer-lifts-too-little", Verdict.CHANGE_PRODUCT)
def _developer_lifts_too_little(case: Case, applications: Applications) -> Objection | None:
    product = case.product
    proven = case.tests.strand_as_wanted
    if case.lift <= 0 or proven or product.is_kit or isinstance(product, DemiPermanent | Direct):
        return None
    bound = lift_bound(product.developer.percent)
    if case.lift <= bound:
        return None
    return Objection(
        f"{product.developer.percent:g} % developer lifts at most {bound:g} level(s) on natural hair; the goal asks "
        f"for {case.lift:g}.",
        "Developer strength is an upper bound for lift, and only on natural hair. Choose a goal nearer to nature.",
        ("goal.depth", "hair.natural_depth", "product.developer_percent"),
    )


@_CHECKS.check("white-not-covered", Verdict.CHANGE_PRODUCT)
def _white_not_covered(case: Case, applications: Applications) -> Objection | None:
    if not case.covers_white or case.product.covers_white:
        return None
    product = case.product
    blends = isinstance(product, DemiPermanent | Direct | HighLift)
    claim = (
        f"{product.colour_class.capitalize()} colour does not cover white hair"
        if blends
        else f'The pack claims "{product.white_claim}", not full cover'
    )
    return Objection(
        f"Not planned for covering white hair: white would stay visible or come out uneven. {claim}; up to "
        f"{percent(case.head.white_most)} is white where there is most.",
        "Choose a product that claims full cover, or blend the white on purpose.",
        ("goal.white", "product.white_claim"),
        ("bccampus-hair-colour",) if blends else CP,
    )


@_CHECKS.check("old-colour-not-lifted", Verdict.SEE_COLOURIST)
def _old_colour_not_lifted(case: Case, applications: Applications) -> Objection | None:
    darkest = case.head.darkest_length
    if not case.head.coloured or case.wish.depth <= darkest + SAME_DEPTH:
        return None
    return Objection(
        f"The coloured lengths (depth {darkest:g}) will not become depth {case.wish.depth:g}; only the new growth "
        "would lighten, leaving a light band at the root.",
        "Colour does not lift colour in any way that can be planned; coloured hair can be made darker, warmer or "
        "cooler. See what can be done instead.",
        ("goal.depth", "hair.lengths_depth", "hair.ends_depth", "history.services"),
        ("red-seal-f13", COMMON_PRACTICE),
    )


# --- what was not tested, and what findings demand ------------------------------------------------


@_CHECKS.check("mix-untested", Verdict.TEST_FIRST)
def _mix_untested(case: Case, applications: Applications) -> Objection | None:
    """A natural share, a filler or a second product counts as tested only if the whole mix was."""
    others: list[str] = []
    for application in applications:
        product = application.bowl.product
        if isinstance(product, Auxiliary):
            continue
        name = "" if product is case.product else f"{product.label} "
        others += [
            f"{name}{shade_name(shade)}"
            for shade, share in application.bowl.shades
            if share > 0 and not (product is case.product and shade == product.shade)
        ]
    if not others or case.tests.mix_tested:
        return None
    return Objection(
        f"Allergy alert test with the whole mix first: {', '.join(dict.fromkeys(others))} would go on as well, "
        "and a test counts only for the very mix that was tested.",
        "Test everything that will be put on, and answer that the whole mix was tested. Any ingredient can be the "
        "culprit.",
        ("allergy_test.covers_mix",),
        ("canada-cosmetic-regulations-22", "jhcia-patch-test"),
    )
