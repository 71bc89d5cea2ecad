"""The user's own shelf: the products at hand, in the same words as the product questions."""

from typing import Annotated, Any

from pydantic import Field, ValidationError

from consult.answers.access import BadAnswer
from consult.answers.base import Section, Several, Text
from consult.answers.conflicts import product_conflicts
from consult.answers.product import Product
from consult.answers.questions import questions
from consult.answers.typed_colour import TypedColour
from consult.answers.units import PeroxidePercent

MOST_PRODUCTS = 500
MOST_STRENGTHS = 20


class Developers(Section):
    """Developer strengths at hand for the tubes of one name."""

    name: Text
    percents: Annotated[Several[PeroxidePercent], Field(max_length=MOST_STRENGTHS)]


class ChartWords(Section):
    """The chart of before and after of a pack that prints names and pictures and no numbers.

    darkest, lightest  the starting hair at its ends, in the pack's words
    before, after      a starting hair of its picture and what it shows of it afterwards, as colours
    """

    name: Text
    shade: Text | None = None
    darkest: Text | None = None
    lightest: Text | None = None
    before: TypedColour | None = None
    after: TypedColour | None = None


class Shelf(Section):
    """Products, developers by the name of the colour they belong to, and charts that are told in words."""

    product: Annotated[Several[Product], Field(default=(), max_length=MOST_PRODUCTS)]
    developers: Annotated[Several[Developers], Field(default=(), max_length=MOST_PRODUCTS)]
    chart: Annotated[Several[ChartWords], Field(default=(), max_length=MOST_PRODUCTS)]

    def chart_of(self, product: Product) -> ChartWords | None:
        """The chart in words that belongs to a product: of its name, and of its shade where one is named."""
        mine = [c for c in self.chart if c.name == product.name and c.shade in (None, product.shade)]
        return max(mine, key=lambda c: c.shade is not None, default=None)

    def strengths(self, product: Product) -> tuple[float, ...]:
        """Developer strengths that go with a product: a kit's own, a tube's own and those at hand."""
        own = [product.developer_percent] if isinstance(product.developer_percent, float) else []
        if product.kind != "retail kit":
            own += [p for d in self.developers if d.name == product.name for p in d.percents]
        return tuple(sorted(set(own)))


def shelf_from_data(data: object) -> Shelf:
    """A shelf from plain data. Raises BadAnswer naming the entry; it never echoes a value."""
    try:
        shelf = Shelf.model_validate(data)
    except ValidationError as error:
        raise _bad_entry(
            error.errors(include_input=False, include_url=False, include_context=False)[0]
        ) from None
    for number, product in enumerate(shelf.product):
        for conflict in product_conflicts(product, f"product.{number}"):
            raise conflict
    return shelf


def _bad_entry(detail: Any) -> BadAnswer:
    place = [str(part) for part in detail["loc"]]
    if place[0] not in Shelf.model_fields:
        return BadAnswer(
            "shelf", "expected [[product]], [[developers]] and [[chart]] entries and nothing else"
        )
    if len(place) < 3:
        return BadAnswer(
            ".".join(place), f"expected at most {MOST_PRODUCTS} entries, each under [[{place[0]}]]"
        )
    where = ".".join(place[:3])
    if place[0] == "developers":
        right = f"a name, and at most {MOST_STRENGTHS} strengths in percent such as percents = [3, 6]"
        return BadAnswer(f"developers.{place[1]}", f"expected {right}")
    if place[0] == "chart":
        right = "a name, and shade, darkest and lightest in words, before and after as #rrggbb"
        return BadAnswer(f"chart.{place[1]}", f"expected {right}")
    question = questions().get(f"product.{place[2]}")
    if question is None:
        return BadAnswer(
            f"product.{place[1]}", "there is an entry that is no product question; see 'consult schema'"
        )
    return BadAnswer(where, "expected " + question.expects())
