"""A grid over depth, lift, white share, tone, porosity and weeks: one way and without a jump where nature has none.

    python -m tests.colour.test_grid     cells and violations, counted

Lightness is what the eye sees of it. White hairs mixed with others may look a little darker than either, as
complementary colours do, so there the reflected light is held at each wavelength: one way from the one to the other.
"""

from collections.abc import Iterable
from itertools import product

import numpy as np

from consult.colour.apparent import apparent_lightness
from consult.colour.cie import Floats, lab
from consult.colour.hair import locks, outcome_of
from consult.colour.pigment import lifted
from consult.colour.values import HairState, OldColour, Shade, Treatment
from consult.trade import POROSITIES, TONES

BACK = 0.1
"""Units of lightness, a level is about six. A shade keeps its number on lighter hair, and that is balanced at half
levels of its depth and of the hair's, on hair of one warmth: between them, and on warmer hair, it is off by less."""

ROUNDING = 1e-9  # of the light that falls on it

JUMP = 1.5
"""Units of lightness in a twentieth of a level, or of white hairs, or half a week (the first wash takes most)."""

DEPTHS = np.arange(1.0, 10.01, 0.5)
LIFTS = (0.0, 1.0, 2.0, 3.0, 4.0)
WHITES = (0.0, 0.25, 0.5, 0.75, 1.0)
WEEKS = (0.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0)
SHADES = (3.0, 5.0, 6.0, 8.0, 10.0)


def spectra(cases: Iterable[tuple[HairState, Treatment | None]]) -> Floats:
    """Reflectance (n, 31) of each case."""
    outcomes = [outcome_of(state, treatment) for state, treatment in cases]
    depth, lift, warmth, white = (
        np.array(column)
        for column in zip(
            *((o.hair.depth, o.lightened, o.hair.warmth, o.hair.white_share) for o in outcomes), strict=True
        )
    )
    dye, on_white = (
        np.array(list(column)) for column in zip(*((o.dye, o.on_white) for o in outcomes), strict=True)
    )
    return locks(lifted(depth, lift, warmth), dye, on_white, white).seen


def colours(cases: Iterable[tuple[HairState, Treatment | None]]) -> Floats:
    """CIELAB (n, 3) of each case."""
    return lab(spectra(cases))


def coloured(shade_depth: float) -> Floats:
    """Reflectance (depths, lifts, whites, tones, porosities, 31) of natural hair under a shade."""
    axes = DEPTHS, LIFTS, WHITES, TONES, POROSITIES
    found = spectra(
        (HairState(float(d), w, (), 0.0, p), Treatment(Shade(shade_depth, t), lift))
        for d, lift, w, t, p in product(*axes)
    )
    return found.reshape([*(len(axis) for axis in axes), found.shape[-1]])


def worn() -> Floats:
    """CIELAB (depths, tones, porosities, weeks, 3) of hair that was coloured in its own depth so long ago."""
    axes = (2.0, 4.0, 6.0, 8.0), TONES, POROSITIES, WEEKS
    found = colours(
        (HairState(d, 0.2, (OldColour(d, t, w, 3 * w),), 0.0, p), None) for d, t, p, w in product(*axes)
    )
    return found.reshape([*(len(axis) for axis in axes), 3])


def backwards(values: Floats, axis: int, way: int) -> int:
    """How many steps along an axis go against the way (1 lighter, -1 darker)."""
    return int((way * np.diff(values, axis=axis) < -BACK).sum())


def turning(light: Floats, axis: int) -> int:
    """How many steps along an axis do not go the way from its first end to its last."""
    first, last = (np.take(light, [end], axis=axis) for end in (0, -1))
    return int((np.sign(last - first) * np.diff(light, axis=axis) < -ROUNDING).sum())


def grid() -> dict[str, tuple[int, int]]:
    """Name -> (cells, violations)."""
    found: dict[str, tuple[int, int]] = {}
    for shade in SHADES:
        light = coloured(shade)
        values = apparent_lightness(lab(light))
        name = f"shade {shade:g}"
        found[f"{name}: lighter with natural depth"] = values.size, backwards(values, 0, 1)
        found[f"{name}: lighter with lift"] = values.size, backwards(values, 1, 1)
        found[f"{name}: one way with white hairs, each wavelength"] = light.size, turning(light, 2)
        found[f"{name}: darker with porosity"] = values.size, backwards(values, 4, -1)
    values = apparent_lightness(worn())
    found["old colour: lighter with weeks"] = values.size, backwards(values, 3, 1)
    return found


def fine() -> dict[str, float]:
    """Name -> largest step of lightness between neighbours on a fine line."""
    depths, shares, weeks = np.linspace(1.0, 10.0, 181), np.linspace(0.0, 1.0, 21), np.arange(0.0, 200.0, 0.5)
    lifts = np.arange(0.0, 6.01, 0.05)
    lines: dict[str, list[tuple[HairState, Treatment | None]]] = {}
    for tone, shade in product(("neutral", "ash", "red"), (4.0, 7.0)):
        put = Treatment(Shade(shade, tone), 2)  # type: ignore[arg-type]
        lines[f"natural depth, {shade:g} {tone}"] = [(HairState(float(d), 0.2), put) for d in depths]
        lines[f"shade's depth, {tone} on {shade:g}"] = [
            (HairState(shade, 0.2), Treatment(Shade(float(d), tone), 2))
            for d in depths  # type: ignore[arg-type]
        ]
        lines[f"lift, {shade:g} {tone}"] = [
            (HairState(3, 0.2), Treatment(put.shade, float(n))) for n in lifts
        ]
        lines[f"white share, {shade:g} {tone}"] = [(HairState(5, float(w)), put) for w in shares]
        lines[f"weeks, {shade:g} {tone}"] = [
            (
                HairState(5, 0.2, (OldColour(shade, tone, float(w), 3 * float(w)),)),
                Treatment(Shade(7, "gold"), 2),
            )  # type: ignore[arg-type]
            for w in weeks
        ]
    return {
        name: float(np.abs(np.diff(apparent_lightness(colours(line)))).max()) for name, line in lines.items()
    }


def test_one_way_where_nature_goes_one_way() -> None:
    found = grid()
    assert sum(cells for cells, _ in found.values()) > 100_000
    assert {name: count for name, (_, count) in found.items() if count} == {}


def test_no_jumps() -> None:
    assert {name: step for name, step in fine().items() if step >= JUMP} == {}


if __name__ == "__main__":
    for name, (cells, count) in grid().items():
        print(f"{name}: {cells} cells, {count} violations")
    for name, step in fine().items():
        print(f"{name}: largest step {step:.2f}")
