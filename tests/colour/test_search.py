"""Searching many mixes: the numbers of a prediction, ranked by the worst stretch, ties kept together."""

import numpy as np
import pytest

from consult.colour.prediction import predict
from consult.colour.search import SEEN_APART, Candidates, search
from consult.colour.values import HairState, OldColour, Shade, Treatment
from consult.trade import TONES

SHADES = tuple(Shade(depth, tone) for depth in (5, 6, 7, 8) for tone in TONES)
STRAND = (
    HairState(6, 0.3),
    HairState(6, 0.3, (OldColour(6, "copper red", 6, 18),)),
    HairState(5, 0.0, (), 2.0, "high"),
)
GOAL = Shade(6, "copper red")


def candidates(n: int, seed: int = 5) -> Candidates:
    rng = np.random.default_rng(seed)
    return Candidates(
        SHADES,
        rng.integers(0, len(SHADES), n),
        rng.integers(0, len(SHADES), n),
        rng.integers(0, 5, n) / 4,
        rng.choice([0.0, 1.0, 2.0, 3.0], n),
        rng.choice([0.5, 0.7, 1.0], n),
    )


def treatment(c: Candidates, i: int) -> Treatment:
    second = (c.shades[c.second[i]], float(c.share[i]))
    return Treatment(c.shades[c.first[i]], float(c.lift[i]), float(c.uptake[i]), (second,))


def test_a_search_sees_what_a_prediction_sees() -> None:
    some = candidates(60)
    ranking = search(some, STRAND, GOAL)
    single = [[predict(s, treatment(some, i), GOAL).to_goal for s in STRAND] for i in range(len(some))]
    np.testing.assert_allclose(ranking.differences, single, atol=0.02)
    np.testing.assert_allclose(ranking.worst, np.max(single, axis=1), atol=0.02)


def test_chunks_leave_no_seam() -> None:
    many = candidates(20_000)
    whole = search(many, STRAND, GOAL)
    for i in (0, 8191, 8192, 16383, 16384, 19999):
        alone = predict(STRAND[0], treatment(many, i), GOAL).to_goal
        assert whole.differences[i, 0] == pytest.approx(alone, abs=0.02)


def test_ranked_by_the_worst_stretch() -> None:
    ranking = search(candidates(500), STRAND, GOAL)
    assert (np.diff(ranking.worst[ranking.order]) >= 0).all()
    np.testing.assert_array_equal(ranking.worst, ranking.differences.max(axis=1))


def test_the_obvious_mix_wins_on_its_own_base() -> None:
    n = len(SHADES)
    every = Candidates(SHADES, np.arange(n), np.arange(n), np.zeros(n), np.ones(n), np.ones(n))
    ranking = search(every, [HairState(6)], Shade(6, "ash"))
    best = [SHADES[i] for i in ranking.groups[0]]
    assert Shade(6, "ash") in best
    assert all(shade.tone in ("ash", "pearl", "matt", "neutral", "violet") for shade in best)


def test_ties_lie_within_the_models_own_error() -> None:
    ranking = search(candidates(800), STRAND, GOAL)
    np.testing.assert_array_equal(np.concatenate(ranking.groups), ranking.order)
    for group, following in zip(ranking.groups, ranking.groups[1:], strict=False):
        values = ranking.worst[group]
        assert values.max() - values.min() <= SEEN_APART + 1e-5
        assert ranking.worst[following[0]] - values.min() > SEEN_APART - 1e-5


def test_a_mask_excludes_and_nothing_else_changes() -> None:
    some = candidates(400)
    allowed = some.lift <= 1
    free, bound = search(some, STRAND, GOAL), search(some, STRAND, GOAL, allowed)
    assert allowed[bound.order].all()
    assert len(bound.order) == allowed.sum()
    assert np.isinf(bound.worst[~allowed]).all()
    np.testing.assert_array_equal(bound.worst[allowed], free.worst[allowed])


def test_nothing_allowed_is_an_empty_answer() -> None:
    ranking = search(candidates(10), STRAND, GOAL, np.zeros(10, dtype=bool))
    assert len(ranking.order) == 0
    assert ranking.groups == ()


def test_each_stretch_may_have_its_own_time() -> None:
    some = candidates(50)
    late = np.stack([some.uptake, 0.2 * some.uptake, some.uptake], axis=1)
    timed = Candidates(some.shades, some.first, some.second, some.share, some.lift, late)
    one, two = search(some, STRAND, GOAL), search(timed, STRAND, GOAL)
    np.testing.assert_array_equal(one.differences[:, 0], two.differences[:, 0])
    assert not np.allclose(one.differences[:, 1], two.differences[:, 1])


def test_what_does_not_fit_is_refused() -> None:
    good = candidates(5)
    columns = (good.first, good.second, good.share, good.lift, good.uptake)
    for wrong in (
        (SHADES, columns[0][:4], *columns[1:]),
        ((), *columns),
        (SHADES[:1], np.full(5, 1), *columns[1:]),
        (SHADES, *columns[:2], columns[2] + 2, *columns[3:]),
        (SHADES, *columns[:3], columns[3] - 9, columns[4]),
    ):
        with pytest.raises(ValueError, match=r".+"):
            Candidates(*wrong)
    with pytest.raises(ValueError, match="at least one stretch"):
        search(good, [], GOAL)
    with pytest.raises(ValueError, match="mask"):
        search(good, STRAND, GOAL, np.ones(4, dtype=bool))
    wide = Candidates(SHADES, *columns[:4], np.ones((5, 2)))
    with pytest.raises(ValueError, match="uptake"):
        search(wide, STRAND, GOAL)
