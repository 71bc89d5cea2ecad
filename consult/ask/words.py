"""A question in lines: its place, its words, how to tell, and the keys of its answers."""

from collections.abc import Sequence

from consult.answers.questions import Kind
from consult.ask.console import Console
from consult.interview.intake import Intake
from consult.interview.pages import Page
from consult.interview.rows import Row

GREETING = (
    "One question at a time. Type the key that stands before an answer, or the answer itself, then Enter. "
    "? is not sure, < goes back, help tells the other words."
)
HELP = (
    ("?", "not sure; it is never read as no, the stricter side counts"),
    ("< or back", "to the question before"),
    ("> or skip", "leave the question open and go on"),
    ("an empty line", "go on: keep the answer that stands there; under signs, nothing more"),
    ("0", "none of these"),
    ("=", "the same as the answer above, where it is offered"),
    ("clear", "take the answer back"),
    ("undo", "undo the last answer"),
    ("remove b", "take the entry with the key b out of a list"),
    ("review", "all answers, each with its number"),
    ("go 12", "to the question with that number in the review"),
    ("result", "verdict and plan as things stand"),
    ("finish", "to the end: verdict, plan and record"),
    ("stop", "leave; what was answered is kept"),
    ('"stop"', "in quotation marks, one of these words is an answer"),
)
_WRITTEN = {
    Kind.DAY: "a day, such as 22 Nov, 31.5.2025 or 6 weeks ago",
    Kind.MOMENT: "day and time of day, such as tue 9:30, 23.11. 18:00 or 49 hours ago",
}


def tell_question(
    console: Console, intake: Intake, page: Page, rows: Sequence[Row], *, new_page: bool
) -> None:
    """The question in hand; on a page of signs all that stand together, as their keys count on."""
    number, count = intake.place
    console.say()
    if new_page:
        console.say(f"{page.chapter}: {page.title}")
        if page.at_leisure:
            console.say("Nothing here is needed: an empty line goes past all of it, skip to the next.")
    console.say(f"Question {number} of about {count}.")
    for row in rows:
        console.say(row.ask)
        if row.tell:
            console.say(row.tell, first="  ")
        for option in row.options:
            hint = f": {option.hint}" if option.hint else ""
            ticked = " (ticked)" if option.ticked and row.kind is Kind.SEVERAL else ""
            console.say(f"{option.text}{hint}{ticked}", first=f"  {option.key}  ")
        if row.same is not None:
            console.say("the same as the answer before", first="  =  ")
        if row.answer:
            console.say(f"Answered: {row.answer}.", first="  ")
    console.say(_how(rows, ticks=page.ticks))


def _how(rows: Sequence[Row], *, ticks: bool) -> str:
    """What may be typed, in one line."""
    row = rows[0]
    if ticks:
        return "Keys of what is there, such as 1 3; 0 or an empty line: nothing more."
    if row.kind is Kind.SEVERAL:
        return "Keys of what is there, such as 1 3; 0: none of these; then an empty line goes on."
    if row.kind is Kind.ENTRIES:
        return "0: nothing more to tell." if row.value else "0: there is nothing to tell."
    if row.kind in _WRITTEN:
        return f"Type {_WRITTEN[row.kind]}; ? for not sure."
    if row.kind is Kind.NUMBER:
        return f"Type {row.question.expects()}."
    needed = "" if row.needed else " An empty line leaves it open."
    return ("Type it." if row.typed else "Type a key.") + needed
