"""How the head is divided and where to begin, in words."""

from consult.plan.application import Application, Applications, span
from consult.plan.case import Case
from consult.plan.lines import Line, line
from consult.plan.phrasing import percent
from consult.plan.rounds import PARTING_CM, Working
from consult.sources import COMMON_PRACTICE
from consult.trade import THRESHOLDS, Stretch, Zone


def begins_where_white(case: Case, working: Working) -> Zone | None:
    """The whitest zone of these sections, where white is covered and there is any."""
    white = {zone: case.head.white[zone] for zone in working.zones}
    return max(white, key=lambda zone: white[zone]) if case.covers_white and any(white.values()) else None


def begins_at_the_back(case: Case) -> bool:
    """Whether a round that does not begin where it is whitest begins where the hair is darkest."""
    return case.lift > 0


def start_place(case: Case, working: Working) -> Line:
    """Where the first brushful goes: where it is whitest among these sections, or darkest, or lightest."""
    zone = begins_where_white(case, working)
    if zone:
        where = {Zone.FRONT: "the front hairline", Zone.TEMPLES: "the front hairline and the temples"}.get(
            zone, f"the {zone.value}"
        )
        return line(
            f"Begin at {where}.",
            f"White is densest there ({percent(case.head.white[zone])}), so it gets the longest contact within "
            "the clock.",
        )
    if begins_at_the_back(case):
        return line(
            "Begin at the back, where the hair is darkest.",
            "When colour lightens, the darkest hair needs it longest; the fine hairline comes last.",
            ("bccampus-hair-colour",),
        )
    return line(
        "Begin at the front, where the hair is lightest.",
        "When colour darkens, the lightest hair needs it longest.",
    )


def plan_sections(
    case: Case, applications: Applications, working: Working, why: Line | None
) -> tuple[Line, ...]:
    """Sections, partings and the starting place, in the order they are used, and where to stop.

    `why` tells how they are handled, where that is not the plain way.
    """
    names = ", ".join(section.name for section in working.sections)
    lines = [
        line(
            "Divide into four sections: centre parting from front to nape, then ear to ear over the crown."
            if working.settings.sections == 4
            else "Divide into five sections: top front, both sides, both halves of the back.",
            "Sections keep track of what is done. Four are taught, five are examined in some places.",
            ("bccampus-hair-colour", "nic-practical-bulletin"),
        ),
        start_place(case, working),
        line(
            f"Order: {names}. Outline the partings, work through each section, cross-check at right angles.",
            "What is begun first has the longest contact.",
            plain=f"Order: {names}. Draw the partings first, finish one section after the other, and look "
            "crosswise whether a hair was missed.",
        ),
        line(
            f"Take partings of {partings_words(case, working)} and cover both sides of each.",
            "Thin partings reach every hair"
            + (
                "; finer here, because the hair is dense or white."
                if _finest(case, working) < PARTING_CM
                else "."
            ),
            ("bccampus-hair-colour", COMMON_PRACTICE),
        ),
    ]
    return (*lines, *([why] if why else []), *_where_to_stop(case, applications))


def _finest(case: Case, working: Working) -> float:
    return min(working.parting_cm(case, section) for section in working.sections)


def partings_words(case: Case, working: Working) -> str:
    """How thick the partings are: one figure, or the sections that have wider ones."""
    by_width: dict[float, list[str]] = {}
    for section in working.sections:
        by_width.setdefault(working.parting_cm(case, section), []).append(section.name)
    if len(by_width) == 1:
        return f"about {next(iter(by_width)):g} cm"
    return " and ".join(
        f"about {width:g} cm ({', '.join(names)})" for width, names in sorted(by_width.items())
    )


def _where_to_stop(case: Case, applications: Applications) -> list[Line]:
    lines = []
    reached = {stretch for a in applications for stretch in a.target.stretches}
    if any(_ends_at_new_growth(a) for a in applications) and case.head.treated:
        lines.append(
            line(
                f"Stop at the line of demarcation, {case.hair.new_growth_cm:g} cm from the scalp; overlap at most "
                "1 to 2 mm.",
                "Overlap on coloured hair adds damage and leaves a darker band.",
                plain=f"Stop where the old colour begins, {case.hair.new_growth_cm:g} cm from the scalp; go over it "
                "by 1 to 2 mm at most.",
            )
        )
    porous = any(b.porosity == "high" for b in case.head.treated if b.stretch is Stretch.ENDS)
    if Stretch.ENDS in reached and porous and not any(a.water for a in applications):
        lines.append(
            line(
                "Porous ends last, or one level lighter, and wiped as soon as they match.",
                "Porous hair takes colour fast and dark.",
                plain="Rough ends last; wipe them as soon as they look right.",
            )
        )
    split = _split(applications)
    long = case.hair.new_growth_cm > THRESHOLDS["long-new-growth"] and case.head.coloured
    if long and not split and Stretch.SCALP in reached:
        lines.append(
            line(
                f"The new growth is {case.hair.new_growth_cm:g} cm long: beyond the scalp's warmth it may come out a "
                "little different, and a warm band may show.",
                f"Beyond {THRESHOLDS['long-new-growth']:g} cm new growth passes the scalp's warm zone.",
            )
        )
    if split and case.hair.new_growth_cm > THRESHOLDS["long-new-growth"]:
        start, _ = span(case.head, split.target)
        lines.append(
            line(
                f"Split the {case.hair.new_growth_cm:g} cm of new growth: first from {start:g} cm off the scalp, the "
                "rest at the scalp later. A warm band may show all the same.",
                f"Beyond {THRESHOLDS['long-new-growth']:g} cm new growth passes the scalp's warm zone and lightens "
                "unevenly.",
            )
        )
    return lines


def _ends_at_new_growth(application: Application) -> bool:
    stretches = application.target.stretches
    return Stretch.NEW_GROWTH in stretches and Stretch.LENGTHS not in stretches


def _split(applications: Applications) -> Application | None:
    """The application that takes the new growth off the scalp only."""
    only_new = (Stretch.NEW_GROWTH,)
    return next((a for a in applications if a.target.stretches == only_new), None)
