"""One whole consultation with the keyboard alone, from an empty start to a written record."""

from pathlib import Path

import pytest

from consult import session as session_module
from consult.answers.access import answer_paths, get
from consult.answers.base import NOT_SURE
from consult.answers.questions import question_of, section_titles
from consult.records.codec import read_file
from tests.baseline import NOW
from tests.screens.driver import LARGE, SMALL, driven

NONE = "<end><up><enter>"
KEYS = {
    # Client
    "client.name": ("Ines<enter>", "Ines"),
    "client.age": ("41<enter>", 41),
    "client.applied_by": ("3", "myself at home"),
    "client.gloves": ("1", "yes"),
    # Health
    "health.ever_reacted": ("3", "no"),
    "health.black_henna": ("1", "never"),
    "health.allergies": (NONE, ()),
    "health.pregnancy": ("1", "neither"),
    "health.treatments": (NONE, ()),
    "health.medicines": ("2<enter>", ("medicine that makes skin sensitive",)),
    "health.asthma": ("3", NOT_SURE),
    "health.skin_conditions": ("<space><down><down><space><enter>", None),
    "health.skin_active": ("2", "no"),
    "health.works_with_colour": ("2", "no"),
    "health.doctor_allows": ("<pagedown>", None),
    # Scalp
    "scalp.signs": (NONE, ()),
    "scalp.scratched": ("<down><enter>", "no"),
    "scalp.washed": ("2", "no"),
    # History: two services, then nothing more
    "history.services": ("1", None),
    "history.services.0.kind": ("1", "permanent colour"),
    "history.services.0.on": ("2026-10-14<enter>", None),
    "history.services.0.stretch": ("2", "new growth and lengths"),
    "history.services.0.depth": ("5<enter>", 5.0),
    "history.services.0.tone": ("4", "gold"),
    "history.services.0.developer_percent": ("20 vol<enter>", 6.0),
    "history.services.0.by": ("2", "at home"),
    "history.services.1.kind": ("<end><up><up><enter>", "relaxer, thio"),
    "history.services.1.on": ("12 weeks ago<enter>", None),
    "history.services.1.stretch": ("1", "new growth"),
    "history.services.1.by": ("1", "a salon"),
    "history.known_months": ("36<enter>", 36),
    "history.washes_per_week": ("3<enter>", 3.0),
    "history.needs_correction": ("2", "no"),
    # Hair
    "hair.length_cm": ("12 in<enter>", 30.48),
    "hair.cut": ("<pagedown>", None),
    "hair.density": ("2", "normal"),
    "hair.thickness": ("1", "fine"),
    "hair.curl": ("<pagedown>", None),
    "hair.porosity_root": ("2", "normal"),
    "hair.porosity_lengths": ("3", "high"),
    "hair.porosity_ends": ("3", "high"),
    "hair.attached": ("2", "no"),
    "hair.sheen": ("2", "no"),
    "hair.hard_water": ("2", "no"),
    "hair.wet_stretch": ("1", "returns"),
    "hair.natural_depth": ("5,5<enter>", 5.5),
    "hair.white_front": ("60<enter>", 60.0),
    "hair.white_temples": ("60 %<enter>", 60.0),
    "hair.white_crown": ("25<enter>", 25.0),
    "hair.white_nape": ("?<enter>", NOT_SURE),
    "hair.white_resists": ("2", "no"),
    "hair.new_growth_cm": ("15 mm<enter>", 1.5),
    "hair.lengths_depth": ("5.5<enter>", 5.5),
    "hair.lengths_tone": ("4", "gold"),
    "hair.ends_depth": ("6<enter>", 6.0),
    "hair.ends_tone": ("<pagedown>", None),
    "hair.lengths_look": ("3", "uneven"),
    # Goal
    "goal.depth": ("5<enter>", 5.0),
    "goal.tone": ("4", "gold"),
    "goal.white": ("1", "cover"),
    "goal.extent": ("2", "whatever is needed"),
    "goal.upkeep": ("2", "every 5 to 8 weeks"),
    "goal.areas": ("1<enter>", ("scalp hair",)),
    # Product
    "product.kind": ("1", "retail kit"),
    "product.colour_class": ("1", "permanent"),
    "product.name": ("Amberley colour kit<enter>", "Amberley colour kit"),
    "product.shade": ("?<enter>", NOT_SURE),
    "product.depth": ("5<enter>", 5.0),
    "product.tone": ("4", "gold"),
    "product.pack": (NONE, ()),
    "product.professional_only": ("2", "no"),
    "product.chart_from": ("4<enter>", 4.0),
    "product.chart_to": ("7<enter>", 7.0),
    "product.white_claim": ("1", "full cover"),
    "product.developer_percent": ("6<enter>", 6.0),
    "product.ratio": ("1:1.5<enter>", 1.5),
    "product.named_together": ("1", "yes"),
    "product.minutes_new_growth": ("30<enter>", 30.0),
    "product.minutes_white": ("30 min<enter>", 30.0),
    "product.minutes_refresh": ("5<enter>", 5.0),
    "product.minutes_min": ("25<enter>", 25.0),
    "product.minutes_max": ("35<enter>", 35.0),
    "product.counted_from": ("1", "the end of application"),
    "product.minutes_total": ("<enter>", None),
    "product.mix_minutes": ("<enter>", None),
    "product.first_time_order": ("<pagedown>", None),
    "product.pack_ml": ("4 fl oz<enter>", 118.29),
    "product.price": ("<enter>", None),
    "product.age_limit": ("16<enter>", 16),
    "product.test_hours": ("48<enter>", 48),
    "product.contains_ammonia": ("2", "no"),
    "product.ppd_percent": ("<enter>", None),
    "product.toluenediamine_percent": ("<enter>", None),
    "product.resorcinol_percent": ("<enter>", None),
    "product.ammonia_percent": ("<enter>", None),
    # Tests
    "allergy_test.done": ("1", "yes"),
    "allergy_test.same_product": ("1", "yes"),
    "allergy_test.product": ("<enter>", None),
    "allergy_test.site": ("1", "behind the ear"),
    "allergy_test.masked": ("2", "no"),
    "allergy_test.applied_at": ("49 hours ago<enter>", None),
    "allergy_test.first_read_at": ("2 days ago 9:30<enter>", None),
    "allergy_test.first_signs": ("8<enter>", ()),
    "allergy_test.second_read_at": ("today 9:45<enter>", None),
    "allergy_test.second_signs": ("7<enter>", ("only a stain",)),
    "strand_test.done": ("2", "no"),
    "incompatibility_test.result": ("1", "not done"),
}
"""Path -> (the keys pressed, the answer that stands in the record; None where it is checked apart)."""
LEFT_OPEN = ("<pagedown>", None)
"""For optional questions that the table does not name."""


@pytest.mark.parametrize("size", [SMALL, LARGE], ids=["80x24", "120x40"])
async def test_typed_with_the_keyboard_and_read_back_from_the_record(
    size: tuple[int, int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(session_module, "clock", lambda: NOW)
    record = tmp_path / "record.toml"
    async with driven(size) as driver:
        await driver.type("2")
        await driver.type("1")
        asked = []
        while driver.page == "WizardPage":
            path = driver.position
            keys, _ = KEYS.get(path, LEFT_OPEN)
            if path == "history.services":
                keys = "2" if "history.services.1.by" in asked else "1"
            asked.append(path)
            await driver.sees(question_of(path).plain, at="#question")
            if not any(before.startswith(path.split(".")[0]) for before in asked[:-1]):
                await driver.sees(section_titles()[path.split(".")[0]], at="#heading")
                await driver.sees("PgUp back", at="#keys")
            await driver.type(keys)
            assert (driver.page, driver.position) != ("WizardPage", path), driver.screen
        assert driver.page == "ReviewPage"
        assert "NOT ASKED" not in driver.screen
        await driver.type("<f4>")
        await driver.type(f"{record}<enter>")
        await driver.sees("The record is written", at="Toast")

    loaded = read_file(record, NOW)
    assert set(asked) == set(answer_paths(loaded.answers)) >= set(KEYS)
    assert all(question_of(path).optional for path in set(asked) - set(KEYS))
    for path, (keys, answer) in KEYS.items():
        found = get(loaded.answers, path)
        if answer is not None:
            assert found == answer, path
        elif keys in ("<pagedown>", "<enter>"):
            assert found is None, path
    assert loaded.answers.health.skin_conditions == ("eczema or dermatitis", "seborrhoeic dermatitis")
    assert [str(service.on) for service in loaded.answers.history.services] == ["2026-10-14", "2026-09-02"]
    test = loaded.answers.allergy_test
    assert [str(at)[:16] for at in (test.applied_at, test.first_read_at, test.second_read_at)] == [
        "2026-11-23 09:00",
        "2026-11-23 09:30",
        "2026-11-25 09:45",
    ]
    assert loaded.consulted_at == NOW
