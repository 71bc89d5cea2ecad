"""Cases worked beforehand by a separate calculation of the same physics, held to a colour difference of 2.

That calculation fitted its surface light (0.0285) and its pigment (0.85) to three of the published rows; this
package fits both to all eleven (0.0268, 0.88), which moves every colour by about half a unit. Where a case
differs by more the reason stands beside it.
"""

import numpy as np
import pytest

from consult.colour.cie import lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import load
from consult.colour.fibre import blend, reflectance
from consult.colour.melanin import absorbance
from consult.colour.pigment import lifted, natural_lab
from consult.colour.prediction import predict
from consult.colour.values import HairState, OldColour, Shade, Treatment
from tests.colour.optics import corrector

COPPER_RED = Shade(6, "copper red")
NEUTRAL_7 = Shade(7, "neutral")


def near(colour: object, wanted: tuple[float, float, float], within: float = 2.0) -> bool:
    return float(ciede2000(np.asarray(colour), wanted)) < within


@pytest.mark.parametrize(
    ("depth", "wanted"),
    [
        (1, (19.6, 0.6, 0.3)), (2, (20.4, 2.1, 1.6)), (3, (22.6, 4.0, 4.9)), (4, (26.5, 5.3, 9.2)),
        (5, (31.7, 6.0, 13.2)), (6, (37.6, 6.2, 15.9)), (7, (43.7, 6.1, 17.5)), (8, (49.6, 5.8, 18.3)),
        (9, (54.9, 5.3, 18.6)), (10, (59.4, 4.9, 18.5)),
    ],
)  # fmt: skip
def test_natural_ladder(depth: int, wanted: tuple[float, float, float]) -> None:
    assert near(natural_lab(depth), wanted)


def test_dark_blond_with_white_before_and_after() -> None:
    before = predict(HairState(6, 0.3), None, COPPER_RED)
    assert near(before.seen.lab, (43.3, 5.8, 15.6))
    after = predict(HairState(6, 0.3), Treatment(COPPER_RED, 1), COPPER_RED)
    assert near(after.pigmented.lab, (35.0, 17.3, 18.5))
    assert near(after.white.lab, (45.5, 28.3, 23.6))
    assert near(after.seen.lab, (37.5, 19.4, 19.5))
    assert float(ciede2000(before.seen.lab, after.seen.lab)) == pytest.approx(11.8, abs=1)


def test_the_same_shade_on_other_bases() -> None:
    on_dark = predict(HairState(2), Treatment(COPPER_RED, 1), COPPER_RED)
    assert near(on_dark.seen.lab, (21.9, 5.5, 4.1))
    # Natural 9 lifted one level passes level 8, from where this package lets lifted hair run ahead: +1 L*.
    on_light = predict(HairState(9), Treatment(COPPER_RED, 1), COPPER_RED)
    assert near(on_light.seen.lab, (41.6, 23.7, 22.2))
    on_white = predict(HairState(6, 1.0), Treatment(COPPER_RED, 1), COPPER_RED)
    assert near(on_white.seen.lab, (45.5, 28.3, 23.6))


def test_orange_and_what_blue_does_to_it() -> None:
    orange = lifted(3, 3)
    assert near(lab(reflectance(orange)), (37.6, 11.1, 22.4))
    assert near(lab(reflectance(orange + corrector("blue", 0.1))), (33.9, 3.1, 16.0))
    # The ash shade stood there at about four fifths of full strength; here it is fully developed.
    assert near(lab(reflectance(orange + 0.8 * load(Shade(6, "ash")))), (31.9, 6.2, 15.1))


def test_yellow_and_what_blue_and_violet_do_to_it() -> None:
    # There "lifted to 9" meant as light as natural 9; here lifted hair of level 9 is lighter and yellower
    # (57, 10, 33), so the case is taken at the lightness it was worked for, a little under level 9.
    yellow = lifted(3, 5.72)
    assert near(lab(reflectance(yellow)), (54.9, 11.1, 32.9))
    cases = (
        ("blue", 0.05, (49.3, 0.0, 23.5)), ("blue", 0.1, (45.8, -5.6, 17.5)),
        ("blue", 0.2, (41.1, -11.1, 9.8)),
        ("violet", 0.05, (48.8, 10.3, 23.4)), ("violet", 0.1, (44.6, 10.0, 16.9)),
    )  # fmt: skip
    for colour, much, wanted in cases:
        assert near(lab(reflectance(yellow + corrector(colour, much))), wanted)


def test_a_strand_with_old_red() -> None:
    roots = predict(HairState(6, 0.3), Treatment(NEUTRAL_7, 1), NEUTRAL_7)
    assert near(roots.seen.lab, (39.5, 6.8, 17.1))

    def added(left: float, uptake: float = 1.0) -> np.ndarray:
        dye = uptake * load(NEUTRAL_7) + left * load(Shade(5, "red"))
        return lab(blend(lifted(6, 1) + dye, dye, 0.3))

    # There new colour was added whole to what old red was left. The sums agree (porous ends taking more):
    assert near(added(0.6), (31.6, 12.7, 12.8))
    assert near(added(0.35, 1.15), (32.4, 10.2, 13.1))
    # Here hair that holds colour takes less of the new one, since a second colouring was found to add hardly
    # any colour (hair-colour-dyeing-thermal), so the mid-lengths come out lighter and redder than that sum.
    lengths = predict(HairState(6, 0.3, (OldColour(5, "red", 8, 40),)), Treatment(NEUTRAL_7, 1), NEUTRAL_7)
    assert lengths.seen.lab[0] > added(0.6)[0] + 1
    assert lengths.seen.lab[0] < roots.seen.lab[0]  # still darker than the new growth: colour lifts no colour


@pytest.mark.parametrize(
    ("depth", "lightness"),
    [
        (2, (22, 27, 32, 40, 55)), (4, (28, 33, 38, 46, 60)),
        (6, (39, 43, 48, 55, 66)), (8, (51, 54, 58, 63, 70)),
    ],
)  # fmt: skip
def test_natural_grey(depth: int, lightness: tuple[int, ...]) -> None:
    """L* at 10, 30, 50, 70 and 90 per cent white, to a unit of rounding and one for the fit."""
    shares = np.array([0.1, 0.3, 0.5, 0.7, 0.9])
    mixed = lab(blend(absorbance(depth), np.zeros(31), shares))[:, 0]
    np.testing.assert_allclose(mixed, lightness, atol=1.5)
