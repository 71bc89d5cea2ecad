"""Spectra to XYZ, CIELAB and sRGB against an independent open implementation.

Source: cie-15 and iec-61966-2-1, as implemented by the open package colour-science, used here as the oracle.
"""

import warnings

import numpy as np
import pytest

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it warns of optional packages it does not find
    colour = pytest.importorskip("colour")

from consult.colour.cie import WHITE, lab, srgb, xyz
from consult.colour.cie_tables import DAYLIGHT, OBSERVER_2, OBSERVER_10, WAVELENGTHS
from consult.colour.difference import ciede2000
from consult.colour.dyes import load
from consult.colour.fibre import reflectance
from consult.colour.pigment import lifted
from consult.colour.values import Shade
from consult.trade import TONES

D65 = np.array([0.31270, 0.32900])


def spectra() -> np.ndarray:
    """Natural, lifted and dyed hair: everything this package makes spectra of."""
    cases = ((1, 0), (3, 3), (6, 0), (9, 0), (3, 6), (5, 5))
    natural = [reflectance(lifted(depth, lift)) for depth, lift in cases]
    dyed = [reflectance(load(Shade(depth, tone)).dye) for depth in (4, 7) for tone in TONES]
    return np.array(natural + dyed)


@pytest.mark.parametrize(
    ("name", "table"),
    [
        ("CIE 1931 2 Degree Standard Observer", OBSERVER_2),
        ("CIE 1964 10 Degree Standard Observer", OBSERVER_10),
    ],
)
def test_observer_tables(name: str, table: np.ndarray) -> None:
    oracle = colour.MSDS_CMFS[name].copy().align(colour.SpectralShape(400, 700, 10))
    np.testing.assert_allclose(table, oracle.values, atol=5e-7)


def test_daylight_table() -> None:
    oracle = colour.SDS_ILLUMINANTS["D65"].copy().align(colour.SpectralShape(400, 700, 10))
    np.testing.assert_allclose(DAYLIGHT, oracle.values, atol=5e-5)


def test_xyz_is_the_oracles_for_the_same_samples() -> None:
    cmfs = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy()
    cmfs = cmfs.align(colour.SpectralShape(400, 700, 10))
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(cmfs.shape)
    for row in spectra():
        sd = colour.SpectralDistribution(dict(zip(WAVELENGTHS, row, strict=True)))
        oracle = colour.sd_to_XYZ(sd, cmfs, light, method="Integration") / 100
        np.testing.assert_allclose(xyz(row), oracle, rtol=1e-6)


def test_few_samples_cost_less_than_a_third_of_a_unit() -> None:
    """The oracle sums 1 nm steps from 360 to 780 nm, holding the ends of the spectrum."""
    cmfs = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(cmfs.shape)
    fine = cmfs.wavelengths
    weights = cmfs.values * light.values[:, None]
    weights /= weights[:, 1].sum()
    rows = spectra()
    full = np.array([np.interp(fine, WAVELENGTHS, row) for row in rows]) @ weights
    oracle = np.array(
        [
            colour.XYZ_to_Lab(v / weights.sum(0) * WHITE["2 degree"], colour.XYZ_to_xy(WHITE["2 degree"]))
            for v in full
        ]
    )
    assert ciede2000(lab(rows), oracle).max() < 1 / 3


def test_lab_of_xyz() -> None:
    rows = spectra()
    oracle = colour.XYZ_to_Lab(xyz(rows), colour.XYZ_to_xy(WHITE["2 degree"]))
    np.testing.assert_allclose(lab(rows), oracle, atol=1e-6)


def test_srgb_of_lab() -> None:
    colours = lab(spectra())
    shown = srgb(colours)
    oracle = colour.XYZ_to_sRGB(colour.Lab_to_XYZ(colours, D65))
    assert shown.in_gamut.any()
    np.testing.assert_allclose(shown.rgb[shown.in_gamut], oracle[shown.in_gamut], atol=1 / 512)


def test_difference_over_a_wide_cloud() -> None:
    rng = np.random.default_rng(11)
    one = rng.uniform((5, -60, -60), (95, 60, 60), (500, 3))
    two = rng.uniform((5, -60, -60), (95, 60, 60), (500, 3))
    np.testing.assert_allclose(ciede2000(one, two), colour.delta_E(one, two, method="CIE 2000"), atol=1e-8)
