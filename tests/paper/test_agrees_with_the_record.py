"""Every amount, minute and section of a plan's record stands on its sheet, read back by a reader of its own."""

import json
import re
from functools import cache
from typing import Any

import pytest

from consult.records.record import dump_json
from tests.demo import judged
from tests.paper.reading import Page, bars, bowls, moments
from tests.paper.sheets import EVERYBODY, sheet


@cache
def plan_of(name: str) -> dict[str, Any]:
    return dict(json.loads(dump_json(judged(name)))["result"]["plan"])


MADE = [name for name in EVERYBODY if plan_of(name)["outcome"] == "made"]
NOT_MADE = [name for name in EVERYBODY if name not in MADE]


def first_touch(plan: dict[str, Any]) -> int:
    return min(touch["start"] for a in plan["applications"] for touch in a["touches"])


def read(name: str) -> str:
    """All that a page says."""
    return " ".join(body.text for body in Page(sheet(name)).root.all("body"))


def _words(step: str) -> str:
    """A step without its minutes: what begins before the end of the first round has none in the record."""
    begun = re.sub(r"^At minute -?\d+: ", "", " ".join(step.split()))
    return re.sub(r"minute -?\d+|, with fresh mix", "", begun)


def test_there_are_sheets_of_every_outcome() -> None:
    assert len(MADE) > 10
    assert {plan_of(name)["outcome"] for name in NOT_MADE} == {"held", "stopped", "incomplete"}


@pytest.mark.parametrize("name", MADE)
def test_every_bowl_is_weighed_as_in_the_record(name: str) -> None:
    plan = plan_of(name)
    zero, found = first_touch(plan), bowls(sheet(name))
    assert len(found) == len(plan["mixes"])
    for (number, parts, together, minute, rest), mix in zip(found, plan["mixes"], strict=True):
        weighed = [part["grams"] for part in mix["colours"] if part["grams"]] + [mix["developer_g"]]
        assert number == mix["bowl"]
        assert parts == ([] if mix["packs"] else [grams for grams in weighed if grams])
        assert together == pytest.approx(sum(weighed))
        assert minute == mix["minute"] - zero
        if mix["rest_packs"]:
            assert rest.startswith(f"{mix['rest_packs']} more pack")
        else:
            assert sum(map(float, re.findall(r"([\d.]+) g\b", rest))) == pytest.approx(mix["rest_g"])


@pytest.mark.parametrize("name", MADE)
def test_every_section_has_its_bar_and_its_minutes(name: str) -> None:
    plan, html = plan_of(name), sheet(name)
    zero = first_touch(plan)
    touches = [touch for a in plan["applications"] for touch in a["touches"]]
    drawn = bars(html)
    assert [off for _, off in drawn] == [touch["off"] - zero for touch in touches]
    done = moments(html)
    for label, touch in zip((label for label, _ in drawn), touches, strict=True):
        numbered = re.fullmatch(r"(\d+) (.+)", label)
        if numbered:
            assert numbered[2] == touch["section"]
            begun = [words for minute, words in done if minute == touch["start"] - zero]
            assert any(words.startswith("begin") and label in words for words in begun)


@pytest.mark.parametrize("name", MADE)
def test_sections_are_numbered_in_the_order_in_which_they_are_painted(name: str) -> None:
    plan = plan_of(name)
    painted = [t["section"] for a in plan["applications"] if a["act"] == "paint" for t in a["touches"]]
    order = list(dict.fromkeys(painted))
    for label, _ in bars(sheet(name)):
        numbered = re.fullmatch(r"(\d+) (.+)", label)
        if numbered:
            assert order[int(numbered[1]) - 1] == numbered[2]
    head = [text.text for svg in Page(sheet(name)).root.all("svg", "head") for text in svg.all("text")]
    numbers = [(said, head[n + 1]) for n, said in enumerate(head) if said.isdigit()]
    assert {(str(n), section) for n, section in enumerate(order, 1)} == set(numbers)


@pytest.mark.parametrize("name", MADE)
def test_looks_and_rinses_stand_at_the_minutes_of_the_record(name: str) -> None:
    plan, found = plan_of(name), moments(sheet(name))
    zero = first_touch(plan)
    checks = [minute - zero for step in plan["steps"] for minute in step.get("checks", ())]
    assert sorted(checks) == sorted(minute for minute, words in found if words.startswith("look"))
    offs = {(touch["off"] - zero) for a in plan["applications"] for touch in a["touches"]}
    taken = [minute for minute, words in found if words.startswith(("RINSE", "blot dry"))]
    assert sorted(offs) == sorted(taken)
    assert all(words.endswith("never later") for _, words in found if words.startswith("RINSE"))


@pytest.mark.parametrize("name", MADE)
def test_no_minute_is_negative_and_each_is_told_on_one_clock(name: str) -> None:
    plan, text = plan_of(name), sheet(name, ".txt")
    zero = first_touch(plan)
    assert zero < 0
    known = {minute - zero for minute in range(zero, max(a["until"] for a in plan["applications"]) + 1)}
    told = [int(minute) for minute in re.findall(r"minute (-?\d+)", re.sub(r"\s+", " ", text))]
    assert told
    assert set(told) <= known
    waits = [(s["from_minute"] - zero, s["to_minute"] - zero) for s in plan["steps"] if "from_minute" in s]
    assert re.findall(r"\[minute (\d+) \(\S+ to (\d+)", re.sub(r"\s+", " ", text)) == [
        (str(first), str(last)) for first, last in waits
    ]


@pytest.mark.parametrize("name", MADE)
def test_every_step_and_everything_bought_stands_there_once(name: str) -> None:
    plan = plan_of(name)
    listed = [step.text for ol in Page(sheet(name)).root.all("ol", "steps") for step in ol.all("li")]
    assert [re.match(r"\d+", step)[0] for step in listed] == [
        str(n) for n in range(1, len(plan["steps"]) + 1)
    ]  # type: ignore[index]
    for said, step in zip(listed, plan["steps"], strict=True):
        without = re.sub(r" \[minute.*\]$", "", said.partition(". ")[2])
        assert _words(without) == _words(step["say"])
    html = read(name)
    for purchase in plan["purchases"]:
        assert html.count(" ".join(purchase["line"]["say"].split())) == 1


@pytest.mark.parametrize("name", NOT_MADE)
@pytest.mark.parametrize("form", [".html", ".txt"])
def test_where_nothing_is_mixed_there_is_no_bowl_and_it_says_what_to_do(name: str, form: str) -> None:
    said = sheet(name, form)
    text = read(name) if form == ".html" else " ".join(said.split())
    assert not re.search(r"\bbowl\b", text, re.I)
    assert "whole pack" not in text
    assert not re.search(r"together [\d.]+ g", text)
    assert "what to do now" in text.lower()
    assert "when to come back" in text.lower()


def test_a_wait_says_its_day_and_hour() -> None:
    for form in (".html", ".txt"):
        assert "From Fri 27 Nov 2026, 10:00 on, not before" in sheet("mirela", form)


@pytest.mark.parametrize("name", MADE)
def test_bowls_mixed_alike_stand_in_one_box_with_a_line_for_each_time(name: str) -> None:
    recipes = {
        (mix["bowl"], mix["packs"], str(mix["colours"]), mix["developer_g"]) for mix in plan_of(name)["mixes"]
    }
    assert len(Page(sheet(name)).root.all("div", "bowl")) == len(recipes)
