"""What holds for every plan, over random heads."""

from hypothesis import HealthCheck, assume, given, settings

from consult.answers import Answers
from consult.answers.access import with_answer
from consult.plan.brief import read_brief
from consult.plan.clock import full_minutes
from consult.plan.quantity import FILLER
from consult.plan.types import Approach, Plan
from consult.trade import Voice
from tests.plan.heads import heads, judged

some = settings(
    max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.filter_too_much]
)


def made(answers: Answers) -> Plan:
    plan = judged(answers).plan
    assume(plan is not None and plan.made)
    assert plan
    return plan


@some
@given(heads())
def test_a_plan_exists_only_when_the_gates_allow_it(answers: Answers) -> None:
    found = judged(answers)
    if found.plan and found.plan.made:
        assert not found.judgement.verdict.blocks
        assert found.judgement.settled
        assert found.plan.suitability
        assert found.plan.suitability.reachable
    elif found.plan:
        assert not found.plan.mixes
        assert not found.plan.steps


@some
@given(heads())
def test_no_stretch_passes_the_leaflets_longest_time(answers: Answers) -> None:
    plan = made(answers)
    longest = answers.product.minutes_max
    assert isinstance(longest, float)
    assert plan.timeline
    assert all(exposure.clock <= longest for exposure in plan.timeline.exposures)
    assert all(step.to_minute is None or step.to_minute <= longest for step in plan.steps)


@some
@given(heads())
def test_new_growth_gets_at_least_the_leaflets_shortest_time(answers: Answers) -> None:
    plan = made(answers)
    shortest = answers.product.minutes_min
    assert isinstance(shortest, float)
    assert plan.timeline
    first = [e for e in plan.timeline.exposures if e.stretch != "lengths"]
    assert first
    assert all(exposure.clock >= shortest for exposure in first)


@some
@given(heads())
def test_no_colour_goes_where_the_plan_leaves_it_off(answers: Answers) -> None:
    found = judged(answers)
    plan = made(answers)
    touched = {exposure.stretch for exposure in plan.timeline.exposures} if plan.timeline else set()
    treated = [entry for entry in plan.ledger if entry.passes_after > entry.passes]
    if plan.approach is Approach.NEW_GROWTH:
        assert touched == {"new growth"}
        assert {entry.zone for entry in treated} <= {"new growth"}
        assert found.forecast
        assert all(
            [stage.name for stage in band.stages] == ["today"]
            for band in found.forecast.bands
            if band.zone != "new growth"
        )
    else:
        assert len(treated) == len(plan.ledger)


@some
@given(heads())
def test_the_total_is_the_sum_of_the_bowls_and_fits_the_packs(answers: Answers) -> None:
    plan = made(answers)
    assert plan.quantity
    bowls = [mix for mix in plan.mixes if mix.name != FILLER]
    assert plan.quantity.mix_g == sum(mix.grams for mix in bowls)
    assert all(mix.grams == mix.colour_g + mix.developer_g for mix in plan.mixes)
    assert all(abs(sum(g for _, g in mix.shades) - mix.colour_g) < 1e-9 for mix in plan.mixes)
    assert plan.quantity.run_out[-1] <= 0.02
    assert list(plan.quantity.run_out) == sorted(plan.quantity.run_out, reverse=True)


@some
@given(heads())
def test_more_hair_never_needs_fewer_packs(answers: Answers) -> None:
    plan = made(answers)
    length = answers.hair.length_cm
    assert isinstance(length, float)
    more = [
        with_answer(answers, "hair.length_cm", length * 1.4),
        with_answer(answers, "hair.density", "high"),
    ]
    if answers.hair.thickness == "fine":
        more.append(with_answer(answers, "hair.thickness", "coarse"))
    assert plan.quantity
    for head in more:
        fuller = judged(head).plan
        if fuller and fuller.made and fuller.approach is plan.approach:
            assert fuller.quantity
            assert fuller.quantity.packs >= plan.quantity.packs


@some
@given(heads())
def test_white_share_never_lengthens_the_clock(answers: Answers) -> None:
    found = judged(answers)
    plan = made(answers)
    assert found.strand
    brief = read_brief(answers, found.strand)
    if not brief.covers_white:
        return
    whiter = answers
    for zone in ("front", "temples", "crown", "nape"):
        whiter = with_answer(whiter, f"hair.white_{zone}", 100)
    strand = judged(whiter).strand
    assert strand
    assert full_minutes(read_brief(whiter, strand)) == full_minutes(brief)
    assert plan.made


@some
@given(heads())
def test_every_sentence_answers_why_with_a_source(answers: Answers) -> None:
    from consult.report import report
    from consult.sources import cite

    for block in report(judged(answers), Voice.TRAINER):
        for row in block.rows:
            assert row.say.strip(), block.title
            assert row.because.strip(), row.say
            assert row.sources, row.say
            assert all(cite(source) for source in row.sources)


@some
@given(heads())
def test_there_is_always_another_way_and_it_names_its_price(answers: Answers) -> None:
    plan = judged(answers).plan
    assume(plan is not None and plan.suitability is not None)
    assert plan
    assert plan.suitability
    assert plan.suitability.alternatives
    for way in plan.suitability.alternatives:
        assert all(word in way.because for word in ("Damage:", "Upkeep:", "Colour:"))
