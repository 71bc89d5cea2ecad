"""A start that opens something at once: its name first, then the wizard; and what is loaded ahead meanwhile."""

import subprocess
import sys
from pathlib import Path

from consult.records.demos import demo_files
from consult.records.wanted import Origin, Wanted
from consult.screens.app import ConsultApp
from consult.trade import Voice
from tests.screens.driver import SMALL, Driver, driven

INES = Wanted(Origin.DEMO, Voice.TRAINER, demo_files()["ines"])


async def test_the_name_is_shown_and_then_the_first_question_in_the_wanted_voice() -> None:
    app = ConsultApp(opening=INES)
    async with app.run_test(size=SMALL) as pilot:
        driver = Driver(app, pilot)
        assert driver.pages[0] == "OpeningPage"
        await driver.sees("Ines", "demo client, nothing is kept", at="#heading")
        assert (driver.page, driver.position, driver.session.voice) == (
            "WizardPage",
            "client.name",
            Voice.TRAINER,
        )
        await driver.type("<tab>")
        assert driver.position == "goal.areas"
    assert app.fatal == ""


async def test_back_from_what_was_opened_at_once_leads_to_the_start_page_and_piles_up_nothing() -> None:
    async with driven(opening=INES, demos=True) as driver:
        await driver.sees("demo client, nothing is kept", at="#heading")
        for _ in range(3):
            await driver.type("<escape>")
            await driver.sees("Demo clients", "Ines", "Tomas")
            assert driver.pages == ["OpeningPage", "StartPage"]
            await driver.type("1")
            await driver.sees("Ines", at="#heading")
            assert driver.pages == ["OpeningPage", "StartPage", "WizardPage"]


async def test_what_cannot_be_opened_ends_in_one_line_and_exit_code_2(tmp_path: Path) -> None:
    path = tmp_path / "spoilt.toml"
    path.write_text('[client]\nname = "Ines"\nage = "zzsecretzz"\n')
    app = ConsultApp(opening=Wanted(Origin.DEMO, Voice.HOME, path))
    async with app.run_test(size=SMALL) as pilot:
        for _ in range(300):
            if app.fatal:
                break
            await pilot.pause(0.01)
    assert app.return_code == 2
    assert "spoilt.toml: client.age: " in app.fatal
    assert "kept" not in app.fatal
    assert "zzsecretzz" not in app.fatal


def test_after_loading_ahead_the_first_result_imports_nothing_more() -> None:
    program = (
        "import asyncio, sys, gc; gc.disable(); from consult.screens import app, loading\n"
        # In no thread of its own: two that import from two sides can end in a deadlock, which the interpreter raises.
        "asyncio.run(loading.load_the_rest()); assert gc.isenabled()\n"
        "assert gc.get_freeze_count() > 10_000\n"
        "before = set(sys.modules)\n"
        "from consult.records.demos import demo_files\n"
        "from consult.records.wanted import Origin, Wanted\n"
        "from consult.report import report\n"
        "from consult.session import open_session\n"
        "from consult.trade import Voice\n"
        "session = open_session(Wanted(Origin.DEMO, Voice.HOME, demo_files()['ines']))\n"
        "assert report(session.consultation(), session.voice)\n"
        "later = set(sys.modules) - before\n"
        "print(sorted(name for name in later if name.split('.')[0] in ('consult', 'numpy')))\n"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60)
    assert run.stderr == ""
    assert run.stdout == "[]\n"
