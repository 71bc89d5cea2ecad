"""What need not be said twice: who sits here, the look, and the products that were used."""

import stat

import pytest

from consult.records.remembered import Remembered, remember, remembered
from consult.records.store import home, save_text
from consult.records.used import MOST_KEPT, products_file, remember_products, used_products
from consult.trade import Voice
from tests.baseline import baseline

PRODUCT = baseline().product


def test_role_and_look_are_remembered_each_by_itself() -> None:
    assert remembered() == Remembered()
    remember(role=Voice.TRAINER)
    remember(theme="light")
    assert remembered() == Remembered(Voice.TRAINER, "light")
    remember(role=Voice.STYLIST)
    assert remembered() == Remembered(Voice.STYLIST, "light")


@pytest.mark.parametrize("text", ["role = 7", 'role = "nobody"', "role = [", "theme = 3", "x" * 100])
def test_a_spoilt_file_is_as_if_nothing_had_been_said(text: str) -> None:
    save_text(home() / "remembered.toml", text)
    assert remembered() == Remembered()


def test_a_disk_that_takes_nothing_costs_no_more_than_the_question(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CONSULT_HOME", "/dev/null/nowhere")
    remember(role=Voice.TRAINER)
    remember_products(PRODUCT)
    assert (remembered(), used_products()) == (Remembered(), ())


def test_a_product_comes_back_with_its_leaflet_and_without_the_pack_in_hand() -> None:
    remember_products(PRODUCT.model_copy(update={"pack": ("opened",)}))
    assert used_products() == (PRODUCT.model_copy(update={"pack": None}),)
    assert stat.S_IMODE(products_file().stat().st_mode) == 0o600


def test_the_last_one_used_comes_first_and_the_same_one_stands_once() -> None:
    for shade in ("5 gold", "6 ash", "5 gold"):
        remember_products(PRODUCT.model_copy(update={"shade": shade}))
    assert [product.shade for product in used_products()] == ["5 gold", "6 ash"]


def test_one_without_a_name_is_not_kept_and_no_more_than_can_be_picked() -> None:
    remember_products(PRODUCT.model_copy(update={"name": None}))
    assert used_products() == ()
    for number in range(MOST_KEPT + 3):
        remember_products(PRODUCT.model_copy(update={"shade": f"shade {number}"}))
    assert len(used_products()) == MOST_KEPT


def test_nothing_of_a_person_is_in_the_file_of_products() -> None:
    remember_products(PRODUCT)
    assert "Alma" not in products_file().read_text("utf-8")
    assert "client" not in products_file().read_text("utf-8")
