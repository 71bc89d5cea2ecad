"""A working sheet as one HTML file, for A4 or Letter: no script, nothing from outside, no colour without its words."""

from datetime import time
from pathlib import Path

from consult.paper.draw_head import head_svg
from consult.paper.draw_strand import strands_svg
from consult.paper.draw_time import time_svg
from consult.paper.markup import Markup, element, joined
from consult.paper.words import COPIES, JUDGED, LINES_FOR_NOTES, RESULT, STARTED, TITLE, heading
from consult.report.sheet import Sheet, StepBox, Told, Work
from consult.report.sheet_bowls import BowlBox
from consult.report.time_picture import Kind, Moment, clock_words

TICK = element("span", class_="tick")


def html_sheet(sheet: Sheet) -> str:
    """The whole file as text."""
    css = Path(__file__).with_name("sheet.css").read_text("utf-8")
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", name="viewport", content="width=device-width"),
        element("title", f"{TITLE} {sheet.name}".strip()),
        element("style", Markup(css)),
    )
    parts = [_top(sheet), *_first(sheet)]
    if sheet.work:
        parts += _work(sheet, sheet.work)
    parts += _strands(sheet)
    if sheet.work:
        after = (_list("Afterwards", sheet.work.aftercare), _list("Next time", sheet.work.next_time))
        parts += [element("div", *after, class_="side"), _room(sheet)]
    if not sheet.work:
        parts.append(_notes("Notes"))
    if sheet.health:
        said = "; ".join(f"{name}: {answer}" for name, answer in sheet.health)
        parts.append(
            _section("Health, scalp and test, as told", element("p", said, class_="small"), "health")
        )
    return f"<!DOCTYPE html>\n{element('html', head, element('body', *parts), lang='en')}\n"


def _section(title: str, inside: str, class_: str = "whole") -> Markup:
    return element("section", element("h2", title), inside, class_=class_)


def _list(title: str, said: tuple[str, ...]) -> Markup:
    return _section(title, _items(said)) if said else Markup("")


def _items(said: tuple[str, ...]) -> Markup:
    return element("ul", *(element("li", one) for one in said))


def _top(sheet: Sheet) -> Markup:
    return joined(
        [
            element(
                "div",
                element("h1", heading(sheet)),
                element("div", f"{JUDGED} {sheet.judged}", element("br"), COPIES[sheet.copy]),
                class_="top",
            ),
            element("p", sheet.verdict, class_="verdict"),
            element("p", element("b", sheet.what)),
            element("p", sheet.before_all),
        ]
    )


def _first(sheet: Sheet) -> list[Markup]:
    """Emergencies and cautions; where nothing is mixed what to do instead, and when to come back."""
    danger = element(
        "section", *(element("p", element("b", one)) for one in sheet.emergencies), class_="emergency"
    )
    parts = [danger]
    if sheet.do:
        parts.append(_section("What to do now", _told(sheet.do), "do"))
    if sheet.cautions:
        parts.append(_section("Take care", element("div", _told(sheet.cautions), class_="columns")))
    if sheet.come_back:
        parts.append(_section("When to come back", element("p", element("b", sheet.come_back))))
    return [*parts, _list("Meanwhile", sheet.prepare), _list("Other ways", sheet.other_ways)]


def _told(said: tuple[Told, ...]) -> Markup:
    """Each sentence with what to do about it."""
    items = []
    for one in said:
        do = [element("br"), element("b", "Do: "), one.do] if one.do else []
        items.append(element("li", one.say, *do))
    return element("ul", *items)


def _work(sheet: Sheet, work: Work) -> list[Markup]:
    return [
        element("div", _list("Buy or have ready", work.buy), _bowls(sheet, work), class_="side"),
        _section(
            "Sections, in this order",
            element(
                "div",
                head_svg(work.head),
                element("ul", *(element("li", said) for said in work.dividing)),
                class_="side",
            ),
        ),
        _section(
            "Step by step",
            element("ol", *(_step(box, sheet.start) for box in work.steps), class_="steps"),
            "",
        ),
        _section(STARTED.format(clock_words(sheet.start, 0)), _clock(sheet, work), ""),
    ]


def _bowls(sheet: Sheet, work: Work) -> Markup:
    """As wide as their number wants, beside what is bought."""
    drawn = element("div", *(_bowl(bowl, sheet.start) for bowl in work.bowls), class_="bowls")
    return _section("Bowls", drawn, f"wide-{min(len(work.bowls), 3)}")


def _bowl(bowl: BowlBox, start: time | None) -> Markup:
    rows = [
        element("tr", element("td", part.name), element("td", f"{part.grams:g} g", class_="amount"))
        for part in bowl.weighed
    ]
    packs = f"{bowl.packs} whole pack{'s' if bowl.packs > 1 else ''}: " if bowl.packs else ""
    rows.append(
        element(
            "tr", element("th", "together"), element("td", f"{packs}{bowl.grams:g} g", class_="amount total")
        )
    )
    return element(
        "div",
        element("b", f"Bowl {bowl.number}: {bowl.title}"),
        element("div", bowl.product),
        element("div", bowl.how),
        element("table", *rows),
        *([element("div", bowl.rest, class_="rest")] if bowl.rest else []),
        element(
            "div",
            TICK,
            f"mixed at minute {bowl.minute} ({clock_words(start, bowl.minute)}); weighed ________ g",
        ),
        class_="bowl",
    )


def _step(box: StepBox, start: time | None) -> Markup:
    timing = []
    if box.minutes:
        first, last = (f"{minute} ({clock_words(start, minute)})" for minute in box.minutes)
        timing = [element("b", f" [minute {first} to {last}]")]
    return element("li", TICK, f"{box.number}. {box.say}", *timing)


def _clock(sheet: Sheet, work: Work) -> Markup:
    notes = [element("p", said) for said in work.clock]
    half = (len(work.time.moments) + 1) // 2
    tables = [
        _moments(part, sheet.start) for part in (work.time.moments[:half], work.time.moments[half:]) if part
    ]
    return joined([time_svg(work.time, sheet.start), *notes, element("div", *tables, class_="side moments")])


def _moments(moments: tuple[Moment, ...], start: time | None) -> Markup:
    rows = [element("tr", *(element("th", name) for name in ("min", "clock", "what to do")))]
    for moment in moments:
        rows.append(
            element(
                "tr",
                element("td", str(moment.minute)),
                element("td", clock_words(start, moment.minute)),
                element("td", TICK, moment.words),
                **({"class_": "off"} if moment.kind is Kind.OFF else {}),
            )
        )
    return element("table", *rows)


def _strands(sheet: Sheet) -> list[Markup]:
    if not sheet.strands:
        return []
    drawn = strands_svg(sheet.strands)
    note = element(
        "p", "Drawn not to scale. Printed colours are not hair: the words count, and the strand test decides."
    )
    return [_section(sheet.strands_title, joined([drawn, note]), "")]


def _room(sheet: Sheet) -> Markup:
    """Room to write what happened."""
    rows = [element("tr", *(element("th", name) for name in RESULT))]
    rows += [element("tr", element("td", part), *(element("td") for _ in RESULT[1:])) for part in sheet.parts]
    when = element(
        "p", "First touch __:__   Last parting __:__   Rinsed __:__   Scalp afterwards ____________________"
    )
    return joined(
        [_section("What happened", joined([when, element("table", *rows, class_="write")])), _notes("Notes")]
    )


def _notes(title: str) -> Markup:
    return _section(title, joined([element("div", class_="rule") for _ in range(LINES_FOR_NOTES)]))
