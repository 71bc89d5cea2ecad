"""Reads a sheet back as a person would, from the text of its HTML; it shares no code with the writer."""

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser
from itertools import pairwise

VOID = {"meta", "br", "hr", "link", "img"}


@dataclass
class Element:
    """One element of a page with its own text in order."""

    tag: str
    attributes: dict[str, str]
    inside: "list[Element | str]" = field(default_factory=list)

    @property
    def text(self) -> str:
        said = "".join(part if isinstance(part, str) else f" {part.text} " for part in self.inside)
        return re.sub(r"\s+", " ", said).strip()

    def all(self, tag: str, class_: str = "") -> "list[Element]":
        found = []
        for part in self.inside:
            if isinstance(part, Element):
                named = class_ in part.attributes.get("class", "").split() if class_ else True
                found += [part] if part.tag == tag and named else []
                found += part.all(tag, class_)
        return found


class Page(HTMLParser):
    """The tree of a page; raises AssertionError where a tag is not closed in its turn."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Element("root", {})
        self.open = [self.root]
        self.feed(html)
        self.close()
        assert self.open == [self.root], f"left open: {[e.tag for e in self.open[1:]]}"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inside.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].inside.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, f"</{tag}> closes <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


def bowls(html: str) -> list[tuple[int, list[float], float, int, str]]:
    """(number, grams of each part, grams together, minute, what may be added) of each bowl as often as it is mixed."""
    found = []
    for bowl in Page(html).root.all("div", "bowl"):
        number = re.match(r"Bowl (\d+)", bowl.text)
        assert number
        grams = [float(cell.text.split(":")[-1].removesuffix(" g")) for cell in bowl.all("td", "amount")]
        for mixed in bowl.all("div", "mixed"):
            minute = re.search(r"mixed at minute (\d+)", mixed.text)
            assert minute
            rest = " ".join(part.text for part in mixed.all("div", "rest"))
            found.append((int(number[1]), grams[:-1], grams[-1], int(minute[1]), rest))
    return found


def moments(html: str) -> list[tuple[int, str]]:
    """(minute, what is done) of the table by the clock, each look again as one of its own."""
    found = []
    for row in (row for table in Page(html).root.all("div", "moments") for row in table.all("tr")):
        cells = [cell.text for cell in row.all("td")]
        if cells:
            words, _, again = cells[2].partition("; again at")
            minutes = [int(cells[0]), *(int(m) for m in re.findall(r"(\d+) \(", again))]
            found += [(minute, words.strip()) for minute in minutes]
    return found


def bars(html: str) -> list[tuple[str, int]]:
    """(section with its number or "", minute it is taken off) of the bars, in order."""
    said = [text.text for svg in Page(html).root.all("svg", "time") for text in svg.all("text")]
    found = []
    for before, off in pairwise(said):
        minute = re.fullmatch(r"off at (\d+)", off)
        if minute:
            found.append((before, int(minute[1])))
    return found
