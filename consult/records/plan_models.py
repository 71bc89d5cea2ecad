"""What stands under `[result]` about head, plan and forecast, as models of the file's own."""

from datetime import date
from typing import Literal

from consult.records.models import FileModel
from consult.trade import ColourClass, Porosity, Tone

StretchWord = Literal["at the scalp", "new growth", "lengths", "ends"]
ZoneWord = Literal["front hairline", "temples", "crown", "nape"]
ActWord = Literal["paint", "comb through", "dab on"]
EndingWord = Literal["rinse", "blot"]
WhichWord = Literal["every hair", "white hair", "lightened hair"]
OutcomeWord = Literal["stopped", "incomplete", "held", "made"]


class LineEntry(FileModel):
    """A sentence with its reason; `plain` only where it differs from the trade's words."""

    say: str
    plain: str | None
    because: str
    sources: list[str]
    rules: list[str] | None


class BandEntry(FileModel):
    """One band of the head; lengths in cm from the scalp, white share 0 to 1."""

    zones: list[ZoneWord]
    start_cm: float
    end_cm: float
    stretch: StretchWord
    natural_depth: float
    white_share: float
    depth: float
    tone: Tone | None
    seen: bool
    lightened: bool
    porosity: Porosity
    passes: int
    peroxide_minutes: float


class HeadEntry(FileModel):
    """The head as it was taken: growth in cm a month, and its bands."""

    growth_rate: float
    growth_because: str
    bands: list[BandEntry]


class TouchEntry(FileModel):
    """One section, from minute to minute, and the minute it is taken off there."""

    section: str
    start: int
    end: int
    off: int


class ApplicationEntry(FileModel):
    """What was put on which hair, by which act, from which minute to which."""

    bowl: int
    product: str
    act: ActWord
    stretches: list[StretchWord]
    zones: list[ZoneWord]
    hairs: WhichWord
    touches: list[TouchEntry]
    until: int
    minutes: int
    ending: EndingWord
    water: bool
    emulsified: bool
    reason: LineEntry


class PartEntry(FileModel):
    name: str
    grams: float


class MixEntry(FileModel):
    """One bowl as it was weighed, and what is mixed after it only when it is needed."""

    bowl: int
    what_for: str
    go: int
    of: int
    minute: int
    packs: int
    colours: list[PartEntry]
    developer_g: float
    rest_packs: int
    rest_g: float
    peroxide_on_head: float
    line: LineEntry


class PurchaseEntry(FileModel):
    product: str
    colour_class: ColourClass | None
    packs: int
    developer_g: float
    expected_g: int
    mix_g: float
    run_out: list[float]
    cost: float | None
    line: LineEntry


class StepEntry(FileModel):
    say: str
    plain: str | None
    because: str
    sources: list[str]
    rules: list[str] | None
    stretch: str | None
    from_minute: int | None
    to_minute: int | None
    checks: list[int] | None


class AccountEntry(FileModel):
    zones: list[ZoneWord]
    start_cm: float
    end_cm: float
    stretch: StretchWord
    passes: int
    passes_after: int
    peroxide_minutes: float
    peroxide_minutes_after: float


class VisitEntry(FileModel):
    colour_on: date
    test_from: date
    test_until: date
    lines: list[LineEntry]


class PlanEntry(FileModel):
    """What came of it. `held_by` are rule ids; everything from `approach` on stands in a made plan only.

    A plan that only waits names what is prepared meanwhile.
    """

    outcome: OutcomeWord
    missing: list[str] | None = None
    held_by: list[str] | None = None
    ask: list[str] | None = None
    afterwards: str | None = None
    prepare: list[LineEntry] | None = None
    approach: str | None = None
    because: LineEntry | None = None
    applications: list[ApplicationEntry] | None = None
    mixes: list[MixEntry] | None = None
    purchases: list[PurchaseEntry] | None = None
    amounts: list[LineEntry] | None = None
    sections: list[LineEntry] | None = None
    steps: list[StepEntry] | None = None
    timeline: list[LineEntry] | None = None
    ledger: list[AccountEntry] | None = None
    cautions: list[LineEntry] | None = None
    aftercare: list[LineEntry] | None = None
    visit: VisitEntry | None = None
    notes: list[LineEntry] | None = None
    alternatives: list[LineEntry] | None = None


class SeenEntry(FileModel):
    """A predicted colour: CIELAB, #rrggbb, depth number and tone."""

    lab: list[float]
    hex: str
    depth: float
    tone: Tone


class StageEntry(FileModel):
    """A band's colour at one point: all hairs together, the pigmented and the white ones; its spread in words."""

    name: str
    seen: SeenEntry
    pigmented: SeenEntry
    white: SeenEntry
    to_goal: float
    spread: str


class BandForecastEntry(FileModel):
    zones: list[ZoneWord]
    start_cm: float
    end_cm: float
    stretch: StretchWord
    stages: list[StageEntry]


class ForecastEntry(FileModel):
    only_if: bool
    bands: list[BandForecastEntry]
    warnings: list[LineEntry]
    lines: list[LineEntry]
    weaknesses: list[str]
