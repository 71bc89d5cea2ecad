"""Hair colours against what has been published about hair. Every check names its source beside it."""

import numpy as np
import numpy.typing as npt
import pytest

from consult.colour.cie import Floats, lab
from consult.colour.difference import ciede2000
from consult.colour.fade import share_left
from consult.colour.fibre import BACK, KERATIN, SURFACE, pile, reflectance
from consult.colour.prediction import predict
from consult.colour.spread import MODEL
from consult.colour.values import HairState, Shade, Treatment
from consult.trade import TONES
from tests.colour.optics import born, on_white
from tests.published.measured import (
    BLACK,
    DARK_BROWN,
    Lab,
    Sample,
    held,
    left_over,
    on_the_ladder,
    samples,
    spectra,
    with_free_melanins,
)
from tests.published.values import Published, published


def colour_of(name: str) -> Lab:
    return next(s.colour for s in samples() if s.source == "vrhel-hair" and s.name == f"{name} hair")


def natural(depth: npt.ArrayLike) -> Floats:
    """Natural hair as the instrument of the source saw it: with the 10 degree observer."""
    return lab(reflectance(born(depth)), "10 degree")


@pytest.mark.parametrize("sample", samples(), ids=lambda s: s.name)
def test_the_stated_band_holds_every_measured_sample(sample: Sample) -> None:
    found = held(sample)
    assert found.within, found


@pytest.mark.parametrize(("name", "within"), [("blonde", 1.5), ("brown", 1.5)])
def test_blonde_and_brown_lie_on_the_depth_ladder(name: str, within: float) -> None:
    """Source: vrhel-hair: one natural sample each, used for nothing else."""
    assert on_the_ladder(colour_of(name)) < within


def test_red_hair_is_the_two_melanins_in_another_ratio() -> None:
    """Source: vrhel-hair. No depth of the neutral ladder is near it; the natural tone red is the nearest of all."""
    assert with_free_melanins(spectra()["red"])[0] < 2
    assert on_the_ladder(colour_of("red")) > 4
    assert held(next(s for s in samples() if s.name == "red hair")).reading.endswith(" red")


@pytest.mark.parametrize("name", ["red", "brown", "blonde"])
def test_spectra_are_those_of_the_two_melanins(name: str) -> None:
    """Source: vrhel-hair: within 8 per cent, root mean square over 400 to 700 nm, with both melanins free."""
    assert with_free_melanins(spectra()[name])[1] < 0.08


def test_black_hair_is_as_dark_as_its_surface_light_allows() -> None:
    """Source: vrhel-hair. With its own surface light the sample is met, with the usual one it is 4 off."""
    black = next(s for s in samples() if s.source == "vrhel-hair" and s.name == "black hair")
    assert left_over(black) < 1.5 < on_the_ladder(black.colour)


def test_the_model_error_is_that_of_the_measured_samples() -> None:
    """Student's t for 95 of 100 and six degrees of freedom is 2.447 (any table)."""
    off = np.array([left_over(sample) for sample in samples()])
    assert float(MODEL) == pytest.approx(2.447 * np.sqrt((off**2).mean()), abs=0.2)


def test_natural_reds_are_redder_the_more_pheomelanin() -> None:
    """Source: pcmr-12673 and common practice: more pheomelanin is redder hair, at any depth."""
    for depth in (3, 5, 7, 9):
        a = [lab(reflectance(born(depth, warmth)))[1] for warmth in (-1, 0, 1, 2, 3)]
        assert (np.diff(a) > 0).all()


@pytest.mark.parametrize("row", DARK_BROWN)
def test_dark_brown_tress(row: tuple[float, float, float]) -> None:
    """Two of the model's constants were fitted to these rows; the check is that one depth serves them all."""
    around_three = np.linspace(2.75, 3.25, 11)  # dark brown is depth 3; a reading is good to half a level
    assert ciede2000(natural(around_three), row).min() < 1.5


@pytest.mark.parametrize("row", BLACK)
def test_black_hair_is_depth_one(row: tuple[float, float, float]) -> None:
    assert ciede2000(natural(1.0), row) < 1.5
    assert ciede2000(natural(3.0), row) > 5  # and nothing browner would do


@pytest.mark.parametrize("value", published(), ids=lambda v: v.what)
def test_published_values(value: Published) -> None:
    assert value.within, value


def test_dye_without_lift_makes_hair_darker() -> None:
    """Source: modern-hair-science, p. 122: matching the natural colour by dye alone makes the hair darker;
    lift has to go with it."""
    for depth in (4, 6, 8):
        shade = Shade(depth, "neutral")
        without, with_lift, bare = (
            predict(HairState(depth), treatment, shade).seen.lab[0]
            for treatment in (Treatment(shade, 0), Treatment(shade, 2), None)
        )
        assert without < bare - 1
        assert with_lift == pytest.approx(bare, abs=0.5)


# Source: fade-copper-2021, Table III (p. 278), colour change after so many washes, on hair holding copper.
WASHES = (2, 5, 8, 12)
VIVID_LOSS = (7.59, 7.73, 6.99, 6.70)
BROWN_LOSS = (3.42, 4.57, 5.43, 6.12)


def colour_loss(shade: Shade, washes: float) -> float:
    """CIELAB distance on white hair, the largest this model can make of a wash."""
    full = on_white(shade)
    left = share_left(shade.tone, washes, 0) * full
    return float(np.linalg.norm(lab(reflectance(full)) - lab(reflectance(left))))


def test_fade_stays_under_the_upper_estimate_and_does_not_vanish() -> None:
    for washes, vivid, brown in zip(WASHES, VIVID_LOSS, BROWN_LOSS, strict=True):
        assert 0.25 * vivid < colour_loss(Shade(5, "copper"), washes) < vivid
        assert 0.25 * brown < colour_loss(Shade(4, "neutral"), washes) < brown


def test_vivid_shades_lose_at_once_and_browns_slowly() -> None:
    """Same table: the warm shade had its whole loss after two washes, the brown about half of it."""
    vivid = [colour_loss(Shade(5, "copper"), n) for n in (2, 12)]
    brown = [colour_loss(Shade(4, "neutral"), n) for n in (2, 12)]
    assert vivid[0] / vivid[1] > brown[0] / brown[1]
    assert brown[0] / brown[1] == pytest.approx(3.42 / 6.12, abs=0.2)


def test_fade_is_more_than_on_undamaged_hair() -> None:
    """Source: fade-30-washes-2008: over 90 per cent kept for thirty washes, on undamaged hair."""
    for tone in TONES:
        assert 0.4 < share_left(tone, 30, 0) < 0.9


def test_light_counts_as_well_as_washing() -> None:
    """Source: fade-light-2005: more is lost with light and shampoo together than with shampoo alone."""
    assert share_left("copper red", 4, 8) < share_left("copper red", 4, 0)


def test_pile_of_plates_added_up_layer_by_layer() -> None:
    """Source: stokes-1862: the closed form must be the sum over single layers, here added one by one."""
    absorbed = np.linspace(0.0, 3.0, 31)
    passed = np.exp(-(absorbed + KERATIN))
    back, through = SURFACE + BACK * passed**2, (1 - SURFACE - BACK) * passed
    whole = np.zeros(31)
    for _ in range(4000):  # put one more layer on top of what lies there already
        whole = back + through**2 * whole / (1 - back * whole)
    np.testing.assert_allclose(reflectance(absorbed), whole, atol=1e-9)


def test_weak_absorption_is_the_textile_law() -> None:
    """Source: common practice in textiles: (1 - R)^2 / 2R rises in proportion to absorption."""
    absorbed = np.array([1e-5, 2e-5, 4e-5])
    passed = np.exp(-absorbed)
    r = pile(passed, passed**2)
    ratio = (1 - r) ** 2 / (2 * r)
    scatter = (SURFACE + BACK) / ((1 - SURFACE) ** 2 - BACK**2)  # from the two-flux equations, by hand
    np.testing.assert_allclose(ratio, absorbed / scatter, rtol=1e-3)
