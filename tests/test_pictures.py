"""Each picture of the README shows what its caption says."""

import html
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
CAPTIONS = {
    path: caption
    for caption, path in re.findall(r"!\[([^\]]+)\]\(([^)]+\.svg)\)", (ROOT / "README.md").read_text("utf-8"))
}
SHOWN = {
    "wizard": ("Allergy alert test", "Last reading at", "Nothing against it so far", "Alert test"),
    "home": ("How old is the person", "16 or over"),
    "result": ("Verdict", "today", "afterwards", "goal", "Head", "Buy and mix", "Clock", "RINSE"),
    "stop": ("Stop: no colour", "dermatologist", "The answer was wrong: change it"),
    "chart": ("Natural hair", "Undertones", "Shades of 6"),
    "held": ("lengths-coloured-goal-lighter", "What would have to be different", "goal depth 2.5 to 3.5"),
}
"""Words that must stand in a picture for its caption to be true."""


def words_in(path: str) -> str:
    svg = (ROOT / path).read_text("utf-8")
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", svg)).replace("\xa0", " ").split())


@pytest.mark.parametrize("path", CAPTIONS)
def test_a_picture_shows_what_its_caption_says(path: str) -> None:
    seen = words_in(path)
    for words in SHOWN[Path(path).stem]:
        assert words in seen, f"{CAPTIONS[path]!r} is no longer true; draw it anew: python -m tests.pictures"


def test_every_picture_is_in_the_readme_or_named_by_the_demo_clients() -> None:
    drawn = {path.name for path in (ROOT / "demo_clients" / "pictures").glob("*.svg")}
    told = (ROOT / "README.md").read_text("utf-8") + (ROOT / "demo_clients" / "README.md").read_text("utf-8")
    told += (ROOT / "DEVELOPERS.md").read_text("utf-8")
    assert {name for name in drawn if name not in told} == set()
