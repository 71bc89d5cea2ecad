"""The screen colour never leaves the gamut silently, and wrong input is refused."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from consult.colour.cie import hex_colours, lab, lab_from_xyz, srgb, xyz, xyz_from_lab
from tests.colour.optics import lch

CALM = settings(derandomize=True, deadline=None, max_examples=150)


def test_a_perfect_white_is_white() -> None:
    np.testing.assert_allclose(lab(np.ones(31)), (100, 0, 0), atol=1e-9)
    np.testing.assert_allclose(lab(np.ones(31), "10 degree"), (100, 0, 0), atol=1e-9)


def test_black_is_black() -> None:
    np.testing.assert_allclose(lab(np.zeros(31)), (0, 0, 0), atol=1e-9)


def test_a_spectrum_of_the_wrong_length_is_refused() -> None:
    with pytest.raises(ValueError, match="31 samples"):
        xyz(np.ones(30))


def test_shapes_are_kept() -> None:
    assert lab(np.ones((2, 5, 31))).shape == (2, 5, 3)
    assert srgb(np.ones((2, 5, 3))).in_gamut.shape == (2, 5)


def test_single_precision_stays_single() -> None:
    assert lab(np.full((4, 31), 0.3, dtype=np.float32)).dtype == np.float32


def test_a_colour_no_screen_has_is_flagged_and_keeps_lightness_and_hue() -> None:
    wanted = np.array([50.0, -100.0, 60.0])
    shown = srgb(wanted)
    assert not shown.in_gamut
    linear = np.where(shown.rgb <= 0.04045, shown.rgb / 12.92, ((shown.rgb + 0.055) / 1.055) ** 2.4)
    to_xyz = np.array(  # sRGB's own matrix, IEC 61966-2-1
        [
            (0.4124564, 0.3575761, 0.1804375),
            (0.2126729, 0.7151522, 0.0721750),
            (0.0193339, 0.1191920, 0.9503041),
        ]
    )
    got = lch(lab_from_xyz(to_xyz @ linear, (0.95047, 1.0, 1.08883)))
    assert got[0] == pytest.approx(50, abs=0.5)
    assert got[2] == pytest.approx(lch(wanted)[2], abs=1.0)
    assert got[1] > 20  # it gave up no more than it had to: the edge, not grey


@CALM
@given(st.floats(0, 100), st.floats(-128, 128), st.floats(-128, 128))
def test_gamut_is_never_left_silently(light: float, a: float, b: float) -> None:
    shown = srgb(np.array([light, a, b]))
    assert ((shown.rgb >= 0) & (shown.rgb <= 1)).all()
    hex_colours(shown.rgb[None])
    if shown.in_gamut:  # then it must be the colour itself: going back gives it again
        linear = np.where(shown.rgb <= 0.04045, shown.rgb / 12.92, ((shown.rgb + 0.055) / 1.055) ** 2.4)
        matrix = np.linalg.inv(
            np.array(
                [
                    (3.2404542, -1.5371385, -0.4985314),
                    (-0.969266, 1.8760108, 0.041556),
                    (0.0556434, -0.2040259, 1.0572252),
                ]
            )
        )
        back = matrix @ linear
        np.testing.assert_allclose(back, xyz_from_lab([light, a, b], (0.95047, 1.0, 1.08883)), atol=5e-4)


def test_hex_refuses_what_is_not_a_screen_colour() -> None:
    assert hex_colours([(1, 0, 0.5), (0, 0, 0)]) == ["#ff0080", "#000000"]
    with pytest.raises(ValueError, match="between 0 and 1"):
        hex_colours([(1.2, 0, 0)])
    with pytest.raises(ValueError, match="between 0 and 1"):
        hex_colours([(float("nan"), 0, 0)])


@CALM
@given(st.floats(0, 100), st.floats(-90, 90), st.floats(-90, 90))
def test_lab_goes_there_and_back(light: float, a: float, b: float) -> None:
    white = (0.95047, 1.0, 1.08883)
    back = lab_from_xyz(xyz_from_lab([light, a, b], white), white)
    np.testing.assert_allclose(back, (light, a, b), atol=1e-6)
