"""A working sheet as one HTML file, for A4 or Letter: no script, nothing from outside, no colour without its words."""

from collections.abc import Sequence
from datetime import time
from pathlib import Path

from consult.paper.draw_head import head_svg
from consult.paper.draw_strand import strands_svg
from consult.paper.draw_time import time_svg
from consult.paper.markup import Markup, element, joined
from consult.paper.words import COPIES, HEALTH, JUDGED, LINES_FOR_NOTES, RESULT, STARTED, TITLE, heading
from consult.report import STILL_TO_ANSWER
from consult.report.sheet import Sheet, StepBox, Told, Work
from consult.report.sheet_bowls import BowlBox, alike
from consult.report.time_picture import Moment, clock_words

BESIDE = 2
"""So many bowls stand beside what is bought; more stand under it."""
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
    work = sheet.work
    parts = [
        *(_top(sheet), *_first(sheet)),
        *(_work(sheet, work) if work else ()),
        *_strands(sheet),
        *(_afterwards(sheet, work) if work else (_section("Notes", _rules()),)),
    ]
    return f"<!DOCTYPE html>\n{element('html', head, element('body', *parts), lang='en')}\n"


def _section(title: str, inside: str, class_: str = "whole") -> Markup:
    return element("section", element("h2", title), inside, class_=class_)


def _list(title: str, said: tuple[str, ...]) -> Markup:
    return _section(title, _items(said)) if said else Markup("")


def _items(said: tuple[str, ...]) -> Markup:
    return element("ul", *(element("li", one) for one in said))


def _rules() -> Markup:
    """Lines to write on."""
    return joined([element("div", class_="rule") for _ in range(LINES_FOR_NOTES)])


def _top(sheet: Sheet) -> Markup:
    whose = element("div", f"{JUDGED} {sheet.judged}", element("br"), COPIES[sheet.copy])
    return joined(
        [
            element("div", element("h1", heading(sheet)), whose, class_="top"),
            element("p", sheet.verdict, class_="verdict"),
            element("p", element("b", sheet.what)),
            element("p", sheet.before_all),
        ]
    )


def _first(sheet: Sheet) -> list[Markup]:
    """Emergencies and cautions; where nothing is mixed what to do instead, and when to come back."""
    danger = (element("p", element("b", one)) for one in sheet.emergencies)
    parts = [element("section", *danger, class_="emergency")]
    if sheet.do:
        parts.append(_section("What to do now, one after the other", _told(sheet.do), "do"))
    if sheet.cautions:
        parts.append(_section("Take care", element("div", _told(sheet.cautions), class_="columns")))
    if sheet.come_back:
        parts.append(_section("When to come back", element("p", element("b", sheet.come_back))))
    parts += [_list(STILL_TO_ANSWER, sheet.ask), _list("Meanwhile", sheet.prepare)]
    parts.append(_list("Instead", sheet.other_ways))
    if sheet.health:
        said = "; ".join(f"{name}: {answer}" for name, answer in sheet.health)
        parts.append(_section(HEALTH, element("p", said, class_="small"), "health"))
    return parts


def _told(said: tuple[Told, ...]) -> Markup:
    """Each sentence with what to do about it."""
    items = []
    for one in said:
        do = [element("br"), element("b", "Do: "), one.do] if one.do else []
        items.append(element("li", one.say, *do))
    return element("ul", *items)


def _work(sheet: Sheet, work: Work) -> list[Markup]:
    recipes = alike(work.bowls)
    drawn = element("div", *(_bowl(same, sheet.start) for same in recipes), class_="bowls")
    bowls = _section("Bowls", drawn, f"wide-{len(recipes)}")
    beside = "side" if len(recipes) <= BESIDE else "under"
    head = element("div", head_svg(work.head), _items(work.dividing), class_="side")
    steps = element("ol", *(_step(box, sheet.start) for box in work.steps), class_="steps")
    return [
        element("div", _list("Buy or have ready", work.buy), bowls, class_=beside),
        _section("Sections, in this order", head),
        _section("Step by step", steps, "steps"),
        _section(STARTED.format(clock_words(sheet.start, 0)), _clock(sheet, work), "clock"),
    ]


def _bowl(same: Sequence[BowlBox], start: time | None) -> Markup:
    """Bowls mixed alike in one box, with a line to tick off for each time."""
    bowl, count = same[0], len(same)
    rows = [
        element("tr", element("td", part.name), element("td", f"{part.grams:g} g", class_="amount"))
        for part in bowl.weighed
    ]
    packs = f"{bowl.packs} whole pack{'s' if bowl.packs > 1 else ''}: " if bowl.packs else ""
    total = element("td", f"{packs}{bowl.grams:g} g", class_="amount total")
    rows.append(element("tr", element("th", "together"), total))
    times = f", {count} times, one after the other" if count > 1 else ""
    return element(
        "div",
        element("b", f"Bowl {bowl.number}: {bowl.what_for}{times}"),
        element("div", f"{bowl.product}; {bowl.how}"),
        element("table", *rows),
        *(_mixed(each, start) for each in same),
        class_="bowl",
    )


def _mixed(bowl: BowlBox, start: time | None) -> Markup:
    """When it is mixed, room for what was weighed, and what may be mixed after it."""
    turn = f"{bowl.turn}, " if bowl.turn else ""
    when = f"{turn}mixed at minute {bowl.minute} ({clock_words(start, bowl.minute)}) ____ g"
    rest = [element("div", bowl.rest, class_="rest")] if bowl.rest else []
    return element("div", TICK, when, *rest, class_="mixed")


def _step(box: StepBox, start: time | None) -> Markup:
    timing = []
    if box.minutes:
        first, last = (f"{minute} ({clock_words(start, minute)})" for minute in box.minutes)
        timing = [element("b", f" [minute {first} to {last}]")]
    return element("li", TICK, f"{box.number}. {box.say}", *timing)


def _clock(sheet: Sheet, work: Work) -> Markup:
    moments, start = work.time.moments, sheet.start
    half = (len(moments) + 1) // 2
    tables = (_moments(part, start) for part in (moments[:half], moments[half:]))
    notes = element("div", *(element("p", said) for said in work.clock), class_="columns")
    return joined([time_svg(work.time, start), notes, element("div", *tables, class_="side moments")])


def _moments(moments: tuple[Moment, ...], start: time | None) -> Markup:
    rows = [element("tr", *(element("th", name) for name in ("min", "clock", "what to do")))]
    for moment in moments:
        cells = (
            element("td", str(moment.minute)),
            element("td", clock_words(start, moment.minute)),
            element("td", TICK, moment.words, *_again(moment, start)),
        )
        rows.append(element("tr", *cells, class_=moment.kind.value))
    return element("table", *rows)


def _again(moment: Moment, start: time | None) -> list[Markup]:
    """A box for each time that the same is done again."""
    boxes = []
    for minute in moment.again:
        boxes.append(element("span", TICK, f"{minute} ({clock_words(start, minute)})", class_="again"))
    return [Markup("; again at "), *boxes] if boxes else []


def _strands(sheet: Sheet) -> list[Markup]:
    if not sheet.strands:
        return []
    note = "Not to scale. Printed colours are not hair: the words count, and the strand test decides."
    drawn = joined([strands_svg(sheet.strands), element("p", note)])
    return [_section(sheet.strands_title, drawn, "colour")]


def _afterwards(sheet: Sheet, work: Work) -> list[Markup]:
    """Aftercare, and room to write what happened."""
    after = (_list("Afterwards", work.aftercare), _list("Next time", work.next_time))
    rows = [element("tr", *(element("th", name) for name in RESULT))]
    rows += [element("tr", element("td", part), *(element("td") for _ in RESULT[1:])) for part in sheet.parts]
    when = "First touch __:__   Last parting __:__   Rinsed __:__   Scalp afterwards ____________________"
    written = joined([element("p", when, class_="spaced"), element("table", *rows, class_="write")])
    return [element("div", *after, class_="side"), _section("What happened", written)]
