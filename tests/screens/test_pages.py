"""Stop, review, result, record: what each page says, offers and refuses."""

import asyncio
import os
import stat
from pathlib import Path

import pytest
from textual import events
from textual.widgets import OptionList

from consult.answers.access import get
from consult.answers.questions import Kind, question_of
from consult.consultation import consult
from consult.gates.verdict import Verdict
from consult.interview.intake import REVIEW
from consult.records.codec import read_file
from consult.records.demos import demo_files
from consult.records.store import home
from consult.report import report
from consult.screens import result
from consult.screens.app import ConsultApp
from consult.session import Session
from consult.trade import Voice
from consult.widgets.verdicts import MARKS, STYLES
from tests.baseline import NOW, baseline
from tests.demo import judged
from tests.screens.driver import LARGE, SMALL, Driver, demo, driven, sitting

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])
HOSTILE = "Zed[/] [@click=app.quit]x[/] [red]y"


async def to_stop(driver: Driver) -> None:
    await driver.type("15<enter>")
    await driver.sees("Stop: no colour")
    assert driver.page == "StopNotice"


@SIZES
async def test_a_stop_is_said_at_the_answer_that_brings_it_and_offers_no_way_round(
    size: tuple[int, int],
) -> None:
    async with driven(size, session=sitting(baseline(), "client.age")) as driver:
        await to_stop(driver)
        offered = [str(option.prompt) for option in driver.app.screen.query_one(OptionList).options]
        assert len(offered) == 3
        for word in ("accept", "risk", "override", "ignore", "anyway"):
            assert word not in driver.screen.lower()
        await driver.type("<pageup><pagedown><escape>")
        assert driver.page == "StopNotice"


@pytest.mark.parametrize("size", [(60, 20), SMALL, LARGE])
async def test_a_stop_of_two_reasons_begins_with_its_title_and_keeps_its_choices_in_sight(
    size: tuple[int, int],
) -> None:
    async with driven(size, session=sitting(demo("ines").answers, "client.age")) as driver:
        await driver.type("15<enter>")
        choices = ("1 Show the result", "2 The answer was wrong", "3 Go on")
        await driver.sees("Stop: no colour", "anyone under 16", *choices, at=".window")
        await driver.type("<pagedown><pagedown>")
        await driver.sees("choose a product whose leaflet allows the age", *choices, at=".window")
        assert ("more to read" in driver.screen) == (size != LARGE)


async def test_beside_a_stop_the_gate_says_nothing_milder() -> None:
    async with driven(LARGE, session=sitting(baseline(), "client.age")) as driver:
        await driver.sees("Clear", at="#gate-side")
        await driver.type("15<enter>")
        assert driver.page == "StopNotice"
        assert "Clear" not in driver.screen
        assert "[X] Stop: no colour" in driver.screen


async def test_a_stop_is_said_once_and_again_only_when_it_comes_back() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await to_stop(driver)
        await driver.type("3")
        assert (driver.page, driver.position) == ("WizardPage", "client.gloves")
        await driver.sees("Stop: no colour", at="#gate")
        await driver.type("<escape>")
        await driver.type("14<enter>")
        assert driver.page == "WizardPage"
        await driver.type("<escape>")
        await driver.type("40<enter>")
        await driver.type("<escape>")
        await to_stop(driver)
        await driver.type("2")
        assert (driver.page, driver.position, driver.answers.client.age) == ("WizardPage", "client.age", 40)
        await to_stop(driver)


async def test_after_a_stop_the_record_can_still_be_written_and_says_stop(tmp_path: Path) -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await to_stop(driver)
        await driver.type("1")
        await driver.sees("Stop: no colour", at="#verdict")
        assert driver.page == "ResultPage"
        for word in ("accept", "risk", "override"):
            assert word not in driver.screen.lower()
        await driver.type("<f4>")
        await driver.type(f"{tmp_path / 'record.toml'}<enter>")
        await driver.sees("Written:", at="Toast")
    loaded = read_file(tmp_path / "record.toml", NOW)
    assert loaded.answers.client.age == 15
    assert loaded.result
    assert loaded.result["verdict"] == "stop"
    assert loaded.result["plan"]["outcome"] == "stopped"
    assert "applications" not in loaded.result["plan"]


async def test_every_row_of_the_review_can_be_changed_and_leads_back_to_it() -> None:
    answers = baseline()
    async with driven(LARGE, session=demo("ines")) as driver:
        driver.session.change(type(driver.session.intake)(answers, REVIEW))
        rows = [path for path in driver.session.intake.order if path.list is None and get(answers, path)]
        for path in [*rows[:: len(rows) // 14], rows[-1]]:
            await driver.type("<f2>") if driver.page == "WizardPage" else None
            listed = driver.app.screen.query_one("#answers", OptionList)
            listed.highlighted = listed.get_option_index(path)
            await driver.type("<enter>")
            assert (driver.page, driver.position) == ("WizardPage", path)
            await driver.type("0" if question_of(path).kind is Kind.ENTRIES else "<enter>")
            assert driver.page == "ReviewPage", path
            listed = driver.app.screen.query_one("#answers", OptionList)
            assert listed.highlighted == listed.get_option_index(path), "the line it was left from"


async def test_from_a_line_of_the_review_escape_leads_back_to_that_line() -> None:
    async with driven(session=demo("ines")) as driver:
        for years in (42, 43):
            listed = driver.app.screen.query_one("#answers", OptionList)
            listed.highlighted = listed.get_option_index("client.age")
            await driver.type("<enter><escape>")
            assert driver.page == "ReviewPage"
            await driver.type("<enter>")
            await driver.type(f"{years}<enter>")
            assert (driver.page, driver.answers.client.age) == ("ReviewPage", years)


async def test_behind_the_last_question_the_review_leads_back_to_it() -> None:
    async with driven(session=demo("ines")) as driver:
        assert driver.page == "ReviewPage"
        await driver.type("<escape>")
        assert (driver.page, driver.position) == ("WizardPage", driver.session.intake.stops[-1])


async def test_n_leads_to_the_next_open_question_and_round_again() -> None:
    answers = baseline(
        {"client.name": None, "hair.cut": None, "goal.tone": None, "health.asthma": "not sure"}
    )
    async with driven(LARGE, session=sitting(answers, "review", keep=False)) as driver:
        listed = driver.app.screen.query_one("#answers", OptionList)
        wanted = [path for path in driver.session.intake.order if get(answers, path) is None]
        assert "health.asthma" not in wanted
        assert wanted[0] == "client.name", "the row the review opens on"
        for path in [*wanted[1:], *wanted[:2]]:
            await driver.type("n")
            assert listed.highlighted is not None
            assert listed.get_option_at_index(listed.highlighted).id == path
            await driver.sees("left open" if question_of(path).optional else "NOT ASKED", at="#answers")


@pytest.mark.parametrize("voice", Voice)
@pytest.mark.parametrize("name", demo_files())
def test_every_line_of_every_result_has_its_reason_and_its_source(name: str, voice: Voice) -> None:
    blocks = report(judged(name), voice)
    assert blocks
    for block in blocks:
        for row in block.rows:
            assert row.say.strip(), block.title
            assert row.because.strip(), row.say
            assert row.sources, row.say
            assert row.cited.strip(), row.say


@SIZES
@pytest.mark.parametrize("voice", Voice)
async def test_moving_over_a_result_opens_the_reason_and_source_of_each_line(
    size: tuple[int, int], voice: Voice
) -> None:
    async with driven(size, session=demo("ines", voice)) as driver:
        await driver.type("<f3>l")
        lines = driver.app.screen.query_one("#lines", OptionList)
        seen = []
        for row in [row for block in report(driver.session.consultation(), voice) for row in block.rows][:6]:
            await driver.sees("Source:", at="#why")
            seen.append(driver.read("#why"))
            assert " ".join(row.because.split())[:40] in seen[-1]
            await driver.type("<down>")
        assert len(set(seen)) > 1
        before = lines.highlighted
        await driver.type("]")
        assert lines.highlighted != before


async def test_the_record_goes_nowhere_but_to_a_file_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "there.toml").write_text("old")
    os.mkfifo(tmp_path / "pipe")
    async with driven(LARGE, session=Session(intake=sitting(baseline(), "review").intake, at=NOW)) as driver:
        await driver.type("<f4>")
        for place, error in (
            (" ", "a place for the file is needed"),
            (str(tmp_path), "this is a folder; add a file name"),
            (str(tmp_path / "pipe"), "this file exists"),
            ("", "this is no ordinary file"),
            (str(tmp_path / "there.toml" / "x.toml"), "choose another place"),
        ):
            if place:
                await driver.type("<home>")
                await driver.type("<ctrl+k>")
            await driver.type(f"{place}<enter>")
            await driver.sees(error, at="ExportWindow #error")
        await driver.type("<home>")
        await driver.type("<ctrl+k>")
        await driver.type(f"{tmp_path / 'there.toml'}<enter>")
        await driver.sees("this file exists; Enter again replaces it", at="ExportWindow #error")
        assert (tmp_path / "there.toml").read_text() == "old"
        await driver.type("<enter>")
        await driver.sees("Written:", at="Toast")
    assert read_file(tmp_path / "there.toml", NOW).answers == baseline()
    assert stat.S_IMODE((tmp_path / "there.toml").stat().st_mode) == 0o600
    assert stat.S_ISFIFO((tmp_path / "pipe").stat().st_mode)


async def test_the_offered_place_is_taken_with_enter_and_the_draft_goes() -> None:
    session = sitting(baseline(), "client.age")
    async with driven(LARGE, session=session) as driver:
        await driver.type("52<enter>")
        assert list((home() / "unfinished").iterdir())
        await driver.type("<f2>")
        await driver.type("<f4>")
        await driver.type("<enter>")
        await driver.sees("Written:", at="Toast")
    assert not list((home() / "unfinished").iterdir())
    (record,) = (home() / "records").iterdir()
    assert read_file(record, NOW).answers.client.age == 52


@SIZES
async def test_a_hostile_name_stands_on_every_page_as_it_was_written(
    size: tuple[int, int], tmp_path: Path
) -> None:
    path = tmp_path / "hostile.toml"
    path.write_text(f'[client]\nname = "{HOSTILE}\\u001b]52;c;aGk=\\u0007\\u202e"\nage = 15\n', "utf-8")
    name = f"{HOSTILE} ]52;c;aGk="
    answers = read_file(path, NOW).answers
    async with driven(size, session=sitting(answers, "client.name")) as driver:
        await driver.sees(name, at="#heading")
        await driver.sees("[red]y", at="#field")
        no_escape(driver)
        await driver.type("<f2>")
        await driver.sees(name, at="#answers")
        no_escape(driver)
        await driver.type("<f3>")
        await driver.sees("Stop", at="#verdict")
        no_escape(driver)
        await driver.type("<escape><escape>")
        await driver.type("Kim[/]<enter>")
    async with driven(size) as driver:
        await driver.sees("Go on with Kim[/]")
        no_escape(driver)


def no_escape(driver: Driver) -> None:
    for strip in driver.app.screen._compositor.render_strips():
        for segment in strip:
            assert "\x1b" not in segment.text
            assert segment.text.isprintable()
            assert not (segment.style and segment.style.meta.get("@click"))


@SIZES
async def test_the_colourless_and_the_256_colour_terminal_say_the_same_words(
    size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    screens = []
    for variable, value in (("COLORTERM", "truecolor"), ("NO_COLOR", "1"), ("TEXTUAL_COLOR_SYSTEM", "256")):
        monkeypatch.setenv(variable, value)
        async with driven(size, session=demo("hanna")) as driver:
            await driver.type("<f3>")
            await driver.sees("[X] Stop: no colour", "Coming back:")
            screens.append(driver.screen)
        monkeypatch.delenv(variable)
    assert len(set(screens)) == 1


@pytest.mark.parametrize("verdict", Verdict)
def test_every_verdict_has_a_word_and_a_mark_of_its_own(verdict: Verdict) -> None:
    assert verdict.title
    assert set(MARKS) == set(STYLES) == set(Verdict)
    assert list(MARKS.values()).count(MARKS[verdict]) == 1


async def test_what_is_not_settled_is_never_called_clear() -> None:
    async with driven(session=sitting(baseline({"scalp.signs": None}), "scalp.signs", keep=False)) as driver:
        assert not consult(driver.answers, NOW).judgement.settled
        await driver.sees("still open:", "question", at="#gate")
        assert "Clear" not in driver.read("#gate")
        await driver.type("<f3>")
        await driver.sees("Not settled yet", at="#verdict")
        assert "Clear" not in driver.read("#verdict")


@SIZES
@pytest.mark.parametrize("key", ["", "<f3>l"], ids=["review", "lines"])
async def test_from_the_end_page_up_comes_to_the_top_heading_and_leaves_nothing(
    size: tuple[int, int], key: str
) -> None:
    async with driven(size, session=demo("ines")) as driver:
        await driver.type(key)
        page = driver.page
        await driver.type("<end>")
        listed = driver.app.screen.query_one(OptionList)
        heading = str(listed.options[0].prompt).split()[0]
        for _ in range(40):
            await driver.type("<pageup>")
            if listed.scroll_y == 0:
                break
        assert driver.page == page
        await driver.sees(heading, at=f"{page} OptionList")
        await driver.type("<pageup><pageup>")
        assert driver.page == page
        await driver.type("<escape>")
        assert driver.page != page


async def test_help_opens_over_every_page_and_closes_again() -> None:
    async with driven((120, 70), session=demo("ines")) as driver:
        for keys, page, told in (
            ("", "ReviewPage", "to the next question left open"),
            ("<f3>", "ResultPage", "begin five minutes later, or earlier"),
            ("l", "LinesPage", "to the next part, or the part before"),
            ("<escape>", "ResultPage", "open the lines of a part"),
            ("<escape>", "ReviewPage", "change the answer"),
            ("<escape>", "WizardPage", "undo the last answer"),
        ):
            await driver.type(keys)
            assert driver.page == page
            await driver.type("<f1>")
            await driver.sees("Keys", told, "Words", at="HelpWindow #text")
            await driver.type("<f1>")
            assert driver.page == page


async def test_an_error_inside_a_page_is_one_line_with_the_draft_kept(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fails(*_: object) -> None:
        zzsecretzz = "Ines is pregnant"
        raise KeyError(zzsecretzz)

    app = ConsultApp(session=Session())
    async with app.run_test(size=SMALL) as pilot:
        driver = Driver(app, pilot)
        await driver.settle()
        await driver.type("Ines<enter>")
        monkeypatch.setattr(result, "working_sheet", fails)
        app.post_message(events.Key("f3", None))
        for _ in range(300):
            if app.fatal:
                break
            await asyncio.sleep(0.01)
    assert app.return_code == 1
    assert app.fatal.startswith("consult: KeyError at test_pages.py:")
    assert "what was typed is kept" in app.fatal
    assert len(app.fatal.splitlines()) == 1
    printed = "".join(capsys.readouterr())
    assert "Ines" not in app.fatal + printed
    assert "Traceback" not in printed
    (draft,) = (home() / "unfinished").iterdir()
    assert read_file(draft, NOW).answers.client.name == "Ines"
