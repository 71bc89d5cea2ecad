"""What findings demand and this plan cannot give: each is a finding of its own and names the rules."""

from consult.gates.verdict import Verdict
from consult.plan.application import Applications
from consult.plan.approach import change_of_lengths
from consult.plan.case import Case
from consult.plan.objections import Checks, Objection
from consult.products.kinds import Direct, Product
from consult.trade import Stretch

DEMANDS = Checks()


@DEMANDS.check("limit-developer", Verdict.CHANGE_PRODUCT)
def _limit_developer(case: Case, applications: Applications) -> Objection | None:
    limit = case.limits.developer_at_most
    strongest = max((_strength(p) for p in case.products), default=0.0)
    if limit is None or strongest <= limit.value:
        return None
    return _unmet(
        limit.rules,
        f"The developer is {strongest:g} %; on this hair at most {limit.value:g} % may be used",
        "Use the weaker developer that the leaflet allows, or another product.",
        ("product.developer_percent",),
    )


def _strength(product: Product) -> float:
    return 0.0 if isinstance(product, Direct) else product.developer.at_most


@DEMANDS.check("limit-lift", Verdict.CHANGE_PRODUCT)
def _limit_lift(case: Case, applications: Applications) -> Objection | None:
    limit = case.limits.no_lift
    if limit is None or case.lift <= 0:
        return None
    return _unmet(
        limit.rules,
        f"The goal is {case.lift:g} level(s) lighter, and this hair must not be lightened",
        "Choose a goal at the natural depth or darker.",
        ("goal.depth", "hair.natural_depth"),
    )


@DEMANDS.check("limit-lengths", Verdict.CHANGE_PRODUCT)
def _limit_lengths(case: Case, applications: Applications) -> Objection | None:
    limit = case.limits.leaves(Stretch.LENGTHS)
    change = change_of_lengths(case)
    if case.two_products:
        change = change or "a product of their own was named"
    elif not case.head.coloured and case.wish.extent != "new growth only":
        change = change or "they were never coloured"
    if limit is None or not change:
        return None
    return _unmet(
        limit.rules,
        f"The lengths would have to be coloured ({change.rstrip('.')}), and colour is to stay off them",
        "Wish for the new growth only, wait, or see a licensed colourist about the lengths.",
        ("goal.extent", "hair.lengths_depth", "hair.lengths_tone"),
    )


@DEMANDS.check("limit-off-scalp", Verdict.SEE_COLOURIST)
def _limit_off_scalp(case: Case, applications: Applications) -> Objection | None:
    limit = case.limits.off_scalp
    if limit is None or not any(Stretch.SCALP in a.target.stretches for a in applications):
        return None
    return _unmet(
        limit.rules,
        "Colour must stay off the scalp, and this plan goes up to it",
        "Ask a licensed colourist for strands that do not touch the scalp.",
        ("scalp.signs", "health.skin_conditions"),
    )


@DEMANDS.check("limit-strand-test", Verdict.TEST_FIRST)
def _limit_strand_test(case: Case, applications: Applications) -> Objection | None:
    limit = case.limits.strand_test
    if limit is None or case.tests.strand_held:
        return None
    return _unmet(
        limit.rules,
        "A strand test comes first on this head",
        "Colour one hidden strand with the planned mix, rinse, dry, look, and answer what came out.",
        ("strand_test.done", "strand_test.hair"),
    )


@DEMANDS.check("limit-licensed", Verdict.SEE_COLOURIST)
def _limit_licensed(case: Case, applications: Applications) -> Objection | None:
    limit = case.limits.licensed
    if limit is None or not case.work.at_home:
        return None
    return _unmet(
        limit.rules,
        "This is work for a licensed colourist",
        "Show the hair to a licensed colourist.",
        ("client.applied_by",),
    )


def _unmet(rules: tuple[str, ...], what: str, remedy: str, evidence: tuple[str, ...]) -> Objection:
    return Objection(f"{what} (demanded by {', '.join(rules)}).", remedy, evidence, plain=f"{what}.")
