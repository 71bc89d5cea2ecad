"""The strand: history laid along the hair. Facts of arithmetic and common practice."""

import itertools
from datetime import date, timedelta
from typing import Any, ClassVar

import pytest

from consult.answers.access import from_data
from consult.head.bands import Band, Head, Strand
from consult.head.build import build_head
from consult.trade import Stretch, Zone

TODAY = date(2026, 11, 25)


def service(kind: str, weeks: float, **more: Any) -> dict[str, Any]:
    return {"kind": kind, "on": TODAY - timedelta(weeks=weeks), "stretch": "all over", **more}


def strand(services: Any, **hair: Any) -> Strand:
    return head(services, **hair).areas[0].strand


def head(services: Any, **hair: Any) -> Head:
    data = {"history": {"services": services}, "hair": {"length_cm": 30, "natural_depth": 5, **hair}}
    built = build_head(from_data(data), TODAY)
    assert built
    return built


def test_semi_permanent_colour_is_gone_after_half_a_year() -> None:
    """Assumption; it lasts 6 to 8 washes (modern-hair-science). A permanent one stays."""
    semi = {"depth": 4, "tone": "neutral"}
    assert beyond(strand([service("semi-permanent colour", 26, **semi)]))[0].colour
    assert beyond(strand([service("semi-permanent colour", 26.2, **semi)]))[0].colour is None
    assert beyond(strand([colour(40, 4)]))[-1].colour


def beyond(built: Strand) -> list[Band]:
    """The bands of lengths and ends."""
    return [b for b in built.bands if b.stretch in (Stretch.LENGTHS, Stretch.ENDS)]


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
    assert new_growth.stretch is Stretch.SCALP
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
    assert {band.passes for band in beyond(built)} == {1}


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
    built = head([colour(6, depth=3)], new_growth_cm=1.5, lengths_depth=6, lengths_tone="gold")
    lengths = built.areas[0].strand.on(Stretch.LENGTHS)[0]
    assert lengths.colour
    assert (lengths.colour.depth, lengths.colour.tone, lengths.colour.seen) == (6, "gold", True)
    assert [d.id for d in built.disagreements] == ["lengths-and-history-disagree"]


@pytest.mark.parametrize(("seen", "disagrees"), [(4, False), (6, False), (3.5, True), (6.5, True)])
def test_a_level_either_way_is_no_disagreement(seen: float, disagrees: bool) -> None:
    built = head([colour(6, depth=5)], new_growth_cm=1.5, lengths_depth=seen)
    assert bool(built.disagreements) is disagrees


def test_new_growth_that_cannot_fit_the_date_is_a_disagreement() -> None:
    built = head([colour(2)], new_growth_cm=4)
    assert [d.id for d in built.disagreements] == ["growth-and-history-disagree"]
    assert not built.growth.own


def test_dark_lengths_without_a_history_are_taken_as_coloured() -> None:
    """The stricter reading: old colour nobody remembers."""
    built = strand([], new_growth_cm=3, lengths_depth=2)
    assert built.on(Stretch.LENGTHS)[0].colour


@pytest.mark.parametrize("answer", [None, "not sure"])
def test_without_length_there_is_no_strand(answer: str | None) -> None:
    hair = {"natural_depth": 5} | ({"length_cm": answer} if answer else {})
    assert build_head(from_data({"hair": hair}), TODAY) is None


class TestZones:
    """Zones whose hair is alike are one area; white differs by zone (common practice: read it per zone)."""

    WHITE: ClassVar = {"white_front": 60.0, "white_temples": 60.0, "white_crown": 25.0, "white_nape": 60.0}

    def test_equal_zones_are_one(self) -> None:
        areas = head([], new_growth_cm=0, **self.WHITE).areas
        assert [area.zones for area in areas] == [(Zone.FRONT, Zone.TEMPLES, Zone.NAPE), (Zone.CROWN,)]
        assert [area.strand.bands[0].white_share for area in areas] == [0.6, 0.25]

    def test_every_zone_belongs_to_one_area_and_the_mean_is_theirs(self) -> None:
        built = head([], new_growth_cm=0, **self.WHITE)
        assert sorted(z.value for area in built.areas for z in area.zones) == sorted(z.value for z in Zone)
        assert built.white_mean == pytest.approx((0.6 + 0.6 + 0.25 + 0.6) / 4)
        assert built.white_most == 0.6

    def test_a_zone_nobody_read_is_taken_as_the_mean_of_the_others(self) -> None:
        built = head([], new_growth_cm=0, white_front=60.0, white_crown=20.0)
        assert built.white[Zone.NAPE] == pytest.approx(0.4)


class TestStretches:
    """The warm zone at the scalp is half an inch, 1.3 cm (common practice)."""

    @pytest.mark.parametrize(
        ("new_growth", "stretches"),
        [
            (1.0, [Stretch.SCALP, Stretch.LENGTHS, Stretch.ENDS]),
            (1.7, [Stretch.SCALP, Stretch.LENGTHS, Stretch.ENDS]),
            (1.8, [Stretch.SCALP, Stretch.NEW_GROWTH, Stretch.LENGTHS, Stretch.ENDS]),
            (4.0, [Stretch.SCALP, Stretch.NEW_GROWTH, Stretch.LENGTHS, Stretch.ENDS]),
        ],
    )
    def test_new_growth_beyond_the_warm_zone_is_a_stretch_of_its_own(
        self, new_growth: float, stretches: list[Stretch]
    ) -> None:
        built = strand([colour(8)], new_growth_cm=new_growth)
        assert list(dict.fromkeys(band.stretch for band in built.bands)) == stretches
        grown = [b for b in built.bands if b.stretch in (Stretch.SCALP, Stretch.NEW_GROWTH)]
        assert grown[-1].end_cm == new_growth
        assert all(band.colour is None for band in grown)

    def test_hair_never_coloured_has_a_warm_zone_and_no_new_growth(self) -> None:
        bands = strand([], new_growth_cm=0).bands
        assert [band.stretch for band in bands] == [Stretch.SCALP, Stretch.LENGTHS, Stretch.ENDS]
        assert bands[0].end_cm == 1.3


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
        assert all(band.colour and band.passes == 1 for band in beyond(built))

    def test_a_lightener_of_unknown_date_is_still_lightened_hair(self) -> None:
        built = strand(
            [{"kind": "lightener all over", "on": "not sure", "stretch": "all over"}], new_growth_cm=2
        )
        assert all(band.lightened for band in beyond(built))

    def test_an_unknown_kind_counts_as_a_pass(self) -> None:
        built = strand([service("not sure", 6)], new_growth_cm=1.5)
        assert all(band.passes == 1 and band.colour for band in beyond(built))

    def test_henna_is_not_natural_hair(self) -> None:
        built = strand([service("plain henna", 20)], new_growth_cm=5)
        assert all(band.colour and band.colour.tone == "copper red" for band in beyond(built))
