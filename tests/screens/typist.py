"""Somebody at the keyboard who knows every answer and takes the shortest way to it, by what stands on the screen."""

from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from consult.answers import Answers
from consult.answers.access import entries, get
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.paths import AnswerPath
from consult.answers.product import Product
from consult.answers.questions import Kind
from consult.interview.pages import interview, page_of
from consult.interview.reading import readings
from consult.interview.rows import NONE_KEY, UNSURE_KEY, Add, Option, Row, Usual
from consult.screens.wizard import WizardPage
from consult.widgets.form import Form
from tests.screens.driver import Driver

ENTER = "<enter>"


@dataclass
class Typed:
    """What was typed: the number of keys, and what stood on the screen when one was pressed."""

    keys: int = 0
    pages: set[tuple[str, ...]] = field(default_factory=set)
    asked: list[AnswerPath] = field(default_factory=list)


async def type_all(driver: Driver, wanted: Answers, *, pick_product: Product | None = None) -> Typed:
    """Answer every question of the wizard as `wanted` has it, until the review stands there.

    A product that is `pick_product` is picked from those that are known.
    """
    typed = Typed()
    while driver.page != "ReviewPage":
        if driver.page == "StopNotice":
            await press(driver, typed, "3")
            continue
        assert driver.page == "WizardPage", driver.screen
        rows = _rows(driver)
        row = next(row for row in rows if row.path == driver.position)
        typed.pages.add(tuple(row.path for row in rows))
        typed.asked.append(row.path)
        before = driver.position, driver.answers
        for keys in _keys(row, rows, wanted, driver.answers, pick_product, driver.session.now()):
            await press(driver, typed, keys)
        while page_of(row.path).ticks and driver.page == "WizardPage" and driver.position == before[0]:
            await press(driver, typed, NONE_KEY)  # the rest of the signs had to be shown first
        after = (driver.position, driver.answers) if driver.page == "WizardPage" else None
        assert before != after, f"{row.path} stays: {driver.screen}"
    return typed


async def press(driver: Driver, typed: Typed, keys: str) -> None:
    typed.keys += len(driver.keys_of(keys))
    await driver.type(keys)


def _rows(driver: Driver) -> tuple[Row, ...]:
    page = driver.app.screen
    assert isinstance(page, WizardPage)
    return tuple(page.query_one(Form).rows)


def _keys(
    row: Row,
    rows: tuple[Row, ...],
    wanted: Answers,
    given: Answers,
    pick_product: Product | None,
    now: datetime,
) -> list[str]:
    """The shortest keys for the row in hand."""
    value = get(wanted, row.path)
    if page_of(row.path).ticks:
        return _ticks(rows, wanted)
    if row.kind is Kind.ENTRIES:
        return _entries(row, wanted, given)
    if value is None:
        return ["<tab>" if row.needed else ENTER]
    if row.path == "product.kind" and pick_product is not None:
        return [_option(row, pick_product).key]
    if value == NOT_SURE:
        return [UNSURE_KEY]
    if row.same is not None and row.same == value:
        return ["="]
    if row.typed:
        usual = [
            o for o in row.options if isinstance(o.value, Usual) and _reads_as(o.value.text, row, value, now)
        ]
        return [usual[0].key] if usual else [text_of(row, value, now) + ENTER]
    if row.kind is Kind.SEVERAL:
        return [*(_option(row, one).key for one in value), ENTER] if value else [NONE_KEY]
    return [_option(row, value).key]


def _ticks(rows: tuple[Row, ...], wanted: Answers) -> list[str]:
    """Tick what is there, say what is not sure, then none of the rest."""
    keys: list[str] = []
    for row in rows:
        value = get(wanted, row.path)
        if value == NOT_SURE:
            assert row is rows[0], "only the sign in hand"
            keys.append(UNSURE_KEY)
            continue
        if value is None or value == interview().none[row.path]:
            continue
        ticked = value if isinstance(value, tuple) else (value,)
        keys += [option.key for one in ticked if not (option := _option(row, one)).ticked]
    return [*keys, NONE_KEY]


def _entries(row: Row, wanted: Answers, given: Answers) -> list[str]:
    there, all_of_them = entries(given, row.path), entries(wanted, row.path)
    if len(there) < len(all_of_them):
        habit = interview().habit.get(row.path)
        many = habit is not None and getattr(all_of_them[len(there)], habit) == "yes"
        return [_option(row, Add(habit=many)).key]
    return [NONE_KEY]


def _option(row: Row, value: Any) -> Option:
    return next(option for option in row.options if option.value == value)


def _reads_as(text: str, row: Row, value: Any, now: datetime) -> bool:
    return [reading.value for reading in readings(row.question, text, now)] == [value]


def text_of(row: Row, value: Any, now: datetime) -> str:
    """As short as somebody would type it."""
    if isinstance(value, datetime):
        hours, rest = divmod((now - value).total_seconds(), 3600)
        return f"{hours:.0f}h" if not rest else f"{value:%Y-%m-%d %H:%M}"
    if isinstance(value, date):
        weeks, rest = divmod((now.date() - value).days, 7)
        return f"{weeks}w" if not rest else f"{value:%Y-%m-%d}"
    return format_answer(row.question, value, unit=False)
