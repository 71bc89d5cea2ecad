"""What is said of the hair today in one part of a report is said in the others: read off the printed text."""

import re
from itertools import pairwise

import pytest

from consult.records.demos import demo_files
from consult.report.text import write_report
from consult.trade import Voice
from tests.demo import judged

_STRETCH = r"([\d.]+) to ([\d.]+) cm"
_TODAY = re.compile(_STRETCH + r", [^:]+: today depth ([\d.]+) ([a-z ]+?);")
_FURTHEST = re.compile(
    r"The band furthest from the goal \(([a-z ]+)\) comes out about depth ([\d.]+ [a-z ]+): ([a-z ,]+)\."
)
_BECOMES = re.compile(
    _STRETCH
    + r", ([a-z ]+)[^:]*: today [^:]*(?:; after [^:]*)*depth ([\d.]+ [a-z ]+): ([a-z ,]+), (?:about|up to)"
)
_STRAND = re.compile(_STRETCH + r" \([^)]*\): depth ([\d.]+) \([^)]*\) ([a-z ]+?), coloured \(as seen\)")


def printed(name: str) -> str:
    lines: list[str] = []
    write_report(judged(name), Voice.STYLIST, 120, lines.append)
    return " ".join(" ".join(lines).split())


@pytest.mark.parametrize("name", sorted(demo_files()))
def test_what_the_eye_has_read_is_told_alike_by_the_forecast_and_by_the_strand(name: str) -> None:
    text = printed(name)
    strand = [(float(a), float(b), float(depth), tone) for a, b, depth, tone in _STRAND.findall(text)]
    for begins, ends, depth, tone in _TODAY.findall(text):
        middle = (float(begins) + float(ends)) / 2
        seen = [(d, t) for a, b, d, t in strand if a <= middle < b]
        if seen:
            assert seen == [(float(depth), tone)]


@pytest.mark.parametrize("name", sorted(demo_files()))
def test_the_band_furthest_from_the_goal_is_told_as_in_its_own_line(name: str) -> None:
    """Zones that come out within half a level of each other are told in one line; one of them may be the furthest."""
    text = printed(name)
    lines = [(part, *colour.split(" ", 1), near) for _, _, part, colour, near in _BECOMES.findall(text)]
    for part, colour, near in _FURTHEST.findall(text):
        depth, tone = colour.split(" ", 1)
        assert any(
            (one, same) == (part, tone) and abs(float(d) - float(depth)) <= 0.5 and near.startswith(told)
            for one, d, same, told in lines
        )


def test_the_reader_finds_both_parts() -> None:
    two = "two shades side by side, white and other hair"
    assert [near for _, _, near in _FURTHEST.findall(printed("sunniva"))] == [two]
    assert len(_BECOMES.findall(printed("ines"))) == 3
    text = printed("rosa")
    assert len(_TODAY.findall(text)) == 2
    places = [(float(a), float(b)) for a, b, _, _ in _STRAND.findall(text)]
    assert all(one[1] == other[0] for one, other in pairwise(places))
    assert len(places) == 2
