"""Every answer on one page, each of them a key press from being changed."""

from collections.abc import Sequence
from itertools import groupby
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from consult.answers.access import get
from consult.answers.format import format_answer
from consult.answers.paths import AnswerPath
from consult.answers.questions import question_of
from consult.interview.order import follows_from
from consult.interview.pages import page_of
from consult.screens.list_page import ListPage
from consult.screens.messages import ChangeAnswer, OpenResult, OpenReview
from consult.screens.page import BACK, EMERGENCY, EXPORT, FIND_IN_LIST, HELP, LOOK, QUIT
from consult.session import Session
from consult.widgets.hanging import Hanging
from consult.widgets.keys import Key, bindings
from consult.widgets.lists import RowList
from consult.widgets.text import TextBlock, styled
from consult.widgets.verdicts import MARK_WIDTH, gate_content

NAME = 20
"""Columns of a question's short name before its answer."""


def _chapter(path: AnswerPath) -> str:
    return page_of(path).chapter


class ReviewPage(ListPage):
    """What was answered, what was not asked, what is not sure."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "review.tcss"]
    AUTO_FOCUS = "#answers"
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Enter", "change", "change the answer"),
        Key("n", "next open", "to the next question left open", (("n", "next_open"),)),
        BACK,
        FIND_IN_LIST,
        HELP,
        LOOK,
        Key("F3", "result", "verdict and plan", (("f3", "result"),)),
        EXPORT,
        Key(EMERGENCY.name, "", EMERGENCY.help, EMERGENCY.binds),
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session, at: str = "") -> None:
        super().__init__(session)
        self._at = at

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        yield RowList(id="answers")
        yield TextBlock(id="gate")

    def on_mount(self) -> None:
        self.head("Review of all answers")
        rows: list[Option] = []
        for chapter, paths in groupby(self.session.intake.asked(implied=True), _chapter):
            rows.append(Option(styled((chapter, "bold $heading")), disabled=True))
            rows += [self._row(path) for path in paths]
        self.query_one("#answers", OptionList).add_options(rows)
        judged = self.session.judgement()
        self.query_one("#gate", TextBlock).show(gate_content(judged, self.session.voice, 4), hang=MARK_WIDTH)
        places = [row.id for row in rows]
        self.query_one("#answers", OptionList).highlighted = (
            places.index(self._at) if self._at in places else 1
        )

    def _row(self, path: AnswerPath) -> Option:
        question = question_of(path)
        value = get(self.session.answers, path)
        indent = "    " if path.list else "  "
        if value is None:
            text, style = ("left open", "$muted") if question.optional else ("NOT ASKED", "bold $warning")
        else:
            text, style = format_answer(question, value), ""
        row = styled(indent, (f"{question.short:<{NAME}}", "$muted"), " ", (text, style))
        return Option(Hanging(row, len(indent) + NAME + 1), id=path)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        if event.option_id:
            path = follows_from(self.session.answers, event.option_id) or event.option_id
            self.post_message(ChangeAnswer(path, OpenReview(event.option_id)))

    def action_next_open(self) -> None:
        """To the next question that has no answer yet."""
        options = self.query_one("#answers", OptionList)
        start = (options.highlighted or 0) + 1
        count = options.option_count
        for index in [*range(start, count), *range(start)]:
            option = options.get_option_at_index(index % count)
            if option.id and get(self.session.answers, option.id) is None:
                options.highlighted = index % count
                return

    def action_result(self) -> None:
        self.post_message(OpenResult())
