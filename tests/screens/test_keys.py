"""What a page's table of keys says is what the keys do."""

import pytest

from consult.screens.app import ConsultApp
from consult.screens.buy import CardPage, YearPage
from consult.screens.chart import ChartPage
from consult.screens.comparison import ComparisonPage
from consult.screens.emergency import EmergencyPage
from consult.screens.lines import LinesPage
from consult.screens.packs import PackPage, PacksPage
from consult.screens.page import Page
from consult.screens.result import ResultPage
from consult.screens.review import ReviewPage
from consult.screens.start import StartPage
from consult.screens.wizard import WizardPage
from consult.screens.wrong import AdvicePage, WrongPage
from tests.baseline import baseline
from tests.screens.driver import SMALL, driven, sitting

PAGES: list[type[Page]] = [
    *(
        StartPage,
        WizardPage,
        ReviewPage,
        ResultPage,
        LinesPage,
        ChartPage,
        EmergencyPage,
        WrongPage,
        AdvicePage,
    ),
    *(CardPage, YearPage, PacksPage, PackPage, ComparisonPage),
]


@pytest.mark.parametrize("page", PAGES)
def test_every_key_of_a_table_leads_to_an_action_that_exists(page: type[Page]) -> None:
    for key in page.KEYS:
        for _, action in key.binds:
            name = action.partition("(")[0]
            owner, _, bare = name.rpartition(".")
            assert hasattr(ConsultApp if owner else page, f"action_{bare}"), (page, action)


@pytest.mark.parametrize("page", PAGES)
def test_no_key_of_a_page_has_two_meanings_and_each_is_told(page: type[Page]) -> None:
    bound = [name for key in page.KEYS for names, _ in key.binds for name in names.split(",")]
    assert len(bound) == len(set(bound))
    assert {"f1", "ctrl+q"} <= set(bound)
    assert all(key.help for key in page.KEYS)


@pytest.mark.parametrize("page", PAGES)
def test_the_key_line_fits_a_small_window(page: type[Page]) -> None:
    line = "".join(f"{key.short_name} {key.label}  " for key in page.KEYS if key.label)
    assert len(line.strip()) <= SMALL[0] - 2


async def test_the_key_line_shows_the_labels_of_the_page_in_hand() -> None:
    async with driven(session=sitting(baseline(), "client.age")) as driver:
        await driver.sees(
            "Tab leave open Esc back F1 help F9 emergency F2 review F3 result ^Q quit", at="#keys"
        )
        await driver.type("<f2>")
        await driver.sees("Enter change n next open Esc back", at="#keys")
