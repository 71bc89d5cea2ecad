"""The answers a plan needs, all known: the brief. What is missing is named instead."""

from dataclasses import dataclass

from consult.answers import Answers
from consult.answers.access import applies, entries, get
from consult.answers.base import NOT_SURE
from consult.gates.facts import test_hours_needed
from consult.strand.bands import Strand
from consult.strand.build import WASHES_A_WEEK, known
from consult.trade import AT_HOME

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
    "product.kind",
    "product.colour_class",
    "product.depth",
    "product.tone",
    "product.chart_from",
    "product.chart_to",
    "product.white_claim",
    "product.developer_percent",
    "product.ratio",
    "product.minutes_new_growth",
    "product.minutes_white",
    "product.minutes_refresh",
    "product.minutes_min",
    "product.minutes_max",
    "product.pack_ml",
    "product.tube_g",
)


def missing(answers: Answers) -> tuple[str, ...]:
    """Paths a plan needs and that are unasked or not sure, in the order of the consultation."""
    lacking = [
        path
        for path in NEEDED
        if applies(answers, path) is not False and get(answers, path) in (None, NOT_SURE)
    ]
    return (*lacking, *_untold(answers))


def _untold(answers: Answers) -> list[str]:
    """What, when and where of each service: unasked they would read as "never happened".

    A "not sure" is not lacking: the strand takes it conservatively.
    """
    if get(answers, "history.services") is None:
        return ["history.services"]
    return [
        path
        for index in range(len(entries(answers, "history.services")))
        for name in ("kind", "on", "stretch")
        if get(answers, path := f"history.services.{index}.{name}") is None
    ]


@dataclass(frozen=True)
class Brief:
    """One head, one product, one goal, with every number known. White shares are 0 to 1."""

    at_home: bool
    strand: Strand
    density: str
    thickness: str
    layered: bool
    natural: float
    white: dict[str, float]
    white_resists: bool
    new_growth_cm: float
    lengths_look: str
    porosity: dict[str, str]
    goal_depth: float
    goal_tone: str
    goal_white: str
    extent: str
    kit: bool
    colour_class: str
    depth: float
    tone: str
    chart: tuple[float, float] | None
    white_claim: str
    developer_percent: float
    ratio: float
    minutes_new_growth: int
    minutes_white: int
    minutes_refresh: int
    minutes_min: int
    minutes_max: int
    pack_ml: float
    price: float | None
    washes_a_week: float
    areas: tuple[str, ...]
    upkeep: str | None
    lengths_tone: str | None
    hands: int
    test_hours: float
    mix_tested: bool
    strand_minutes: int | None

    @property
    def white_mean(self) -> float:
        return sum(self.white.values()) / len(self.white)

    @property
    def white_most(self) -> float:
        return max(self.white.values())

    @property
    def covers_white(self) -> bool:
        """White hair is there and is to be covered."""
        return self.white_most > 0 and self.goal_white == "cover"

    @property
    def lift(self) -> float:
        return self.goal_depth - self.natural

    @property
    def coloured(self) -> bool:
        return any(band.colour for band in self.strand.treated)

    @property
    def lightened(self) -> bool:
        return any(band.lightened for band in self.strand.bands)

    @property
    def lengths_depth(self) -> float:
        """Depth now on the treated hair: the darkest band counts, for colour does not lift colour."""
        return min((band.depth for band in self.strand.treated), default=self.natural)

    @property
    def lightest_depth(self) -> float:
        """Depth of the lightest treated band."""
        return max((band.depth for band in self.strand.treated), default=self.natural)

    @property
    def porous_lengths(self) -> bool:
        return "high" in (self.porosity["lengths"], self.porosity["ends"])


def _strand_minutes(answers: Answers) -> int | None:
    """Minutes of a strand test that came out as wanted; it sets the time of the service."""
    test = answers.strand_test
    if test.done == "yes" and test.colour == "as wanted" and isinstance(test.minutes, float):
        return int(test.minutes)
    return None


def read_brief(answers: Answers, strand: Strand) -> Brief:
    """The brief of answers for which `missing` is empty. Raises AssertionError otherwise."""
    assert not missing(answers)
    a, hair, product = answers, answers.hair, answers.product
    data = {path.replace(".", "_"): get(answers, path) for path in NEEDED}
    kit = product.kind == "retail kit"
    washes = known(a.history.washes_per_week)
    longest = int(data["product_minutes_max"])

    def minutes(name: str) -> int:
        """Whole minutes of the leaflet, never above its longest time."""
        return min(int(data[f"product_minutes_{name}"]), longest)

    return Brief(
        at_home=a.client.applied_by in AT_HOME,
        strand=strand,
        density=data["hair_density"],
        thickness=data["hair_thickness"],
        layered=hair.cut == "layers",
        natural=data["hair_natural_depth"],
        white={z: data[f"hair_white_{z}"] / 100 for z in ("front", "temples", "crown", "nape")},
        white_resists=hair.white_resists == "yes",
        new_growth_cm=data["hair_new_growth_cm"],
        lengths_look=data["hair_lengths_look"],
        porosity={z: data[f"hair_porosity_{z}"] for z in ("root", "lengths", "ends")},
        goal_depth=data["goal_depth"],
        goal_tone=data["goal_tone"],
        goal_white=data["goal_white"],
        extent=data["goal_extent"],
        kit=kit,
        colour_class=data["product_colour_class"],
        depth=data["product_depth"],
        tone=data["product_tone"],
        chart=(data["product_chart_from"], data["product_chart_to"]) if kit else None,
        white_claim=data["product_white_claim"],
        developer_percent=data["product_developer_percent"],
        ratio=data["product_ratio"],
        minutes_new_growth=minutes("new_growth"),
        minutes_white=minutes("white"),
        minutes_refresh=minutes("refresh"),
        minutes_min=minutes("min"),
        minutes_max=longest,
        pack_ml=data["product_pack_ml"] if kit else data["product_tube_g"] * (1 + data["product_ratio"]),
        price=known(product.price),
        washes_a_week=WASHES_A_WEEK if washes is None else washes,
        areas=data["goal_areas"],
        upkeep=known(a.goal.upkeep),
        lengths_tone=known(hair.lengths_tone),
        hands=2 if a.client.helper == "yes" else 1,
        test_hours=test_hours_needed(product.test_hours or NOT_SURE, a.health.black_henna or NOT_SURE),
        mix_tested=a.allergy_test.covers_mix == "yes",
        strand_minutes=_strand_minutes(a),
    )
