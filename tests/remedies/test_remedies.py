"""Each thing that goes wrong: emergency or not, what now, what never; the record afterwards; the tables' audit."""

from datetime import timedelta

import pytest

from consult.answers import Answers
from consult.answers.base import NOT_SURE
from consult.consultation import consult
from consult.files import parse_toml
from consult.gates.conditions import BadRule
from consult.gates.verdict import Verdict
from consult.plan.types import Made, Stopped
from consult.plan.usual import as_if_tested, with_product
from consult.records.codec import read_text
from consult.records.record import dump_record
from consult.remedies.advice import Book, book, read_advice
from consult.remedies.after import grown
from consult.remedies.audit import incomplete, never_said, redundant, unmentioned
from consult.remedies.day import BadDay, DayLog, day_from_data
from consult.remedies.help import Help
from consult.remedies.remedy import levels_off, remedy
from consult.remedies.words import WHATS, WHENS
from consult.salon import config_from_data
from tests.baseline import NOW, baseline
from tests.demo import load
from tests.remedies.days import easy


def said(what: str, part: str = "now", **told: object) -> str:
    found = remedy(load("ines").answers, easy(what, **told), NOW)
    return " ".join(line.say.plain for line in getattr(found, part))


@pytest.mark.parametrize(
    ("what", "help_"),
    [
        ("swallowed", Help.EMERGENCY),
        ("a child got at it", Help.EMERGENCY),
        ("in the eye", Help.DOCTOR_NOW),
        ("itching or a rash", Help.DOCTOR),
        ("gummy or breaking", Help.COLOURIST),
        ("hot roots", Help.COLOURIST),
        ("bands", Help.COLOURIST),
        ("patches", Help.COLOURIST),
        ("too dark", Help.WAIT),
        ("ends grabbed", Help.WAIT),
        ("stained skin or bath", Help.CARE),
    ],
)
def test_how_much_help_each_asks_for(what: str, help_: Help) -> None:
    assert remedy(load("ines").answers, easy(what), NOW).help is help_


def test_first_aid_is_as_the_cited_pages_say() -> None:
    # Longest figure for the eye and the skin 20 min; second adrenaline dose after 5 min; nobody is made to vomit.
    assert "20 minutes" in said("in the eye")
    assert said("in the eye").startswith("Rinse")
    assert "20 minutes" in said("itching or a rash", signs=["blisters or weeping"])
    assert "after 5 minutes" in said("itching or a rash")
    assert "vomit" in said("swallowed", "never")
    assert "112" in said("swallowed")
    assert "poison centre" in said("swallowed")
    assert "age, weight" in said("swallowed", "say")


def test_an_emergency_needs_no_record() -> None:
    found = remedy(Answers(), DayLog(what=("swallowed",)), NOW)
    assert found.help is Help.EMERGENCY
    assert found.now


@pytest.mark.parametrize(
    "sign", ["swelling of face, eyes or scalp", "trouble breathing or faintness", "hives"]
)
def test_a_severe_sign_is_an_emergency_whatever_went_wrong(sign: str) -> None:
    for what in WHATS:
        found = remedy(load("ines").answers, easy(what, signs=[sign]), NOW)
        assert found.help is Help.EMERGENCY, what
        assert "112" in found.now[0].say.plain


def test_signs_that_nobody_can_tell_count_and_signs_nobody_was_asked_for_are_asked() -> None:
    answers = load("ines").answers
    unsure = day_from_data({"what": ["itching or a rash"], "signs": "not sure"})
    assert remedy(answers, unsure, NOW).help is Help.EMERGENCY
    unasked = remedy(answers, DayLog(what=("itching or a rash",)), NOW)
    assert unasked.help is Help.DOCTOR
    assert any("signs" in line.say.plain for line in unasked.ask)


def test_the_numbers_of_the_place_are_a_setting() -> None:
    salon = config_from_data(
        {"settings": {"emergency_number": "911", "poison_centre": "1-800-222-1222"}}, "s"
    )
    found = remedy(Answers(), DayLog(what=("swallowed",)), NOW, salon)
    text = " ".join(line.say.plain for line in found.now)
    assert "911" in text
    assert "1-800-222-1222" in text
    assert "112" not in text


@pytest.mark.parametrize("what", [w for w in WHATS if book().fault(w).family == "colour"])
def test_never_a_second_colour_that_day_and_never_bleach_over_it(what: str) -> None:
    for when in WHENS:
        text = said(what, "never", when=when)
        assert "No second colour on the same day" in text
        assert "No bleach" in text


def test_one_level_is_the_limit_and_unknown_is_beyond_it() -> None:
    answers = load("ines").answers
    for depth, help_ in ((6.0, Help.WAIT), (6.5, Help.COLOURIST), (4.0, Help.WAIT), (3.5, Help.COLOURIST)):
        assert remedy(answers, easy("too dark", lengths_depth=depth), NOW).help is help_, depth
    nobody_read = day_from_data({"what": ["too dark"], "skin": "calm", "signs": []})
    assert levels_off(answers, nobody_read) is None
    assert remedy(answers, nobody_read, NOW).help is Help.COLOURIST


def test_lightened_hair_goes_to_a_colourist_and_so_does_hair_that_nobody_knows() -> None:
    assert remedy(load("rosa").answers, easy("missed white"), NOW).help is Help.COLOURIST
    assert remedy(Answers(), easy("missed white"), NOW).help is Help.COLOURIST
    for answers in (load("rosa").answers, Answers()):
        then = remedy(answers, easy("missed white"), NOW).then
        assert any(line.say.plain.startswith("Lightened hair") for line in then)
    sound = remedy(load("ines").answers, easy("missed white"), NOW).then
    assert not any(line.say.plain.startswith("Lightened hair") for line in sound)


def test_lengths_that_would_get_their_third_pass_are_mended_without_developer() -> None:
    # Every way that the program would make a plan with is tried in its order; the ledger refuses the oxidative one.
    answers = load("ines").answers
    day = easy("bleeds or washes out", stretch="new growth and lengths")
    found = remedy(answers, day, NOW)
    assert found.mend
    assert found.mend.way.product == "direct"
    at = found.mend.at
    goal = found.record.goal.model_copy(update={"extent": "all over"})
    same = grown(found.record, 28, at).model_copy(update={"goal": goal})
    plan = consult(as_if_tested(with_product(same, answers.product), at), at).plan
    assert isinstance(plan, Made)
    assert max(account.passes_after for account in plan.ledger) >= 3


def test_two_faults_at_once_go_to_a_colourist() -> None:
    day = easy("missed white", "too warm")
    found = remedy(load("ines").answers, day, NOW)
    assert found.help is Help.COLOURIST
    assert found.mend is None


def test_missed_white_is_mended_two_weeks_later_not_on_irritated_skin_nor_where_nobody_looked() -> None:
    answers = load("ines").answers
    found = remedy(answers, easy("missed white"), NOW)
    assert found.mend
    assert found.mend.at == NOW + timedelta(days=14)
    assert remedy(answers, easy("missed white", skin="irritated"), NOW).mend is None
    unlooked = easy("missed white").model_copy(update={"skin": None})
    assert remedy(answers, unlooked, NOW).mend is None
    assert any("skin" in line.say.plain for line in remedy(answers, unlooked, NOW).ask)


def test_a_reaction_is_in_the_record_and_stops_the_next_consultation_by_itself() -> None:
    answers = baseline()
    assert consult(answers, NOW).verdict is not Verdict.STOP
    for day in (
        easy("itching or a rash"),
        easy("too dark", skin="irritated"),
        easy("bands", signs=["itching"]),
    ):
        found = remedy(answers, day, NOW)
        assert found.record.health.ever_reacted == "yes"
        next_time = consult(found.record, NOW + timedelta(days=365))
        assert isinstance(next_time.plan, Stopped)
        assert any(f.rule == "reaction-to-colour" for f in next_time.findings)


def test_not_sure_whether_it_was_a_reaction_is_never_no() -> None:
    for told in ({"signs": "not sure"}, {"skin": "not sure"}):
        found = remedy(baseline(), easy("bands", **told), NOW)
        assert found.help >= Help.DOCTOR
        assert found.record.health.ever_reacted == "not sure"
        assert consult(found.record, NOW + timedelta(days=365)).verdict >= Verdict.SEE_DOCTOR
    before = baseline({"health.ever_reacted": "yes", "health.reactions": ()})
    assert remedy(before, easy("bands", skin="not sure"), NOW).record.health.ever_reacted == "yes"


def test_a_scalp_that_was_not_well_in_the_record_is_not_mended() -> None:
    for signs in (("heavy flaking or scaling",), ("redness",)):
        answers = load("ines").answers
        scalp = answers.scalp.model_copy(update={"signs": signs})
        assert remedy(answers.model_copy(update={"scalp": scalp}), easy("missed white"), NOW).mend is None


def test_a_positive_allergy_test_in_the_record_is_not_mended() -> None:
    answers = load("ines").answers
    test = answers.allergy_test.model_copy(update={"second_signs": ("rash",)})
    assert remedy(answers, easy("missed white"), NOW).mend
    assert remedy(answers.model_copy(update={"allergy_test": test}), easy("missed white"), NOW).mend is None


def test_a_reaction_to_another_product_before_becomes_one_to_colour_and_is_kept_beside_it() -> None:
    past = {"to": "another cosmetic", "signs": ("itching",), "year": 2019}
    answers = baseline({"health.ever_reacted": "only to another product", "health.reactions": (past,)})
    record = remedy(answers, easy("itching or a rash", signs=["itching"]), NOW).record
    assert record.health.ever_reacted == "yes"
    assert [r.to for r in record.health.reactions] == ["another cosmetic", "hair colour"]  # type: ignore[union-attr]


def test_gummy_hair_is_in_the_record_and_holds_the_next_consultation() -> None:
    found = remedy(baseline(), easy("gummy or breaking"), NOW)
    assert found.record.hair.wet_stretch == "gummy or spongy"
    rules = {f.rule for f in consult(found.record, NOW + timedelta(days=60)).findings if f.verdict.blocks}
    assert rules & {"hair-stays-stretched", "hair-breaks", "hair-breaks-at-home"}


def test_the_day_is_a_service_of_the_record_once() -> None:
    found = remedy(baseline(), easy("missed white"), NOW)
    again = remedy(found.record, easy("missed white"), NOW)
    first, second = (r.record.history.services for r in (found, again))
    assert len(first) == len(baseline().history.services) + 1  # type: ignore[arg-type]
    assert second == first


def test_bands_are_a_correction_and_the_gates_refer_it_at_home() -> None:
    record = remedy(baseline(), easy("bands"), NOW).record
    rules = {f.rule for f in consult(record, NOW + timedelta(days=60)).findings}
    assert "correction-at-home" in rules


def test_the_shipped_tables_pass_all_audits() -> None:
    assert unmentioned() == []
    assert incomplete() == []
    assert never_said() == []
    assert redundant() == []


def test_the_audits_find_what_is_planted() -> None:
    whole = book()
    without = Book(
        whole.faults[1:], tuple(a for a in whole.advice if a.id not in ("reaction-days", "severe-signs"))
    )
    assert "swallowed" in unmentioned(without)
    assert "hives" not in unmentioned(without)  # the colour tables look at it too
    silent = Book(whole.faults, tuple(a for a in whole.advice if a.kind != "never"))
    assert "swallowed, today: never" in incomplete(silent)
    planted = read_advice(
        parse_toml(
            '[[advice]]\nid = "x"\nfor = ["swallowed"]\nkind = "now"\nhelp = "doctor"\nsay = "A."\n'
            'because = "B."\nsources = ["assumption"]\nif = { all = [{ field = "client.gloves", is = "yes" }, '
            '{ not = { field = "client.gloves", is = "yes" } }] }',
            "planted",
        ),
        "planted",
    )
    assert never_said(Book(whole.faults, planted.advice)) == ["x"]
    assert redundant(Book(whole.faults, planted.advice * 2)) == [("x", "x")]


@pytest.mark.parametrize(
    "table",
    [
        '[[advice]]\nid = "x"\nfor = ["nonsense"]\nkind = "now"\nsay = "A."\nbecause = "B."\nsources = ["assumption"]',
        '[[advice]]\nid = "x"\nfor = ["bands"]\nkind = "now"\nsay = "A."\nbecause = "B."\nsources = ["a blog"]',
        '[[advice]]\nid = "x"\nfor = ["bands"]\nkind = "now"\nsay = "A."\nbecause = "B."\nsources = []',
        '[[fault]]\nwhat = "bands"\nfamily = "colour"\nhelp = "hope"',
        '[[fault]]\nwhat = "bands"\nfamily = "colour"\nhelp = "wait"\n'
        'mend = [{ product = "the same", extent = "all over", days = 0 }]',
        'rules = []',
    ],
)  # fmt: skip
def test_a_table_that_is_wrong_does_not_load(table: str) -> None:
    with pytest.raises(BadRule):
        read_advice(parse_toml(table, "planted"), "planted")


@pytest.mark.parametrize(
    ("data", "names"),
    [
        ({"what": ["it went blue"]}, "day.what"),
        ({"lengths_depth": 11.0}, "day.lengths_depth"),
        ({"mixed_g": -1.0}, "day.mixed_g"),
        ({"white_left": 101.0}, "day.white_left"),
        ({"colour": "blue"}, "day:"),
        ([], "[day]"),
    ],
)
def test_a_log_that_is_wrong_is_refused_in_one_line_that_repeats_no_answer(data: object, names: str) -> None:
    with pytest.raises(BadDay) as error:
        day_from_data(data)
    assert names in str(error.value)
    assert "blue" not in str(error.value)


def test_a_reaction_that_was_told_and_not_written_in_stops_whoever_opens_the_file() -> None:
    """However the file is opened; what is on file already is not told twice."""
    told = '[client]\nage = 40\n\n[health]\never_reacted = "no"\n\n[day]\nwhat = ["itching or a rash"]\n'
    loaded = read_text(told, "f", NOW)
    assert consult(loaded.answers, NOW).verdict is Verdict.STOP
    again = read_text(
        dump_record(remedy(loaded.answers, loaded.day or DayLog(), NOW).recorded, loaded.day), "f", NOW
    )
    assert isinstance(again.answers.health.reactions, tuple)
    assert len(again.answers.health.reactions) == 1
    unsure = read_text(told.replace('["itching or a rash"]', '["too dark"]\nsigns = "not sure"'), "f", NOW)
    assert unsure.answers.health.ever_reacted == NOT_SURE
    harmless = read_text(told.replace("itching or a rash", "too dark"), "f", NOW)
    assert harmless.answers.health.ever_reacted == "no"
