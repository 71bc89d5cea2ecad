"""What a plan is made of. Every line says what, why and on whose word."""

from dataclasses import dataclass, field
from datetime import date
from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from consult.plan.ledger import Entry
    from consult.plan.timeline import Timeline


@dataclass(frozen=True)
class Line:
    """One sentence of a plan with its reason and its source ids."""

    say: str
    because: str
    sources: tuple[str, ...]


class Approach(Enum):
    NEW_GROWTH = "new growth only"
    REFRESH = "new growth, then refresh the lengths"
    ALL_OVER = "all over"
    LENGTHS_FIRST = "lengths first, roots last"
    PRE_PIGMENT = "pre-pigment first"
    HOLD = "hold"


@dataclass(frozen=True)
class Suitability:
    """Whether this product can take this hair to this goal, and what to do if it cannot.

    `outcome` says what would be seen instead; `alternatives` are other ways.
    """

    reachable: bool
    outcome: tuple[Line, ...] = ()
    notes: tuple[Line, ...] = ()
    alternatives: tuple[Line, ...] = ()


@dataclass(frozen=True)
class Mix:
    """One bowl. A tube's is weighed to the step of the scale, a kit's is `packs` whole or half packs.

    `shades` splits the colour's grams.
    """

    name: str
    packs: float
    grams: float
    colour_g: float
    developer_g: float
    developer_percent: float
    peroxide_on_head: float
    shades: tuple[tuple[str, float], ...]
    line: Line


@dataclass(frozen=True)
class Quantity:
    """Grams of hair and mix, packs to buy and their risk, the trade's rule of thumb beside them.

    expected_g is the mean need, mix_g what is mixed to be safe; run_out[n - 1] is the chance that n
    packs are not enough.
    """

    hair_g: float
    expected_g: int
    mix_g: float
    packs: int
    run_out: tuple[float, ...]
    rule_of_thumb: int
    cost: float | None
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Step:
    """One step. Minutes are None for steps off the clock; `checks` are minutes on the clock."""

    say: str
    because: str
    sources: tuple[str, ...]
    stretch: str = ""
    from_minute: int | None = None
    to_minute: int | None = None
    checks: tuple[int, ...] = ()

    @property
    def minutes(self) -> int | None:
        if self.from_minute is None or self.to_minute is None:
            return None
        return self.to_minute - self.from_minute


@dataclass(frozen=True)
class Visit:
    """When to come back, and when the allergy alert test for it has to be put on."""

    colour_on: date
    test_from: date
    test_until: date
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Plan:
    """What to do. With approach HOLD nothing is mixed; `then` is the approach once the hold ends."""

    approach: Approach
    because: tuple[Line, ...]
    suitability: Suitability | None = None
    then: Approach | None = None
    quantity: Quantity | None = None
    mixes: tuple[Mix, ...] = ()
    sections: tuple[Line, ...] = ()
    steps: tuple[Step, ...] = ()
    timeline: "Timeline | None" = None
    ledger: tuple["Entry", ...] = ()
    cautions: tuple[Line, ...] = ()
    aftercare: tuple[Line, ...] = ()
    visit: Visit | None = None
    missing: tuple[str, ...] = field(default=())

    @property
    def made(self) -> bool:
        return self.approach is not Approach.HOLD
