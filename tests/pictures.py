"""Draw the README's pictures from the real screens: `python -m tests.pictures`.

Each is drawn in colour for the README, and as text for where the package is published without pictures.
"""

import asyncio
import os
import tempfile
from pathlib import Path

from consult.dates import clock
from consult.screens.app import ConsultApp
from consult.session import Session
from consult.trade import Voice
from tests.demo import load
from tests.screens.driver import Driver

FOLDER = Path(__file__).parent.parent / "demo_clients" / "pictures"


async def draw(
    name: str, app: ConsultApp, size: tuple[int, int], keys: str, shows: str, *, text: bool = True
) -> None:
    """One picture after some keys; a word tells that they led to the right page. Without `text`: in colour alone."""
    async with app.run_test(size=size) as pilot:
        driver = Driver(app, pilot)
        await driver.settle()
        await driver.type(keys)
        await driver.sees(shows)
        (FOLDER / f"{name}.svg").write_text(app.export_screenshot(title="consult"), "utf-8")
        if not text:
            return
        rows = "\n".join(driver.rows)
        (FOLDER / f"{name}.md").write_text(f"```text\n{rows.rstrip()}\n```\n", "utf-8")


def demo(name: str, voice: Voice) -> ConsultApp:
    return ConsultApp(voice=voice, session=Session.demo(load(name), voice))


def fresh(voice: Voice) -> ConsultApp:
    return ConsultApp(voice=voice, session=Session(voice, at=clock()))


async def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    # First of all: later the start page has unfinished consultations to offer.
    await draw("chart", ConsultApp(), (120, 44), "36", "Undertones", text=False)
    await draw(
        "wizard", fresh(Voice.STYLIST), (120, 36), "Ines<enter>1<enter>1a1111249h<enter>c0", "Last look"
    )
    await draw("home", fresh(Voice.HOME), (80, 24), "<enter>1<enter>3", "How old is the person")
    await draw("stop", fresh(Voice.HOME), (100, 28), "<enter>1<enter>3a121", "dermatologist")
    await draw("result", demo("ines", Voice.STYLIST), (120, 36), "<f3>", "never later")
    await draw("held", demo("elif", Voice.TRAINER), (120, 36), "<f3>l", "different")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ |= {"CONSULT_HOME": home, "COLORTERM": "truecolor"}
        asyncio.run(main())
