"""Windows that ask for a place: of the record, and of a consultation that could not be saved where it belongs."""

from pathlib import Path
from typing import ClassVar, Final

from msgspec import Struct
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input

from consult.cleaning import clean_text
from consult.records.store import CannotSave, Taken
from consult.report.copies import Copy
from consult.session import Session
from consult.widgets.text import TextBlock, TextLine, lines, styled


class PlaceWindow(ModalScreen[Path | None]):
    """Asks for a path and writes there; a place that exists already is asked about again."""

    CSS_PATH = "notices.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Back", priority=True)]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._asked_about: Path | None = None

    def words(self) -> Content:
        """What is asked, and why."""
        raise NotImplementedError

    def offered(self) -> str:
        """The path that stands in the field at first."""
        raise NotImplementedError

    def write(self, path: Path, *, new: bool) -> None:
        """Write there. Raises CannotSave, or Taken when `new` and a file is there."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        with Vertical(classes="window"):
            yield TextBlock(id="text")
            yield TextLine(self.offered(), id="path")
            yield TextBlock(id="error")

    def on_mount(self) -> None:
        self.query_one("#text", TextBlock).show(self.words())
        self.query_one(Input).focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        error = self.query_one("#error", TextBlock)
        if not event.value.strip():
            error.show(styled(("a place for the file is needed", "bold $error")))
            return
        try:
            path = Path(event.value.strip()).expanduser()
            if path.is_dir():
                error.show(styled(("this is a folder; add a file name", "bold $error")))
                return
            self.write(path, new=path != self._asked_about)
        except Taken:
            self._asked_about = path
            error.show(styled(("this file exists; Enter again replaces it", "bold $warning")))
        except (CannotSave, OSError, RuntimeError, ValueError) as problem:
            error.show(styled((clean_text(str(problem)), "bold $error")))
        else:
            self.dismiss(path)

    def action_leave(self) -> None:
        self.dismiss(None)


class Written(Struct, frozen=True):
    """Something that can be written: its name, how its file's name ends, whose copy of the sheet it is."""

    name: str
    ending: str
    copy: Copy | None = None


WRITTEN: Final = (
    Written("the record, which can be opened again", ".toml"),
    Written("the working sheet, to print", ".html", Copy.FILE),
    Written("the client's sheet, without health answers", ".client.html", Copy.CLIENT),
    Written("the working sheet as plain text", ".txt", Copy.FILE),
)


class ExportWindow(PlaceWindow):
    """Asks what is written, and where it goes."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "other(-1)", "What is written", priority=True),
        Binding("down", "other(1)", "What is written", priority=True),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._number = 0

    def words(self) -> Content:
        rows = [styled(("Write", "bold"), ("   Up and Down choose what", "$muted"))]
        for number, written in enumerate(WRITTEN):
            here = number == self._number
            rows.append(styled("(o) " if here else "( ) ", (written.name, "bold" if here else "")))
        health = (
            "It holds no health answers; a verdict that comes of them is told in person."
            if WRITTEN[self._number].copy is Copy.CLIENT
            else "It holds health answers: keep it as local law asks, and delete it when it is no longer needed."
        )
        return lines([*rows, styled(f"\n{health}\nEnter writes, Escape goes back.")])

    def offered(self) -> str:
        return str(self.session.export_path().with_suffix(WRITTEN[self._number].ending))

    def write(self, path: Path, *, new: bool) -> None:
        copy = WRITTEN[self._number].copy
        if copy is None:
            self.session.export(path, new=new)
        else:
            self.session.export_sheet(path, copy, new=new)

    def action_other(self, step: int) -> None:
        """Another thing to write, at the place that is offered for it."""
        self._number = (self._number + step) % len(WRITTEN)
        self.query_one("#text", TextBlock).show(self.words())
        self.query_one(Input).value = self.offered()


class UnsavedWindow(PlaceWindow):
    """Says at the door that the consultation is not saved, and offers another place for it."""

    def words(self) -> Content:
        return styled(
            ("This consultation is not saved", "bold $error"),
            f"\n{clean_text(self.session.error)}\n\nIt can be kept in another place, and opened there as a file "
            "later. It holds health answers.\nEnter writes it there and leaves, Escape goes back, "
            "Ctrl+Q again leaves without it.",
        )

    def offered(self) -> str:
        return str(Path("~") / self.session.export_path().with_suffix(".unfinished.toml").name)

    def write(self, path: Path, *, new: bool) -> None:
        self.session.save_at(path, new=new)
