"""The trade's decision table and its worked cases, from the client's facts to the verdict.

Each row names what it rests on: a source, or that it is common practice.
"""

from datetime import date, datetime, timedelta
from typing import Any, NamedTuple

import pytest

from consult.answers.base import NOT_SURE
from consult.gates.judge import judge
from consult.gates.verdict import Verdict
from consult.sources import COMMON_PRACTICE, is_source
from tests.baseline import NOW, baseline

PRO = {"client.applied_by": "a licensed colourist"}
STRAND_HELD = {"strand_test.done": "yes", "strand_test.hair": "sound", "strand_test.colour": "as wanted"}
NEVER_COLOURED: dict[str, Any] = {"history.services": [], "hair.new_growth_cm": 0.0}
COLLEGE, CORRECTION = "college-colour-unit", "ofqual-colour-correction"


def had(kind: str, on: date = date(2026, 3, 1), **more: Any) -> dict[str, Any]:
    return {"history.services": [{"kind": kind, "on": on, "stretch": "all over", "by": "a salon", **more}]}


def white(percent: float) -> dict[str, Any]:
    return {f"hair.white_{zone}": percent for zone in ("front", "temples", "crown", "nape")}


class Row(NamedTuple):
    name: str
    source: str
    changes: dict[str, Any]
    verdict: Verdict
    rules: tuple[str, ...] = ()


SAFETY = [
    Row(
        "reaction to hair colour",
        CORRECTION,
        {"health.ever_reacted": "yes"},
        Verdict.STOP,
        ("reaction-to-colour",),
    ),
    Row(
        "black henna that reacted",
        COLLEGE,
        {"health.black_henna": "yes, it reacted"},
        Verdict.STOP,
        ("black-henna-reacted",),
    ),
    Row(
        "black henna that may have reacted",
        COLLEGE,
        {"health.black_henna": "yes, not sure whether it reacted", "health.black_henna_on": date(2019, 8, 1)},
        Verdict.SEE_DOCTOR,
        ("black-henna-unclear",),
    ),
    Row(
        "test positive", CORRECTION, {"allergy_test.second_signs": ["rash"]}, Verdict.STOP, ("test-positive",)
    ),
    Row(
        "test doubtful",
        CORRECTION,
        {"allergy_test.second_signs": NOT_SURE},
        Verdict.WAIT,
        ("test-last-reading-missing",),
    ),
    Row("no test", "fda-hair-dye-qa", {"allergy_test.done": "no"}, Verdict.WAIT, ("test-not-done",)),
    Row(
        "test of another product",
        "jhcia-patch-test",
        {"allergy_test.same_product": "no"},
        Verdict.WAIT,
        ("test-other-product",),
    ),
    Row("broken scalp", COLLEGE, {"scalp.signs": ["cuts or grazes"]}, Verdict.WAIT, ("scalp-broken",)),
    Row("inflamed scalp", COLLEGE, {"scalp.signs": ["redness"]}, Verdict.WAIT, ("scalp-irritated",)),
    Row(
        "infected scalp",
        COLLEGE,
        {"scalp.signs": ["pus or yellow crusts"]},
        Verdict.SEE_DOCTOR,
        ("scalp-infection",),
    ),
    Row(
        "blisters on the scalp",
        "allergy-uk-hair-dye",
        {"scalp.signs": ["blisters or swelling"]},
        Verdict.SEE_DOCTOR,
        ("scalp-blisters",),
    ),
    Row(
        "infestation",
        COLLEGE,
        {"scalp.signs": ["burrows or night itch"]},
        Verdict.WAIT,
        ("scalp-infestation",),
    ),
    Row(
        "medical treatment",
        COLLEGE,
        {"health.treatments": ["chemotherapy now"]},
        Verdict.SEE_DOCTOR,
        ("chemotherapy-now",),
    ),
    Row(
        "medical instruction",
        CORRECTION,
        {"health.treatments": ["a doctor advised against colouring"]},
        Verdict.SEE_DOCTOR,
        ("doctor-advised-against",),
    ),
    Row(
        "sensitising medicine",
        COLLEGE,
        {"health.medicines": ["medicine that makes skin sensitive"]},
        Verdict.SEE_DOCTOR,
        ("medicine-sensitive-skin",),
    ),
    Row(
        "pregnancy, past 12 weeks",
        COLLEGE,
        {"health.pregnancy": "pregnant", "health.pregnancy_week": 30},
        Verdict.CAUTION,
        ("pregnancy",),
    ),
    Row(
        "breast-feeding", COLLEGE, {"health.pregnancy": "breastfeeding"}, Verdict.CAUTION, ("breastfeeding",)
    ),
    Row(
        "sensitive scalp, the stricter reading",
        "tukes-hair-dye-labels",
        {"scalp.signs": ["sensitive scalp"]},
        Verdict.WAIT,
        ("scalp-irritated",),
    ),
    Row(
        "under the leaflet's age",
        COMMON_PRACTICE,
        {"client.age": 17, "product.age_limit": 18},
        Verdict.STOP,
        ("client-under-leaflet-age",),
    ),
    Row("lashes", "us-code-21-361", {"goal.areas": ["eyelashes"]}, Verdict.STOP, ("area-brows-lashes",)),
    Row("test refused", COMMON_PRACTICE, {"allergy_test.done": "refused"}, Verdict.STOP, ("test-refused",)),
]

HAIR = [
    Row(
        "breaks, professional",
        COMMON_PRACTICE,
        {**PRO, "hair.wet_stretch": "breaks"},
        Verdict.TREAT_FIRST,
        ("hair-breaks",),
    ),
    Row(
        "gummy, at home",
        COMMON_PRACTICE,
        {"hair.wet_stretch": "gummy or spongy"},
        Verdict.SEE_COLOURIST,
        ("hair-breaks", "hair-breaks-at-home"),
    ),
    Row(
        "stays stretched",
        COMMON_PRACTICE,
        {"hair.wet_stretch": "stays stretched"},
        Verdict.TREAT_FIRST,
        ("hair-stays-stretched",),
    ),
    Row(
        "compound henna, professional",
        "bccampus-hair-colour",
        {**PRO, **had("compound or unknown henna")},
        Verdict.TEST_FIRST,
        ("metallic-untested",),
    ),
    Row(
        "unknown home product, at home",
        "bccampus-hair-colour",
        had("unknown home product"),
        Verdict.SEE_COLOURIST,
        ("metallic-at-home", "metallic-untested"),
    ),
    Row(
        "plain henna", COLLEGE, {**PRO, **had("plain henna")}, Verdict.TEST_FIRST, ("henna-untested", "henna")
    ),
    Row(
        "incompatibility test positive",
        CORRECTION,
        {**PRO, **had("unknown home product"), "incompatibility_test.result": "hair broke or dissolved"},
        Verdict.STOP,
        ("metallic-positive",),
    ),
    Row(
        "incompatibility test silent, suspicious history",
        COMMON_PRACTICE,
        {**PRO, **had("unknown home product"), "incompatibility_test.result": "no change at all"},
        Verdict.STOP,
        ("metallic-silent",),
    ),
    Row(
        "incompatibility test silent, sound history",
        COMMON_PRACTICE,
        {"incompatibility_test.result": "no change at all"},
        Verdict.CLEAR,
    ),
    Row(
        "relaxer last week",
        COLLEGE,
        {**PRO, **had("relaxer, thio", date(2026, 11, 18))},
        Verdict.WAIT,
        ("chemical-service-recent", "relaxed-untested"),
    ),
    Row("relaxed hair, at home", COLLEGE, had("relaxer, thio"), Verdict.SEE_COLOURIST, ("relaxed-at-home",)),
    Row(
        "relaxed hair, professional",
        COLLEGE,
        {**PRO, **had("relaxer, thio")},
        Verdict.TEST_FIRST,
        ("relaxed-untested",),
    ),
    Row(
        "relaxed hair, professional, strand held",
        COLLEGE,
        {**PRO, **STRAND_HELD, **had("relaxer, thio")},
        Verdict.CAUTION,
        ("relaxed",),
    ),
    Row(
        "history shorter than the hair",
        "bccampus-hair-colour",
        {"history.known_months": 12},
        Verdict.TEST_FIRST,
        ("history-incomplete",),
    ),
    Row(
        "porosity differs by zone",
        CORRECTION,
        {"hair.porosity_ends": "high"},
        Verdict.CAUTION,
        ("porosity-differs", "porosity-high"),
    ),
    Row(
        "a professional in doubt about the hair",
        "au-shbhcls002",
        {**PRO, "hair.wet_stretch": NOT_SURE},
        Verdict.TEST_FIRST,
        ("hair-breaks",),
    ),
    Row(
        "a professional in doubt about the natural depth",
        "au-shbhcls002",
        {**PRO, "hair.natural_depth": NOT_SURE},
        Verdict.TEST_FIRST,
        ("lift-untested",),
    ),
]

GOAL = [
    Row(
        "coloured lengths, lighter goal, at home",
        "red-seal-f13",
        {"goal.depth": 6.0},
        Verdict.SEE_COLOURIST,
        ("lengths-coloured-goal-lighter",),
    ),
    Row(
        "coloured lengths, lighter goal, professional",
        "uk-nos-correction",
        {**PRO, "goal.depth": 6.0},
        Verdict.SEE_COLOURIST,
        ("lengths-coloured-goal-lighter",),
    ),
    Row(
        "never coloured, two levels lighter, at home",
        COMMON_PRACTICE,
        {**NEVER_COLOURED, "goal.depth": 7.0},
        Verdict.CLEAR,
    ),
    Row(
        "never coloured, three levels lighter, professional",
        COMMON_PRACTICE,
        {**PRO, **NEVER_COLOURED, **white(0), "goal.depth": 8.0},
        Verdict.TEST_FIRST,
        ("lift-untested",),
    ),
    Row(
        "the same with a strand that held",
        COMMON_PRACTICE,
        {**PRO, **NEVER_COLOURED, **white(0), **STRAND_HELD, "goal.depth": 8.0},
        Verdict.CLEAR,
    ),
    Row(
        "four levels lighter, professional",
        COMMON_PRACTICE,
        {**PRO, **NEVER_COLOURED, **STRAND_HELD, "goal.depth": 9.0},
        Verdict.SEE_COLOURIST,
        ("lift-over-3",),
    ),
    Row(
        "three levels darker at home",
        COMMON_PRACTICE,
        {"goal.depth": 2.0},
        Verdict.SEE_COLOURIST,
        ("darker-over-2-at-home",),
    ),
    Row(
        "lightened, three darker, professional, strand held",
        CORRECTION,
        {**PRO, **STRAND_HELD, **had("lightener all over"), "hair.lengths_depth": 8.0},
        Verdict.CAUTION,
        ("pre-pigment-needed",),
    ),
    Row(
        "lightened, two darker, professional, strand held",
        CORRECTION,
        {**PRO, **STRAND_HELD, **had("lightener all over"), "hair.lengths_depth": 7.0},
        Verdict.CAUTION,
        ("pre-pigment-advised",),
    ),
    Row(
        "lightened, one darker, professional, strand held",
        COMMON_PRACTICE,
        {**PRO, **STRAND_HELD, **had("lightener all over"), "hair.lengths_depth": 6.0},
        Verdict.CAUTION,
        ("lightened",),
    ),
    Row(
        "bands at home",
        "uk-nos-correction",
        {"history.needs_correction": "yes"},
        Verdict.SEE_COLOURIST,
        ("correction-at-home",),
    ),
    Row(
        "bands, professional",
        "uk-nos-correction",
        {**PRO, "history.needs_correction": "yes"},
        Verdict.CAUTION,
        ("correction",),
    ),
    Row(
        "powder lightener at home",
        COMMON_PRACTICE,
        {"product.colour_class": "powder lightener"},
        Verdict.SEE_COLOURIST,
        ("lightener-at-home",),
    ),
    Row(
        "beard as well",
        "tukes-hair-dye-labels",
        {"goal.areas": ["scalp hair", "beard"]},
        Verdict.CAUTION,
        ("area-beard",),
    ),
    Row(
        "beard alone",
        COMMON_PRACTICE,
        {"goal.areas": ["beard"]},
        Verdict.WAIT,
        ("area-no-scalp-hair", "area-beard"),
    ),
    Row(
        "light lengths that nothing explains, at home",
        COMMON_PRACTICE,
        {**NEVER_COLOURED, "hair.lengths_depth": 7.0},
        Verdict.SEE_COLOURIST,
        ("lengths-lighter-than-nature-at-home", "lengths-lighter-than-nature"),
    ),
    Row(
        "light ends that nothing explains, professional",
        COMMON_PRACTICE,
        {**PRO, **NEVER_COLOURED, "hair.ends_depth": 8.0},
        Verdict.TEST_FIRST,
        ("lengths-lighter-than-nature",),
    ),
    Row(
        "the same with a strand that held, new growth only",
        COMMON_PRACTICE,
        {**PRO, **NEVER_COLOURED, **STRAND_HELD, "hair.ends_depth": 8.0, "goal.extent": "new growth only"},
        Verdict.CAUTION,
        ("lengths-faded",),
    ),
    Row(
        "lengths faded by the sun, at home",
        COMMON_PRACTICE,
        {**NEVER_COLOURED, "hair.lengths_depth": 6.5},
        Verdict.CAUTION,
        ("lengths-faded",),
    ),
    Row(
        "coloured ends darker than the goal",
        "red-seal-f13",
        {**PRO, "hair.ends_depth": 4.0},
        Verdict.SEE_COLOURIST,
        ("lengths-coloured-goal-lighter",),
    ),
    Row(
        "no upkeep and little white",
        "bccampus-hair-colour",
        {"goal.upkeep": "as little as possible"},
        Verdict.CAUTION,
        ("low-upkeep",),
    ),
]

CASES = [
    Row(
        "new client, 38, depth 5, 20 % white, wants 5, no test",
        "fda-hair-dye-qa",
        {**NEVER_COLOURED, **white(20), "client.age": 38, "allergy_test.done": "no"},
        Verdict.WAIT,
        ("test-not-done",),
    ),
    Row(
        "old tattoo that blistered",
        CORRECTION,
        {"health.black_henna": "yes, it reacted", "allergy_test.done": "no"},
        Verdict.STOP,
        ("black-henna-reacted",),
    ),
    Row(
        "grey restorer for years, untested",
        COMMON_PRACTICE,
        {**PRO, **had("progressive colour (restorer)")},
        Verdict.SEE_COLOURIST,
        ("metallic-colour", "metallic-untested"),
    ),
    Row(
        "grey restorer, fizz and heat",
        COMMON_PRACTICE,
        {
            **PRO,
            **had("progressive colour (restorer)"),
            "incompatibility_test.result": "heat, fizz, smell or colour change",
        },
        Verdict.STOP,
        ("metallic-positive",),
    ),
    Row(
        "lightened to 9, gummy ends, at home",
        COMMON_PRACTICE,
        {
            **had("lightener all over"),
            "hair.lengths_depth": 9.0,
            "goal.depth": 9.0,
            "hair.wet_stretch": "gummy or spongy",
        },
        Verdict.SEE_COLOURIST,
        ("hair-breaks", "hair-breaks-at-home"),
    ),
    Row(
        "lightened to 9, gummy ends, professional, new growth",
        COMMON_PRACTICE,
        {
            **PRO,
            **had("lightener all over"),
            "goal.extent": "new growth only",
            "hair.wet_stretch": "gummy or spongy",
        },
        Verdict.TREAT_FIRST,
        ("hair-breaks",),
    ),
    Row(
        "never coloured, 3 to 9 at home",
        COMMON_PRACTICE,
        {**NEVER_COLOURED, "hair.natural_depth": 3.0, "goal.depth": 9.0},
        Verdict.SEE_COLOURIST,
        ("lift-over-2-at-home", "lift-over-3"),
    ),
    Row(
        "50 % white, the rest 4, even brown",
        COMMON_PRACTICE,
        {
            **NEVER_COLOURED,
            **white(50),
            "hair.natural_depth": 4.0,
            "hair.lengths_depth": 4.0,
            "goal.depth": 4.0,
        },
        Verdict.CLEAR,
    ),
    Row(
        "50 % white, depth 7 to 7",
        COMMON_PRACTICE,
        {
            **NEVER_COLOURED,
            **white(50),
            "hair.natural_depth": 7.0,
            "hair.lengths_depth": 7.0,
            "goal.depth": 7.0,
        },
        Verdict.CLEAR,
    ),
    Row("almost white back to 5", COMMON_PRACTICE, {**NEVER_COLOURED, **white(95)}, Verdict.CLEAR),
    Row(
        "lightened 9 to ash brown 6 from a box",
        COMMON_PRACTICE,
        {
            **had("lightener all over"),
            "hair.lengths_depth": 9.0,
            "goal.depth": 6.0,
            "goal.tone": "ash",
            "hair.natural_depth": 6.0,
        },
        Verdict.SEE_COLOURIST,
        ("cool-on-lightened-at-home", "lightened-darker-at-home", "pre-pigment-needed"),
    ),
    Row(
        "the same by a professional: strand test before any mix",
        COMMON_PRACTICE,
        {
            **PRO,
            **had("lightener all over"),
            "hair.lengths_depth": 9.0,
            "goal.depth": 6.0,
            "goal.tone": "ash",
            "hair.natural_depth": 6.0,
        },
        Verdict.TEST_FIRST,
        ("cool-on-lightened", "pre-pigment-needed"),
    ),
    Row(
        "usual retouch, 1.3 cm in 5 weeks",
        COMMON_PRACTICE,
        {**had("permanent colour", date(2026, 10, 21)), "hair.new_growth_cm": 1.3},
        Verdict.CLEAR,
    ),
    Row(
        "4 cm of new growth, two lighter, at home",
        COMMON_PRACTICE,
        {"hair.natural_depth": 3.0, "hair.new_growth_cm": 4.0},
        Verdict.SEE_COLOURIST,
        ("long-new-growth-lift-at-home",),
    ),
    Row(
        "perm last week",
        COLLEGE,
        {**PRO, **had("perm", date(2026, 11, 18))},
        Verdict.WAIT,
        ("chemical-service-recent",),
    ),
    Row(
        "at home, three lighter on 6, no white",
        COMMON_PRACTICE,
        {**NEVER_COLOURED, **white(0), "hair.natural_depth": 6.0, "goal.depth": 9.0},
        Verdict.SEE_COLOURIST,
        ("lift-over-2-at-home",),
    ),
    Row(
        "at home, two lighter on 6 instead",
        COMMON_PRACTICE,
        {**NEVER_COLOURED, **white(0), "hair.natural_depth": 6.0, "goal.depth": 8.0},
        Verdict.CLEAR,
    ),
]


@pytest.mark.parametrize("row", [*SAFETY, *HAIR, *GOAL, *CASES], ids=lambda row: row.name)
def test_row(row: Row) -> None:
    assert is_source(row.source)
    judgement = judge(baseline(row.changes), NOW)
    assert set(row.rules) <= {f.rule for f in judgement.findings}
    assert judgement.verdict is row.verdict, [f.rule for f in judgement.findings]
    assert judgement.settled


def test_after_the_perm_has_waited_the_strand_test_comes() -> None:
    """Common practice: two weeks, then the strand decides."""
    perm = {**PRO, **had("perm", date(2026, 11, 18))}
    until = judge(baseline(perm), NOW).until
    assert until is not None
    assert until.date() == date(2026, 12, 2)
    read = [until - timedelta(hours=hours) for hours in (50, 49.5, 2)]
    test = dict(zip(("applied_at", "first_read_at", "second_read_at"), read, strict=True))
    later = baseline({**perm, **{f"allergy_test.{name}": moment for name, moment in test.items()}})
    assert judge(later, until).verdict is Verdict.TEST_FIRST


@pytest.mark.parametrize("minutes_short", [0, 1])
def test_a_clear_test_is_48_hours_old_to_the_minute(minutes_short: int) -> None:
    """FDA: two days; one minute less is a wait that ends one minute later."""
    applied = NOW - timedelta(hours=48) + timedelta(minutes=minutes_short)
    judgement = judge(baseline({"allergy_test.applied_at": applied}), NOW)
    expected: tuple[Verdict, datetime | None] = (Verdict.CLEAR, None)
    if minutes_short:
        expected = (Verdict.WAIT, NOW + timedelta(minutes=1))
    assert (judgement.verdict, judgement.until) == expected


STOPS_FOR_GOOD = [
    {"health.ever_reacted": "yes"},
    {"health.black_henna": "yes, it reacted"},
    {"health.allergies": ["hair dye or one of its ingredients"]},
    {"client.age": 15},
]


@pytest.mark.parametrize("changes", STOPS_FOR_GOOD, ids=str)
def test_no_clear_test_and_no_professional_lifts_an_allergy_stop(changes: dict[str, Any]) -> None:
    best = {**PRO, **STRAND_HELD, "incompatibility_test.result": "slight lightening only"}
    assert judge(baseline({**best, **changes}), NOW).verdict is Verdict.STOP
