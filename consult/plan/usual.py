"""Products as they usually are, and tests as they should come out: what a colour of a kind would do on a head.

Nothing here is known of any pack (assumption); the leaflet of the pack that is bought comes first. It serves only to
ask the whole program "what if", and what comes of it is told as such.
"""

from datetime import datetime, timedelta
from typing import Any, Final

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.answers.preliminary_tests import POSITIVE_SIGNS, AllergyTest, StrandTest
from consult.answers.product import Product
from consult.gates.facts import TEST_HOURS_RAISED_RISK
from consult.trade import ColourClass

DEMI: Final[dict[str, Any]] = {
    "kind": "tube and developer", "colour_class": "demi-permanent", "white_claim": "blends white",
    "developer_percent": 3.0, "ratio": 2.0, "tube_g": 60.0, "minutes_new_growth": 20.0, "minutes_white": 20.0,
    "minutes_refresh": 10.0, "minutes_min": 5.0, "minutes_max": 30.0, "counted_from": "the end of application",
}  # fmt: skip
_DIRECT: Final[dict[str, Any]] = {
    "kind": "retail kit", "colour_class": "direct (no developer)", "white_claim": "no claim", "pack_ml": 110.0,
    "minutes_new_growth": 20.0, "minutes_white": 20.0, "minutes_refresh": 20.0, "minutes_min": 15.0,
    "minutes_max": 30.0, "counted_from": "the end of application",
}  # fmt: skip
_PERMANENT: Final[dict[str, Any]] = {
    "kind": "retail kit", "colour_class": "permanent", "white_claim": "full cover", "developer_percent": 6.0,
    "ratio": 1.0, "pack_ml": 110.0, "minutes_new_growth": 30.0, "minutes_white": 30.0, "minutes_refresh": 5.0,
    "minutes_min": 25.0, "minutes_max": 35.0, "counted_from": "the end of application",
}  # fmt: skip
_DEMI_KIT: Final[dict[str, Any]] = {
    key: value for key, value in DEMI.items() if key != "tube_g"
} | {"kind": "retail kit", "pack_ml": 110.0}  # fmt: skip
_LABEL: Final[dict[str, Any]] = {
    "pack": (), "professional_only": "no", "age_limit": 16, "test_hours": 48, "contains_ammonia": "no",
    "named_together": "yes",
}  # fmt: skip
_USUAL: Final[dict[ColourClass, dict[str, Any]]] = {
    "direct (no developer)": _DIRECT,
    "demi-permanent": _DEMI_KIT,
    "permanent": _PERMANENT,
}
KINDS: Final[tuple[ColourClass, ...]] = tuple(_USUAL)
"""The kinds that are asked for, the mildest first."""


def usual(kind: ColourClass, depth: float, tone: str, **known: Any) -> Product:
    """A pack of a kind in a shade; `known` is what is known otherwise. A kit's chart is taken to hold every depth
    from two levels under its shade to two over it (common practice), unless it is known."""
    data = {**_LABEL, **_USUAL[kind], "depth": depth, "tone": tone}
    if kind == "direct (no developer)":
        del data["named_together"]
    chart = {"chart_from": max(1.0, depth - 2), "chart_to": min(10.0, depth + 2)}
    return Product.model_validate({**data, **chart, **known})


def with_product(answers: Answers, product: Product) -> Answers:
    """The same head with this product and no other."""
    goal = answers.goal.model_copy(update={"lengths_product": None})
    return answers.model_copy(update={"product": product, "goal": goal})


def as_if_tested(answers: Answers, at: datetime) -> Answers:
    """As if the allergy alert test with the whole mix had stayed clear, and a strand had come out as wanted, by then.

    What was found stays found: signs at an earlier test, a test that was refused or that nobody is sure of, a strand
    that did not hold. No later test clears those here.
    """
    allergy = answers.allergy_test if _speaks_against(answers.allergy_test) else _clear(at)
    held = answers.strand_test.hair in (None, "sound")
    strand = StrandTest(done="yes", hair="sound", colour="as wanted") if held else answers.strand_test
    return answers.model_copy(update={"allergy_test": allergy, "strand_test": strand})


def _speaks_against(test: AllergyTest) -> bool:
    """Something was there, or nobody is sure that nothing was."""
    seen = [signs for signs in (test.first_signs, test.second_signs) if signs is not None]
    return test.done == "refused" or any(
        signs == NOT_SURE or set(signs) & set(POSITIVE_SIGNS) for signs in seen
    )


def _clear(at: datetime) -> AllergyTest:
    """A test of the whole mix, read twice, clear, and as old as the strictest rule asks for."""
    before = at - timedelta(hours=float(TEST_HOURS_RAISED_RISK))
    return AllergyTest(
        done="yes",
        same_product="yes",
        covers_mix="yes",
        site="behind the ear",
        masked="no",
        applied_at=before,
        first_read_at=before + timedelta(minutes=30),
        first_signs=(),
        second_read_at=at,
        second_signs=(),
    )
