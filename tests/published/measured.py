"""Hair that somebody measured, beside what the model says of it: check values, never fit values.

    python -m tests.published            the table, printed
    python -m tests.published --write    the same, written to docs/measured.md

Every sample is read as a colourist would read it, to half a level and to a natural tone word, and the prediction
of that reading is held against the instrument. In means: within the band that the program states by itself.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from consult.colour.cie import Floats, Observer, lab
from consult.colour.cie_tables import WAVELENGTHS
from consult.colour.difference import ciede2000
from consult.colour.fibre import SURFACE_LEAST, SURFACE_MOST, reflectance
from consult.colour.melanin import absorbance
from consult.colour.pigment import melanins, natural_lab
from consult.colour.prediction import predict_all
from consult.colour.values import HairState, Shade
from consult.trade import NATURAL_TONES

Lab = tuple[float, float, float]
SPECTRA = Path(__file__).with_name("hair_spectra.csv")

# Source: scanavez-2000, Table III (p. 293): one dark brown tress under eight conditions, D65, 10 degrees.
DARK_BROWN: tuple[Lab, ...] = (
    (23.04, 4.04, 4.72), (22.48, 4.10, 5.13), (23.75, 3.82, 4.95), (23.59, 3.87, 4.76),
    (22.72, 3.35, 3.85), (21.68, 4.28, 5.41), (23.59, 3.87, 4.73), (21.85, 4.07, 5.09),
)  # fmt: skip
# Source: scanavez-2000, Table IV (p. 293): black hair with and without the mirror-like part of the light.
BLACK: tuple[Lab, ...] = ((18.37, -0.05, -0.84), (18.00, 0.02, -0.91))
# Source: scanavez-2000, Table VIII (p. 299): another black tress, B3.
BLACK_B3: Lab = (21.55, 1.73, 1.67)


@dataclass(frozen=True)
class Sample:
    """One measured tress. colour: CIELAB under D65; fitted: a constant of the model was fitted to it."""

    name: str
    source: str
    colour: Lab
    observer: Observer = "2 degree"
    fitted: bool = False


@dataclass(frozen=True)
class Held:
    """A sample beside its prediction. difference: CIEDE2000; band: what the program states."""

    sample: Sample
    reading: str
    predicted: Lab
    difference: float
    band: float

    @property
    def within(self) -> bool:
        return self.difference <= self.band


def spectra() -> dict[str, Floats]:
    """Colour word -> reflectance (31,) of one natural sample. Source: vrhel-hair (see the head of the file)."""
    rows = [line.split(",") for line in SPECTRA.read_text("utf-8").splitlines() if not line.startswith("#")]
    names, values = rows[0][1:], np.array(rows[1:], dtype=float)
    return {name: np.interp(WAVELENGTHS, values[:, 0], values[:, i + 1]) for i, name in enumerate(names)}


def _tuple(colour: Floats) -> Lab:
    return float(colour[0]), float(colour[1]), float(colour[2])


def samples() -> tuple[Sample, ...]:
    """All that is at hand: seven tresses."""
    dark_brown = np.mean(DARK_BROWN, axis=0)
    return (
        *(Sample(f"{name} hair", "vrhel-hair", _tuple(lab(r))) for name, r in spectra().items()),
        Sample("dark brown tress", "scanavez-2000", _tuple(dark_brown), "10 degree", fitted=True),
        Sample("black hair", "scanavez-2000", _tuple(np.mean(BLACK, axis=0)), "10 degree", fitted=True),
        Sample("black tress B3", "scanavez-2000", BLACK_B3, "10 degree", fitted=True),
    )


def readings() -> Iterator[HairState]:
    """Every reading a colourist can give of natural hair: by halves of a level and by natural tone."""
    for halves in range(2, 21):
        for tone in NATURAL_TONES:
            yield HairState(halves / 2, natural_tone=tone)


def held(sample: Sample) -> Held:
    """The sample beside the prediction of its best reading."""
    states = list(readings())
    found = predict_all([(state, None) for state in states], Shade(6, "neutral"))
    apart = ciede2000(np.array([one.seen.lab for one in found]), sample.colour)
    best = int(apart.argmin())
    return Held(
        sample,
        f"{states[best].natural_depth:g} {states[best].natural_tone}",
        found[best].seen.lab,
        float(apart[best]),
        found[best].spread.difference,
    )


def left_over(sample: Sample) -> float:
    """CIEDE2000 that no reading and no surface light explain: the model's own error on a sample."""
    states = [
        (s.natural_depth, float(i)) for s in readings() for i in [NATURAL_TONES.index(s.natural_tone) - 1]
    ]
    pigment = absorbance(*melanins([depth for depth, _ in states], [warmth for _, warmth in states]))
    shines = np.linspace(float(SURFACE_LEAST), float(SURFACE_MOST), 31)
    looks = np.array([lab(reflectance(pigment, float(shine)), sample.observer) for shine in shines])
    return float(ciede2000(looks, sample.colour).min())


def with_free_melanins(spectrum: Floats) -> tuple[float, float]:
    """Least CIEDE2000, and least rms of R over R measured, with both melanins free (surface light as it is)."""
    eu = np.geomspace(0.004, 4.0, 220)[:, None]
    pheo = np.concatenate([[0.0], np.geomspace(0.004, 4.0, 160)])[None]
    found = reflectance(absorbance(*np.broadcast_arrays(eu, pheo)))
    apart = ciede2000(lab(found), lab(spectrum))
    rms = np.sqrt(((found / spectrum - 1) ** 2).mean(axis=-1))
    return float(apart.min()), float(rms.min())


def on_the_ladder(colour: Lab) -> float:
    """Least CIEDE2000 to natural hair of neutral tone at any depth."""
    return float(ciede2000(natural_lab(np.linspace(1, 10, 361)), colour).min())
