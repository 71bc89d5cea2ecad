"""Draw the README's pictures from the real screens: `python -m tests.pictures`."""

import asyncio
import os
import tempfile
from pathlib import Path

from consult.screens.app import ConsultApp
from consult.session import Session, clock
from consult.trade import Voice
from tests.demo import load

FOLDER = Path(__file__).parent.parent / "demo_clients" / "pictures"
PART = "right_square_bracket"


async def draw(name: str, app: ConsultApp, size: tuple[int, int], keys: list[str]) -> None:
    """One picture after some keys."""
    async with app.run_test(size=size) as pilot:
        await pilot.press(*keys)
        await pilot.pause()
        (FOLDER / f"{name}.svg").write_text(app.export_screenshot(title="consult"), "utf-8")


def demo(name: str, voice: Voice) -> ConsultApp:
    return ConsultApp(voice=voice, session=Session.demo(load(name), voice))


async def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    fresh = ConsultApp(voice=Voice.HOME, session=Session(Voice.HOME, at=clock()))
    answers = ["I", "n", "e", "s", "enter", "4", "1", "enter", "3", "1", "3", "1"]
    await draw("wizard", fresh, (100, 28), answers)
    await draw("result", demo("ines", Voice.STYLIST), (120, 36), ["f3", PART, PART])
    stopped = ConsultApp(voice=Voice.HOME, session=Session(Voice.HOME, at=clock()))
    await draw("stop", stopped, (100, 28), ["pagedown", "4", "1", "enter", "3", "1", "1"])
    trainer = demo("elif", Voice.TRAINER)
    await draw("held", trainer, (120, 36), ["f3"])
    sheet = ConsultApp(voice=Voice.TRAINER)
    await draw("sheet", sheet, (120, 24), ["3", "4"])


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ["CONSULT_HOME"] = home
        asyncio.run(main())
