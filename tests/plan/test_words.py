"""What is said, as a colourist or somebody at home hears it (common practice, unless a source is named)."""

import re
from datetime import timedelta
from typing import Any, ClassVar

import pytest

from consult.consultation import Consultation
from consult.gates.verdict import Verdict
from consult.report import headline, plan_headline, report
from consult.trade import Voice
from tests.demo import judged
from tests.plan.plans import held, made, said

ALL_WHITE = {
    "hair__natural_depth": "all white",
    "hair__lengths_depth": 10,
    "hair__ends_depth": 10,
    **{f"hair__white_{zone}": 100 for zone in ("front", "temples", "crown", "nape")},
}


def read(found: Consultation, voice: Voice, title: str = "") -> str:
    """Everything that is read, or one block of it."""
    blocks = [block for block in report(found, voice) if not title or block.title == title]
    return "\n".join(f"{row.say} {row.because}" for block in blocks for row in block.rows)


class TestBesideAStop:
    @pytest.mark.parametrize("voice", list(Voice))
    def test_nothing_milder_is_told(self, voice: Voice) -> None:
        """Whoever reads "put the test on now" beside a stop may put it on."""
        found = judged("lotte", allergy_test__done="no", scalp__signs=["redness"])
        assert found.verdict is Verdict.STOP
        assert {"test-not-done", "scalp-irritated"} <= {f.rule for f in found.findings}
        why = read(found, voice, "Why")
        assert "put the test on" not in why
        assert "in a week" not in why
        assert ("Fired as well, and of no account beside a stop" in why) is (voice is Voice.TRAINER)

    def test_no_plan_is_prepared(self) -> None:
        text = read(judged("lotte"), Voice.STYLIST)
        assert "Buy " not in text
        assert "Next wash" not in text


class TestAtHome:
    TRADE: ClassVar[tuple[str, ...]] = (
        "end of application",
        "line of demarcation",
        "lines of demarcation",
        "emulsify",
        "section the dry",
        "oxidative pass",
        "pre-pigment,",
    )

    @pytest.mark.parametrize("name", ["ines", "rosa", "odile", "jonas", "aurel", "sunniva", "lioba"])
    def test_no_sentence_needs_a_word_of_the_trade(self, name: str) -> None:
        said = " ".join(row.say.lower() for block in report(judged(name), Voice.HOME) for row in block.rows)
        assert [word for word in self.TRADE if word in said] == []
        assert "demi-permanent" not in re.sub(r"demi-permanent colour, one that fades", "", said)

    def test_the_first_centimetres_are_told_apart_from_a_distance_to_the_scalp(self) -> None:
        """Of what is put on beginning at the scalp nobody may read that it keeps away from it."""
        steps = read(judged("odile"), Voice.HOME, "Step by step")
        assert "the first 1.5 cm at the scalp" in steps
        assert "starting 1.5 cm away from the scalp" in steps


class TestAHold:
    @pytest.mark.parametrize("name", ["elif", "kofi", "beata", "yara", "samira"])
    def test_that_no_waiting_cures_tells_nothing_to_buy_or_to_do_afterwards(self, name: str) -> None:
        found = judged(name)
        text = read(found, Voice.STYLIST)
        assert not re.search(r"\bBuy \d", text)
        assert "Next wash" not in text
        assert "Afterwards" not in plan_headline(found)

    def test_by_the_product_alone_is_never_called_clear(self) -> None:
        assert headline(judged("beata")) == "No safety finding; not this product for this goal"
        assert headline(judged("brigid")) != "Clear"

    def test_longer_than_a_tests_life_says_that_the_test_will_have_expired(self) -> None:
        """A test counts for seven days (assumption): three weeks of waiting outlast it."""
        assert "will have expired" in read(judged("carmen"), Voice.HOME, "Why")
        assert "will have expired" not in read(judged("dagny"), Voice.HOME, "Why")

    def test_to_the_very_end_of_a_tests_life_it_does_not(self) -> None:
        carmen = judged("carmen", health__pregnancy_week=11)
        assert carmen.until
        applied = carmen.until - timedelta(days=7)
        times = {
            "allergy_test__applied_at": applied,
            "allergy_test__first_read_at": applied + timedelta(minutes=30),
            "allergy_test__second_read_at": carmen.now,
        }
        exactly = judged("carmen", health__pregnancy_week=11, **times)
        assert exactly.until == carmen.until
        assert "will have expired" not in read(exactly, Voice.HOME, "Why")


class TestEmergencies:
    def test_anaphylaxis_as_the_charity_has_it(self) -> None:
        """Source: anaphylaxis-uk: number, pen at once if prescribed, flat with raised legs, propped up only when
        breathing is hard, a second dose after 5 minutes, not standing up even if better."""
        told = next(line.say.plain for line in made("tomas").cautions if "emergency number" in line.say.plain)
        for words in (
            "adrenaline pen at once",
            "raised legs",
            "when breathing is hard",
            "not stand up",
            "5 minutes",
        ):
            assert words in told

    def test_they_stand_before_the_first_step(self) -> None:
        titles = [block.title for block in report(judged("tomas"), Voice.HOME)]
        assert titles.index("Cautions") < titles.index("Mix") < titles.index("Step by step")
        assert "Stinging" in made("tomas").steps[0].say.trade


class TestDoubt:
    def test_it_is_told_as_what_cannot_be_ruled_out(self) -> None:
        text = read(judged("tomas", health__allergies="not sure"), Voice.HOME, "Why")
        assert "Cannot be ruled out (answered not sure)" in text


class TestWhite:
    def test_how_much_and_where(self) -> None:
        assert "up to 60 % white at the front hairline" in read(
            judged("ines"), Voice.STYLIST, "The strand, root to tip"
        )
        assert "100 % white" in read(judged("agnes", **ALL_WHITE), Voice.STYLIST, "The strand, root to tip")

    def test_an_all_white_head_has_no_natural_depth_and_is_no_step_darker(self) -> None:
        """Nothing is left to read it from; white is not lightened hair and not five levels lighter than the goal."""
        plan = made("agnes", **ALL_WHITE, client__applied_by="myself at home", client__helper="yes")
        assert plan.case.head.all_white
        assert judged("agnes", **ALL_WHITE).verdict is Verdict.CLEAR

    def test_a_kits_chart_does_not_hold_for_white_hair(self) -> None:
        assert made("ines", **ALL_WHITE | {"hair__lengths_depth": 5, "hair__ends_depth": 5})

    def test_some_that_is_not_white_has_to_be_read(self) -> None:
        from consult.answers.conflicts import conflicts
        from tests.baseline import NOW, baseline

        (told,) = conflicts(baseline({"hair.natural_depth": "all white"}), NOW)
        assert told.path == "hair.natural_depth"


class TestWhatAKitDoesNotPrint:
    UNPRINTED: ClassVar[dict[str, Any]] = {
        "product__developer_percent": "not sure",
        "product__chart_from": "not sure",
        "product__chart_to": "not sure",
    }

    def test_it_is_told_as_unknown_and_nothing_is_held_up(self) -> None:
        plan = made("tomas", **self.UNPRINTED)
        assert "does not print how strong" in plan.mixes[0].line.because.trade
        assert "peroxide on the head is not known" in plan.mixes[0].line.because.trade
        assert judged("tomas", **self.UNPRINTED).verdict is Verdict.CAUTION

    def test_where_a_limit_counts_it_may_be_as_strong_as_the_law_allows(self) -> None:
        service = {
            "kind": "relaxer, thio",
            "on": judged("tomas").now.date().replace(year=2025),
            "stretch": "all over",
        }
        relaxed = {
            "client__applied_by": "a licensed colourist",
            "history__services": [service],
            "strand_test__done": "yes",
            "strand_test__hair": "sound",
            "strand_test__colour": "as wanted",
        }
        assert "limit-developer" in {f.rule for f in held("agnes", **relaxed).findings}
        kit = held("wilma", **relaxed, **self.UNPRINTED)
        assert "limit-developer" in {f.rule for f in kit.findings}


class TestPlainWords:
    @pytest.mark.parametrize("name", ["ines", "tomas", "thea", "lioba", "ottil"])
    def test_no_trade_measures_at_home(self, name: str) -> None:
        text = "\n".join(row.say for block in report(judged(name), Voice.HOME) for row in block.rows)
        for word in ("peroxide-minutes", "oxidative pass", "line of demarcation", "new growth first,"):
            assert word not in text.lower(), word

    def test_barrier_cream_on_skin_and_colour_back_on_the_strand(self) -> None:
        text = said(made("tomas").steps)
        assert "barrier cream on the skin along the hairline, not on the hair" in text
        assert "put colour back on it" in text

    def test_long_new_growth_may_show_a_warm_band(self) -> None:
        long = {"hair__new_growth_cm": 2.6, "history__known_months": 60}
        assert "warm band may show" in said(made("tomas", **long).sections)
        assert "warm band" not in said(made("tomas", **long | {"hair__new_growth_cm": 2.5}).sections)

    def test_next_wash(self) -> None:
        assert "Next wash after 48 to 72 hours" in said(made("tomas").aftercare)


class TestADemandedStep:
    def test_its_reason_is_what_the_finding_says(self) -> None:
        step = next(s for s in made("tomas", health__asthma="yes").steps if s.rules == ("asthma",))
        assert "Asthma of client or colourist" in step.because.trade
        assert "With asthma" in step.because.plain

    def test_the_shortest_time_on_white_hair_says_that_cover_may_suffer(self) -> None:
        changes: dict[str, Any] = {
            "health__pregnancy": "pregnant", "health__pregnancy_week": 20, "strand_test__done": "yes",
            "strand_test__hair": "sound", "strand_test__colour": "as wanted",
        }  # fmt: skip
        wait = next(step for step in made("agnes", **changes).steps if step.clock)
        assert "may not be covered fully" in wait.because.trade
