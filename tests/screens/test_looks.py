"""Text can be read in every look: contrast by the formula of WCAG 2.2 (W3C), at least 4.5 : 1 (criterion 1.4.3)."""

from collections.abc import Iterator
from typing import NamedTuple

import pytest
from rich.color import ColorTriplet
from textual.screen import ModalScreen

from consult.records.codec import read_shelf
from consult.records.demos import demo_folder
from consult.records.remembered import remember, remembered
from consult.records.wanted import Purpose
from consult.screens.themes import THEMES
from consult.trade import Voice
from tests.baseline import baseline
from tests.screens.driver import LARGE, SMALL, Driver, demo, driven, sitting

LEAST = 4.5
DRAWN = set("▊▎▔▁━─┏┓┗┛│┃╸╹╺╻▇▆▅▄▃▂█ ")
"""Lines, frames and patches of colour are no text."""


def luminance(colour: ColorTriplet) -> float:
    """Relative luminance as WCAG 2.2 defines it."""

    def linear(part: int) -> float:
        value = part / 255
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    red, green, blue = map(linear, colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: ColorTriplet, other: ColorTriplet) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


class Faint(NamedTuple):
    text: str
    contrast: float


def on_screen(driver: Driver) -> Iterator[Faint]:
    """Every text on the screen with its contrast; where a window lies over a page, that of the window."""
    page = driver.app.screen
    window = page.query_one(".window").region if isinstance(page, ModalScreen) else page.region
    for strip in page._compositor.render_strips()[window.y : window.bottom]:
        strip = strip.crop(window.x, window.right)
        for segment in strip:
            style = segment.style
            if style is None or style.color is None or style.bgcolor is None or set(segment.text) <= DRAWN:
                continue
            front, back = style.color.get_truecolor(), style.bgcolor.get_truecolor()
            yield Faint(segment.text, contrast(back, front) if not style.reverse else contrast(front, back))


def test_the_formula_gives_the_published_values() -> None:
    """WCAG 2.2: white on black is 21 : 1; #767676 is the lightest grey that passes on white (4.54)."""
    white, black, grey = ColorTriplet(255, 255, 255), ColorTriplet(0, 0, 0), ColorTriplet(0x76, 0x76, 0x76)
    assert contrast(white, black) == pytest.approx(21)
    assert contrast(grey, white) == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
async def test_every_text_of_every_page_can_be_read(theme: object) -> None:
    remember(theme=theme.name)  # type: ignore[attr-defined]
    least: dict[str, Faint] = {}

    def look(where: str, driver: Driver) -> None:
        least[where] = min(on_screen(driver), key=lambda faint: faint.contrast)

    async with driven(LARGE, session=sitting(baseline(), "client.applied_by", voice=Voice.STYLIST)) as driver:
        look("page, choice", driver)
        await driver.type("<right>")
        look("page, option in hand", driver)
        await driver.type("<enter>forty<enter>")
        look("page, refused", driver)
    for path in ("scalp.signs", "hair.white_front", "history.services", "allergy_test.applied_at"):
        async with driven(LARGE, session=sitting(baseline(), path, voice=Voice.HOME)) as driver:
            await driver.type("<down><down>")
            look(f"home, {path}", driver)
    async with driven(LARGE) as driver:
        look("start", driver)
        await driver.type("<f9>")
        look("emergency", driver)
        await driver.type("<escape><tab>")
        look("start, other list", driver)
        await driver.type("<f1>")
        look("help", driver)
        await driver.type("<escape>")
        await driver.click("Depth and tone chart")
        assert driver.page == "ChartPage"
        look("chart", driver)
    for name in ("ines", "hanna", "elif"):
        async with driven(LARGE, session=demo(name, Voice.TRAINER)) as driver:
            look(f"review, {name}", driver)
            await driver.type("<f3>")
            look(f"result, {name}", driver)
            await driver.type("l")
            look(f"lines, {name}", driver)
            await driver.type("<escape>")
            await driver.type("<f4>")
            look(f"export, {name}", driver)
    async with driven(LARGE) as driver:
        await driver.click("Something went wrong")
        await driver.type("1")
        look("wrong", driver)
        await driver.type("6a<f3>")
        assert driver.page == "AdvicePage"
        look("what to do", driver)
    shop = demo("ines")
    shop.purpose, shop.shelf = Purpose.BUY, read_shelf(demo_folder() / "before_buying" / "candidates.toml")
    async with driven(LARGE, session=shop) as driver:
        await driver.type("<f3>")
        look("card", driver)
        await driver.type("c")
        look("packs", driver)
        await driver.type("<f3>")
        assert driver.page == "ComparisonPage"
        look("side by side", driver)
    async with driven(LARGE, session=sitting(baseline(), "client.age")) as driver:
        await driver.type("15<enter>")
        look("stop", driver)
    async with driven(SMALL, session=sitting(baseline(), "client.age", voice=Voice.HOME)) as driver:
        await driver.type("15<enter>")
        await driver.sees("PgUp/PgDn: more to read")
        look("stop, more to read", driver)
    assert {where: faint for where, faint in least.items() if faint.contrast < LEAST} == {}
    print(f"{theme.name}: least contrast {min(faint.contrast for faint in least.values()):.2f}")  # type: ignore[attr-defined]


async def test_the_look_goes_round_with_one_key_and_is_remembered() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        names = []
        for _ in THEMES:
            names.append(driver.app.theme)
            await driver.type("<f6>")
        assert names == [theme.name for theme in THEMES]
        assert driver.app.theme == names[0]
        await driver.type("<f6>")
    assert remembered().theme == names[1]
    async with driven() as driver:
        assert driver.app.theme == names[1]
