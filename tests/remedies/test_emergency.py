"""The emergency page's table: what is told without being asked leaves nothing of the body's advice out."""

import pytest

from consult.gates.conditions import BadRule
from consult.plan.settings import Settings
from consult.remedies.advice import book
from consult.remedies.emergency import emergencies, read_emergencies

BODY = {fault.what for fault in book().faults if fault.family == "body"}


def test_everything_that_is_done_or_not_done_for_a_body_stands_on_the_page() -> None:
    told = {line.rules[0] for one in emergencies(Settings()) for line in (*one.now, *one.never)}
    wanted = {a.id for a in book().advice if set(a.faults) <= BODY and a.kind in ("now", "never")}
    assert wanted == told


def test_whom_to_ring_is_in_the_first_sentence_where_seconds_count() -> None:
    # Anaphylaxis UK: call the emergency number, then adrenaline. Poisoning: the poison centre before anything else.
    breath, eye, swallowed, child, *_ = emergencies(Settings(poison_centre="020 7946 0000"))
    assert "ring 112 " in breath.now[0].say.plain.split(".")[0]
    assert "20 minutes" in eye.now[0].say.plain.split(".")[0]
    for one in (swallowed, child):
        assert "020 7946 0000" in one.now[0].say.plain.split(".")[0]


@pytest.mark.parametrize(
    ("now", "never"),
    [(["no-such"], ["eye-rub"]), (["eye-rub"], ["eye-rub"]), (["swallowed-ring"], ["eye-rub"])],
)
def test_a_sentence_that_is_none_of_that_kind_or_for_something_else_is_refused(
    now: list[str], never: list[str]
) -> None:
    table = {"name": "Eye", "for": "in the eye", "now": now, "never": never, "say": []}
    with pytest.raises(BadRule):
        read_emergencies({"emergency": [table]}, Settings())
