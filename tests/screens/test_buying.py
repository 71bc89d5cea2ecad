"""Before buying: nothing is asked of a product, the card and the packs are those of the command line."""

import json
from pathlib import Path

import pytest

from consult import session as session_module
from consult.answers import Answers
from consult.answers.health import Health
from consult.answers.product import Product
from consult.cli import main
from consult.interview import intake as steps
from consult.records.codec import read_file, read_shelf
from consult.records.demos import demo_folder
from consult.records.drafts import offered
from consult.records.wanted import Purpose
from consult.report.advice import blocks_data
from consult.report.comparison import comparison_table
from consult.screens.blocks_page import BlocksPage
from consult.screens.buy import CardPage
from consult.session import Session
from consult.trade import Voice
from tests.baseline import NOW, baseline
from tests.screens.driver import LARGE, SMALL, Driver, driven, sitting
from tests.screens.typist import type_all

FOLDER = demo_folder() / "before_buying"
PEOPLE = sorted(FOLDER.glob("[0-9]*.toml"))
CANDIDATES = FOLDER / "candidates.toml"


def in_a_shop(answers: Answers, **options: object) -> Session:
    session = sitting(answers, steps.REVIEW, **options)
    session.purpose = Purpose.BUY
    return session


def birte(**options: object) -> Session:
    return in_a_shop(read_file(PEOPLE[0], NOW).answers, **options)


def shown(driver: Driver) -> object:
    page = driver.app.screen
    assert isinstance(page, BlocksPage)
    return blocks_data(page.blocks())


@pytest.mark.parametrize("file", PEOPLE, ids=lambda file: file.stem)
async def test_the_demo_people_get_the_card_and_the_year_of_the_command_line(
    file: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    loaded = read_file(file, NOW)
    monkeypatch.setattr(session_module, "clock", lambda: loaded.consulted_at)
    told = []
    for options in ([], ["--year"]):
        main(["buy", "--json", *options, str(file)])
        told.append(json.loads(capsys.readouterr().out)["blocks"])
    async with driven() as driver:
        await driver.type("232")
        await driver.type(f"{file}<enter>")
        await driver.type("<f3>")
        assert shown(driver) == told[0]
        await driver.type("y")
        assert shown(driver) == told[1]
        await driver.type("<escape><escape>")
        assert driver.page == "ReviewPage"
        assert "Product" not in driver.screen


async def test_a_new_head_is_asked_nothing_of_a_product_and_gets_its_card(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    loaded = read_file(PEOPLE[0], NOW)
    monkeypatch.setattr(session_module, "clock", lambda: loaded.consulted_at)
    async with driven() as driver:
        await driver.type("231")
        typed = await type_all(driver, loaded.answers)
        assert not [path for path in typed.asked if path.startswith(steps.OF_A_PRODUCT)]
        assert "NOT ASKED" not in driver.screen
        await driver.sees("Clear: nothing speaks against it", at="#gate")
        await driver.type("<f3>")
        await driver.sees("For this head only", at="#verdict")
        await driver.sees("Kind: permanent", "Shade, as a number: best 5 (light brown) gold", at="#lines")
    assert [draft.purpose for draft in offered().drafts] == [Purpose.BUY]
    async with driven() as driver:
        await driver.type("22")
        assert driver.session.purpose is Purpose.BUY
        assert not [path for path in driver.session.intake.order if path.startswith(steps.OF_A_PRODUCT)]


async def test_a_consultation_that_was_begun_gets_there_and_back() -> None:
    answers = baseline().model_copy(update={"product": Product()})
    async with driven(session=sitting(answers, "product.kind", voice=Voice.HOME)) as driver:
        await driver.sees("No product yet what to look for in the shop")
        key = next(line for line in driver.rows if "No product yet" in line).split()[0]
        await driver.type(key)
        assert driver.session.purpose is Purpose.BUY
        assert not driver.position.startswith(steps.OF_A_PRODUCT)
        await driver.type("<f3>")
        assert driver.page == "CardPage"
        await driver.type("p")
        assert (driver.page, driver.position) == ("WizardPage", "allergy_test.done")
        assert driver.session.purpose is Purpose.COLOUR


async def test_who_must_not_be_coloured_is_told_to_buy_nothing_on_every_page() -> None:
    loaded = read_file(PEOPLE[0], NOW)
    reacted = loaded.answers.health.model_copy(update={"ever_reacted": "yes"})
    assert isinstance(reacted, Health)
    session = in_a_shop(loaded.answers.model_copy(update={"health": reacted}), shelf=read_shelf(CANDIDATES))
    async with driven((80, 50), session=session) as driver:
        await driver.type("<f3>")
        await driver.sees("Buy nothing yet", at="#verdict")
        await driver.sees("Buy nothing now", "You have reacted to hair colour", at="#lines")
        assert "Kind:" not in driver.screen
        await driver.type("c<f3>")
        assert driver.page == "ComparisonPage"
        await driver.sees("You have reacted to hair colour", at="#lines")
        assert "works" not in driver.screen
        await driver.type("<escape><escape>y")
        await driver.sees("no plan for the first colouring", at="#lines")


@pytest.mark.parametrize(("size", "count"), [(SMALL, 3), (LARGE, 4)])
async def test_the_packs_of_the_shelf_stand_side_by_side(size: tuple[int, int], count: int) -> None:
    names = ("Amberley colour", "Corvane cream", "Selkie gloss", "Northlight")
    async with driven(size, session=birte(shelf=read_shelf(CANDIDATES))) as driver:
        await driver.type("<f3>c")
        await driver.sees("[x] Corvane cream", "[x] Northlight")
        await driver.type("<f3>")
        for name in names[:count]:
            await driver.sees(name, at="#packs-in-sight")
        assert all(name not in driver.read("#packs-in-sight") for name in names[count:])
        await driver.sees("+ works", "? perhaps", "X does not work", "% covered", at="#lines")
        await driver.sees("Why:", "Source:", at="#why")
        await driver.type("<right>")
        await driver.sees("Northlight", at="#packs-in-sight")
        await driver.type("<left>")
        await driver.sees("Amberley colour", at="#packs-in-sight")


async def test_packs_are_ticked_and_typed_and_two_are_needed() -> None:
    async with driven(session=birte()) as driver:
        await driver.type("<f3>c")
        await driver.sees("no pack is known yet: press a")
        await driver.type("<f3>")
        await driver.sees("tick at least 2")
        await driver.type("a")
        await driver.type("Corvane<enter>light golden brown<enter>11<tab><tab>1<tab><tab>6.50<enter>")
        await driver.sees("1 [x] Corvane light golden brown permanent")
        await driver.type("a")
        await driver.type("Northlight<enter>ash 7<enter>117<enter>2<tab><tab><tab><tab>")
        await driver.sees("2 [x] Northlight ash 7 permanent, depth 7")
        await driver.type("2")
        await driver.sees("2 [ ] Northlight")
        await driver.type("2<f3>")
        await driver.sees("Corvane light", "Northlight ash 7", at="#packs-in-sight")
        await driver.sees("? perhaps", "X does not work", at="#lines")
        assert [pack.name for pack in driver.session.candidates] == ["Corvane", "Northlight"]
        await driver.type("<escape><escape><escape><escape>")
    async with driven() as driver:
        await driver.type("22<f3>c")
        await driver.sees("1 [x] Corvane", "2 [x] Northlight")


async def test_the_card_is_written_as_the_command_line_prints_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["buy", str(PEOPLE[0])])
    printed = capsys.readouterr().out
    path = tmp_path / "card.txt"
    loaded = read_file(PEOPLE[0], NOW)
    session = birte()
    session.at = loaded.consulted_at
    async with driven(session=session) as driver:
        await driver.type("<f3><f4>")
        await driver.type(f"{path}<enter>")
        await driver.sees("The card is written", at="Toast")
    assert path.read_text("utf-8") == printed
    assert max(map(len, printed.splitlines())) <= 44
    assert "Birte" not in printed


def test_beside_a_refusal_no_cover_is_promised_and_every_row_has_a_reason_and_a_source() -> None:
    from consult.buying.compare import compare

    loaded = read_file(PEOPLE[0], NOW)
    assert loaded.consulted_at
    found = compare(loaded.answers, read_shelf(CANDIDATES), loaded.consulted_at)
    for one in found.candidates:
        assert (one.cover is None) == (one.against is not None)
        assert one.cover is None or 0.5 < one.cover <= 1
    for voice in Voice:
        for row in comparison_table(found, voice):
            assert row.because
            assert row.cited
            assert len(row.cells) == len(found.candidates)


def test_a_card_page_keeps_the_keys_of_the_program() -> None:
    assert {"F9", "F1", "Ctrl+Q"} <= {key.name for key in CardPage.KEYS}
