"""What is shown of a question: its words in one voice, how it stands, and what may be picked with one key.

The wizard and the plain mode both draw from rows; nothing here knows a screen.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any, ClassVar, Final

from msgspec import Struct

from consult.answers import Answers
from consult.answers.access import entries, get
from consult.answers.base import NOT_SURE
from consult.answers.format import format_answer
from consult.answers.paths import AnswerPath
from consult.answers.product import Product
from consult.answers.questions import Kind, Question, inner_questions, question_of
from consult.interview.pages import Picture, interview, page_of
from consult.trade import Voice

KEYS: Final = "123456789abcdefghijklmnopqrstuvwxyz"
"""The keys of options, in their order; 0, ? and = have a meaning of their own everywhere."""
NONE_KEY, UNSURE_KEY, SAME_KEY = "0", "?", "="
MOMENT_KEY: Final = "c"
"""Of a moment that is offered: no word for a day or a month begins with it."""
TYPED: Final = (Kind.NUMBER, Kind.TEXT, Kind.DAY, Kind.MOMENT)
LONGEST_NAME = 40
PRODUCTS: Final = ("product", "lengths_product")


class Add(Struct, frozen=True):
    """Instead of an answer: one more entry of a list, empty, like the one of that number, or standing for many."""

    like: int | None = None
    habit: bool = False


class Entry(Struct, frozen=True):
    """Instead of an answer: the entry of a list of that number."""

    number: int


class Usual(Struct, frozen=True):
    """Instead of an answer: a text, as if it had been typed."""

    text: str


class NoProduct(Struct, frozen=True):
    """Instead of an answer: nothing is in hand yet, and what to look for is asked."""

    WORDS: ClassVar[str] = "No product yet"
    HINT: ClassVar[str] = "what to look for in the shop"


class Option(Struct, frozen=True):
    """What one key picks. `value` is the answer, or an Add, Entry, Usual, Product, NoProduct; `ticked`: it is given."""

    key: str
    text: str
    value: Any
    hint: str = ""
    ticked: bool = False


class Row(Struct, frozen=True):
    """One question as it is shown.

    ask     the question in the voice in use
    tell    how to tell the answer
    answer  the answer as a reader sees it, empty where there is none
    same    the answer of the question above, where "the same" can be said; else None
    picture  what is seen beside it, or None
    depth   the depth at which its tones are shown
    which   a typed text can be read in several ways; the options are those
    """

    question: Question
    path: AnswerPath
    ask: str
    tell: str
    value: Any
    answer: str
    options: tuple[Option, ...]
    same: Any = None
    picture: Picture | None = None
    depth: float | None = None
    which: bool = False

    @property
    def kind(self) -> Kind:
        return self.question.kind

    @property
    def typed(self) -> bool:
        return self.kind in TYPED and not self.which

    @property
    def needed(self) -> bool:
        return not self.question.optional

    @property
    def label(self) -> str:
        return self.question.short


def rows_of(
    answers: Answers,
    paths: Sequence[AnswerPath],
    voice: Voice,
    products: Sequence[Product] = (),
    *,
    shop: bool = False,
) -> list[Row]:
    """The rows of questions that stand together; `products` are known and may be picked, and in a `shop` it may be said
    that there is none yet."""
    ticks = bool(paths) and page_of(paths[0]).ticks
    rows: list[Row] = []
    used = 0
    for path in paths:
        offered = _options(answers, path, products, KEYS[used:] if ticks else KEYS, shop=shop)
        rows.append(_row(answers, path, voice, offered, rows))
        used += len(rows[-1].options) if ticks else 0
    return rows


def _row(
    answers: Answers, path: AnswerPath, voice: Voice, options: Sequence[Option], above: list[Row]
) -> Row:
    question, value = question_of(path), get(answers, path)
    picture = interview().picture.get(path.question)
    depth = get(answers, path.beside(picture.depth)) if picture and picture.depth else None
    return row_of(question, path, value, voice, options, above, picture, depth)


def row_of(
    question: Question,
    path: AnswerPath,
    value: Any,
    voice: Voice,
    options: Sequence[Option],
    above: Sequence[Row] = (),
    picture: Picture | None = None,
    depth: Any = None,
) -> Row:
    """One question as it is shown; `above` are the rows before it, whose answer may be given again."""
    return Row(
        question,
        path,
        question.plain if voice is Voice.HOME else question.trade,
        question.how_to_tell,
        value,
        format_answer(question, value),
        tuple(options),
        next((row.value for row in reversed(above) if _alike(row.question, question)), None),
        picture,
        depth if isinstance(depth, float) else None,
    )


def _alike(first: Question, then: Question) -> bool:
    """Whether the answer to one question may be the answer to another: the same asked of another stretch or zone."""
    if not set(first.path.name.split("_")) & set(then.path.name.split("_")):
        return False
    same = (first.kind, first.choices, first.unit, first.literals) == (
        then.kind,
        then.choices,
        then.unit,
        then.literals,
    )
    return same and then.kind in (Kind.NUMBER, Kind.CHOICE) and then.choices != ("yes", "no")


def _options(
    answers: Answers, path: AnswerPath, products: Sequence[Product], keys: str, *, shop: bool
) -> list[Option]:
    question, value = question_of(path), get(answers, path)
    if question.kind is Kind.ENTRIES:
        return _entry_options(answers, path)
    if question.kind is Kind.MOMENT:
        return _usual_moment(answers, path)
    if question.kind in TYPED:
        usual = interview().usual.get(path.question, tuple((word, "") for word in question.literals))
        letters = KEYS[KEYS.index("a") :]
        return [
            Option(key, text, Usual(text), word) for key, (text, word) in zip(letters, usual, strict=False)
        ]
    none = interview().none.get(path.question) if page_of(path).ticks else None
    found = choice_options(question, value, keys, none)
    if path.name == "kind" and path.section in PRODUCTS:
        offered: list[tuple[str, Any, str]] = [(product_name(p), p, "known") for p in products]
        if shop and path.section == PRODUCTS[0]:
            offered.append((NoProduct.WORDS, NoProduct(), NoProduct.HINT))
        rest = keys[len(found) :]
        found += [Option(key, *what) for key, what in zip(rest, offered, strict=False)]
    return found


def choice_options(question: Question, value: Any, keys: str = KEYS, none: Any = None) -> list[Option]:
    """The choices of a question with a key each; `none` is the one that "none of these" says."""
    choices = [choice for choice in question.choices if choice != none]
    return [
        Option(
            key,
            _sign(question, choice) if none is not None else choice,
            choice,
            question.hints.get(choice, ""),
            choice in value if isinstance(value, tuple) else choice == value,
        )
        for key, choice in zip(keys, choices, strict=False)
    ]


def _usual_moment(answers: Answers, path: AnswerPath) -> list[Option]:
    usually = interview().moments.get(path.question)
    if usually is None:
        return []
    if usually.after is None:
        return [Option(MOMENT_KEY, "now", Usual("now"))]
    start = get(answers, usually.after)
    if not isinstance(start, datetime):
        return []
    then = format_answer(question_of(path), start + timedelta(minutes=usually.minutes))
    return [Option(MOMENT_KEY, f"{usually.minutes} minutes after", Usual(then))]


def _sign(question: Question, choice: str) -> str:
    """A tick that only says yes carries the question's own name."""
    return question.short.lower() if choice == "yes" and question.choices == ("yes", "no") else choice


def product_name(product: Product) -> str:
    """A product by the name and shade on its pack."""
    parts = [part for part in (product.name, product.shade) if part and part != NOT_SURE]
    return " ".join(parts)[:LONGEST_NAME] or "without a name"


def _entry_options(answers: Answers, path: AnswerPath) -> list[Option]:
    given = entries(answers, path)
    found = [Option(KEYS[0], "Add one", Add())]
    if given:
        found.append(Option("c", "Copy the last one", Add(len(given) - 1)))
    if path in interview().habit:
        found.append(Option("r", "Add one that was done regularly", Add(habit=True)))
    letters = [key for key in KEYS[1:] if key not in "cr"]
    for number, key in zip(range(len(given)), letters, strict=False):
        found.append(Option(key, entry_words(answers, path, number), Entry(number)))
    return found


def entry_words(answers: Answers, path: AnswerPath, number: int) -> str:
    """One entry of a list in a line."""
    given = [(q, get(answers, path.inside(number, q.path.name))) for q in inner_questions(path)]
    return ", ".join(format_answer(q, value) for q, value in given if value is not None) or "nothing said yet"
