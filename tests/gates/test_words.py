"""Findings in words, and facts that only salon rules use."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from consult.answers.base import NOT_SURE
from consult.answers.history import Service
from consult.dates import when
from consult.gates.facts import FACTS
from consult.gates.judge import Finding, judge, without_repeats
from consult.gates.verdict import Verdict
from consult.gates.words import reason_words, told_findings
from consult.trade import Voice
from tests.baseline import NOW, baseline


def test_a_doubt_is_named_as_the_doubt_it_is() -> None:
    for answer, doubted in (("yes", False), (NOT_SURE, True)):
        (finding,) = judge(baseline({"health.asthma": answer}), NOW).findings
        assert reason_words(finding, Voice.HOME).startswith("Cannot be ruled out") is doubted
        assert finding.plain in reason_words(finding, Voice.HOME)
        assert finding.trade in reason_words(finding, Voice.STYLIST)


def finding(verdict: Verdict, evidence: tuple[str, ...], *, in_doubt: bool) -> Finding:
    return Finding("rule", verdict, "", "", "", (), evidence, in_doubt)


@pytest.mark.parametrize("voice", Voice)
def test_beside_a_stop_nothing_milder_is_told(voice: Voice) -> None:
    """Whoever reads "wait" beside a stop may wait, and colour then."""
    stop, wait = (finding(verdict, (), in_doubt=False) for verdict in (Verdict.STOP, Verdict.WAIT))
    assert told_findings((stop, stop, wait), voice)[0] is stop
    assert wait not in told_findings((stop, stop, wait), voice)
    assert told_findings((wait,), voice) == (wait,)
    assert told_findings((), voice) == ()


@pytest.mark.parametrize(
    ("ended", "months"),
    [(date(2026, 10, 25), 1), (date(2026, 10, 26), 0), (date(2025, 11, 25), 12), (date(2025, 11, 26), 11)],
)
def test_months_are_those_of_the_calendar_over_the_turn_of_the_year(ended: date, months: int) -> None:
    assert FACTS["months_since_chemotherapy"].compute(NOW, ended) == months


@pytest.mark.parametrize(
    ("first", "second", "repeats"),
    [
        (finding(Verdict.WAIT, ("a",), in_doubt=True), finding(Verdict.CAUTION, ("a",), in_doubt=True), True),
        (
            finding(Verdict.WAIT, ("a", "b"), in_doubt=True),
            finding(Verdict.CAUTION, ("a",), in_doubt=True),
            True,
        ),
        (
            finding(Verdict.WAIT, ("a",), in_doubt=False),
            finding(Verdict.CAUTION, ("a",), in_doubt=True),
            True,
        ),
        # A caution that is certain does not make a doubt go away, and what is certain repeats nothing.
        (
            finding(Verdict.CAUTION, ("a",), in_doubt=False),
            finding(Verdict.CAUTION, ("a",), in_doubt=True),
            False,
        ),
        (
            finding(Verdict.WAIT, ("a",), in_doubt=True),
            finding(Verdict.CAUTION, ("a",), in_doubt=False),
            False,
        ),
        (
            finding(Verdict.WAIT, ("a",), in_doubt=True),
            finding(Verdict.CAUTION, ("a", "b"), in_doubt=True),
            False,
        ),
    ],
)
def test_one_doubtful_answer_is_told_once(first: Finding, second: Finding, repeats: bool) -> None:
    assert (without_repeats([first, second]) == (first,)) is repeats


def test_a_moment_is_told_in_figures_and_no_moment_is_nothing() -> None:
    assert when(datetime(2026, 5, 3, 9, 5, tzinfo=UTC)) == "Sun 3 May 2026, 09:05"
    assert when(None) == ""


@pytest.mark.parametrize(
    ("services", "passes"),
    [
        ([], 0),
        ([("permanent colour", "new growth")], 0),
        ([("permanent colour", "all over"), ("lightener all over", "lengths"), ("perm", "all over")], 2),
    ],
)
def test_oxidative_services_over_the_lengths_are_counted(
    services: list[tuple[str, str]], passes: int
) -> None:
    """Oxidative: mixed with peroxide, so colour and lightener but not a perm (trade fact)."""
    assert _passes([Service(kind=kind, stretch=stretch) for kind, stretch in services]) == passes


@pytest.mark.parametrize(
    ("every_weeks", "first_on", "passes"),
    [
        (6, NOW.date() - timedelta(weeks=30), 6),
        (6, NOW.date() - timedelta(weeks=29), 5),
        (6, NOW.date(), 1),
        (NOT_SURE, NOW.date() - timedelta(weeks=30), 8),
        (52, NOT_SURE, 11),
    ],
)
def test_a_habit_counts_as_often_as_it_was_done_and_in_doubt_more_often(
    every_weeks: Any, first_on: Any, passes: int
) -> None:
    """30 weeks back in steps of 6 is 6 times with the last one; where nobody knows, every 4 weeks for 10 years."""
    habit = Service(
        kind="permanent colour",
        stretch="all over",
        on=NOW.date(),
        regular="yes",
        every_weeks=every_weeks,
        first_on=first_on,
    )
    assert _passes([habit]) == passes


def _passes(services: list[Service]) -> int:
    kinds, stretches = tuple(s.kind for s in services), tuple(s.stretch for s in services)
    return FACTS["oxidative_passes"].compute(NOW, kinds, stretches, tuple(services))
