"""How fast this person's hair grows."""

from collections.abc import Iterable
from datetime import date

from msgspec import Struct

from consult.answers.base import NOT_SURE
from consult.sources import ASSUMPTION, Number
from consult.trade import COLOURS, LIGHTENED, STAINS

MEAN = Number(1.1, "cm/month", "growth-2016")
SLOWEST_MEAN = Number(0.8, "cm/month", "growth-2016")
FASTEST_MEAN = Number(1.3, "cm/month", "growth-2016")
COILY_MEAN = Number(0.85, "cm/month", "growth-2005")
# 150 micrometres a day is the slowest single person measured; the fast end is the fastest group's
# mean plus two standard deviations (411 + 2 x 53 micrometres a day).
SLOWEST_PERSON = Number(0.45, "cm/month", "growth-2005")
FASTEST_PERSON = Number(1.6, "cm/month", "growth-2005")
DAYS_A_MONTH = Number(30.4375, "days", "growth-2005")
SHORTEST_USEFUL_DAYS = Number(14, "days", ASSUMPTION)


class Growth(Struct, frozen=True):
    """Growth in cm a month with its range, and where it comes from."""

    rate: float
    low: float
    high: float
    own: bool
    because: str
    source: str

    def cm(self, days: float) -> float:
        """New growth after so many days."""
        return self.rate * days / DAYS_A_MONTH

    def days(self, cm: float) -> float:
        """Days that so much new growth takes."""
        return cm / self.rate * DAYS_A_MONTH


def published(curl: str | None) -> Growth:
    """The published mean with its range; the curlier the hair, the slower."""
    mean = COILY_MEAN if curl == "coily" else MEAN
    return Growth(
        float(mean),
        float(SLOWEST_MEAN),
        float(FASTEST_MEAN),
        own=False,
        because=f"published mean {mean:g} cm a month, {SLOWEST_MEAN:g} to {FASTEST_MEAN:g}",
        source=mean.source,
    )


def own(new_growth_cm: float, coloured_on: date, today: date) -> Growth | None:
    """This person's own rate from visible new growth; None when it is not a believable rate.

    Half a centimetre of error in the weeks or the reading is allowed for as 20 % (assumption).
    """
    days = (today - coloured_on).days
    if days < SHORTEST_USEFUL_DAYS or new_growth_cm <= 0:
        return None
    rate = new_growth_cm / days * DAYS_A_MONTH
    if not SLOWEST_PERSON <= rate <= FASTEST_PERSON:
        return None
    return Growth(
        rate,
        rate * 0.8,
        rate * 1.2,
        own=True,
        because=f"{new_growth_cm:g} cm new growth in {days / 7:.0f} weeks is {rate:.1f} cm a month",
        source="the client's own new growth",
    )


_REACHES_SCALP = ("new growth", "new growth and lengths", "all over")


def leaves_a_mark(kind: str | None) -> bool:
    """The service leaves colour or lightness that shows where it began; a kind not known may."""
    return kind in (None, NOT_SURE) or kind in (*COLOURS, *LIGHTENED, *STAINS)


def reaches_scalp(stretch: str | None) -> bool:
    """It went on at the scalp; a stretch not known may have."""
    return stretch in (None, NOT_SURE) or stretch in _REACHES_SCALP


def last_mark(services: Iterable[tuple[str | None, str | None, date | str | None]]) -> date | None:
    """The day of the last of (kind, stretch, day) services whose edge the new growth is measured from."""
    days = (
        on
        for kind, stretch, on in services
        if leaves_a_mark(kind) and reaches_scalp(stretch) and isinstance(on, date)
    )
    return max(days, default=None)
