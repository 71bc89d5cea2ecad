"""What holds a plan although no gate does: products nobody has tested, hours that are too long alone."""

from consult.plan.brief import Brief
from consult.plan.timeline import LONGEST_ALONE, Timeline
from consult.plan.types import Line, Mix
from consult.sources import ASSUMPTION, COMMON_PRACTICE


def untested_products(brief: Brief, mixes: tuple[Mix, ...]) -> list[Line]:
    """A natural share or a filler is another product, and an allergy alert test counts only for its own mix."""
    own = f"shade depth {brief.depth:g} {brief.tone}"
    others = sorted({shade for mix in mixes for shade, grams in mix.shades if shade != own and grams > 0})
    if not others or brief.mix_tested:
        return []
    return [
        Line(
            f"Allergy alert test with the whole mix first: {', '.join(others)} would go on as well. Then answer "
            "that the whole mix was tested.",
            "A test counts only for the very mix that was tested; any ingredient can be the culprit.",
            ("canada-cosmetic-regulations-22", "jhcia-patch-test"),
        )
    ]


def too_long_alone(brief: Brief, timeline: Timeline) -> list[Line]:
    """Beyond an hour of application one person at home cannot keep the minutes even over the head."""
    if not brief.at_home or timeline.working <= LONGEST_ALONE:
        return []
    return [
        Line(
            f"Not alone: putting it on would take about {timeline.working} minutes. Let somebody help (and answer so), "
            "or have it done in a salon.",
            f"Beyond about {LONGEST_ALONE:g} minutes the first hair is long done before the last is begun.",
            (COMMON_PRACTICE, ASSUMPTION),
        )
    ]
