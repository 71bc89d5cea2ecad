"""The card for the shop: what the pack must say, how many of it, what not to buy, and what to photograph."""

from typing import Any, Final

from msgspec import Struct

from consult.answers.base import NOT_SURE
from consult.answers.product import Product as Answered
from consult.answers.questions import questions
from consult.buying.look import LookFor, Shades, Shop, chart_of, does
from consult.gates.judge import Finding
from consult.plan.case import Case
from consult.plan.lines import Line, line
from consult.plan.types import Made
from consult.plan.usual import KINDS, usual
from consult.products.reading import missing
from consult.sources import ASSUMPTION, COMMON_PRACTICE
from consult.trade import LIGHTEST, TONES, ColourClass, Phrase, Tone, depth_name

_LABEL: Final = ("pack", "professional_only", "named_together", "age_limit", "test_hours", "contains_ammonia")
"""What rules ask of a pack beside what a plan needs."""
_MINUTES: Final = "minutes_"
_KIND_WORDS: dict[ColourClass, Phrase] = {
    "direct (no developer)": Phrase(
        "direct colour, no developer", "colour without developer: nothing to mix, washes out"
    ),
    "demi-permanent": Phrase("demi-permanent", "demi-permanent: mixed, deposits only, fades in weeks"),
    "permanent": Phrase("permanent", "permanent: mixed with developer, grows out"),
}
_MILDEST: Final = (
    "The mildest kind with which the program makes a plan that comes near the goal; milder ones were tried."
)


class Card(Struct, frozen=True):
    """What is told in the shop: what to look for, what not to buy, what to photograph."""

    look: tuple[Line, ...]
    avoid: tuple[Line, ...]
    photograph: tuple[Line, ...]


def make_card(found: LookFor) -> Card:
    """The card of a head. Where nothing is to be bought it says so and why, and nothing else."""
    if found.shades is None:
        return Card(_nothing(found), (), ())
    return Card(_look(found, found.shades), _avoid(found.shop, found.shades), _photograph(found.shades))


def _nothing(found: LookFor) -> tuple[Line, ...]:
    if found.nothing_needed:
        return (
            line(
                "Buy nothing: what grows is the goal already.",
                "Natural depth and tone are the wished ones, no white is to change, and no colour lies on the hair.",
            ),
        )
    if found.against:
        return (
            line("Buy nothing now.", "Something has to be settled before any pack is bought."),
            *(_of(finding) for finding in found.against),
        )
    if found.missing:
        names = ", ".join(questions()[_question(path)].short for path in found.missing)
        return (line(f"Not settled yet; still to answer: {names}.", "Nothing about a head is guessed."),)
    return (
        line(
            "Buy nothing: no kind of pack comes near this goal on this hair. See a licensed colourist.",
            "Every kind, two levels either side of the goal, was tried.",
            (ASSUMPTION,),
        ),
    )


def _question(path: str) -> str:
    """The question of a path inside a list."""
    return ".".join(part for part in path.split(".") if not part.isdigit())


def _of(finding: Finding) -> Line:
    say = Phrase(f"{finding.trade} {finding.remedy}", f"{finding.plain} {finding.remedy}")
    because = Phrase(finding.verdict.title, finding.verdict.title)
    return Line(say, because, finding.sources, (finding.rule,))


def _look(found: LookFor, shades: Shades) -> tuple[Line, ...]:
    plan = shades.plan.plan
    assert isinstance(plan, Made)
    case = plan.case
    kind = _KIND_WORDS[shades.kind]
    return (
        Line(
            Phrase(f"Kind: {kind.trade}.", f"Kind: {kind.plain}."),
            Phrase(_MILDEST, _MILDEST),
            (ASSUMPTION,),
        ),
        _shade_line(shades),
        _claim(shades, case),
        _chart(found.shop),
        _pack_line(found),
        *_peroxide(found, shades),
        *_ammonia(found),
    )


def _shade_line(shades: Shades) -> Line:
    ranges = "; ".join(
        f"{tone} {low:g}" if low == high else f"{tone} {low:g} to {high:g}"
        for tone, (low, high) in shades.by_tone.items()
    )
    depth, tone = shades.best
    return line(
        f"Shade, as a number: best {depth_name(depth)} {tone}. It may be: {ranges}.",
        "Each was put on this head by the forecast. The number counts: names differ between scales.",
        ("scanavez-2000", ASSUMPTION),
    )


def _claim(shades: Shades, case: Case) -> Line:
    if not case.covers_white:
        return line(
            "White hair: no claim is needed.",
            "No white is there, or it is to be blended or left.",
        )
    return line(
        'White hair: the pack must print that it covers white (grey) hair. "Blends" is not enough.',
        f"Up to {case.head.white_most * 100:.0f} % is white and is to be covered; only {shades.kind} colour that "
        "claims it does that.",
        ("bccampus-hair-colour", COMMON_PRACTICE),
    )


def _chart(shop: Shop) -> Line:
    natural = shop.answers.hair.natural_depth
    if not isinstance(natural, float):
        return line(
            "Chart: it must show white hair as a starting hair.",
            "No hair with pigment is left to find on it.",
        )
    return line(
        f"Chart of before and after: your own hair, {depth_name(natural)}, must be on it.",
        "A pack says nothing of hair that is not on its chart.",
    )


def _pack_line(found: LookFor) -> Line:
    counted = ", or ".join(f"{n} of {ml:.0f} ml" for ml, n in found.packs)
    return line(
        f"How many packs: {counted}, ready to put on.",
        "The smallest number that leaves hardly any chance of running out; running out half way leaves a line.",
        ("maibach-wolfram-1981", ASSUMPTION),
    )


def _peroxide(found: LookFor, shades: Shades) -> tuple[Line, ...]:
    if shades.kind == "direct (no developer)":
        return (line("Peroxide: none in it.", "It is not mixed; it lies in the outer layers of the hair."),)
    listed = ", ".join(f"{strength:g}" for strength in found.strengths) or "6"
    return (
        line(
            f"Peroxide matters: {listed} % in the developer would do; take the weakest the pack allows.",
            "Tried one after the other on this head; more only wears the hair. A kit often does not print it.",
            ("eu-2019-831-peroxide", COMMON_PRACTICE),
        ),
    )


def _ammonia(found: LookFor) -> tuple[Line, ...]:
    if not found.ammonia:
        return (
            line("Ammonia: no matter here.", "With and without it the program says the same of this head."),
        )
    return tuple(
        Line(
            Phrase(f'"Contains ammonia": {f.trade}', f'"Contains ammonia": {f.plain}'),
            Phrase(f.remedy, f.remedy),
            f.sources,
            (f.rule,),
        )
        for f in found.ammonia
    )


def _avoid(shop: Shop, shades: Shades) -> tuple[Line, ...]:
    """Packs that lie beside the right one and that the program refuses for this head, each with its reason."""
    natural, holds = shop.answers.hair.natural_depth, chart_of(shop)
    depth, tone = shades.best
    wrong: list[tuple[str, Answered]] = [
        ("For professional use only", _pack(shades, **holds, professional_only="yes")),
        ("Opened, or past its date", _pack(shades, **holds, pack=("opened before",))),
        ("Developer of 12 %", _pack(shades, **holds, developer_percent=12.0)),
        ("Developer of 9 %", _pack(shades, **holds, developer_percent=9.0)),
        ("A pack that claims nothing for white hair", _pack(shades, **holds, white_claim="no claim")),
    ]
    if isinstance(natural, float) and natural < LIGHTEST - 1:
        off_chart = {"chart_from": natural + 1, "chart_to": LIGHTEST}
        wrong.append((f"A chart that begins lighter than {natural:g}", _pack(shades, **off_chart)))
    wrong += [
        (f"{kind.capitalize()}", usual(kind, depth, tone, **holds)) for kind in KINDS if kind != shades.kind
    ]
    wrong.append(("Bleach (powder lightener)", _pack(shades, **holds, colour_class="powder lightener")))
    found: dict[str, tuple[list[str], Finding]] = {}
    for words, product in wrong:
        against = [f for f in shop.tried(product).findings if f.verdict.blocks]
        if against:
            found.setdefault(f"{against[0].rule} {_first(against[0].plain)}", ([], against[0]))[0].append(
                words
            )
    told = [_refused(words, finding) for words, finding in found.values()]
    return (*told, *_shades_to_avoid(shop, shades), _ALWAYS_AVOID)


def _pack(shades: Shades, **changes: Any) -> Answered:
    if shades.kind == "direct (no developer)" and "developer_percent" in changes:
        changes = {}
    return usual(shades.kind, *shades.best, **changes)


def _refused(words: list[str], finding: Finding) -> Line:
    """Packs that one rule refuses, with the first sentence of its reason: a card is short."""
    names = "; ".join(words)
    say = Phrase(f"{names}: {_first(finding.trade)}", f"{names}: {_first(finding.plain)}")
    return Line(say, Phrase(finding.remedy, finding.remedy), finding.sources, (finding.rule,))


def _first(text: str) -> str:
    """The first sentence."""
    return text.partition(". ")[0].rstrip(".") + "."


def _shades_to_avoid(shop: Shop, shades: Shades) -> tuple[Line, ...]:
    """Tones at the best depth with which the goal is missed."""
    depth, best = shades.best
    near = set(shades.by_tone)
    missed: list[Tone] = [
        tone
        for tone in TONES
        if tone not in near and not does(shop.tried(usual(shades.kind, depth, tone, **chart_of(shop))))
    ]
    if not missed:
        return ()
    return (
        line(
            f"Other tones: {', '.join(missed)}.",
            f"At depth {depth:g} they come out clearly off {best} on this head.",
            ("scanavez-2000", ASSUMPTION),
        ),
    )


_ALWAYS_AVOID = line(
    "A colour restorer, compound henna, or anything that does not say what it is.",
    "Metal salts in it make the hair unfit for any later colour.",
)


def _photograph(shades: Shades) -> tuple[Line, ...]:
    kit = Answered(kind="retail kit", colour_class=shades.kind)
    # `missing` names what a plan needs; a kit that prints no strength or chart may say "not sure".
    wanted = dict.fromkeys([*missing(kit), *_LABEL])
    asked = questions()
    names = [name for name in wanted if name not in ("kind", "colour_class")]
    short = {name: asked[f"product.{name}"].short.casefold() for name in names}
    minutes = [word for name, word in short.items() if name.startswith(_MINUTES)]
    told = [word for name, word in short.items() if not name.startswith(_MINUTES)]
    return (
        line(
            "Front, back, each side, and the chart of before and after; what the leaflet inside says comes later.",
            "What the pack prints is asked before anything is mixed.",
        ),
        line(
            f"It must tell: {', '.join(told)}; the minutes: {', '.join(minutes)}.",
            f'What no pack prints may be answered "{NOT_SURE}"; what the law has it print is looked up.',
            ("eu-1223-annex-iii", COMMON_PRACTICE),
        ),
        line(
            "The list of ingredients and the warnings, sharp enough to read.",
            "A doctor asks for them if anything goes wrong; limits are checked from them.",
            ("eu-1223-annex-iii",),
        ),
    )
