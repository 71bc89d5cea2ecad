"""Published numbers about hair colour, each beside what the model makes of it."""

from dataclasses import dataclass

import numpy as np

from consult.colour.cie import lab
from consult.colour.dyes import amount, load
from consult.colour.fade import share_left, uptake_after
from consult.colour.fibre import reflectance
from consult.colour.melanin import eumelanin, pheomelanin
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
    brown = eumelanin(np.arange(1.0, 8.0))
    # Relative to their green absorption the two units of pigment stand 0.697 to 0.400 (pbrt-hair).
    share = 0.4 * pheomelanin(brown) / (0.697 * brown + 0.4 * pheomelanin(brown))
    black_to_blonde = float(amount(load(Shade(1, "neutral")).dye) / amount(load(Shade(7, "neutral")).dye))
    return [
        Published("L* of capillaries with ink, surface light alone", "scanavez-2000", 18.5, 20.4, "", float(ink[0])),
        Published("pheomelanin of dark hair, least", "pcmr-12673", 0.07, 0.17, "of the melanin", float(share.min())),
        Published("eumelanin of black over brown hair", "rayrender-hair", 5.2, 7.1, "times",
                  float(eumelanin(1) / eumelanin(5))),
        Published("eumelanin of brown over blond hair", "rayrender-hair", 3.7, 5.0, "times",
                  float(eumelanin(5) / eumelanin(8))),
        Published("dye of a black over a blonde shade, order of size", "modern-hair-science", 3, 30, "times",
                  black_to_blonde),
        Published("loss of a vivid warm shade in 2 washes (upper estimate)", "fade-copper-2021", 1.9, 7.59,
                  "", _loss(Shade(5, "copper"), 2)),
        Published("loss of a brown shade in 12 washes (upper estimate)", "fade-copper-2021", 1.5, 6.12,
                  "", _loss(Shade(4, "neutral"), 12)),
        Published("loss of an auburn in 4 washes without light", "fade-light-2005", 1.5, 5.0,
                  "", _loss(Shade(5, "copper red"), 4)),
        Published("colour kept after 30 washes, undamaged hair is the most", "fade-30-washes-2008", 0.5, 0.9,
                  "", share_left("neutral", 30, 0)),
        Published("uptake at a quarter of the time, square root", "dye-uptake-1967", 0.45, 0.55,
                  "of full", uptake_after(10, 40)),
        Published("uptake of once lightened hair over untouched", "hair-damage-1993", 1.55, 1.75,
                  "times", uptake_after(5, 40, "high") / uptake_after(5, 40)),
    ]  # fmt: skip
