"""How a page is drawn where there is little room: lines hang from their marks, nothing of the program's own is cut."""

from consult.trade import Voice
from tests.screens.driver import demo, driven, sitting

NARROW = (60, 20)


async def test_wrapped_lines_hang_from_their_mark_and_no_heading_is_cut() -> None:
    async with driven(NARROW) as driver:
        rows = driver.rows
        at = next(n for n, row in enumerate(rows) if "I am a stylist" in row)
        mark, _, _ = rows[at].partition("I am")
        assert not rows[at + 1].startswith(mark)
        assert rows[at + 1].startswith(" " * len(mark) + "words")
    async with driven(NARROW, session=demo("ines", Voice.HOME)) as driver:
        await driver.type("<f3>")
        assert "judged as of Wed 25 Nov 2026, 10:00" in driver.read("#heading")
        await driver.type("l")
        first = next(n for n, row in enumerate(driver.rows) if "0 to 1.5 cm" in row)
        start = driver.rows[first].index("0 to")
        assert driver.rows[first + 1].startswith(" " * (start + 2))


async def test_what_is_still_to_be_answered_is_one_list_under_one_heading() -> None:
    async with driven(session=sitting()) as driver:
        await driver.type("Ines<enter><f3>")
        rows = driver.rows
        assert sum("Still to answer" in row for row in rows) == 1
        at = next(n for n, row in enumerate(rows) if "- Are there gloves" in row)
        assert rows[at + 1].index("(vinyl") == rows[at].index("Are there")
