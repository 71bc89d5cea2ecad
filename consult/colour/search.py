"""Looking through many possible mixes at once for the one that suits every stretch best.

Candidates are plain arrays; a legal or otherwise narrowed choice comes in as a mask. They are judged by
their worst stretch. Works through the candidates in chunks that stay in the processor's cache, in single
precision, so time and memory grow in proportion to their number.
"""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from msgspec import Struct

from consult.colour.cie import Floats, lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import amount, load, room_for
from consult.colour.fibre import KERATIN, pile
from consult.colour.hair import Hair, hair_of, levels_after, lift_of
from consult.colour.ladder import goal_lab
from consult.colour.pigment import lifted
from consult.colour.values import HairState, Shade
from consult.sources import FROM_MEMORY, Number

SEEN_APART = Number(1.0, "colour difference", FROM_MEMORY)
"""Side by side nobody sees less. Mixes are compared with each other on one head: what is not known of that head is
the same for all of them, so they are equals only where an eye would see none better."""

_CHUNK = 4096  # rows: 31 samples of 4 bytes make half a megabyte an array
_LIFTS = np.linspace(0.0, 10.0, 201)  # levels; a twentieth of a level apart a straight line is exact enough
_ALL = np.float32(1.0)  # single precision stays single

Indices = npt.NDArray[np.intp]


class Candidates(Struct, frozen=True):
    """n mixes. first, second: index into `shades` (n,); share of the second 0..1 (n,); lift: levels the
    developer gives at most (n,); uptake: share of full uptake (n,), or (n, stretches) where a stretch is
    coloured for a shorter time. Raises ValueError when the arrays do not fit together.
    """

    shades: tuple[Shade, ...]
    first: Indices
    second: Indices
    share: Floats
    lift: Floats
    uptake: Floats

    def __post_init__(self) -> None:
        n = len(self.first)
        if any(len(column) != n for column in (self.second, self.share, self.lift, self.uptake)):
            raise ValueError("every column of the candidates needs the same length")
        if not self.shades:
            raise ValueError("candidates need at least one shade")
        for index in (self.first, self.second):
            if n and (index.min() < 0 or index.max() >= len(self.shades)):
                raise ValueError("a candidate names a shade that is not in the list")
        for column in (self.share, self.uptake):
            if n and not ((column >= 0) & (column <= 1)).all():
                raise ValueError("shares lie between 0 and 1")
        if n and not ((self.lift >= 0) & (self.lift <= _LIFTS[-1])).all():
            raise ValueError("lift lies between 0 and 10 levels")

    def __len__(self) -> int:
        return len(self.first)


class Ranking(Struct, frozen=True):
    """order: the allowed candidates, best first (m,); worst: CIEDE2000 of each candidate's worst stretch
    (n,), infinite where not allowed; differences: CIEDE2000 (n, stretches); groups: `order` cut into ties."""

    order: Indices
    worst: Floats
    differences: Floats
    groups: tuple[Indices, ...]


class _Judge:
    """One stretch, made ready: tables that turn a mix into a colour without looking anything up again."""

    def __init__(self, hair: Hair, shades: Sequence[Shade]) -> None:
        self.hair = hair
        loads = [load(shade, hair.porosity) for shade in shades]
        shares = [one.share(hair.stands + _LIFTS, hair.depth) for one in loads]
        self.shares = np.array(shares, dtype=np.float32)
        self.white_share = np.float32(hair.white_share)
        self.pigment = np.exp(-lifted(hair.depth, levels_after(hair, _LIFTS), hair.warmth)).astype(np.float32)
        self.bare = np.exp(-(KERATIN + hair.old)).astype(np.float32)
        self.bare_white = np.exp(-(KERATIN + hair.old_white)).astype(np.float32)
        self.held = np.float32(amount(hair.old))
        self.held_white = np.float32(amount(hair.old_white))

    def _dyed(self, bare: Floats, held: np.float32, dye: Floats, uptake: Floats) -> Floats:
        """What passes (n, 31) one fibre after a dye (n, 31) found what room there was."""
        if held == 0:
            return np.asarray(bare * np.exp(-uptake[:, None] * dye))
        room = room_for(amount(dye), held).astype(np.float32)
        return np.asarray(bare * np.exp(-(room * uptake)[:, None] * dye))

    def colours(self, mixes: "_Mixes", most: Floats, uptake: Floats) -> Floats:
        """CIELAB (n, 3) of mixes with developer lifts and uptakes (n,)."""
        step = np.minimum(lift_of(self.hair, mixes.depth, most) / _LIFTS[1], len(_LIFTS) - 1.001)
        low = step.astype(np.intp)
        part = (step - low).astype(np.float32)
        shares = [
            (1 - part) * self.shares[one, low] + part * self.shares[one, low + 1] for one in mixes.shades
        ]
        part = part[:, None]
        pigment = (1 - part) * self.pigment[low] + part * self.pigment[low + 1]
        pigmented = pigment * self._dyed(self.bare, self.held, mixes.dye(*shares), uptake)
        share = self.white_share
        if share == 0:
            return lab(pile(pigmented, pigmented * pigmented))
        white = self._dyed(self.bare_white, self.held_white, mixes.dye(), uptake)
        mean = (1 - share) * pigmented + share * white
        square = (1 - share) * pigmented * pigmented + share * white * white
        return lab(pile(mean, square))


class _Mixes:
    """A chunk of candidates: two shades each, and the share of the second; dyes (shades, 31) as on white hair."""

    def __init__(self, dyes: Floats, depths: Floats, one: Indices, two: Indices, share: Floats) -> None:
        self.shades = one, two
        self.dyes = tuple(
            part.astype(np.float32)[:, None] * dyes[index] for index, part in ((one, 1 - share), (two, share))
        )
        self.depth = (1 - share) * depths[one] + share * depths[two]

    def dye(self, one: npt.ArrayLike = _ALL, two: npt.ArrayLike = _ALL) -> Floats:
        """Absorbance (n, 31) of the mixes in hair that takes such shares (n,) of either shade."""
        first, second = self.dyes
        return np.asarray(np.reshape(one, (-1, 1)) * first + np.reshape(two, (-1, 1)) * second)


def _ties(order: Indices, worst: Floats, tolerance: float) -> tuple[Indices, ...]:
    """Cut a ranking where a candidate is worse than the best of its group by more than the tolerance."""
    ranked = worst[order]
    cuts, at = [], 0
    while at < len(order):
        at = int(np.searchsorted(ranked, ranked[at] + tolerance, side="right"))
        cuts.append(at)
    return tuple(np.split(order, cuts[:-1])) if cuts else ()


def search(
    candidates: Candidates,
    stretches: Sequence[HairState],
    goal: Shade,
    allowed: npt.NDArray[np.bool_] | None = None,
    tolerance: float = float(SEEN_APART),
) -> Ranking:
    """Rank mixes by the stretch that comes out furthest from the goal.

    Ties within the tolerance are one group: no eye sees which of them is better, so the caller may choose by
    cost, by strength or by habit. Raises ValueError without a stretch or with a
    mask or an uptake table of the wrong shape.
    """
    n = len(candidates)
    if not stretches:
        raise ValueError("a search needs at least one stretch")
    if allowed is not None and allowed.shape != (n,):
        raise ValueError("the mask needs one entry per candidate")
    uptake = candidates.uptake if candidates.uptake.ndim == 2 else candidates.uptake[:, None]
    if uptake.shape[1] not in (1, len(stretches)):
        raise ValueError("uptake needs one column, or one per stretch")
    uptake = np.broadcast_to(uptake, (n, len(stretches)))
    judges = [_Judge(hair_of(stretch), candidates.shades) for stretch in stretches]
    dyes = {
        porosity: np.array([load(shade, porosity).dye for shade in candidates.shades], dtype=np.float32)
        for porosity in {stretch.porosity for stretch in stretches}
    }
    depths = np.array([shade.depth for shade in candidates.shades])
    wanted = goal_lab(goal).astype(np.float32)

    chosen = np.arange(n) if allowed is None else np.flatnonzero(allowed)
    differences = np.full((n, len(stretches)), np.inf, dtype=np.float32)
    for start in range(0, len(chosen), _CHUNK):
        rows = chosen[start : start + _CHUNK]
        first, second, share = candidates.first[rows], candidates.second[rows], candidates.share[rows]
        mixes = {
            porosity: _Mixes(on_white, depths, first, second, share) for porosity, on_white in dyes.items()
        }
        most, taken = candidates.lift[rows], uptake[rows].astype(np.float32)
        for i, judge in enumerate(judges):
            colours = judge.colours(mixes[judge.hair.porosity], most, taken[:, i])
            differences[rows, i] = ciede2000(colours, wanted)

    worst = differences.max(axis=1)
    order = chosen[np.argsort(worst[chosen], kind="stable")]
    return Ranking(order=order, worst=worst, differences=differences, groups=_ties(order, worst, tolerance))
