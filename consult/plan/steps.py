"""The steps, one after the other, with the clock."""

from consult.plan.brief import Brief
from consult.plan.clock import checks, develop, full_minutes
from consult.plan.mix import fill_shade
from consult.plan.sections import is_split, parting_cm, start_place
from consult.plan.timeline import Timeline
from consult.plan.types import Approach, Step
from consult.sources import COMMON_PRACTICE

_CP = (COMMON_PRACTICE,)
FROM_ZERO = "Minute 0 is the moment the last parting is done."


def plan_steps(brief: Brief, approach: Approach, timeline: Timeline) -> tuple[Step, ...]:
    """Preparation, application and development by approach, rinse."""
    middle = {
        Approach.NEW_GROWTH: _new_growth,
        Approach.REFRESH: _refresh,
        Approach.ALL_OVER: _all_over,
        Approach.LENGTHS_FIRST: _lengths_first,
        Approach.PRE_PIGMENT: _pre_pigment,
    }[approach](brief, timeline)
    if approach is not Approach.PRE_PIGMENT:
        middle = [_mix_now(timeline), *middle]
    return (*_prepare(brief), *_presoften(brief), *middle, *_finish())


def _prepare(brief: Brief) -> list[Step]:
    return [
        Step(
            "Read the leaflet once more; where it says otherwise, the leaflet counts.",
            "Its maker sets ratio, time and limits.",
            ("red-seal-f13",),
        ),
        Step(
            "Gloves on, old towel or cape, window open, barrier cream along the hairline, contact lenses out.",
            "Peroxide products must be used with gloves and kept from the eyes.",
            ("eu-1223-annex-iii", COMMON_PRACTICE),
        ),
        Step(
            f"Section the dry, brushed hair; partings of about {parting_cm(brief):g} cm.",
            "Section first: once mixed, the colour starts working in the bowl.",
            ("bccampus-hair-colour", COMMON_PRACTICE),
        ),
    ]


def _mix_now(timeline: Timeline) -> Step:
    how = (
        "Mix the first bowl now, each further one when the one before is used up; not in metal, by weight."
        if timeline.bowls > 1
        else "Mix now, in a bowl that is not metal, by weight."
    )
    return Step(
        how,
        "Fresh mix works evenly; metal can break down the peroxide. What is left over is thrown away.",
        _CP,
    )


def _presoften(brief: Brief) -> list[Step]:
    """Resistant white is opened first, by a professional only."""
    if not (brief.covers_white and brief.white_resists) or brief.at_home:
        return []
    return [
        Step(
            "Pre-soften the resistant white: 3 % developer alone on those strands for up to 10 minutes, then "
            "blotted dry. Not on a sensitive scalp.",
            "Resistant white lets colour slide off; slightly opened it takes it.",
            _CP,
            "resistant white",
        )
    ]


def _apply_new_growth(brief: Brief) -> Step:
    start = start_place(brief)
    return Step(
        f"Colour on the new growth, {brief.new_growth_cm:g} cm, both sides of every parting. {start.say}",
        start.because,
        start.sources,
        "new growth",
    )


def _new_growth(brief: Brief, timeline: Timeline) -> list[Step]:
    end = full_minutes(brief)
    if is_split(brief):
        half = end // 2
        return [
            Step(
                f"The new growth is {brief.new_growth_cm:g} cm: colour it first from 1.3 cm off the scalp outwards.",
                "Near the scalp warmth would make it run ahead; a warm band may show all the same.",
                _CP,
                "new growth, off the scalp",
            ),
            _development("new growth, off the scalp", 0, half, brief),
            Step(
                f"At minute {half} colour the last 1.3 cm at the scalp, quickly, with fresh mix.",
                "The scalp's warmth makes up for the later start.",
                _CP,
                "new growth, at the scalp",
            ),
            _development("new growth", half, end, brief),
        ]
    return [
        _apply_new_growth(brief),
        _development("new growth", 0, end, brief),
    ]


def _refresh(brief: Brief, timeline: Timeline) -> list[Step]:
    clock = develop(brief, refresh=True)
    how = (
        "Dampen the lengths and thin the rest of the mix with a little warm water"
        if brief.porous_lengths
        else "Emulsify the rest of the mix with a little warm water"
    )
    porous = " The lengths are porous and take colour fast, so it is thinned." if brief.porous_lengths else ""
    early = (
        f" The leaflet's longest time is {brief.minutes_max} minutes in all, so the lengths join at "
        f"minute {clock.lengths_from}."
        if clock.lengths_from < clock.new_growth
        else ""
    )
    return [
        _apply_new_growth(brief),
        Step(
            f"Leave {clock.lengths_from} minutes, counted from the end of application, and never longer before the "
            f"lengths join. Nothing is rinsed until minute {clock.end}. Wipe a strand clean at each check.",
            _leaflet_reason(brief),
            ("red-seal-f13", COMMON_PRACTICE),
            "new growth",
            0,
            clock.lengths_from,
            checks(0, clock.lengths_from),
        ),
        Step(
            f"{how}, comb it through the lengths and ends, leave {brief.minutes_refresh} minutes and no longer.",
            f"The lengths are {brief.lengths_look}; a short pass is enough and anything longer darkens "
            f"them.{porous}{early}",
            _CP,
            "lengths and ends",
            clock.lengths_from,
            clock.end,
            checks(clock.lengths_from, clock.end, 2),
        ),
    ]


def _all_over(brief: Brief, timeline: Timeline) -> list[Step]:
    start = start_place(brief)
    end = full_minutes(brief)
    ends = " Porous ends last." if brief.porous_lengths else ""
    return [
        Step(
            f"Colour from scalp to ends, parting by parting. {start.say}{ends}",
            start.because + (" Porous ends take colour fast and dark." if ends else ""),
            start.sources,
            "all over",
        ),
        _development("all over", 0, end, brief),
    ]


def _lengths_first(brief: Brief, timeline: Timeline) -> list[Step]:
    full = full_minutes(brief)
    if not timeline.two_stages:
        return [
            Step(
                "The leaflet leaves no room for two stages: follow its own order for hair never coloured before.",
                f"Its longest time is {brief.minutes_max} minutes; the roots need {full} and the time to put them "
                "on, and no stretch may stay on longer.",
                _CP,
            ),
            *_all_over(brief, timeline),
        ]
    start = start_place(brief)
    rinse = timeline.exposures[-1].rinsed_at
    roots_done = timeline.exposures[-1].applied_to
    steps = [
        Step(
            f"Colour on lengths and ends first, from 1.5 cm off the scalp. {start.say}",
            "Scalp warmth would make the first centimetre run ahead.",
            _CP,
            "lengths and ends",
        ),
    ]
    if timeline.waiting:
        steps.append(
            Step(
                f"Let the lengths work {timeline.waiting} minutes.",
                "They lag behind the warm roots.",
                _CP,
                "lengths and ends",
                0,
                timeline.waiting,
                checks(0, timeline.waiting),
            )
        )
    return [
        *steps,
        Step(
            f"Mix the second bowl fresh and colour the last 1.5 cm at the scalp, done by minute {roots_done}.",
            f"Fresh mix at the roots. The lengths are on {rinse} minutes in the end, within the leaflet's "
            f"{brief.minutes_max}.",
            _CP,
            "roots",
        ),
        _development("roots", roots_done, rinse, brief),
    ]


def _pre_pigment(brief: Brief, timeline: Timeline) -> list[Step]:
    depth, tone = fill_shade(brief.goal_depth)
    return [
        Step(
            f"Mix the filler, demi-permanent depth {depth:g} {tone}, and put it on the lightened hair only.",
            "Lightened hair lacks the warm pigment that carries a darker shade.",
            ("ofqual-colour-correction", COMMON_PRACTICE),
            "lightened hair",
        ),
        Step(
            "Leave it 10 to 15 minutes by its own leaflet, check a strand, then blot; do not shampoo.",
            "Enough to warm the hair; the shade goes over it.",
            _CP,
            "lightened hair",
        ),
        _mix_now(timeline),
        *_all_over(brief, timeline),
    ]


def _leaflet_reason(brief: Brief) -> str:
    white = " on white hair" if brief.covers_white else ""
    by_strand = not brief.covers_white and brief.strand_minutes is not None
    whose = "The strand test and the leaflet allow" if by_strand else "The leaflet says"
    return (
        f"{FROM_ZERO} {whose} {full_minutes(brief)} minutes{white}; more white does not make it longer, and rinsing "
        "early makes it fade."
    )


def _development(stretch: str, start: int, end: int, brief: Brief) -> Step:
    return Step(
        f"Leave {end - start} minutes, counted from the end of application, and never longer. Wipe a strand "
        "clean at each check.",
        _leaflet_reason(brief),
        ("red-seal-f13", COMMON_PRACTICE),
        stretch,
        start,
        end,
        checks(start, end),
    )


def _finish() -> list[Step]:
    return [
        Step(
            "Stinging, burning or swelling at any time: rinse at once, stop, get medical help.",
            "A reaction must not be waited out.",
            ("nos-consult", COMMON_PRACTICE),
        ),
        Step(
            "Add a little water, work it loose, rinse lukewarm until the water runs clear; mild shampoo, "
            "conditioner, gloves on until all is rinsed.",
            "Loosened colour leaves skin and hair fully; rinsing well is part of the label.",
            ("red-seal-f13", "eu-1223-annex-iii"),
        ),
        Step(
            "Look at the scalp, dry a strand, compare with the goal in daylight, write the result down.",
            "The next visit starts from what is written now.",
            ("nos-consult",),
        ),
    ]
