"""The result as it is looked at, and the way from each of its sentences to the answers behind it."""

from pathlib import Path

import pytest
from textual.widgets import Input

from consult.consultation import consult
from consult.plan.types import Held, Made
from consult.records.codec import read_file
from consult.records.demos import demo_files
from consult.report import report
from consult.trade import Voice
from consult.widgets.part import PartView
from tests.baseline import NOW, baseline
from tests.screens.driver import LARGE, SMALL, Driver, demo, driven, sitting

SIZES = pytest.mark.parametrize("size", [SMALL, LARGE, (160, 50)], ids=["80x24", "120x40", "160x50"])


def cut(driver: Driver) -> list[str]:
    """Texts of the page that do not stand on it whole: those that reach beyond what can be scrolled to."""
    parts = driver.app.screen.query_one("#parts")
    return [
        view.part.key for view in driver.app.screen.query(PartView) if view.region.right > parts.region.right
    ]


@SIZES
@pytest.mark.parametrize("name", ["ines", "thea", "odile", "sunniva"])
async def test_a_made_plan_shows_what_when_where_and_what_of_without_a_key(
    name: str, size: tuple[int, int]
) -> None:
    async with driven(size, session=demo(name, Voice.STYLIST)) as driver:
        await driver.type("<f3>")
        found = driver.session.consultation()
        assert isinstance(found.plan, Made)
        await driver.sees("Verdict", "Colour", "today", "afterwards", "goal", "Head", "start:", "Buy and mix")
        await driver.sees("Burning, itching, swelling: rinse at once", "emergency number", at="#danger")
        assert cut(driver) == []


@pytest.mark.parametrize("name", sorted(demo_files()))
async def test_on_a_small_window_verdict_strand_head_bowls_and_clock_of_a_plain_case_stand_at_once(
    name: str,
) -> None:
    """Whatever does not stand there at once can be scrolled to; a plan of one product for one head stands whole."""
    async with driven(SMALL, session=demo(name, Voice.STYLIST)) as driver:
        await driver.type("<f3>")
        found = driver.session.consultation()
        if (
            isinstance(found.plan, Made)
            and len(found.plan.mixes) == 1
            and not found.answers.goal.lengths_product
        ):
            await driver.sees("never later", at="#clock")
        else:
            await driver.sees("Verdict", at="#parts")


async def test_what_holds_it_is_told_as_what_to_do_and_when_to_come_back_before_its_reason() -> None:
    async with driven(session=demo("dagny", Voice.HOME)) as driver:
        await driver.type("<f3>")
        assert isinstance(driver.session.consultation().plan, Held)
        said = driver.read("#do")
        finding = driver.session.consultation().findings[0]
        assert said.index(finding.remedy[:30]) < said.index(finding.plain[:30])
        assert "Coming back: From Thu 26 Nov 2026, 04:00 on" in said
        assert "F8" not in driver.read("#keys"), "nothing is put on"
        assert "+ and -" not in driver.screen


async def test_a_wait_names_its_day_above_and_as_the_day_to_come_back_and_repeats_neither() -> None:
    async with driven(session=demo("mirela", Voice.HOME)) as driver:
        await driver.type("<f3>")
        assert driver.screen.count("Fri 27 Nov 2026, 10:00") == 2
        await driver.sees("Wait until Fri 27 Nov 2026, 10:00: the allergy alert test", at="#verdict")
        said = driver.read("#do")
        assert "Wait: " not in said
        assert "The skin test with this very product has not been made yet" in said


@pytest.mark.parametrize("name", ["mirela", "carmen", "nuria", "hanna"])
async def test_what_to_do_opens_the_reasons_also_where_something_stands_before_them(name: str) -> None:
    session = demo(name, Voice.TRAINER)
    async with driven(LARGE, session=session) as driver:
        await driver.type("<f3>")
        session.before = session.consultation()
        await driver.click("Do now")
        await driver.sees("Why", at="#lines")
        assert driver.read("#lines").startswith("Why")


async def test_the_smallest_heads_say_from_where_they_are_looked_at() -> None:
    async with driven(SMALL, session=demo("ines", Voice.HOME)) as driver:
        await driver.type("<f3>")
        await driver.sees("top", "back", at="#head")
        await driver.resize(*LARGE)
        await driver.sees("from above", "from behind", at="#head")


async def test_the_clock_runs_from_a_start_that_can_be_moved() -> None:
    async with driven(session=demo("ines", Voice.STYLIST)) as driver:
        await driver.type("<f3>")
        # Judged at 10:00: ten minutes to mix, then the next quarter of an hour.
        await driver.sees("10:15", "11:19 RINSE", at="#clock")
        await driver.type("+++")
        await driver.sees("10:30", "11:34 RINSE", at="#clock")
        await driver.type("--------")
        await driver.sees("09:50", "10:54 RINSE", at="#clock")


async def test_a_part_opens_its_lines_by_enter_by_its_number_and_by_a_click() -> None:
    async with driven(session=demo("ines", Voice.STYLIST)) as driver:
        await driver.type("<f3>5")
        assert driver.page == "LinesPage"
        await driver.sees("Step by step", "1. Stinging", at="#lines")
        await driver.type("<escape><down><enter>")
        assert driver.page == "LinesPage"
        await driver.type("<escape>")
        await driver.click("Buy and mix")
        assert driver.page == "LinesPage"
        await driver.sees("1 pack, mixed as the leaflet says", at="#lines")


async def test_from_a_finding_to_its_source_its_answers_and_the_question_and_back_to_the_line() -> None:
    async with driven(session=demo("elif", Voice.STYLIST)) as driver:
        await driver.type("<f3>l<enter>")
        await driver.sees("Source:", "It rests on these answers", "Goal depth", at="BehindWindow .window")
        await driver.type("1")
        assert driver.page == "WizardPage"
        assert driver.position in driver.session.consultation().findings[0].evidence
        await driver.type("<tab>")
        assert driver.pages[-2:] == ["ResultPage", "LinesPage"]


async def test_a_sentence_of_the_plan_rests_on_the_answers_that_change_it() -> None:
    """Where to stop is where the new growth ends: the sentence rests on its length in cm."""
    async with driven(LARGE, session=demo("ines", Voice.STYLIST)) as driver:
        await driver.type("<f3>3")
        lines = [
            row.say for block in report(driver.session.consultation(), Voice.STYLIST) for row in block.rows
        ]
        begins, stops = (
            next(n for n, say in enumerate(lines) if words in say) for words in ("Divide", "Stop at the line")
        )
        await driver.type("<down>" * (stops - begins) + "<enter>")
        await driver.sees("Stop at the line of demarcation, 1.5 cm", at="BehindWindow #text")
        await driver.app.workers.wait_for_complete([w for w in driver.app.workers if w.name == "_look"])
        await driver.sees("It rests on these answers", "New growth 1.5 cm", at="BehindWindow .window")


async def test_a_class_is_told_what_the_last_answer_changed() -> None:
    async with driven(LARGE, session=sitting(baseline(), "client.age", voice=Voice.TRAINER)) as driver:
        await driver.type("<f3>")
        assert "Changed" not in driver.screen
        await driver.type("<escape>15<enter>1")
        await driver.sees("Changed", "Age:", "-> 15", "Stop", at="#changed")
        await driver.type("2")
        await driver.sees("Since the result before", at="#lines")


def test_other_wishes_are_told_with_their_value_and_hold_when_they_are_taken() -> None:
    from consult.answers.access import with_answer
    from consult.otherwise import wishes

    loaded = read_file(demo_files()["elif"], NOW)
    assert loaded.consulted_at
    found = consult(loaded.answers, loaded.consulted_at)
    (way,) = wishes(found)
    assert way.changes[0] == ("goal.depth", "2.5 to 3.5")
    for depth, mixed in ((2.0, False), (2.5, True), (3.5, True), (4.0, False)):
        answers = loaded.answers
        for path, _ in way.changes:
            answers = with_answer(answers, path, depth)
        assert isinstance(consult(answers, loaded.consulted_at).plan, Made) is mixed, depth


@pytest.mark.parametrize(
    ("moves", "ending", "told"),
    [("<down>", ".html", "pregnancy"), ("<down><down>", ".client.html", ""), ("<up>", ".txt", "Pregnancy")],
)
async def test_the_working_sheet_is_written_from_the_result_with_the_start_that_was_set(
    tmp_path: Path, moves: str, ending: str, told: str
) -> None:
    async with driven(LARGE, session=demo("ines", Voice.STYLIST)) as driver:
        await driver.type("<f3>+<f4>")
        await driver.type(moves)
        field = driver.app.screen.query_one(Input)
        assert field.value.endswith(ending)
        field.value = ""
        await driver.type(f"{tmp_path / f'sheet{ending}'}<enter>")
        await driver.sees("Written:", at="Toast")
        assert driver.page == "ResultPage"
    text = (tmp_path / f"sheet{ending}").read_text("utf-8")
    assert "10:20" in text
    assert ("pregnancy" in text.lower()) is bool(told)


async def test_a_window_of_no_room_takes_nothing_away_and_ends_nothing() -> None:
    async with driven(session=demo("ines", Voice.STYLIST)) as driver:
        await driver.type("<f3>")
        before = driver.screen
        for size in ((1, 1), (20, 6), (58, 3), (80, 24)):
            await driver.resize(*size)
        assert driver.screen == before


async def test_a_key_typed_ahead_behind_a_line_waits_for_its_answers() -> None:
    """As slow hands would have it: the first answer behind the first sentence is opened."""
    places = []
    for slowly in (True, False):
        async with driven(session=demo("ines", Voice.STYLIST)) as driver:
            await driver.type("<f3>2<enter>" if slowly else "<f3>2<enter>1")
            if slowly:
                await driver.sees("It rests on these answers", at="BehindWindow .window")
                await driver.type("1")
            places.append((driver.page, driver.position))
    assert places[0] == places[1]
    assert places[0][0] == "WizardPage"


async def test_a_verdict_stands_once_and_a_class_is_told_the_rule_beside_its_reason() -> None:
    for voice, words in (
        (Voice.HOME, "You have reacted"),
        (Voice.TRAINER, "reaction-to-colour: Reaction after"),
    ):
        async with driven(session=demo("hanna", voice)) as driver:
            await driver.type("<f3>")
            await driver.sees("Stop: no colour", words, at="#parts")
            assert "no colour: " not in driver.read("#do")


def test_what_hangs_on_an_entry_of_a_list_is_told_without_a_value() -> None:
    from consult.otherwise import facts
    from tests.gates.heads import random_head

    found = [consult(random_head(number), NOW) for number in range(60)]
    told = [change for one in found for way in facts(one) for change in way.changes]
    inside = [words for path, words in told if path.startswith("history.services.")]
    assert inside
    assert set(inside) == {""}
