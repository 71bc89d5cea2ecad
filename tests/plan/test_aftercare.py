"""Next dates and aftercare, worked by hand."""

from datetime import date, timedelta
from typing import Any

import pytest
from msgspec.structs import replace

from consult.gates.limits import Demand, Limits
from consult.plan.aftercare import plan_aftercare, plan_visit, weeks_to_next, weeks_to_refresh
from consult.plan.case import Case
from consult.plan.ledger import Account, ledger_lines, worn
from consult.plan.types import Made
from consult.records.demos import demo_files
from consult.trade import Porosity, Stretch, Tone, Zone
from tests.demo import judged
from tests.plan.plans import made, said, with_bands

TODAY = date(2026, 11, 25)


def case(depth: float, natural: float, white: float = 0.0, upkeep: str | None = None) -> Case:
    """Tomas with another wish, another nature and evenly so much white, which is to be covered."""
    found = made("tomas").case
    found = with_bands(found, lambda _, band: replace(band, natural_depth=natural, white_share=white))
    return replace(found, wish=replace(found.wish, depth=depth, upkeep=upkeep))


class TestWeeksUntilNewGrowthShows:
    """Six weeks at a level of contrast, 0.4 less for each further level, three at least (common practice)."""

    @pytest.mark.parametrize(
        ("depth", "natural", "weeks"),
        [
            (5, 5, 6),
            (5, 6, 6),
            (5, 4, 6),
            (5, 7, 5),
            (7, 5, 5),
            (7, 3.5, 5),
            (8, 4, 4),
            (9, 3, 4),
            (9, 1, 3),
            (10, 1, 3),
        ],
    )
    def test_by_contrast(self, depth: float, natural: float, weeks: int) -> None:
        assert weeks_to_next(case(depth, natural)) == weeks

    @pytest.mark.parametrize(("share", "weeks"), [(0.49, 6), (0.5, 4), (1.0, 4)])
    def test_where_half_is_white_new_growth_looks_white(self, share: float, weeks: int) -> None:
        """White looks like depth 10 (assumption): five levels over a 5, so 6 - 1.6 weeks."""
        assert weeks_to_next(case(5, 5, share)) == weeks

    def test_white_that_is_not_covered_does_not_count(self) -> None:
        blended = case(5, 5, 0.8)
        assert weeks_to_next(replace(blended, wish=replace(blended.wish, white="blend"))) == 6

    @pytest.mark.parametrize(
        ("upkeep", "depth", "natural", "weeks"),
        [
            ("every 3 to 4 weeks", 5, 5, 4),
            ("every 3 to 4 weeks", 10, 1, 3),
            ("every 5 to 8 weeks", 8, 4, 5),
            ("every 5 to 8 weeks", 5, 5, 6),
        ],
    )
    def test_the_wished_upkeep_bounds_it(self, upkeep: str, depth: float, natural: float, weeks: int) -> None:
        assert weeks_to_next(case(depth, natural, upkeep=upkeep)) == weeks


class TestWeeksUntilARefresh:
    """When less than 70 % of the colour is left (assumption), by the model of fading.

    By hand for a muted tone at 3 washes a week: 0.93 x exp(-w / 30 - 0.008 w) falls under 0.7 in the 7th week.
    """

    @pytest.mark.parametrize(
        ("tone", "washes", "porosity", "weeks"),
        [
            ("gold", 3, "normal", 7),
            ("copper red", 3, "normal", 4),
            ("gold", 3, "high", 5),
            ("gold", 7, "normal", 4),
            ("gold", 0, "normal", 45),
            ("gold", 0, "low", 52),
            ("copper red", 0, "normal", 24),
        ],
    )
    def test_by_tone_washes_and_porosity(
        self, tone: Tone, washes: float, porosity: Porosity, weeks: int
    ) -> None:
        found = made("tomas").case
        found = with_bands(found, lambda _, band: replace(band, porosity=porosity))
        shade = replace(found.product.shade, tone=tone)
        product = replace(found.product, shade=shade)
        hair = replace(found.hair, washes_a_week=washes)
        assert weeks_to_refresh(replace(found, hair=hair, lengths_product=product)) == weeks


class TestWindowOfTheNextAllergyTest:
    """A test is old enough after its hours and valid for a week; a day to spare on either side (assumption)."""

    @pytest.mark.parametrize(
        ("hours", "latest", "earliest"),
        [(24, 2, 6), (48, 3, 6), (72, 4, 6), (96, 5, 6), (120, 6, 6), (121, 7, 7)],
    )
    def test_days_before_the_next_colour(self, hours: float, latest: int, earliest: int) -> None:
        plan = made("tomas")
        found = replace(plan.case, tests=replace(plan.case.tests, hours=hours))
        visit = plan_visit(found, plan.applications, plan.ledger, TODAY)
        assert visit.colour_on - visit.test_until == timedelta(days=latest)
        assert visit.colour_on - visit.test_from == timedelta(days=earliest)

    def test_the_dates_are_told(self) -> None:
        visit = made("tomas").visit
        assert visit.colour_on == date(2026, 12, 30)
        text = said(visit.lines)
        assert "in about 5 weeks, Wed 30 Dec 2026: by then about 1.2 cm" in text
        assert "between Thu 24 Dec 2026 and Sun 27 Dec 2026" in text
        assert "refresh in about 7 weeks" in text

    def test_new_growth_that_was_left_alone_goes_on_growing(self) -> None:
        """Rosa's is at her goal: 3.2 cm and six weeks at about 1 cm a month."""
        visit = made("rosa").visit
        assert said(visit.lines[:1]) == (
            "Look again in about 6 weeks, Wed 6 Jan 2027: the new growth that was left alone is then about 4.6 cm."
        )

    def test_a_finding_may_ask_for_longer_but_not_for_less(self) -> None:
        from consult.plan.case import read_case

        found = judged("tomas")
        assert found.head
        for asked, hours in ((24.0, 48), (96.0, 96)):
            read = read_case(found.answers, found.head, Limits(test_hours=Demand(asked, ("some-rule",))))
            assert read
            assert read.tests.hours == hours


class TestWhatIsToldForAfterwards:
    DIRECT = "washes out"

    def told(self, name: str, **changes: Any) -> str:
        return said(made(name, **changes).aftercare)

    def test_lengths_that_were_coloured_are_looked_at_first_next_time(self) -> None:
        assert "Next time look at the lengths" in self.told("jonas")
        assert "Next time no developer on the lengths" in self.told(
            "ines"
        )  # Coloured twice before, and today.
        assert "Next time look at the lengths" not in self.told("tomas")

    @pytest.mark.parametrize("tone", ["copper", "copper red", "red"])
    def test_red_and_copper_fade_soonest(self, tone: str) -> None:
        changes = {"goal__tone": tone, "product__tone": tone, "hair__lengths_tone": tone}
        assert "fade soonest" in self.told("tomas", **changes)
        assert "fade soonest" not in self.told("tomas")

    def test_a_copper_filler_under_another_tone_is_not_what_fades(self) -> None:
        assert "fade soonest" not in self.told("rosa")

    def test_colour_without_developer_washes_out(self) -> None:
        assert self.DIRECT in self.told("sunniva")
        assert self.DIRECT not in self.told("tomas")

    def test_only_peroxide_is_called_peroxide(self) -> None:
        assert "hydrogen peroxide" in said(made("tomas").cautions)
        assert "hydrogen peroxide" not in said(made("sunniva").cautions)
        assert "eyes" in said(made("sunniva").cautions)


class TestLengthsThatHaveHadEnough:
    """From the third pass on damage becomes clear (repeat-dyeing-2024): then no part of the plan sends the client back
    for another one."""

    @pytest.mark.parametrize(
        ("stretch", "passes", "enough"),
        [
            (Stretch.LENGTHS, 2, False),
            (Stretch.LENGTHS, 3, True),
            (Stretch.ENDS, 4, True),
            (Stretch.NEW_GROWTH, 3, False),
            (Stretch.SCALP, 3, False),
        ],
    )
    def test_what_counts(self, stretch: Stretch, passes: int, enough: bool) -> None:
        assert worn([Account((Zone.NAPE,), 0, 5, stretch, 2, passes, 0.0, 0.0)]) == enough

    @pytest.mark.parametrize("name", sorted(demo_files()))
    def test_every_part_says_the_same(self, name: str) -> None:
        plan = judged(name).plan
        if not isinstance(plan, Made):
            return
        for voice in ("trade", "plain"):
            told = [getattr(row.say, voice) for row in (*plan.aftercare, *plan.visit.lines)]
            enough = any(
                "leave this stretch out" in getattr(row.say, voice) for row in ledger_lines(plan.ledger)
            )
            again = [row for row in told if "will want a refresh" in row or "demi-permanent" in row]
            without = (
                "no developer on",
                "developer off the lengths",
                "without developer, or",
                "no developer, or",
            )
            instead = [row for row in told if any(words in row for words in without)]
            assert not (enough and again)
            if enough:
                assert len(instead) == 2

    def test_red_is_freshened_up_without_developer_then(self) -> None:
        plan = made("ines")
        red = replace(plan.case.product, shade=replace(plan.case.product.shade, tone="red"))
        applications = tuple(replace(a, bowl=replace(a.bowl, product=red)) for a in plan.applications)
        worn_out, sound = (
            said(plan_aftercare(applications, plan.ledger)),
            said(plan_aftercare(applications, ())),
        )
        assert "plan a refresh of the lengths without developer" in worn_out
        assert "demi-permanent" not in worn_out
        assert "plan a demi-permanent refresh" in sound
