"""One consultation through `consult serve` in a real browser without a window, from the start page to the sheet.

Run from the project's folder: `python -m tests.hands.browser [PICTURE.png]`. It needs Chromium, and fails without one.
"""

import asyncio
import base64
import json
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime
from pathlib import Path
from typing import Any, Final
from urllib.parse import parse_qs, urlsplit

import aiohttp
import pyte

from consult.records.codec import read_file
from consult.trade import Voice
from tests.hands.day import fresh_record
from tests.screens.driver import Driver, driven
from tests.screens.typist import type_all

BROWSERS: Final = ("chromium", "chromium-browser", "google-chrome")
PATIENCE: Final = 30.0
_NAMED: Final = {
    "enter": ("Enter", 13, "\r"),
    "tab": ("Tab", 9, ""),
    "escape": ("Escape", 27, ""),
    "space": (" ", 32, " "),
    "f3": ("F3", 114, ""),
    "f4": ("F4", 115, ""),
    "down": ("ArrowDown", 40, ""),
}


async def keys_of_a_consultation(record: Path, size: tuple[int, int]) -> list[tuple[str, str]]:
    """What somebody types in a window of that size who has all answers of that record ready: (name, "") of a named
    key, or ("", character)."""
    wanted = read_file(record, datetime.now().astimezone()).answers
    pressed: list[tuple[str, str]] = []
    real = Driver.type

    async def noted(driver: Driver, keys: str) -> None:
        pressed.extend(driver.keys_of(keys))
        await real(driver, keys)

    Driver.type = noted  # type: ignore[method-assign]
    try:
        async with driven(size, voice=Voice.STYLIST) as driver:
            await driver.type("1")
            await type_all(driver, wanted)
    finally:
        Driver.type = real  # type: ignore[method-assign]
    return pressed


class Page:
    """A page in the browser: what it asked for, and the terminal that came over its socket."""

    def __init__(self, socket: aiohttp.ClientWebSocketResponse) -> None:
        self._socket = socket
        self._number = 0
        self._answers: dict[int, asyncio.Future[dict[str, Any]]] = {}
        self.asked: list[str] = []
        self.complaints: list[str] = []
        self.display = pyte.Screen(80, 24)
        self._stream = pyte.ByteStream(self.display)

    async def listen(self) -> None:
        async for message in self._socket:
            told = json.loads(message.data)
            if "id" in told:
                self._answers.pop(told["id"]).set_result(told)
            elif told["method"] == "Network.requestWillBeSent":
                self.asked.append(told["params"]["request"]["url"])
            elif told["method"] == "Network.webSocketCreated":
                self._opened(told["params"]["url"])
            elif told["method"] == "Network.webSocketFrameReceived":
                self._frame(told["params"]["response"])
            elif told["method"] == "Runtime.exceptionThrown" or _is_error(told):
                self.complaints.append(json.dumps(told["params"])[:300])

    def _opened(self, url: str) -> None:
        """The terminal's socket names its size."""
        self.asked.append(url)
        size = parse_qs(urlsplit(url).query)
        self.display.resize(int(size["height"][0]), int(size["width"][0]))

    @property
    def size(self) -> tuple[int, int]:
        return self.display.columns, self.display.lines

    def _frame(self, frame: dict[str, Any]) -> None:
        if frame["opcode"] == 2:
            self._stream.feed(base64.b64decode(frame["payloadData"]))

    async def do(self, method: str, **params: Any) -> dict[str, Any]:
        self._number += 1
        answer = self._answers[self._number] = asyncio.get_running_loop().create_future()
        await self._socket.send_json({"id": self._number, "method": method, "params": params})
        return await asyncio.wait_for(answer, PATIENCE)

    async def press(self, name: str, character: str) -> None:
        # The number of a key is that of its letter or digit; other characters have none that could be told from theirs.
        number = ord(character.upper()) if character.isalnum() else 0
        key, code, text = _NAMED[name] if name else (character, number, character)
        shared = {"key": key, "windowsVirtualKeyCode": code, "code": key if name else ""}
        await self.do("Input.dispatchKeyEvent", type="keyDown", text=text, **shared)
        await self.do("Input.dispatchKeyEvent", type="keyUp", **shared)

    @property
    def screen(self) -> str:
        return "\n".join(self.display.display)

    async def sees(self, *words: str) -> None:
        deadline = time.monotonic() + PATIENCE
        while not all(word in self.screen for word in words):
            assert time.monotonic() < deadline, f"{words} never came:\n{self.screen}"
            await asyncio.sleep(0.05)


@asynccontextmanager
async def page_at(address: str, folder: Path) -> AsyncIterator[Page]:
    """That address in a browser without a window."""
    browser = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    assert browser, f"no browser: install one of {', '.join(BROWSERS)}"
    flags = ("--headless=new", "--no-sandbox", "--remote-debugging-port=0", f"--user-data-dir={folder}")
    process = subprocess.Popen(
        [browser, *flags, "--window-size=1200,800", "about:blank"], stderr=subprocess.DEVNULL
    )
    try:
        port = await _port(folder / "DevToolsActivePort")
        async with aiohttp.ClientSession() as session:
            async with session.get(f"http://127.0.0.1:{port}/json") as listed:
                tab = next(tab for tab in await listed.json() if tab["type"] == "page")
            async with session.ws_connect(tab["webSocketDebuggerUrl"], max_msg_size=0) as socket:
                page = Page(socket)
                listening = asyncio.create_task(page.listen())
                for domain in ("Network", "Page", "Runtime", "Log"):
                    await page.do(f"{domain}.enable")
                await page.do("Emulation.setFocusEmulationEnabled", enabled=True)
                await page.do("Page.navigate", url=address)
                yield page
                listening.cancel()
    finally:
        process.terminate()
        process.wait(10)


async def _port(file: Path) -> str:
    deadline = time.monotonic() + PATIENCE
    while not file.exists() or not file.read_text().strip():
        assert time.monotonic() < deadline, "the browser never listened"
        await asyncio.sleep(0.1)
    return file.read_text().split("\n")[0]


@asynccontextmanager
async def served(home: Path) -> AsyncIterator[str]:
    """`consult serve`, and the address that it tells."""
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    process = subprocess.Popen(
        [sys.executable, "-m", "consult", "serve", "--voice", "stylist", "--port", str(port)],
        env={**os.environ, "CONSULT_HOME": str(home)},
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert process.stdout
        told = await asyncio.to_thread(process.stdout.readline)
        found = re.search(r"http://\S+", told)
        assert found, told
        yield found[0]
    finally:
        process.terminate()
        process.wait(10)


async def refused(address: str) -> list[str]:
    """What gets in that must not: another name, a page from elsewhere, an address without the key."""
    here = "/".join(address.split("/")[:3])
    tries = (
        (address, {"Host": "consult.example"}, 403),
        (f"{address}ws", {"Origin": "http://consult.example"}, 403),
        (f"{here}/", {}, 404),
        (f"{here}/ws", {}, 404),
    )
    wrong = []
    async with aiohttp.ClientSession() as session:
        for url, headers, expected in tries:
            async with session.get(url, headers=headers) as answer:
                if answer.status != expected:
                    wrong.append(f"{headers or 'without the key'}: {answer.status}, not {expected}")
    return wrong


async def faults(picture: Path | None) -> list[str]:
    """What is wrong on the way from the start page to the working sheet, or nothing."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name:
        folder = Path(name)
        async with served(folder / "home") as address:
            wrong = await refused(address)
            async with page_at(address, folder / "browser") as page:
                await page.sees("New consultation")
                keys = await keys_of_a_consultation(fresh_record("tomas", folder), page.size)
                for key in keys:
                    await page.press(*key)
                await page.sees("Review of all answers")
                await page.press("f3", "")
                await page.sees("Result", "judged as of", "Verdict", "Buy and mix", "never later")
                await asyncio.sleep(1)
                shown = (await page.do("Page.captureScreenshot"))["result"]["data"]
                if picture:
                    picture.write_bytes(base64.b64decode(shown))
                here = address.split("/")[2]
                wrong += [f"asked elsewhere: {url}" for url in page.asked if not _is_ours(url, here)]
                wrong += page.complaints
                print(f"browser: {len(keys)} keys to the result, {len(page.asked)} requests, all to {here}")
                wrong += await _without_a_sheet(page, folder / "home")
    return wrong


async def _without_a_sheet(page: Page, home: Path) -> list[str]:
    """Write the working sheet from the result and open it in the same browser; what is wrong with it."""
    await page.press("f4", "")
    await page.sees("the working sheet, to print")
    await page.press("down", "")
    await page.sees("(o) the working sheet, to print")
    await page.press("enter", "")
    await page.sees("Written:")
    sheets = list((home / "records").glob("*.html"))
    if len(sheets) != 1:
        return [f"{len(sheets)} sheets were written"]
    await page.do("Page.navigate", url=sheets[0].as_uri())
    await asyncio.sleep(1)
    told = await page.do("Runtime.evaluate", expression="document.body.innerText")
    words = told["result"]["result"]["value"].lower()
    print(f"browser: the sheet stands open, {len(words)} characters")
    return [f"the sheet lacks {part}" for part in ("working sheet", "step by step") if part not in words]


def _is_error(told: dict[str, Any]) -> bool:
    return told["method"] == "Log.entryAdded" and told["params"]["entry"]["level"] == "error"


def _is_ours(url: str, here: str) -> bool:
    return url.startswith(("data:", f"http://{here}/", f"ws://{here}/"))


if __name__ == "__main__":
    found = asyncio.run(faults(Path(sys.argv[1]) if sys.argv[1:] else None))
    print("".join(f"{line}\n" for line in found), end="")
    print(f"browser: {len(found)} wrong")
    sys.exit(1 if found else 0)
