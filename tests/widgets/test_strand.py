"""The strand in cells says in words what it says in colour, in the order and at the places of the forecast."""

import re
from itertools import pairwise

import pytest
from rich.color import ColorTriplet

from consult.report.strand_picture import StrandPicture, strand_pictures
from consult.widgets.strand import strand_lines
from tests.demo import judged
from tests.screens.test_looks import contrast


def strands(name: str) -> tuple[StrandPicture, ...]:
    forecast = judged(name).forecast
    assert forecast
    return strand_pictures(forecast)


MADE = ("ines", "brigid", "jonas", "rosa", "thea", "odile")


@pytest.mark.parametrize("width", [56, 78, 118])
@pytest.mark.parametrize("name", MADE)
def test_every_row_is_as_wide_as_the_window_and_no_wider(name: str, width: int) -> None:
    for strand in strands(name):
        for colours in (True, False):
            _, *rows = strand_lines(strand, width, colours=colours)
            assert {len(row.plain) for row in rows} == {width}


@pytest.mark.parametrize("name", MADE)
def test_each_stripe_has_its_words_and_its_end(name: str) -> None:
    for strand in strands(name):
        scale, today, _, goal = (line.plain for line in strand_lines(strand, 118, colours=True))
        assert scale.split("scalp")[1].split() == [
            part for stripe in strand.stripes for part in (f"{stripe.end_cm:g}", "cm")
        ]
        for stripe in strand.stripes:
            assert stripe.before.words.removeprefix("depth ")[:12] in today
        assert strand.stripes[0].goal.words.removeprefix("depth ") in goal


@pytest.mark.parametrize("name", MADE)
def test_the_colours_stand_edge_to_edge_in_the_order_of_the_strand(name: str) -> None:
    for strand in strands(name):
        today = strand_lines(strand, 118, colours=True)[1]
        grounds = [re.search(r"on (#\w{6})", str(span.style)) for span in today.spans]
        assert [found[1] for found in grounds if found] == [stripe.before.colour for stripe in strand.stripes]
        edges = [(span.start, span.end) for span, found in zip(today.spans, grounds, strict=True) if found]
        assert edges[0][0] == 0
        assert all(one[1] == other[0] for one, other in pairwise(edges))


@pytest.mark.parametrize("name", MADE)
def test_words_on_a_colour_can_be_read(name: str) -> None:
    """At least 4.5 : 1 (WCAG 2.2, criterion 1.4.3): one of black and white always has it."""
    for strand in strands(name):
        for line in strand_lines(strand, 118, colours=True)[1:]:
            for span in line.spans:
                if found := re.search(r"(#\w{6}) on (#\w{6})", str(span.style)):
                    ink, ground = (ColorTriplet(*bytes.fromhex(part[1:])) for part in found.groups())
                    assert contrast(ink, ground) >= 4.5


def test_without_colours_no_colour_is_named() -> None:
    (strand, *_) = strands("ines")
    assert not any(
        "#" in str(span.style) for line in strand_lines(strand, 80, colours=False) for span in line.spans
    )


@pytest.mark.parametrize("width", [42, 62, 104])
@pytest.mark.parametrize("name", [*MADE, "agnes", "wilma", "noor"])
def test_no_word_on_a_stripe_and_no_end_is_cut(name: str, width: int) -> None:
    """42 columns are those of the narrowest window that is supported."""
    for strand in strands(name):
        scale, *rows = (line.plain for line in strand_lines(strand, width, colours=True))
        assert scale.split("scalp")[1].split()[::2] == [f"{stripe.end_cm:g}" for stripe in strand.stripes]
        for stripe in strand.stripes:
            for row, patch in zip(rows, (stripe.before, stripe.after), strict=False):
                said = patch.words.removeprefix("depth ").removeprefix("natural ") if patch else "as today"
                assert said in row


def test_what_is_natural_on_one_stripe_is_natural_on_the_next() -> None:
    """Almost white all over: a row tells all of its stripes in full, or none."""
    for strand in strands("agnes"):
        for width in (62, 104):
            today = strand_lines(strand, width, colours=True)[1].plain
            assert today.count("natural") in (0, sum("natural" in s.before.words for s in strand.stripes))
