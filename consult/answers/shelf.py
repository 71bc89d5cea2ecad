"""The user's own shelf: the products at hand, in the same words as the product questions."""

from typing import Annotated

from pydantic import Field, ValidationError

from consult.answers.access import BadAnswer
from consult.answers.base import Section, Several, Text
from consult.answers.product import Product
from consult.answers.units import PeroxidePercent


class Developers(Section):
    """Developer strengths at hand for the tubes of one name."""

    name: Text
    percents: Several[PeroxidePercent]


class Shelf(Section):
    """Products, and developers by the name of the colour they belong to."""

    product: Annotated[Several[Product], Field(default=())]
    developers: Annotated[Several[Developers], Field(default=())]

    def strengths(self, product: Product) -> tuple[float, ...]:
        """Developer strengths that go with a product: a kit's own, a tube's own and those at hand."""
        own = [product.developer_percent] if isinstance(product.developer_percent, float) else []
        if product.kind != "retail kit":
            own += [p for d in self.developers if d.name == product.name for p in d.percents]
        return tuple(sorted(set(own)))


def shelf_from_data(data: object) -> Shelf:
    """A shelf from plain data. Raises BadAnswer naming the entry; it never echoes a value."""
    try:
        return Shelf.model_validate(data)
    except ValidationError as error:
        detail = error.errors(include_input=False, include_url=False, include_context=False)[0]
        known = [str(part) for part in detail["loc"] if "[" not in str(part) and "(" not in str(part)]
        raise BadAnswer(
            ".".join(known[:3]) or "shelf",
            "expected [[product]] entries in the words of the product questions, and [[developers]] entries",
        ) from None
