"""Published numbers about hair colour, each beside what the model makes of it."""

from dataclasses import dataclass

import numpy as np

from consult.colour.cie import lab
from consult.colour.dyes import amount, load
from consult.colour.fade import share_left
from consult.colour.fibre import reflectance
from consult.colour.values import Shade


@dataclass(frozen=True)
class Published:
    """A value that was published as a range, and the prediction."""

    what: str
    source: str
    low: float
    high: float
    unit: str
    predicted: float

    @property
    def within(self) -> bool:
        return self.low <= self.predicted <= self.high


def _loss(shade: Shade, washes: float, weeks: float = 0.0) -> float:
    """CIELAB difference that washes and weeks make on white hair."""
    full = load(shade).dye
    left = share_left(shade.tone, washes, weeks) * full
    return float(np.linalg.norm(lab(reflectance(full)) - lab(reflectance(left))))


def published() -> list[Published]:
    """Every value; ranges are the publication's own, or its scatter, said in `what`."""
    ink = lab(reflectance(np.full(31, 30.0)), "10 degree")
    black_to_blonde = float(amount(load(Shade(1, "neutral")).dye) / amount(load(Shade(7, "neutral")).dye))
    return [
        Published("L* of capillaries with ink, surface light alone", "scanavez-2000", 18.5, 20.4, "", float(ink[0])),
        Published("dye of a black over a blonde shade, order of size", "modern-hair-science", 3, 30, "times",
                  black_to_blonde),
        Published("loss of a vivid warm shade in 2 washes (upper estimate)", "fade-copper-2021", 1.9, 7.59,
                  "", _loss(Shade(5, "copper"), 2)),
        Published("loss of a brown shade in 12 washes (upper estimate)", "fade-copper-2021", 1.5, 6.12,
                  "", _loss(Shade(4, "neutral"), 12)),
        Published("loss of an auburn in 4 washes without light", "fade-light-2005", 1.5, 5.0,
                  "", _loss(Shade(5, "copper red"), 4)),
        Published("twelve weeks of light beside 4 washes, over the washes alone", "fade-light-2005", 1.5, 4.0,
                  "times", _loss(Shade(5, "copper red"), 4, 12) / _loss(Shade(5, "copper red"), 4)),
        Published("colour kept after 30 washes, undamaged hair is the most", "fade-30-washes-2008", 0.5, 0.9,
                  "", share_left("neutral", 30, 0)),
    ]  # fmt: skip
