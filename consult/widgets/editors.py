"""The ways of answering one question: pick one, tick several, type, or keep a list of entries.

An editor knows its question and the answer so far; it tells its parent by messages.
"""

from collections.abc import Iterable
from typing import Any, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from consult.answers.base import NOT_SURE
from consult.answers.questions import Kind, Question
from consult.answers.reading import format_answer
from consult.widgets.lists import NumberedList, RowList, numbered
from consult.widgets.text import TextLine, styled

NONE_OF_THESE = "none of these"


class EditorMessage(Message):
    """Something about the question at `path`. A key pressed ahead may reach an editor that is being
    replaced, so whoever listens compares the path with the question in hand."""

    def __init__(self, path: str) -> None:
        super().__init__()
        self.path = path


class Answered(EditorMessage):
    """A finished answer."""

    def __init__(self, path: str, value: Any) -> None:
        super().__init__(path)
        self.value = value


class Ticked(Answered):
    """The ticks have changed; the question stays in hand."""


class NothingTicked(EditorMessage):
    """Enter where nothing is ticked; that is no answer, and never "none"."""


class Typed(EditorMessage):
    """A text is being typed; it is not an answer yet."""

    def __init__(self, path: str, text: str) -> None:
        super().__init__(path)
        self.text = text


class Entered(Typed):
    """A typed text, finished with Enter."""


class EntryWanted(EditorMessage):
    """Something about a list of entries: "add", "done", "none", "not sure", "edit" or "remove"."""

    def __init__(self, path: str, what: str, index: int = 0) -> None:
        super().__init__(path)
        self.what = what
        self.index = index


class PickOne(NumberedList):
    """One of the choices, or not sure."""

    def __init__(self, path: str, question: Question, value: Any) -> None:
        self._path = path
        self._values = [*question.choices, NOT_SURE]
        options = [
            Option(numbered(i, choice, question.hints.get(choice, ""), "* " if choice == value else "  "))
            for i, choice in enumerate(self._values)
        ]
        super().__init__(*options)
        if value in self._values:
            self.highlighted = self._values.index(value)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.post_message(Answered(self._path, self._values[event.option_index]))


class TickSeveral(NumberedList):
    """Any number of the choices; "none of these" and "not sure" stand alone."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "tick", show=False),
        Binding("enter", "finish", show=False),
        Binding("0", "none", show=False),
    ]
    handed_over = False

    def __init__(self, path: str, question: Question, value: Any) -> None:
        self._path = path
        self._choices = question.choices
        self._hints = question.hints
        self._ticked: set[str] = set(value) if isinstance(value, tuple) else set()
        self._alone = NOT_SURE if value == NOT_SURE else NONE_OF_THESE if value == () else ""
        super().__init__(*self._rows())

    def _rows(self) -> Iterable[Option]:
        for i, choice in enumerate(self._choices):
            yield Option(numbered(i, choice, self._hints.get(choice, ""), self._box(choice in self._ticked)))
        none, unsure = len(self._choices), len(self._choices) + 1
        # The commonest answer has a digit of its own, however long the list is.
        yield Option(numbered(none, NONE_OF_THESE, "", self._box(self._alone == NONE_OF_THESE), "0"))
        yield Option(numbered(unsure, NOT_SURE, "", self._box(self._alone == NOT_SURE)))

    @staticmethod
    def _box(ticked: bool) -> str:
        return "[x] " if ticked else "[ ] "

    def action_none(self) -> None:
        self.highlighted = len(self._choices)
        self.choose(len(self._choices))

    def action_tick(self) -> None:
        if self.highlighted is not None:
            self.choose(self.highlighted)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """A click ticks."""
        event.stop()
        self.choose(event.option_index)

    def action_finish(self) -> None:
        """Enter hands the ticks over. It ticks only a row that stands alone, never a sign by accident."""
        if not self._ticked and not self._alone and (self.highlighted or 0) >= len(self._choices):
            self.action_tick()
        if self._ticked or self._alone:
            self.handed_over = True
            self.post_message(Answered(self._path, self._value()))
        else:
            self.post_message(NothingTicked(self._path))

    def choose(self, index: int) -> None:
        """Tick or untick a row; once the ticks are handed over, keys typed ahead change them no more."""
        if self.handed_over:
            return
        if index >= len(self._choices):
            self._ticked.clear()
            self._alone = (NONE_OF_THESE, NOT_SURE)[index - len(self._choices)]
        else:
            self._ticked ^= {self._choices[index]}
            self._alone = ""
        for i, option in enumerate(self._rows()):
            self.replace_option_prompt_at_index(i, option.prompt)
        self.post_message(Ticked(self._path, self._value()))

    def _value(self) -> Any:
        """The ticks; () for "none of these" and None, not asked, while nothing is ticked."""
        if self._alone:
            return NOT_SURE if self._alone == NOT_SURE else ()
        return tuple(choice for choice in self._choices if choice in self._ticked) or None


class Field(TextLine):
    """A field that hands its text over at Enter and then takes no more keys until it is told to.

    Enter is taken here and not as a binding: a binding runs after keys that were typed ahead.
    """

    handed_over = False

    def on_key(self, event: events.Key) -> None:
        if self.handed_over:
            event.stop()
            event.prevent_default()
        elif event.key == "enter":
            event.stop()
            event.prevent_default()
            self.handed_over = True
            self.post_message(self.Submitted(self, self.value))


class TypeIn(Vertical):
    """A typed answer with the fixed words that may stand instead of it."""

    DEFAULT_CSS = """
    TypeIn { height: auto; }
    TypeIn OptionList { height: auto; border: none; background: transparent; padding: 0; }
    """

    def __init__(self, path: str, question: Question, value: Any, typed: str = "") -> None:
        super().__init__()
        self._path = path
        self._question = question
        self._literals = [*question.literals, NOT_SURE]
        if typed:
            self._text = typed
        elif value in self._literals or value is None:
            self._text = ""
        else:
            self._text = format_answer(question, value, unit=False)

    def compose(self) -> ComposeResult:
        yield Field(self._text, placeholder=self._placeholder(), select_on_focus=True)
        literals = RowList(*(Option(styled(("or  ", "dim"), word)) for word in self._literals))
        literals.highlighted = None
        yield literals

    def _placeholder(self) -> str:
        kind = self._question.kind
        if kind is Kind.DAY:
            return "2026-05-31, yesterday, 6 weeks ago"
        if kind is Kind.MOMENT:
            return "2026-05-31 14:30, today 9:15, 49 hours ago"
        return self._question.unit

    def on_input_changed(self, event: Input.Changed) -> None:
        event.stop()
        if event.value != self._text:
            self._text = event.value
            self.post_message(Typed(self._path, event.value))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.post_message(Entered(self._path, event.value))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.post_message(Answered(self._path, self._literals[event.option_index]))


class KeepEntries(NumberedList):
    """A list of entries: add, change or remove one, or say that there is nothing more."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("delete,backspace", "remove", show=False)]

    def __init__(self, path: str, question: Question, value: Any, rows: list[str]) -> None:
        self._path = path
        self._rows = rows
        options = [Option(numbered(0, "Add one"))]
        if rows:
            options.append(Option(numbered(1, "Nothing more: go on")))
            self._acts = ["add", "done"]
        else:
            mark = "* " if value == () else ""
            options.append(Option(numbered(1, "There is none", mark=mark)))
            unsure = "* " if value == NOT_SURE else ""
            options.append(Option(numbered(2, NOT_SURE, mark=unsure)))
            self._acts = ["add", "none", "not sure"]
        for row in rows:
            at = len(options)
            options.append(Option(numbered(at, row)))
        super().__init__(*options)
        self.highlighted = 1 if rows else 0

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        index = event.option_index
        if index < len(self._acts):
            self.post_message(EntryWanted(self._path, self._acts[index]))
        else:
            self.post_message(EntryWanted(self._path, "edit", index - len(self._acts)))

    def action_remove(self) -> None:
        index = (self.highlighted or 0) - len(self._acts)
        if 0 <= index < len(self._rows):
            self.post_message(EntryWanted(self._path, "remove", index))
