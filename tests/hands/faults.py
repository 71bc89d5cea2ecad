"""The disk refuses, at each call in turn that the store makes of the system: told in a line, and nothing lost.

Run from the project's folder: `python -m tests.hands.faults`.
"""

import errno
import fcntl
import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import Any, Final
from unittest import mock

from consult.answers.access import get
from consult.dates import clock
from consult.files import BadFile
from consult.interview import intake as steps
from consult.records.codec import read_file
from consult.records.drafts import draft_folder, offered
from consult.records.store import HOME_VARIABLE, PART, CannotSave
from consult.records.wanted import Origin, Wanted
from consult.session import Session, open_session
from consult.trade import Voice

ERRORS: Final = (
    *(errno.ENOSPC, errno.EDQUOT, errno.EIO, errno.EACCES, errno.EPERM, errno.EROFS),
    *(errno.EINTR, errno.EMFILE, errno.ENOLCK, errno.ENOENT),
)
CALLS: Final = {
    os: (
        "open",
        "close",
        "fsync",
        "replace",
        "stat",
        "fstat",
        "chmod",
        "unlink",
        "mkdir",
        "scandir",
        "listdir",
    ),
    fcntl: ("flock",),
}
_STORE: Final = ("records/store.py", "records/drafts.py")


@dataclass
class Disk:
    """Counts what the store asks of the system, and refuses the call of one number."""

    refused: int = 0
    error: int = 0
    asked: list[str] = field(default_factory=list)

    def allows(self, name: str) -> None:
        self.asked.append(name)
        if len(self.asked) == self.refused:
            raise OSError(self.error, os.strerror(self.error))

    def call(self, name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def asked(*arguments: Any, **named: Any) -> Any:
            if _by_the_store(sys._getframe(1)):
                self.allows(name)
            return real(*arguments, **named)

        return asked

    @contextmanager
    def watched(self) -> Iterator[None]:
        with mock.patch.multiple(os, **{name: self.call(name, getattr(os, name)) for name in CALLS[os]}):
            real = os.fdopen

            def fdopen(*arguments: Any, **named: Any) -> Any:
                file = real(*arguments, **named)
                if _by_the_store(sys._getframe(1)):
                    file = mock.MagicMock(wraps=file)
                    held = file._mock_wraps
                    file.__enter__.return_value = file
                    file.__exit__.side_effect = lambda *_: held.close()
                    file.fileno.side_effect = held.fileno
                    file.write.side_effect = self.call("write", held.write)
                    file.flush.side_effect = self.call("flush", held.flush)
                return file

            flock = self.call("flock", fcntl.flock)
            with mock.patch.object(os, "fdopen", fdopen), mock.patch.object(fcntl, "flock", flock):
                yield


def _by_the_store(frame: FrameType | None) -> bool:
    """Whether the store asks, itself or through the standard library."""
    for _ in range(7):
        if frame is None:
            return False
        if frame.f_code.co_filename.endswith(_STORE):
            return True
        frame = frame.f_back
    return False


@dataclass
class Windows:
    """Two windows over one consultation, and what each was told."""

    older: Session = field(default_factory=Session)
    newer: Session | None = None
    exported: Path | None = None
    told: list[str] = field(default_factory=list)

    def act(self, folder: Path) -> None:
        """Answer in one window, open the same in another, answer in both, export."""
        self._answer(self.older, "client.name", "Ines")
        self._answer(self.older, "client.age", 41)
        found = offered()
        self.told += found.errors
        if found.drafts:
            try:
                self.newer = open_session(Wanted(Origin.DRAFT, Voice.HOME, found.drafts[0].path))
            except BadFile as error:
                self.told.append(str(error))
        if self.newer:
            self._answer(self.newer, "client.gloves", "yes")
        self._answer(self.older, "client.applied_by", "myself at home")
        try:
            self.older.export(folder / "record.toml", new=True)
            self.exported = folder / "record.toml"
        except CannotSave as error:
            self.told.append(str(error))

    def _answer(self, session: Session, path: str, value: object) -> None:
        jumped = steps.jump(session.intake, path)
        session.change(steps.answer(jumped, value))
        self.told += [session.trouble] if session.trouble else []


def asked_without_a_fault() -> list[str]:
    """The calls of one run in which nothing is refused."""
    disk = Disk()
    with tempfile.TemporaryDirectory() as folder:
        _run(disk, Path(folder))
    return disk.asked


def faults(number: int, error: int) -> list[str]:
    """What is wrong when the call of that number is refused; empty when nothing is."""
    disk = Disk(number, error)
    with tempfile.TemporaryDirectory() as folder:
        return _run(disk, Path(folder))


def _run(disk: Disk, folder: Path) -> list[str]:
    with mock.patch.dict(os.environ, {HOME_VARIABLE: str(folder / "home")}):
        windows = Windows()
        try:
            with disk.watched():
                windows.act(folder)
        except OSError as error:
            return [f"an error got out: {error}"]
        wrong = [f"no line: {line}" for line in windows.told if "\n" in line or len(line) > 300]
        # The disk is well again. Whatever was told not to be saved is saved with the next change.
        for session in (windows.older, windows.newer):
            if session and session.error:
                session.save()
        offered()
        return wrong + _what_is_missing(windows, folder)


def _what_is_missing(windows: Windows, folder: Path) -> list[str]:
    wrong = [f"left behind: {path.name}" for path in folder.rglob(f"{PART}*")]
    kept = [windows.exported] if windows.exported else []
    kept += [path for path in draft_folder().glob("*.toml") if path.stat().st_size]
    answers = [read_file(path, clock()).answers for path in kept]
    expected = [{"client.name": "Ines", "client.age": 41, "client.applied_by": "myself at home"}]
    if windows.newer:
        # Opened after the first save that the disk took.
        expected.append({"client.name": "Ines", "client.gloves": "yes"})
    for wanted in expected:
        if not any(all(get(a, path) == value for path, value in wanted.items()) for a in answers):
            wrong.append(f"lost: {sorted(wanted)}")
    return wrong


def main() -> int:
    asked = asked_without_a_fault()
    tried = failed = 0
    for number, name in enumerate(asked, 1):
        for error in ERRORS:
            wrong = faults(number, error)
            tried, failed = tried + 1, failed + bool(wrong)
            if wrong:
                print(f"call {number} ({name}), {errno.errorcode[error]}: {'; '.join(wrong)}")
    print(
        f"faults: {len(asked)} calls of the store, each with {len(ERRORS)} errors: {tried} tried, {failed} wrong"
    )
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
