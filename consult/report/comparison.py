"""Candidates side by side as a table: what is compared in rows, the packs in columns."""

from msgspec import Struct

from consult.buying.compare import Candidate, Comparison, Place
from consult.sources import ASSUMPTION, COMMON_PRACTICE, cite
from consult.trade import Voice

MARKS = {True: "+", None: "?", False: "X"}
_FORECAST = ("scanavez-2000", ASSUMPTION)


class Cell(Struct, frozen=True):
    """One text; `hexes` are colours, #rrggbb, drawn before it, each of which the text names."""

    text: str
    hexes: tuple[str, ...] = ()


class TableRow(Struct, frozen=True):
    """What is compared, one cell for each candidate, and where it comes from."""

    label: str
    cells: tuple[Cell, ...]
    because: str
    sources: tuple[str, ...]

    @property
    def cited(self) -> str:
        return "; ".join(cite(source) for source in self.sources)


def comparison_table(found: Comparison, voice: Voice) -> list[TableRow]:
    """The rows in the order in which they decide; a row that says nothing of any candidate is left out."""
    all_ = found.candidates

    def row(label: str, texts: list[str], because: str, *sources: str) -> TableRow:
        return TableRow(label, tuple(Cell(text) for text in texts), because, sources)

    rows = [
        row(
            "Works here?",
            [f"{MARKS[one.works]} {one.verdict}" for one in all_],
            "Each pack was put through the whole program on this head, its tests taken as clear. The strand test "
            "and the allergy alert test decide.",
            ASSUMPTION,
        ),
        row(
            "Against it",
            [_against(one, voice) for one in all_],
            "The strongest thing that the program has against it here.",
            *dict.fromkeys(source for one in all_ if one.against for source in one.against.sources),
        ),
        *_colours(all_),
        row(
            "White hair",
            [_white(one) for one in all_],
            "How far the forecast takes white hairs from white to the wished colour, as colour difference. It does not "
            "foresee hairs that resist.",
            *_FORECAST,
        ),
        row(
            "Damage",
            ["" if one.passes is None else f"{one.more} more, {one.passes} in all" for one in all_],
            "Oxidative passes over the stretch that has most. From the third over the same hair damage becomes clear.",
            "repeat-dyeing-2024",
        ),
        row(
            "Upkeep",
            [
                f"again in {one.weeks[0]} weeks, refresh after {one.weeks[1]}" if one.weeks else ""
                for one in all_
            ],
            "By contrast of the new growth, white share, washes and tone.",
            COMMON_PRACTICE,
            ASSUMPTION,
        ),
        row(
            "Packs",
            ["" if one.packs is None else str(one.packs) for one in all_],
            "As many as hardly run out.",
            ASSUMPTION,
        ),
        row(
            "Cost",
            [
                "" if one.packs is None else "not known" if one.cost is None else f"{one.cost:.2f}"
                for one in all_
            ],
            "Packs times the price that was told.",
            ASSUMPTION,
        ),
        row(
            "Look up",
            ["; ".join(one.doubts) for one in all_],
            "What is not known is taken as usual so that there is something to compare, and is not promised.",
            ASSUMPTION,
        ),
    ]
    return [one for one in rows if any(cell.text for cell in one.cells)]


def _against(one: Candidate, voice: Voice) -> str:
    """The first sentence of what holds it; or that it misses the goal."""
    if one.against is not None:
        told = one.against.plain if voice is Voice.HOME else one.against.trade
        return told.partition(". ")[0].rstrip(".")
    return "comes out clearly off the goal" if one.works is False and one.places else ""


def _white(one: Candidate) -> str:
    return one.white if one.cover is None else f"{one.cover * 100:.0f} % covered, {one.white}"


def _colours(all_: tuple[Candidate, ...]) -> list[TableRow]:
    """A row for each stretch; zones that come out alike are told once."""
    stretches = dict.fromkeys(_stretch(place) for one in all_ for place in one.places)
    return [
        TableRow(
            stretch.capitalize(),
            tuple(_colour([p for p in one.places if _stretch(p) == stretch]) for one in all_),
            "Depth and tone afterwards, as the eye sees them; of several readings of a name the furthest off.",
            _FORECAST,
        )
        for stretch in stretches
    ]


def _stretch(place: Place) -> str:
    return place.where.partition(", ")[0]


def _colour(places: list[Place]) -> Cell:
    after: dict[str, list[str]] = {}
    for place in places:
        after.setdefault(place.after, []).append(place.where.partition(", ")[2])
    hexes = tuple(next(p.hexes[1] for p in places if p.after == one) for one in after)
    if len(after) == 1:
        return Cell(next(iter(after)), hexes)
    return Cell("; ".join(f"{', '.join(zones)}: {colour}" for colour, zones in after.items()), hexes)
