"""The case: one head, one wish, one or two products and whoever works, with every number known.

What is missing is named instead; nothing is guessed.
"""

from functools import cached_property
from typing import Literal

from msgspec import Struct

from consult.answers import Answers
from consult.answers.access import applies, entries, get
from consult.answers.base import NOT_SURE, known
from consult.colour.values import Shade
from consult.gates.facts import test_hours_needed
from consult.gates.limits import Limits
from consult.head.bands import Head
from consult.head.build import WASHES_A_WEEK
from consult.products.kinds import Product
from consult.products.reading import missing as missing_of_product
from consult.products.reading import read_product
from consult.trade import AT_HOME, THRESHOLDS, Density, Thickness, Tone

WhiteWish = Literal["cover", "blend", "leave", "there is none"]
Extent = Literal["new growth only", "whatever is needed", "all over"]
Look = Literal["even", "faded", "uneven"]

NEEDED = (
    "client.applied_by",
    "hair.length_cm",
    "hair.density",
    "hair.thickness",
    "hair.porosity_root",
    "hair.porosity_lengths",
    "hair.porosity_ends",
    "hair.natural_depth",
    "hair.white_front",
    "hair.white_temples",
    "hair.white_crown",
    "hair.white_nape",
    "hair.new_growth_cm",
    "hair.lengths_depth",
    "hair.ends_depth",
    "hair.lengths_look",
    "goal.depth",
    "goal.tone",
    "goal.white",
    "goal.extent",
    "goal.areas",
)


class Wish(Struct, frozen=True):
    """What is wanted. `upkeep` is None where nobody said."""

    depth: float
    tone: Tone
    white: WhiteWish
    extent: Extent
    upkeep: str | None

    @property
    def shade(self) -> Shade:
        return Shade(self.depth, self.tone)


class Hair(Struct, frozen=True):
    """How the hair is built and looks: what amounts, pace and choice of stretches rest on."""

    density: Density
    thickness: Thickness
    layered: bool
    new_growth_cm: float
    lengths_look: Look
    lengths_tone: Tone | None
    white_resists: bool
    washes_a_week: float


class Work(Struct, frozen=True):
    """Who works: at home or in a salon, with how many hands, and the minutes they need for the new growth of a
    head where they were ever timed."""

    at_home: bool
    hands: int
    timed: float | None = None


class Tests(Struct, frozen=True):
    """The preliminary tests, as far as the plan rests on them.

    strand_minutes is the time of a strand test that came out as wanted, None where nobody noted it.
    """

    mix_tested: bool
    hours: float
    strand_held: bool
    strand_as_wanted: bool
    strand_minutes: int | None


class Case(Struct, frozen=True, dict=True):
    """Everything a plan is written from. `lengths_product` is the one product, unless lengths have their own."""

    head: Head
    hair: Hair
    wish: Wish
    product: Product
    lengths_product: Product
    work: Work
    tests: Tests
    limits: Limits

    @property
    def two_products(self) -> bool:
        return self.lengths_product is not self.product

    @property
    def products(self) -> tuple[Product, ...]:
        return (self.product, self.lengths_product) if self.two_products else (self.product,)

    @cached_property
    def covers_white(self) -> bool:
        """White hair is there and is to be covered."""
        return self.head.white_most > 0 and self.wish.white == "cover"

    @cached_property
    def lift(self) -> float:
        """Levels from the natural depth up to the wish; negative when it is darker."""
        return self.wish.depth - self.head.natural_depth

    @cached_property
    def nature_is_the_goal(self) -> bool:
        """What grows is at the goal already: its depth, its tone, and no white that is to change."""
        white = self.head.white_most > 0 and self.wish.white in ("cover", "blend")
        same = abs(self.lift) < THRESHOLDS["same-depth"]
        return same and not white and self.wish.tone == self.head.natural_tone

    @property
    def darker_by(self) -> float:
        """Levels that the lightest of the lengths have to go darker."""
        return self.head.lightest_length - self.wish.depth


def missing(answers: Answers) -> tuple[str, ...]:
    """Paths a plan needs and that are unasked or not sure, in the order of the consultation."""
    needed = [
        path
        for path in NEEDED
        if get(answers, path) in (None, NOT_SURE)
        and applies(answers, path) is not False
        and not (path == "goal.white" and _no_white(answers))
    ]
    needed += [f"product.{name}" for name in missing_of_product(answers.product)]
    needed += _uncounted(answers, "product")
    if answers.goal.lengths_product == NOT_SURE:
        needed.append("goal.lengths_product")
    if _own_for_lengths(answers):
        needed += [f"lengths_product.{name}" for name in missing_of_product(answers.lengths_product)]
        needed += _uncounted(answers, "lengths_product")
    return (*needed, *_services_half_told(answers))


def _no_white(answers: Answers) -> bool:
    """Every zone was looked at and none has white hair: nothing has to be wished for it."""
    hair = answers.hair
    return all(
        share == 0 for share in (hair.white_front, hair.white_temples, hair.white_crown, hair.white_nape)
    )


def _uncounted(answers: Answers, product: str) -> list[str]:
    """From when a leaflet counts, where that is asked and nobody answered; not sure is the stricter way."""
    path = f"{product}.counted_from"
    return [path] if applies(answers, path) and get(answers, path) is None else []


def _own_for_lengths(answers: Answers) -> bool:
    return answers.goal.lengths_product == "yes"


def _services_half_told(answers: Answers) -> list[str]:
    """What, when and where of each service: unasked they would read as "never happened".

    A "not sure" is not missing: the head takes it conservatively.
    """
    if answers.history.services is None:
        return ["history.services"]
    return [
        f"history.services.{index}.{name}"
        for index, service in enumerate(entries(answers, "history.services"))
        for name in ("kind", "on", "stretch")
        if getattr(service, name) is None
    ]


def read_case(answers: Answers, head: Head, limits: Limits) -> Case | None:
    """The case of answers for which `missing` is empty; None for a product of a class that is not planned."""
    product = read_product(answers.product)
    own = read_product(answers.lengths_product) if _own_for_lengths(answers) else product
    hair, goal = _hair(answers, head), _wish(answers, head)
    if product is None or own is None or hair is None or goal is None:
        return None
    client = answers.client
    timed = known(client.minutes_new_growth) or None
    work = Work(client.applied_by in AT_HOME, 2 if client.helper == "yes" else 1, timed)
    return Case(head, hair, goal, product, own, work, _tests(answers, limits), limits)


def _hair(answers: Answers, head: Head) -> Hair | None:
    hair = answers.hair
    density: Density | None = known(hair.density)
    thickness: Thickness | None = known(hair.thickness)
    look: Look | None = known(hair.lengths_look)
    tone: Tone | None = known(hair.lengths_tone)
    new_growth, washes = known(hair.new_growth_cm), known(answers.history.washes_per_week)
    if density is None or thickness is None or look is None or new_growth is None:
        return None
    return Hair(
        density,
        thickness,
        hair.cut == "layers",
        new_growth,
        look,
        tone,
        hair.white_resists == "yes" and head.white_most > 0,
        WASHES_A_WEEK if washes is None else washes,
    )


def _wish(answers: Answers, head: Head) -> Wish | None:
    goal = answers.goal
    depth = known(goal.depth)
    tone: Tone | None = known(goal.tone)
    white: WhiteWish | None = known(goal.white) if head.white_most > 0 else "there is none"
    extent: Extent | None = known(goal.extent)
    if depth is None or tone is None or white is None or extent is None:
        return None
    return Wish(depth, tone, white, extent, known(goal.upkeep))


def _tests(answers: Answers, limits: Limits) -> Tests:
    strand = answers.strand_test
    held = strand.done == "yes" and strand.hair == "sound"
    minutes = known(strand.minutes)
    as_wanted = strand.done == "yes" and strand.colour == "as wanted"
    hours = test_hours_needed(answers.product.test_hours or NOT_SURE, answers.health.black_henna or NOT_SURE)
    if limits.test_hours:
        hours = max(hours, limits.test_hours.value)
    return Tests(
        mix_tested=answers.allergy_test.covers_mix == "yes",
        hours=hours,
        strand_held=held,
        strand_as_wanted=as_wanted and held,
        strand_minutes=int(minutes) if as_wanted and minutes is not None else None,
    )
