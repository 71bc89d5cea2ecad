"""How the questions are asked: the pages of `pages.toml`, checked against the answer models when they are read.

Nothing here knows an answer; `order.py` says which of the questions apply to a head.
"""

from functools import cache
from importlib.resources import files
from typing import Any, Literal

import tomli
from msgspec import Struct
from msgspec.structs import replace

from consult.answers.paths import AnswerPath
from consult.answers.questions import Kind, Question, question_of, questions

Card = tuple[AnswerPath, ...]
"""What a home user sees at once."""


class Page(Struct, frozen=True):
    """What a stylist sees at once: cards of questions that belong together.

    chapter     its word in the line of chapters
    ticks       signs to tick off
    each        the list question for each entry of which the page is asked, or None
    at_leisure  nothing on it is needed
    known_once  passed over when all on it is known
    """

    id: str
    chapter: str
    title: str
    cards: tuple[Card, ...]
    ticks: bool = False
    each: AnswerPath | None = None
    at_leisure: bool = False
    known_once: bool = False

    @property
    def questions(self) -> tuple[AnswerPath, ...]:
        return tuple(path for card in self.cards for path in card)

    def card_of(self, question: str) -> Card:
        """The card that a question stands on. Raises KeyError when it is not on this page."""
        try:
            return next(card for card in self.cards if question in card)
        except StopIteration:
            raise KeyError(question) from None


class Follows(Struct, frozen=True):
    """A question whose answer follows where each of the answers `where` is the one named there."""

    question: AnswerPath
    answer: Any
    where: tuple[tuple[AnswerPath, Any], ...]


class Usually(Struct, frozen=True):
    """A moment that is usually `minutes` after another answer, or now where `after` is None."""

    after: AnswerPath | None
    minutes: int


class Picture(Struct, frozen=True):
    """What is seen beside a question: its kind, the zone that it is of, the name of the depth beside it."""

    kind: Literal["ladder", "figure", "white", "tones"]
    zone: str = ""
    depth: str = ""


class Interview(Struct, frozen=True):
    """The pages in their order, and what is asked only where it matters.

    none        question -> its answer when "none of these" is said over it
    usual       question -> texts that may be picked instead of being typed, each with its word
    in_passing  optional questions that are asked all the same
    moments     question -> the moment that may be picked instead of being typed
    habit       list question -> the question of an entry that says yes, it stands for many
    picture     question -> what is seen beside it
    told        optional question -> questions of which one must have been told for it to be asked
    """

    pages: tuple[Page, ...]
    none: dict[str, Any]
    usual: dict[str, tuple[tuple[str, str], ...]]
    moments: dict[str, Usually]
    habit: dict[str, str]
    picture: dict[str, Picture]
    in_passing: frozenset[str]
    follows: tuple[Follows, ...]
    told: dict[str, tuple[AnswerPath, ...]]


class BadInterview(ValueError):
    """The table of pages does not fit the questions."""


SECOND = ("product.", "lengths_product.")
"""The questions of the first product and, under the same names, of the second."""


def second(path: str) -> AnswerPath:
    """The same question about the second product."""
    return AnswerPath.parse(path.replace(*SECOND, 1) if path.startswith(SECOND[0]) else path)


@cache
def interview() -> Interview:
    """The pages as they ship. Raises BadInterview when a question is missing, unknown or asked twice."""
    text = files("consult.interview").joinpath("pages.toml").read_text(encoding="utf-8")
    return read_interview(tomli.loads(text))


def read_interview(data: dict[str, Any]) -> Interview:
    """The interview in a table. Raises BadInterview, naming the first question that does not fit."""
    pages: dict[str, Page] = {}
    for entry in data["page"]:
        pages[entry["id"]] = _page(entry, pages)
    asked = [path for page in pages.values() for path in page.questions]
    for path in asked:
        if path not in questions():
            raise BadInterview(f"{path}: there is no such question")
        if asked.count(path) > 1:
            raise BadInterview(f"{path}: stands on two pages")
    missing = [path for path in questions() if path not in asked]
    if missing:
        raise BadInterview(f"{missing[0]}: stands on no page")
    usual = {path: _usual(path, texts, data["words"].get(path)) for path, texts in data["usual"].items()}
    return Interview(
        tuple(pages.values()),
        _none(pages.values(), data["none"]),
        usual | {second(path): texts for path, texts in usual.items()},
        {path: _usually(path, entry) for path, entry in data["after"].items()},
        data["habit"],
        {to: Picture(**entry) for path, entry in data["picture"].items() for to in (path, second(path))},
        frozenset(to for path in data["in_passing"] for to in (path, second(path))),
        tuple(_follows(entry) for entry in data["follows"]),
        {
            entry["question"]: tuple(AnswerPath.parse(path) for path in entry["told"])
            for entry in data["asked_where"]
        },
    )


def _page(entry: dict[str, Any], earlier: dict[str, Page]) -> Page:
    if "as" in entry:
        like = earlier[entry["as"]]
        cards = tuple(tuple(second(path) for path in card) for card in like.cards)
        return replace(like, id=entry["id"], chapter=entry["chapter"], title=entry["title"], cards=cards)
    return Page(
        entry["id"],
        entry["chapter"],
        entry["title"],
        tuple(tuple(AnswerPath.parse(path) for path in card) for card in entry["cards"]),
        entry.get("ticks", False),
        AnswerPath.parse(entry["each"]) if "each" in entry else None,
        entry.get("at_leisure", False),
        entry.get("known_once", False),
    )


def _usual(path: str, texts: list[str], words: list[str] | None) -> tuple[tuple[str, str], ...]:
    if question_of(path).kind is not Kind.NUMBER:
        raise BadInterview(f"{path}: usual answers are for numbers, whose field takes no letters")
    return tuple(zip(texts, words or [""] * len(texts), strict=True))


def _usually(path: str, entry: dict[str, Any]) -> Usually:
    if question_of(path).kind is not Kind.MOMENT:
        raise BadInterview(f"{path}: only a moment is so many minutes after another")
    return Usually(AnswerPath.parse(entry["after"]) if "after" in entry else None, entry["minutes"])


def _none(pages: Any, named: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for page in pages:
        for path in page.questions if page.ticks else ():
            question = question_of(path)
            first = path if question.same_as is None else question.same_as
            found[path] = () if question.kind is Kind.SEVERAL else named.get(first, "no")
            if question.kind is Kind.CHOICE and not _is_none(question, found[path]):
                raise BadInterview(f"{path}: 'none of these' must be a choice that is clear")
    return found


def _is_none(question: Question, answer: Any) -> bool:
    """Only a choice that needs no rule may be recorded for a sign that nobody ticked."""
    return answer in question.choices and question.is_clear(answer)


def _follows(entry: dict[str, Any]) -> Follows:
    where = entry["where"].items()
    return Follows(
        AnswerPath.parse(entry["question"]),
        entry["answer"],
        tuple((AnswerPath.parse(path), tuple(v) if isinstance(v, list) else v) for path, v in where),
    )


@cache
def page_of(question: str) -> Page:
    """The page that a question stands on; of an entry's question, the page asked for each entry."""
    path = AnswerPath.parse(question).question
    return next(page for page in interview().pages if path in page.questions)


@cache
def chapters() -> tuple[str, ...]:
    """The chapters in the order of the consultation."""
    return tuple(dict.fromkeys(page.chapter for page in interview().pages))
