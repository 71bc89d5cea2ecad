"""All that is asked in one consultation.

`Answers` is the one source of the form, the record, the JSON schema and the documents.
"""

from pydantic import Field

from consult.answers.base import Section
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
    """Every answer about one head of hair. A section that nobody opened is a section of Nones."""

    client: Client = Field(default_factory=Client, title="Client")
    health: Health = Field(default_factory=Health, title="Health")
    scalp: Scalp = Field(default_factory=Scalp, title="Scalp and face today")
    history: History = Field(default_factory=History, title="History of the hair")
    hair: Hair = Field(default_factory=Hair, title="Hair today")
    goal: Goal = Field(default_factory=Goal, title="Goal")
    product: Product = Field(default_factory=Product, title="Product and its leaflet")
    lengths_product: Product = Field(default_factory=Product, title="Second product, for the lengths")
    allergy_test: AllergyTest = Field(default_factory=AllergyTest, title="Allergy alert test")
    strand_test: StrandTest = Field(default_factory=StrandTest, title="Strand test")
    incompatibility_test: IncompatibilityTest = Field(
        default_factory=IncompatibilityTest, title="Metal-salt (incompatibility) test"
    )
