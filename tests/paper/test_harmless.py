"""What somebody types stays text, and a page needs nothing but itself."""

import re
import tomllib
from datetime import time
from xml.etree import ElementTree

import pytest

from consult.paper import FORMS
from consult.records.codec import read_text
from consult.report.copies import Copy
from consult.trade import Voice
from tests.demo import NOW, judged
from tests.paper.reading import Page
from tests.paper.sheets import EVERYBODY, sheet

HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "</title></style><svg onload=1>",
    "&lt;b&gt; &amp; 'q'",
    "[bold]x[/] {0} %s",
)


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("who", ["ines", "odile", "mirela"])
def test_markup_in_what_was_typed_is_text(name: str, who: str) -> None:
    html = sheet(who, client__name=name, product__name=name, product__shade=name)
    page = Page(html).root
    assert not page.all("script")
    assert not page.all("img")
    assert [title.text for title in page.all("h1")] == [f"Working sheet: {name}"]
    plain = sheet(who, start=None)
    assert len(re.findall("<svg", html)) == len(re.findall("<svg", plain))
    assert name in sheet(who, ".txt", client__name=name)


@pytest.mark.parametrize("form", list(FORMS))
def test_escape_codes_never_reach_the_sheet(form: str) -> None:
    typed = r'name = "\u001b[31mRed\u001b]0;x\u0007\u202eleft"'
    assert "\x1b" in tomllib.loads(typed)["name"]
    answers = read_text(f"[client]\n{typed}\n", "x", NOW).answers
    said = sheet("ines", form, client__name=answers.client.name)
    assert "Red" in said
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e]", said)


@pytest.mark.parametrize("name", EVERYBODY)
def test_the_page_is_whole_and_needs_nothing_from_outside(name: str) -> None:
    html = sheet(name, start=time(23, 50))
    Page(html)
    assert not re.search(r"<script|https?:|//|src=|href=|@import|url\((?!#)", html)
    for svg in re.findall(r"<svg.*?</svg>", html, re.S):
        ElementTree.fromstring(svg)
    for place in re.findall(r"url\(#([\w-]+)\)", html):
        assert html.count(f'id="{place}"') == 1


@pytest.mark.parametrize("voice", list(Voice))
@pytest.mark.parametrize("name", EVERYBODY)
def test_a_line_of_text_has_80_columns_at_most(name: str, voice: Voice) -> None:
    assert max(map(len, sheet(name, ".txt", voice=voice, start=time(9, 5)).splitlines())) <= 80


def test_letters_two_columns_wide_are_counted_as_two() -> None:
    import unicodedata

    said = sheet("ines", ".txt", client__name="染" * 100, product__name="髪" * 60)
    assert said.count("染") == 100

    def wide(line: str) -> int:
        return sum(2 if unicodedata.east_asian_width(letter) in "WF" else 1 for letter in line)

    assert max(map(wide, said.splitlines())) <= 80


def test_nothing_rests_on_colour_alone() -> None:
    """Every colour of the strand has the forecast's own words on it, and the two shades of the time line a legend."""
    for name in EVERYBODY:
        found = judged(name)
        if found.forecast is None:
            continue
        for svg in re.findall(r'<svg[^>]*class="strand".*?</svg>', sheet(name), re.S):
            root = ElementTree.fromstring(svg)
            shapes = [shape for shape in root.iter() if shape.tag in ("rect", "text")]
            colours = [shape for shape in shapes if re.fullmatch("#[0-9a-f]{6}", shape.get("fill", ""))]
            assert colours
            for colour in colours:
                x, y, wide, high = (float(colour.get(key, "")) for key in ("x", "y", "width", "height"))
                on_it = [
                    shape.text
                    for shape in shapes
                    if shape.tag == "text"
                    and x < float(shape.get("x", "")) < x + wide
                    and y < float(shape.get("y", "")) <= y + high
                ]
                assert re.search(r"depth|natural|all white", " ".join(map(str, on_it))), (name, colour.attrib)
    time_line = sheet("ines")
    assert all(word in time_line for word in ("put on", "on the hair", "the leaflet&#x27;s clock"))


def test_a_start_sets_every_clock_and_goes_past_midnight() -> None:
    said = sheet("ines", ".txt", start=time(23, 50))
    assert "__:__  begin" not in said
    assert re.search(r"64 +00:54 +RINSE", said)
    assert re.search(r"64 +__:__ +RINSE", sheet("ines", ".txt"))


def test_the_emergencies_come_before_everything_that_is_done() -> None:
    for name in EVERYBODY:
        for copy in Copy:
            text = " ".join(sheet(name, ".txt", copy=copy).split())
            places = [
                text.find(word)
                for word in ("EMERGENCIES", "TAKE CARE", "BOWLS", "WHAT TO DO NOW", "STEP BY STEP")
            ]
            assert places[0] > 0
            assert all(place == -1 or place > places[0] for place in places[1:])
            assert "leaflet, the law of the place and licensed practice come before" in text
