"""What is seen beside a question says what its question means."""

import pytest

from consult.answers.access import get
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of
from consult.interview.rows import Row, rows_of
from consult.trade import DEPTH_NAMES, TONES, Voice
from consult.widgets.pictures import SHORT_LADDER, natural_colours, patches_of, picture_of, tone_colours
from tests.baseline import baseline


def row(path: str) -> Row:
    return rows_of(baseline(), [AnswerPath.parse(path)], Voice.HOME)[0]


def lines(path: str, width: int = 80, *, colours: bool = True) -> list[str]:
    return [line.plain for line in picture_of(row(path), width, colours=colours)]


@pytest.mark.parametrize("share", [10, 25, 50, 75])
def test_a_field_has_so_many_white_dots_in_a_hundred(share: int) -> None:
    """Counted on the screen: of a field's dots so many are white."""
    heading, *rows = lines("hair.white_front")
    at = heading.index(f"{share} %")
    dots = "".join(line[at : at + 10] for line in rows[:4])
    assert len(dots.strip()) == 40
    assert dots.count("o") == round(40 * share / 100)


@pytest.mark.parametrize("zone", ["front", "temples", "crown", "nape"])
def test_the_zone_in_hand_stands_out_on_the_head_and_the_others_do_not(zone: str) -> None:
    found = picture_of(row(f"hair.white_{zone}"), 80, colours=True)
    marked = {
        line.plain[span.start : span.end]
        for line in found
        for span in line.spans
        if "reverse" in str(span.style)
    }
    assert marked == {"front hairline" if zone == "front" else zone}


def test_a_narrow_window_shows_the_fields_alone() -> None:
    assert max(map(len, lines("hair.white_front", 58))) <= 52
    assert "crown" in " ".join(lines("hair.white_front", 80))


def test_the_ladder_has_every_depth_with_both_names_the_lightest_on_top() -> None:
    _, *rungs = lines("hair.natural_depth")
    assert [rung.split()[0] for rung in rungs] == [str(depth) for depth in range(10, 0, -1)]
    for rung, (college, pack) in zip(rungs, reversed(DEPTH_NAMES.values()), strict=True):
        assert college in rung
        assert rung.endswith(pack)
    assert lines("hair.natural_depth", colours=False) == lines("hair.natural_depth")


def test_the_rung_of_the_answer_stands_out() -> None:
    depth = get(baseline(), "hair.natural_depth")
    (marked,) = (
        line.plain
        for line in picture_of(row("hair.natural_depth"), 80, colours=True)
        if any("reverse" in str(span.style) for span in line.spans)
    )
    assert marked.split()[0] == f"{depth:g}"


def test_the_short_ladder_has_every_depth_once_and_fits_where_it_is_drawn() -> None:
    found = picture_of(row("hair.natural_depth"), SHORT_LADDER, colours=True, short=True)
    drawn = [line.plain for line in found]
    assert len(drawn) == 5
    assert max(map(len, drawn)) <= SHORT_LADDER
    told = " ".join(drawn)
    for depth, names in DEPTH_NAMES.items():
        assert told.count(f" {depth} (") == 1
        assert all(name in told for name in names)
    assert not picture_of(row("hair.natural_depth"), SHORT_LADDER - 1, colours=True, short=True)
    assert not picture_of(row("hair.length_cm"), 200, colours=True, short=True), "it cannot do with fewer"


def test_the_ladder_grows_lighter_rung_by_rung() -> None:
    green = [int(colour[3:5], 16) for colour in natural_colours().values()]
    assert green == sorted(green)


def test_the_figure_names_the_lengths_of_the_questions_own_hint() -> None:
    told = question_of("hair.length_cm").how_to_tell
    for words in ("chin", "shoulder", "shoulder blade", "waist"):
        (line,) = (line for line in lines("hair.length_cm") if f" {words}, about" in line)
        length = line.split()[-2]
        assert f"{words} about {length}" in told.lower()


def test_tones_stand_beside_their_colours_at_the_depth_that_was_said() -> None:
    assert patches_of(row("goal.tone")) == tone_colours(5.0)
    assert set(tone_colours(5.0)) == set(TONES)
    assert patches_of(row("goal.white")) == {}
