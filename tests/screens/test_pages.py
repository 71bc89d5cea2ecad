"""Stop, review, result, record: what each page says, offers and refuses."""

import asyncio
import os
import stat
from pathlib import Path

import pytest
from textual import events
from textual.widgets import OptionList

from consult.answers.access import answer_paths, get
from consult.answers.intake import list_of
from consult.answers.questions import question_of
from consult.consultation import consult
from consult.gates.verdict import Verdict
from consult.records.codec import read_file
from consult.records.demos import demo_files
from consult.records.store import home
from consult.report import report
from consult.screens import result
from consult.screens.app import ConsultApp
from consult.screens.session import Session
from consult.widgets.verdicts import MARKS, STYLES
from tests.demo import judged
from tests.screens.desk import LARGE, SMALL, Desk, at_the_desk, demo, sitting
from tests.sound import NOW, sound

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])
HOSTILE = "Zed[/] [@click=app.quit]x[/] [red]y"


async def to_stop(desk: Desk) -> None:
    await desk.type("15<enter>")
    await desk.sees("Stop: no oxidative colour")
    assert desk.page == "StopNotice"


@SIZES
async def test_a_stop_is_said_at_the_answer_that_brings_it_and_offers_no_way_round(
    size: tuple[int, int],
) -> None:
    async with at_the_desk(size, session=sitting(sound(), "client.age")) as desk:
        await to_stop(desk)
        offered = [str(option.prompt) for option in desk.app.screen.query_one(OptionList).options]
        assert len(offered) == 3
        for word in ("accept", "risk", "override", "ignore", "anyway"):
            assert word not in desk.screen.lower()
        await desk.type("<pageup><pagedown><escape>")
        assert desk.page == "StopNotice"


async def test_a_stop_is_said_once_and_again_only_when_it_comes_back() -> None:
    async with at_the_desk(session=sitting(sound(), "client.age")) as desk:
        await to_stop(desk)
        await desk.type("3")
        assert (desk.page, desk.position) == ("WizardPage", "client.applied_by")
        await desk.sees("Stop: no oxidative colour", at="#gate")
        await desk.type("<pageup>")
        await desk.type("14<enter>")
        assert desk.page == "WizardPage"
        await desk.type("<pageup>")
        await desk.type("40<enter>")
        await desk.type("<pageup>")
        await to_stop(desk)
        await desk.type("2")
        assert (desk.page, desk.position, desk.answers.client.age) == ("WizardPage", "client.age", 40)
        await to_stop(desk)


async def test_after_a_stop_the_record_can_still_be_written_and_says_stop(tmp_path: Path) -> None:
    async with at_the_desk(session=sitting(sound(), "client.age")) as desk:
        await to_stop(desk)
        await desk.type("1")
        await desk.sees("Stop: no oxidative colour", at="#verdict")
        assert desk.page == "ResultPage"
        for word in ("accept", "risk", "override"):
            assert word not in desk.screen.lower()
        await desk.type("<f4>")
        await desk.type(f"{tmp_path / 'record.toml'}<enter>")
        await desk.sees("The record is written", at="Toast")
    loaded = read_file(tmp_path / "record.toml", NOW)
    assert loaded.answers.client.age == 15
    assert loaded.result
    assert loaded.result["verdict"] == "stop"
    assert "plan" not in loaded.result


async def test_every_row_of_the_review_can_be_changed_and_leads_back_to_it() -> None:
    answers = sound()
    async with at_the_desk(LARGE, session=demo("ines")) as desk:
        desk.session.change(type(desk.session.intake)(answers, "review"))
        rows = [path for path in answer_paths(answers) if list_of(path) is None]
        for path in [*rows[:: len(rows) // 14], rows[-1]]:
            await desk.type("<f2>") if desk.page == "WizardPage" else None
            listed = desk.app.screen.query_one("#answers", OptionList)
            listed.highlighted = listed.get_option_index(path)
            await desk.type("<enter>")
            assert (desk.page, desk.position) == ("WizardPage", path)
            again = {"entries": "2", "several": "<enter>"}.get(question_of(path).kind.value, "<enter>")
            await desk.type(again)
            assert desk.page == "ReviewPage", path


async def test_the_same_row_can_be_changed_twice() -> None:
    async with at_the_desk(session=demo("ines")) as desk:
        for years in (42, 43):
            listed = desk.app.screen.query_one("#answers", OptionList)
            listed.highlighted = listed.get_option_index("client.age")
            await desk.type("<enter>")
            await desk.type(f"{years}<enter>")
            assert (desk.page, desk.answers.client.age) == ("ReviewPage", years)


async def test_after_a_change_from_the_review_going_on_goes_on() -> None:
    async with at_the_desk(session=demo("ines")) as desk:
        listed = desk.app.screen.query_one("#answers", OptionList)
        listed.highlighted = listed.get_option_index("history.services")
        await desk.type("<enter>")
        await desk.type("2")
        assert desk.page == "ReviewPage"
        await desk.type("<pageup>")
        await desk.type("<pageup>")
        assert desk.position == "strand_test.done"
        await desk.type("2")
        assert (desk.page, desk.position) == ("WizardPage", "incompatibility_test.result")


async def test_n_leads_to_the_next_open_question_and_round_again() -> None:
    answers = sound({"client.name": None, "hair.cut": None, "goal.tone": None, "health.asthma": "not sure"})
    async with at_the_desk(LARGE, session=sitting(answers, "review", keep=False)) as desk:
        listed = desk.app.screen.query_one("#answers", OptionList)
        wanted = [path for path in answer_paths(answers) if get(answers, path) is None]
        assert "health.asthma" not in wanted
        assert wanted[0] == "client.name", "the row the review opens on"
        for path in [*wanted[1:], *wanted[:2]]:
            await desk.type("n")
            assert listed.highlighted is not None
            assert listed.get_option_at_index(listed.highlighted).id == path
            await desk.sees("left open" if question_of(path).optional else "NOT ASKED", at="#answers")


@pytest.mark.parametrize("voice", ["stylist", "home", "trainer"])
@pytest.mark.parametrize("name", demo_files())
def test_every_line_of_every_result_has_its_reason_and_its_source(name: str, voice: str) -> None:
    blocks = report(judged(name), voice)
    assert blocks
    for block in blocks:
        for row in block.rows:
            assert row.say.strip(), block.title
            assert row.because.strip(), row.say
            assert row.sources, row.say
            assert row.cited.strip(), row.say


@SIZES
@pytest.mark.parametrize("voice", ["stylist", "home", "trainer"])
async def test_moving_over_a_result_opens_the_reason_and_source_of_each_line(
    size: tuple[int, int], voice: str
) -> None:
    async with at_the_desk(size, session=demo("ines", voice)) as desk:
        await desk.type("<f3>")
        lines = desk.app.screen.query_one("#lines", OptionList)
        seen = []
        for row in [row for block in report(desk.session.consultation(), voice) for row in block.rows][:6]:
            await desk.sees("Source:", at="#why")
            seen.append(desk.read("#why"))
            assert " ".join(row.because.split())[:40] in seen[-1]
            await desk.type("<down>")
        assert len(set(seen)) > 1
        before = lines.highlighted
        await desk.type("]")
        assert lines.highlighted != before


async def test_the_record_goes_nowhere_but_to_a_file_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "there.toml").write_text("old")
    os.mkfifo(tmp_path / "pipe")
    async with at_the_desk(LARGE, session=Session(intake=sitting(sound(), "review").intake, at=NOW)) as desk:
        await desk.type("<f4>")
        for place, fault in (
            (" ", "a place for the file is needed"),
            (str(tmp_path), "this is a folder; add a file name"),
            (str(tmp_path / "pipe"), "this file exists"),
            ("", "this is no ordinary file"),
            (str(tmp_path / "there.toml" / "x.toml"), "choose another place"),
        ):
            if place:
                await desk.type("<home>")
                await desk.type("<ctrl+k>")
            await desk.type(f"{place}<enter>")
            await desk.sees(fault, at="ExportWindow #fault")
        await desk.type("<home>")
        await desk.type("<ctrl+k>")
        await desk.type(f"{tmp_path / 'there.toml'}<enter>")
        await desk.sees("this file exists; Enter again replaces it", at="ExportWindow #fault")
        assert (tmp_path / "there.toml").read_text() == "old"
        await desk.type("<enter>")
        await desk.sees("The record is written", at="Toast")
    assert read_file(tmp_path / "there.toml", NOW).answers == sound()
    assert stat.S_IMODE((tmp_path / "there.toml").stat().st_mode) == 0o600
    assert stat.S_ISFIFO((tmp_path / "pipe").stat().st_mode)


async def test_the_offered_place_is_taken_with_enter_and_the_draft_goes() -> None:
    session = sitting(sound(), "client.age")
    async with at_the_desk(LARGE, session=session) as desk:
        await desk.type("52<enter>")
        assert list((home() / "unfinished").iterdir())
        await desk.type("<f2>")
        await desk.type("<f4>")
        await desk.type("<enter>")
        await desk.sees("The record is written", at="Toast")
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
    async with at_the_desk(size, session=sitting(answers, "client.name")) as desk:
        await desk.sees(name, at="#heading")
        await desk.sees("[red]y", at="#editor")
        await desk.sees("+ Name Zed[/] [@", at="#outline")
        no_escape(desk)
        await desk.type("<f2>")
        await desk.sees(name, at="#answers")
        no_escape(desk)
        await desk.type("<f3>")
        await desk.sees("Stop", at="#verdict")
        no_escape(desk)
        await desk.type("<pageup>")
        await desk.type("<pageup>")
        await desk.type("Kim[/]<enter>")
    async with at_the_desk(size) as desk:
        await desk.sees("Go on with Kim[/]")
        no_escape(desk)


def no_escape(desk: Desk) -> None:
    for strip in desk.app.screen._compositor.render_strips():
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
        async with at_the_desk(size, session=demo("hanna")) as desk:
            await desk.type("<f3>")
            await desk.sees("[X] Stop: no oxidative colour", "X Stop")
            screens.append(desk.screen)
        monkeypatch.delenv(variable)
    assert len(set(screens)) == 1


@pytest.mark.parametrize("verdict", Verdict)
def test_every_verdict_has_a_word_and_a_mark_of_its_own(verdict: Verdict) -> None:
    assert verdict.title
    assert set(MARKS) == set(STYLES) == set(Verdict)
    assert list(MARKS.values()).count(MARKS[verdict]) == 1


async def test_what_is_not_settled_is_never_called_clear() -> None:
    async with at_the_desk(session=sitting(sound({"scalp.signs": None}), "scalp.signs", keep=False)) as desk:
        assert not consult(desk.answers, NOW).judgement.settled
        await desk.sees("still open:", "question", at="#gate")
        assert "Clear" not in desk.read("#gate")
        await desk.type("<f3>")
        await desk.sees("Not settled yet", at="#verdict")
        assert "Clear" not in desk.read("#verdict")


async def test_help_opens_over_every_page_and_closes_again() -> None:
    async with at_the_desk(session=demo("ines")) as desk:
        for keys in ("", "<f3>", "<pageup>", "<pageup>"):
            await desk.type(keys)
            page = desk.page
            await desk.type("<f1>")
            await desk.sees("Keys", "undo the last answer", at="HelpWindow #text")
            await desk.type("<f1>")
            assert desk.page == page


async def test_an_error_inside_a_page_is_one_line_with_the_draft_kept(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fails(*_: object) -> None:
        zzsecretzz = "Ines is pregnant"
        raise KeyError(zzsecretzz)

    app = ConsultApp(session=Session())
    async with app.run_test(size=SMALL) as pilot:
        desk = Desk(app, pilot)
        await desk.settle()
        await desk.type("Ines<enter>")
        monkeypatch.setattr(result, "report", fails)
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
