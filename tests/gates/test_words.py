"""Findings in words, and facts that only salon rules use."""

from datetime import UTC, datetime

import pytest

from consult.answers.base import NOT_SURE
from consult.gates.facts import FACTS
from consult.gates.judge import Finding, judge, without_repeats
from consult.gates.verdict import Verdict
from consult.gates.words import reason_words, when
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
    assert when(datetime(2026, 5, 3, 9, 5, tzinfo=UTC)) == "2026-05-03 09:05"
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
    kinds, stretches = (tuple(part) for part in zip(*services, strict=True)) if services else ((), ())
    assert FACTS["oxidative_passes"].compute(NOW, kinds, stretches) == passes
