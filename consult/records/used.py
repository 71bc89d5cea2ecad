"""The products that were used before, so that none is typed twice.

Only products are kept from a consultation, never anything about a person.
"""

from pathlib import Path
from typing import Final

import tomli_w

from consult.answers.product import Product
from consult.answers.shelf import MOST_PRODUCTS, Shelf
from consult.files import BadFile
from consult.records.codec import read_shelf
from consult.records.store import CannotSave, home, save_text

MOST_KEPT: Final = 30
"""Products, the last one used first; so many fit beside the kinds of a product with a key each."""
assert MOST_KEPT <= MOST_PRODUCTS
_PACK: Final = "pack"
"""What is seen of the pack in hand; the next pack is looked at anew."""


def products_file() -> Path:
    """A shelf file like any other."""
    return home() / "used-products.toml"


def used_products() -> tuple[Product, ...]:
    """The products that were used before, the last one first; none when the file is spoilt."""
    try:
        return read_shelf(products_file()).product if products_file().exists() else ()
    except (BadFile, OSError):
        return ()


def remember_products(*products: Product) -> None:
    """Keep these products, the first on top; one of the same name and shade is replaced. One without a name is not
    kept: nobody could tell it from another."""
    named = [product for product in products if _name(product)]
    names = [_name(product) for product in named]
    kept = [product for product in used_products() if _name(product) not in names]
    shelf = Shelf(product=tuple(named + kept)[:MOST_KEPT], developers=(), chart=())
    if named:
        data = shelf.model_dump(exclude_none=True, exclude={"chart": True, "product": {"__all__": {_PACK}}})
        try:
            save_text(products_file(), tomli_w.dumps(data))
        except CannotSave:
            return  # It is typed once more; the record itself is written.


def _name(product: Product) -> tuple[str, str] | None:
    return (product.name, product.shade or "") if product.name else None
