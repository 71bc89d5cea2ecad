"""All that is asked in one consultation.

`Answers` is the one source of the form, the record, the JSON schema and the documents.
"""

from typing import Self

from pydantic import Field, PrivateAttr

from consult.answers.base import SCHEMA, Section
from consult.answers.client import Client
from consult.answers.goal import Goal
from consult.answers.hair import Hair
from consult.answers.health import Health
from consult.answers.history import History
from consult.answers.preliminary_tests import AllergyTest, IncompatibilityTest, StrandTest
from consult.answers.product import Product
from consult.answers.scalp import Scalp

__all__ = ["Answers"]


class Answers(Section):
    """Every answer about one head of hair. A section that nobody opened is a section of Nones.

    Answers also know the version of the questions they were given to: what was asked for the first time
    in a later version does not apply to them, until it is answered all the same.
    """

    _version: int = PrivateAttr(default=SCHEMA)

    client: Client = Field(default_factory=Client, title="Client")
    health: Health = Field(default_factory=Health, title="Health")
    scalp: Scalp = Field(default_factory=Scalp, title="Scalp and face today")
    history: History = Field(default_factory=History, title="History of the hair")
    hair: Hair = Field(default_factory=Hair, title="Hair today")
    goal: Goal = Field(default_factory=Goal, title="Goal")
    product: Product = Field(default_factory=Product, title="Product and its leaflet")
    lengths_product: Product = Field(
        default_factory=Product,
        title="Second product, for the lengths",
        json_schema_extra={"only_if": ["goal.lengths_product", ["yes"]]},
    )
    allergy_test: AllergyTest = Field(default_factory=AllergyTest, title="Allergy alert test")
    strand_test: StrandTest = Field(default_factory=StrandTest, title="Strand test")
    incompatibility_test: IncompatibilityTest = Field(
        default_factory=IncompatibilityTest, title="Metal-salt (incompatibility) test"
    )

    @property
    def version(self) -> int:
        """The version of the questions that these answers were given to."""
        return self._version

    def at_version(self, version: int) -> Self:
        """The same answers as given to the questions of another version."""
        changed = self.model_copy()
        changed._version = version
        return changed
