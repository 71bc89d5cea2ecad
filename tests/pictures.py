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


async def draw(name: str, app: ConsultApp, size: tuple[int, int], keys: list[str], shows: str) -> None:
    """One picture after some keys; a word tells that they led to the right page."""
    async with app.run_test(size=size) as pilot:
        for key in keys:
            await pilot.press(key)
            await pilot.pause()
        picture = app.export_screenshot(title="consult")
        assert shows in picture, f"{name} shows another page; have questions been added before it?"
        (FOLDER / f"{name}.svg").write_text(picture, "utf-8")


def demo(name: str, voice: Voice) -> ConsultApp:
    return ConsultApp(voice=voice, session=Session.demo(load(name), voice))


async def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    # First of all: later the start page has unfinished consultations to offer.
    await draw("sheet", ConsultApp(voice=Voice.TRAINER), (120, 44), ["3", "4"], "Undertones")
    fresh = ConsultApp(voice=Voice.HOME, session=Session(Voice.HOME, at=clock()))
    answers = ["I", "n", "e", "s", "enter", "4", "1", "enter", "3", "1", "pagedown", "2", "3", "1"]
    await draw("wizard", fresh, (100, 28), answers, "sunscreen")
    await draw("result", demo("ines", Voice.STYLIST), (120, 36), ["f3", PART, PART], "colouring")
    stopped = ConsultApp(voice=Voice.HOME, session=Session(Voice.HOME, at=clock()))
    await draw(
        "stop",
        stopped,
        (100, 28),
        ["pagedown", "4", "1", "enter", "3", "1", "pagedown", "2", "1"],
        "dermatologist",
    )
    trainer = demo("elif", Voice.TRAINER)
    await draw("held", trainer, (120, 36), ["f3"], "different")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ["CONSULT_HOME"] = home
        asyncio.run(main())
