"""What stands in a file, as models of its own.

The program's classes are free to change; a file changes only here, and then SCHEMA goes up with it.
"""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
    field_validator,
)

from consult.answers.base import SCHEMA, Moment
from consult.answers.conflicts import EARLIEST_YEAR
from consult.cleaning import clean_text

LATEST_YEAR = 2200

VoiceWord = Literal["stylist", "home", "trainer"]
VerdictWord = Literal[
    "clear",
    "caution",
    "change_product",
    "look_up",
    "test_first",
    "treat_first",
    "see_colourist",
    "wait",
    "see_doctor",
    "stop",
]


def _clean(value: object) -> object:
    return clean_text(value) if isinstance(value, str) else value


def _in_living_memory(at: datetime) -> datetime:
    if not EARLIEST_YEAR <= at.year <= LATEST_YEAR:
        raise ValueError("outside the calendar of this program")
    return at


def _line(longest: int) -> object:
    return Field(max_length=longest, description=f"a text of at most {longest} characters")


Version = Annotated[int, Field(ge=1, le=SCHEMA, description=f"a whole number from 1 to {SCHEMA}")]
Cleaned = Annotated[str, BeforeValidator(_clean)]


class FileModel(BaseModel):
    """Strict: nothing unknown, nothing coerced. A field's description says what is right."""

    model_config = ConfigDict(
        strict=True,
        extra="forbid",
        frozen=True,
        hide_input_in_errors=True,
        defer_build=True,
        validate_by_name=True,
        serialize_by_alias=True,
    )


class Header(FileModel):
    """The `[record]` table at the head of a file; every entry may be left out.

    schema        the version of the file; without it, the present one
    questions     the version of the questions that were asked, where it is older than the file
    program       what wrote the file
    consulted_at  the moment of judgement; a draft and a hand-written file have none
    voice         whose words were used
    position      the question in hand, and what was `typed` there: drafts only
    purpose       what an unfinished consultation is for, where not for colouring
    shows         what a demo client is an example of
    """

    schema_: Version = Field(SCHEMA, alias="schema")
    questions: Version | None = None
    program: Annotated[Cleaned, _line(80)] | None = None
    consulted_at: (
        Annotated[
            Moment,
            AfterValidator(_in_living_memory),
            Field(
                description="a date and time such as 2026-05-31 14:30:00, "
                f"of the years {EARLIEST_YEAR} to {LATEST_YEAR}"
            ),
        ]
        | None
    ) = None
    voice: Annotated[VoiceWord, Field(description="one of: stylist, home, trainer")] | None = None
    position: Annotated[Cleaned, _line(80)] | None = None
    typed: Annotated[Cleaned, _line(1000)] | None = None
    purpose: Annotated[Literal["buy", "wrong"], Field(description="one of: buy, wrong")] | None = None
    shows: Annotated[Cleaned, _line(200)] | None = None

    @field_validator("questions")
    @classmethod
    def _no_newer_than_the_file(cls, questions: int | None, info: ValidationInfo) -> int | None:
        if questions is not None and questions > info.data.get("schema_", SCHEMA):
            raise ValueError("newer than the file")
        return questions

    @property
    def asked(self) -> int:
        """The version of the questions that were asked."""
        return self.questions or self.schema_


class FindingEntry(FileModel):
    """One finding, with its reason in both voices."""

    rule: str
    verdict: VerdictWord
    trade: str
    plain: str
    remedy: str
    sources: list[str]
    evidence: list[str]
    in_doubt: bool
    until: datetime | None
    until_words: str


class Outcome(FileModel):
    """The head of `[result]`: the judgement, and every published source that it and the plan rest on."""

    verdict: VerdictWord
    settled: bool
    until: datetime | None
    still_to_ask: list[str]
    findings: list[FindingEntry]
    sources: dict[str, str]
