"""The pictures of a sheet as data, against the record and the clock worked by hand."""

import json
import re
from datetime import time
from itertools import pairwise
from pathlib import Path

import pytest

from consult.colour.difference import ciede2000
from consult.consultation import consult
from consult.plan.counting import from_first_touch
from consult.plan.types import Made
from consult.records.demos import demo_files
from consult.records.record import dump_json
from consult.report.head_picture import EAR_TO_EAR, HeadPicture, View, head_picture
from consult.report.strand_picture import strand_pictures
from consult.report.time_picture import Bar, Phase, clock_words, time_picture
from consult.salon import config_from_data
from consult.trade import Zone
from tests.demo import judged, load
from tests.plan.plans import made

README = Path(__file__).parents[2] / "demo_clients" / "README.md"
FORESEEN = [name for name in demo_files() if judged(name).forecast]
MADE = [name for name in demo_files() if isinstance(judged(name).plan, Made)]


def head(name: str, **changes: object) -> HeadPicture:
    return head_picture(made(name, **changes))


# --- the strand -----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", FORESEEN)
def test_the_strand_goes_from_scalp_to_tip_without_a_gap_in_every_zone(name: str) -> None:
    found = judged(name)
    assert found.forecast
    strands = strand_pictures(found.forecast)
    assert sorted(zone.value for strand in strands for zone in strand.zones) == sorted(z.value for z in Zone)
    for strand in strands:
        assert strand.stripes[0].start_cm == 0
        assert strand.length_cm == found.answers.hair.length_cm
        assert all(near.end_cm == far.start_cm for near, far in pairwise(strand.stripes))


@pytest.mark.parametrize("name", FORESEEN)
def test_colours_and_lines_are_those_of_the_record(name: str) -> None:
    """Every stripe has the colours of a band that it covers, and a line stands exactly where the record's colours
    lie as far apart as the eye sees across an edge: 4 in CIEDE2000 by the model's own constant."""
    from consult.colour.prediction import VISIBLE_LINE

    found = judged(name)
    assert found.forecast
    bands = json.loads(dump_json(found))["result"]["forecast"]["bands"]
    for strand in strand_pictures(found.forecast):
        mine = [band for band in bands if band["zones"][0] in {zone.value for zone in strand.zones}]
        mine = [band for band in mine if band["zones"] == mine[0]["zones"]]
        for stripe in strand.stripes:
            inside = [b for b in mine if stripe.start_cm <= b["start_cm"] < stripe.end_cm]
            assert stripe.before.colour in {b["stages"][0]["seen"]["hex"] for b in inside}
            last = {b["stages"][-1]["seen"]["hex"] for b in inside if len(b["stages"]) > 1}
            assert ({stripe.after.colour} <= last) if stripe.after else not last
        for near, far in pairwise(mine):
            line = next((line for line in strand.lines if line.cm == far["start_cm"]), None)
            for stage, shown in ((0, line and line.before), (-1, line and line.after)):
                labs = [band["stages"][stage]["seen"]["lab"] for band in (near, far)]
                apart = float(ciede2000(*labs))
                if abs(apart - VISIBLE_LINE) > 0.1:
                    assert bool(shown) == (apart >= VISIBLE_LINE)


def test_zones_that_look_alike_share_a_strand_and_others_have_their_own() -> None:
    ines, aurel = judged("ines").forecast, judged("aurel").forecast
    assert ines
    assert aurel
    assert [strand.where for strand in strand_pictures(aurel)] == ["whole head"]
    assert [strand.where for strand in strand_pictures(ines)] == ["front hairline, temples", "crown", "nape"]


def test_a_line_says_when_it_shows() -> None:
    ines, elif_ = judged("ines").forecast, judged("elif").forecast
    assert ines
    assert elif_
    assert {line.words for s in strand_pictures(ines) for line in s.lines} == {"shows today, gone afterwards"}
    assert {line.words for s in strand_pictures(elif_) for line in s.lines} == {"shows today and afterwards"}


# --- the head -------------------------------------------------------------------------------------


def in_sections(name: str, sections: int) -> HeadPicture:
    loaded = load(name)
    assert loaded.consulted_at
    salon = config_from_data({"settings": {"sections": sections}}, "a test")
    plan = consult(loaded.answers, loaded.consulted_at, salon).plan
    assert isinstance(plan, Made)
    return head_picture(plan)


@pytest.mark.parametrize("sections", [4, 5])
@pytest.mark.parametrize("name", MADE)
@pytest.mark.parametrize("view", list(View))
def test_every_place_on_the_head_lies_in_exactly_one_section(name: str, view: View, sections: int) -> None:
    drawn = in_sections(name, sections)
    assert len(drawn.order) == sections
    fields = [field for field in drawn.fields if field.view is view]
    for n in range(20):
        for m in range(20):
            x, y = (n + 0.51) / 20, (m + 0.51) / 20
            inside = [
                field
                for field in fields
                if min(c[0] for c in field.corners) <= x <= max(c[0] for c in field.corners)
                and min(c[1] for c in field.corners) <= y <= max(c[1] for c in field.corners)
            ]
            assert len(inside) == 1
            assert ("left" in inside[0].section) <= (x < 0.5)
            assert ("right" in inside[0].section) <= (x > 0.5)
            if view is View.ABOVE:
                assert ("front" in inside[0].section) == (y < EAR_TO_EAR)


def test_it_begins_where_it_is_whitest_or_at_the_back_when_it_lightens() -> None:
    assert {start.words for start in head("ines").starts} == {"begin here: front hairline"}
    assert {start.words for start in head("jonas").starts} == {"begin here: the back"}
    at_the_nape = head("ines", hair__white_nape=90)
    assert {start.view for start in at_the_nape.starts} == {View.BEHIND}
    assert at_the_nape.order[0].startswith("back")


# --- the clock ------------------------------------------------------------------------------------


def test_bars_hold_the_contact_that_was_worked_by_hand() -> None:
    """The table of minutes and contacts in the demo clients' README, minute for minute."""
    rows = re.findall(r"^\| (-?\d+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \|", README.read_text("utf-8"), re.M)
    assert len(rows) >= 12
    plan = from_first_touch(made("ines"))
    bars = time_picture(plan, head_picture(plan).order).bars[:4]
    zero = int(rows[0][0])
    for minute, *contacts in rows:
        at = int(minute) - zero
        assert [max(0, min(at, bar.off) - bar.start) for bar in bars] == [
            int(contact) for contact in contacts
        ]


@pytest.mark.parametrize("name", MADE)
def test_the_clock_of_the_first_touch_only_moves_the_plans_own(name: str) -> None:
    plan = made(name)
    moved = from_first_touch(plan)
    by = min(touch.start for a in plan.applications for touch in a.touches)
    assert min(touch.start for a in moved.applications for touch in a.touches) == 0
    for before, after in zip(plan.applications, moved.applications, strict=True):
        assert after.until == before.until - by
        assert (after.bowl, after.target, after.minutes) == (before.bowl, before.target, before.minutes)
    assert [step.clock and step.clock[0] + by for step in moved.steps] == [
        step.clock and step.clock[0] for step in plan.steps
    ]
    for before, after in zip(plan.steps, moved.steps, strict=True):
        was, said = (re.findall(r"minute (-?\d+)", step.say.trade) for step in (before, after))
        # What begins before the end of the first round is told its minute on this clock only.
        assert [int(minute) + by for minute in said[len(said) - len(was) :]] == [
            int(minute) for minute in was
        ]


def test_a_bar_is_put_on_then_on_then_counted_and_nothing_outside() -> None:
    bar = Bar(1, "front left", "new growth", 4, 10, 15, 40)
    phases = [bar.phase(minute) for minute in (3, 4, 9, 10, 14, 15, 39, 40)]
    assert phases == [
        *(Phase.NOTHING, Phase.PUT_ON, Phase.PUT_ON, Phase.ON),
        *(Phase.ON, Phase.COUNTED, Phase.COUNTED, Phase.NOTHING),
    ]


def test_clock_words_go_past_midnight_and_leave_room_where_nothing_is_set() -> None:
    assert clock_words(time(14, 30), 64) == "15:34"
    assert clock_words(time(23, 50), 64) == "00:54"
    assert clock_words(None, 64) == "__:__"
