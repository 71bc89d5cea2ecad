"""The steps, one after the other, with the clock: read off the applications and the bowls."""

from enum import Enum

from msgspec import Struct

from consult.gates.limits import Demand, Limits
from consult.head.bands import Head
from consult.plan.application import Act, Application, Applications, Ending, span
from consult.plan.bowls import Mix
from consult.plan.case import Case
from consult.plan.clock import checks, full_minutes
from consult.plan.contact import contact_of
from consult.plan.rounds import Working
from consult.plan.sections import partings_words
from consult.plan.targets import in_a_sentence, name_of, where_of
from consult.products.kinds import Auxiliary, Direct, Filler, Product
from consult.sources import COMMON_PRACTICE
from consult.trade import Phrase, Stretch, both

_FROM_THE_ROUND = "Minute 0 is the moment the last parting of the first round is done."
_FROM_THE_FIRST_TOUCH = "Minute 0 is the first touch."
_CP = (COMMON_PRACTICE,)
_CLOSE_CHECKS = 2


class Part(Enum):
    """Which part of the day a step is. Every application has one that puts it on, and they come in its order."""

    PREPARE = "prepare"
    MIX = "mix"
    PUT_ON = "put on"
    WATCH = "watch"
    WAIT = "wait"
    TAKE_OFF = "take off"
    AFTER = "after"


class Step(Struct, frozen=True):
    """One step. `clock` are its first and last minute, None for a step off the clock; `checks` lie on it.

    `rules` are those that demand it.
    """

    part: Part
    say: Phrase
    because: Phrase
    sources: tuple[str, ...]
    stretch: str = ""
    clock: tuple[int, int] | None = None
    checks: tuple[int, ...] = ()
    rules: tuple[str, ...] = ()

    @property
    def minutes(self) -> int | None:
        return self.clock[1] - self.clock[0] if self.clock else None


Reasons = dict[str, Phrase]
"""Rule id -> what it says, for the steps that it demands."""


def plan_steps(
    case: Case, applications: Applications, mixes: tuple[Mix, ...], working: Working, reasons: Reasons
) -> tuple[Step, ...]:
    """What to do if it stings, preparation, every bowl and application at its time, rinse; and what findings add
    to them."""
    limits = case.limits
    steps = [
        *_prepare(case, applications, working),
        *(_demanded(Part.PREPARE, demand, reasons) for demand in limits.before),
    ]
    first_colour = next(a for a in applications if not isinstance(a.bowl.product, Auxiliary | Filler))
    for n, application in enumerate(applications):
        steps += [_mix(case, mix) for mix in mixes if _first_used(mix, application, applications[:n])]
        steps.append(_apply(case.head, application, applications[:n]))
        if application is first_colour:
            steps += [_demanded(Part.WATCH, demand, reasons) for demand in limits.during]
        following = applications[n + 1] if n + 1 < len(applications) else None
        wait = _wait(case, application, following, _zero(applications))
        if wait:
            steps.append(wait)
        if following and application.ending is Ending.RINSE and following.start >= application.until:
            steps.append(_between())
    return (*steps, *_finish(limits, reasons))


def _demanded(part: Part, demand: Demand[Phrase], reasons: Reasons) -> Step:
    """A step that findings demand, with what those findings say as its reason."""
    said = [reasons[rule] for rule in demand.rules if rule in reasons]
    because = Phrase(" ".join(one.trade for one in said), " ".join(one.plain for one in said))
    return Step(part, demand.value, because, _CP, rules=demand.rules)


def _between() -> Step:
    return Step(
        Part.TAKE_OFF,
        both(
            "Rinse this half lukewarm until the water runs clear, towel it and dry it; the other half stays dry and "
            "clipped away."
        ),
        both("Water would thin the colour that is still to come, and loosened colour would stain."),
        _CP,
    )


def _prepare(case: Case, applications: Applications, working: Working) -> list[Step]:
    return [
        Step(
            Part.PREPARE,
            both(
                "Stinging, burning or swelling at any time from here on: rinse at once, stop, get medical help."
            ),
            both("A reaction must not be waited out."),
            ("nos-consult", COMMON_PRACTICE),
        ),
        Step(
            Part.PREPARE,
            both("Read the leaflet once more; where it says otherwise, the leaflet counts."),
            both("Its maker sets ratio, time and limits."),
            ("red-seal-f13",),
        ),
        Step(
            Part.PREPARE,
            Phrase(
                "Gloves on, old towel or cape, window open, contact lenses out; barrier cream on the skin along "
                "the hairline, not on the hair.",
                "Put gloves on and an old towel or cape round the shoulders. Open the window and take contact lenses "
                "out. Rub barrier cream on the skin along the hairline, not on the hair.",
            ),
            both(
                "Peroxide products must be used with gloves and kept from the eyes. Cream on the first hairs keeps "
                "the colour off the white at the front."
            )
            if any(a.bowl.product.peroxide_on_head > 0 for a in applications)
            else both("Dye must not touch the hands, and is kept from the eyes."),
            ("eu-1223-annex-iii", COMMON_PRACTICE),
        ),
        Step(
            Part.PREPARE,
            Phrase(
                f"Section the dry, brushed hair; partings of {partings_words(case, working)}.",
                "Brush the dry hair, divide it into its sections and clip each of them up. Work through each in thin "
                f"slices (partings) of {partings_words(case, working)}.",
            ),
            both("Section first; then colour goes on without a pause."),
            ("bccampus-hair-colour", COMMON_PRACTICE),
        ),
    ]


def _first_used(mix: Mix, application: Application, before: Applications) -> bool:
    return mix.bowl == application.bowl and all(mix.bowl != a.bowl for a in before) and mix.go == 1


def _mix(case: Case, mix: Mix) -> Step:
    """One step a recipe: the first go now, each further one in its turn. Of two products it says which."""
    product = mix.bowl.product
    if isinstance(product, Auxiliary):
        say, because = f"Pour out the {product.label} for the {mix.what_for}.", product.because
    elif isinstance(product, Direct):
        say, because = (
            f"Fill {_which(case, product)} into a bowl; nothing is mixed in.",
            "Direct colour is ready as it comes.",
        )
    else:
        what = "the filler" if isinstance(product, Filler) else _which(case, product)
        first = "the first bowl of " if mix.of > 1 else ""
        further = ", each further one when the one before is used up" if mix.of > 1 else ""
        weighed = "" if mix.packs else ", by weight"
        purpose = (
            ""
            if isinstance(product, Filler)
            else f" for {in_a_sentence(mix.what_for.partition(' (bowl')[0])}"
        )
        say = f"Mix {first}{what}{purpose} now{further}; not in metal{weighed}."
        because = (
            "Fresh mix works evenly; metal can break down the peroxide. What is left over is thrown away."
        )
    return Step(Part.MIX, both(say), both(because), _CP)


def _which(case: Case, product: Product) -> str:
    return product.label if case.two_products else "the colour"


def _apply(head: Head, application: Application, before: Applications) -> Step:
    target, bowl = application.target, application.bowl
    where = where_of(target, *span(head, target))
    at = f"At minute {application.start}: " if before and application.start >= 0 else ""
    reason = application.reason
    if isinstance(bowl.product, Auxiliary):
        verb = {Act.DAB: "Dab", Act.COMB_THROUGH: "Comb", Act.PAINT: "Put"}[application.act]
        through = "through" if application.act is Act.COMB_THROUGH else "on"
        opening = f"{at}{verb} the {bowl.product.label} {through}"
        say = Phrase(
            f"{opening} {where.trade}. {reason.say.trade}", f"{opening} {where.plain}. {reason.say.plain}"
        )
    elif application.act is Act.COMB_THROUGH:
        damp = " on damp lengths" if head.porous_lengths else ""
        if application.emulsified:
            say = Phrase(
                f"{at}emulsify the colour on the new growth with a little warm water and draw it through the lengths "
                f"and ends{damp}; no new mix.",
                f"{at}wet your gloved hands with warm water, work the colour at the roots loose, and draw it with "
                f"hands and comb through the lengths and ends{damp}. Nothing new is mixed.",
            )
        else:
            say = Phrase(
                f"{at}thin the fresh bowl with a little warm water and comb it through the lengths and ends{damp}.",
                f"{at}stir a little warm water into the fresh bowl, work it in with the fingers, and comb it through "
                f"the lengths and ends{damp}.",
            )
    else:
        what = "Filler" if isinstance(bowl.product, Filler) else "Colour"
        warm = ", the warm base," if isinstance(bowl.product, Filler) else ""
        put = f"{at}{'put' if at else 'Put'} the {what.lower()}{warm} on"
        fresh = ", with fresh mix" if before and all(a.bowl != bowl for a in before) and at else ""
        behind = at and target.stretches == (Stretch.SCALP,)
        quick = ", quickly" if behind else ", on both sides of every parting"
        say = Phrase(
            f"{at}{what} on {where.trade}{quick}{fresh}. {reason.say.trade}",
            f"{put} {where.plain}{quick}{fresh}. {reason.say.plain}",
        )
    return Step(Part.PUT_ON, say, reason.because, reason.sources, name_of(target), rules=reason.rules)


def _zero(applications: Applications) -> str:
    """Where the clock of a list begins: a plan counts from its first round, a sheet from the first touch."""
    return _FROM_THE_ROUND if min(a.start for a in applications) < 0 else _FROM_THE_FIRST_TOUCH


def _wait(case: Case, application: Application, following: Application | None, zero: str) -> Step | None:
    """The time from the last touch to the next application, or to the end."""
    start = application.on_by
    end = application.until if following is None else min(application.until, following.start)
    if end <= start:
        return None
    minutes, counts = end - start, _counts(application)
    if application.ending is Ending.BLOT:
        say = Phrase(
            f"Leave it {minutes} minutes, check a strand, then blot dry; do not shampoo.",
            f"Leave it {minutes} minutes and look at a strand. Then press it dry with a towel; no shampoo.",
        )
    else:
        between = following and following.start < application.until
        ends = (
            f" before the next step. Nothing is rinsed until minute {application.until}"
            if between
            else _rinse_words(application)
        )
        say = Phrase(
            f"Leave {minutes} minutes, {counts.trade}, and never longer{ends}. Wipe a strand clean at each check, and "
            "put colour back on it.",
            f"Leave {minutes} minutes, {counts.plain}, and never longer{ends}. At each check wipe a strand clean, "
            "compare it with the goal, and put colour back on it.",
        )
    every = _CLOSE_CHECKS if application.water else None
    at = checks(start, end, every) if every else checks(start, end)
    return Step(
        Part.WAIT,
        say,
        _why_so_long(case, application, zero),
        ("red-seal-f13",),
        name_of(application.target),
        (start, end),
        at,
    )


def _counts(application: Application) -> Phrase:
    """How the minutes of a wait are counted."""
    product = application.bowl.product
    if not isinstance(product, Auxiliary) and product.leaflet.counted_from == "the first touch":
        contact = contact_of(application).longest
        return both(
            f"so that the first hair has had it on {contact} minutes, as the leaflet counts from the first touch"
        )
    last = "it is combed through" if application.act is Act.COMB_THROUGH else "the last parting is done"
    return Phrase("counted from the end of application", f"counted from the moment {last}")


def _rinse_words(application: Application) -> str:
    """The minute of each section's rinse, where they are rinsed one after the other."""
    if all(touch.off is None for touch in application.touches):
        return ""
    each = ", ".join(f"{touch.section} at minute {touch.off}" for touch in application.touches)
    return f". Rinse section by section: {each}"


def _why_so_long(case: Case, application: Application, zero: str) -> Phrase:
    product = application.bowl.product
    if isinstance(product, Auxiliary | Filler):
        return both("By its own leaflet; its job is done then, and the colour goes over it.")
    demanded = case.limits.time
    if demanded:
        white = (
            " White hair may not be covered fully in so short a time."
            if demanded.value == "shortest" and case.covers_white
            else ""
        )
        return both(f"{zero} A finding asks for the {demanded.value} time that the leaflet allows.{white}")
    white = " on white hair" if case.covers_white else ""
    by_strand = case.tests.strand_minutes is not None
    whose = "The strand test and the leaflet allow" if by_strand else "The leaflet says"
    return both(
        f"{zero} {whose} {full_minutes(case, product)} minutes{white}; more white does not make it longer, and "
        "rinsing early makes it fade."
    )


def _finish(limits: Limits, reasons: Reasons) -> list[Step]:
    return [
        Step(
            Part.TAKE_OFF,
            Phrase(
                "Add a little water, work it loose, rinse lukewarm until the water runs clear; mild shampoo, "
                "conditioner, gloves on until all is rinsed.",
                "Rinse: add a little lukewarm water, work the colour loose, and rinse until the water runs clear. Then "
                "mild shampoo and conditioner. Gloves stay on until all is rinsed.",
            ),
            both("Loosened colour leaves skin and hair fully; rinsing well is part of the label."),
            ("red-seal-f13", "eu-1223-annex-iii"),
        ),
        *(_demanded(Part.AFTER, demand, reasons) for demand in limits.after),
        Step(
            Part.AFTER,
            Phrase(
                "Look at the scalp, dry a strand, compare with the goal in daylight, write the result down.",
                "Look at the scalp. Dry a strand and compare it with the goal in daylight. Write down what came out.",
            ),
            both("The next visit starts from what is written now."),
            ("nos-consult",),
        ),
    ]
