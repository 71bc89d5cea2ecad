"""Windows that ask for a place: of the record, and of a consultation that could not be saved where it belongs."""

from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input

from consult.cleaning import clean_text
from consult.records.store import CannotSave, Taken
from consult.session import Session
from consult.widgets.text import TextBlock, TextLine, styled


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


class ExportWindow(PlaceWindow):
    """Asks where the record goes."""

    def words(self) -> Content:
        return styled(
            ("Write the record", "bold"),
            "\nIt holds health answers: keep it as local law asks, and delete it when it is no longer "
            "needed.\nEnter writes, Escape goes back.",
        )

    def offered(self) -> str:
        return str(self.session.export_path())

    def write(self, path: Path, *, new: bool) -> None:
        self.session.export(path, new=new)


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
