"""The strand: history laid along the hair. Facts of arithmetic and common practice."""

import itertools
from datetime import date, timedelta
from typing import Any

import pytest

from consult.answers.access import from_data
from consult.head.bands import Strand, Zone
from consult.head.build import build_head

TODAY = date(2026, 11, 25)


def service(kind: str, weeks: float, **more: Any) -> dict[str, Any]:
    return {"kind": kind, "on": TODAY - timedelta(weeks=weeks), "stretch": "all over", **more}


def strand(services: Any, **hair: Any) -> Strand:
    data = {"history": {"services": services}, "hair": {"length_cm": 30, "natural_depth": 5, **hair}}
    built = build_head(from_data(data), TODAY)
    assert built
    return built


def colour(weeks: float, depth: float = 5, **more: Any) -> dict[str, Any]:
    return service("permanent colour", weeks, depth=depth, tone="neutral", **more)


def test_virgin_hair_is_natural_from_scalp_to_ends() -> None:
    built = strand([], new_growth_cm=0)
    assert all(band.virgin for band in built.bands)
    assert built.demarcations == ()
    assert built.bands[0].start_cm == 0
    assert built.bands[-1].end_cm == 30


def test_the_line_of_demarcation_lies_where_the_new_growth_ends() -> None:
    built = strand([colour(6)], new_growth_cm=1.5)
    assert built.demarcations[0] == 1.5
    new_growth, *rest = built.bands
    assert new_growth.zone is Zone.NEW_GROWTH
    assert new_growth.colour is None
    assert all(band.colour for band in rest)


def test_an_older_service_lies_where_growth_has_carried_it() -> None:
    """At 1.1 cm a month (0.25 cm a week) a lightening 40 weeks ago begins 10 cm from the scalp."""
    built = strand([service("lightener all over", 40, depth=9), colour(4)], new_growth_cm=1)
    edge = next(band.start_cm for band in built.bands if band.passes == 2)
    assert edge == pytest.approx(10, abs=0.3)


def test_passes_add_up_from_new_growth_to_ends() -> None:
    built = strand([colour(18), colour(12), colour(6)], new_growth_cm=1.5)
    passes = [band.passes for band in built.bands]
    assert passes == sorted(passes)
    assert passes[0] == 0
    assert passes[-1] == 3


def test_retouching_new_growth_only_never_adds_a_pass_to_the_lengths() -> None:
    services = [colour(24), *(colour(w, stretch="new growth") for w in (18, 12, 6))]
    built = strand(services, new_growth_cm=1.5)
    assert {band.passes for band in built.treated} == {1}


def test_peroxide_minutes_follow_the_passes() -> None:
    built = strand([colour(12), colour(6, developer_percent=9)], new_growth_cm=1.5)
    minutes = [band.peroxide_minutes for band in built.bands]
    assert minutes == sorted(minutes)
    # 9 % and 6 % bottles, half of it on the head, half an hour each: 135 and 90.
    assert minutes[-1] == pytest.approx(4.5 * 30 + 3 * 30)


def test_what_grew_out_and_was_cut_is_gone() -> None:
    """30 cm of hair is about 27 months old; a colour of four years ago is no longer on it."""
    assert all(band.virgin for band in strand([colour(208)], new_growth_cm=0).bands)


def test_the_eye_overrides_what_history_computes_and_says_so() -> None:
    built = strand([colour(6, depth=3)], new_growth_cm=1.5, lengths_depth=6, lengths_tone="gold")
    lengths = built.zone(Zone.LENGTHS)[0]
    assert lengths.colour
    assert (lengths.colour.depth, lengths.colour.tone, lengths.colour.seen) == (6, "gold", True)
    assert [d.id for d in built.disagreements] == ["lengths-and-history-disagree"]


@pytest.mark.parametrize(("seen", "disagrees"), [(4, False), (6, False), (3.5, True), (6.5, True)])
def test_a_level_either_way_is_no_disagreement(seen: float, disagrees: bool) -> None:
    built = strand([colour(6, depth=5)], new_growth_cm=1.5, lengths_depth=seen)
    assert bool(built.disagreements) is disagrees


def test_new_growth_that_cannot_fit_the_date_is_a_disagreement() -> None:
    built = strand([colour(2)], new_growth_cm=4)
    assert [d.id for d in built.disagreements] == ["growth-and-history-disagree"]
    assert not built.growth.own


def test_dark_lengths_without_a_history_are_taken_as_coloured() -> None:
    """The stricter reading: old colour nobody remembers."""
    built = strand([], new_growth_cm=3, lengths_depth=2)
    assert built.zone(Zone.LENGTHS)[0].colour


@pytest.mark.parametrize("answer", [None, "not sure"])
def test_without_length_there_is_no_strand(answer: str | None) -> None:
    hair = {"natural_depth": 5} | ({"length_cm": answer} if answer else {})
    assert build_head(from_data({"hair": hair}), TODAY) is None


def test_bands_are_whole_from_scalp_to_tip() -> None:
    services = [
        colour(w, stretch=s) for w, s in ((80, "all over"), (50, "ends"), (20, "new growth"), (8, "lengths"))
    ]
    bands = strand(services, new_growth_cm=2).bands
    assert all(a.end_cm == b.start_cm for a, b in itertools.pairwise(bands))
    assert sum(band.length_cm for band in bands) == pytest.approx(30)


class TestWhatIsNotSure:
    """Neither "not sure" nor a missing date is ever read as "never happened"."""

    def test_a_colour_of_unknown_date_lies_on_all_the_lengths(self) -> None:
        built = strand([{"kind": "permanent colour", "on": "not sure", "stretch": "all over", "depth": 4}],
                       new_growth_cm=1.5)  # fmt: skip
        assert all(band.colour and band.passes == 1 for band in built.treated)

    def test_a_lightener_of_unknown_date_is_still_lightened_hair(self) -> None:
        built = strand(
            [{"kind": "lightener all over", "on": "not sure", "stretch": "all over"}], new_growth_cm=2
        )
        assert all(band.lightened for band in built.treated)

    def test_an_unknown_kind_counts_as_a_pass(self) -> None:
        built = strand([service("not sure", 6)], new_growth_cm=1.5)
        assert all(band.passes == 1 and band.colour for band in built.treated)

    def test_henna_is_not_natural_hair(self) -> None:
        built = strand([service("plain henna", 20)], new_growth_cm=5)
        assert all(band.colour and band.colour.tone == "copper red" for band in built.treated)
