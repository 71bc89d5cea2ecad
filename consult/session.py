"""One consultation at the machine: the intake, its voice, its clock and its draft on disk.

It knows no screen. Screens ask it and tell it; the draft is saved with every change.
"""

from collections.abc import Callable
from datetime import datetime, time, timedelta
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from consult.answers import Answers
from consult.answers.access import get
from consult.answers.base import SCHEMA, known
from consult.answers.product import Product
from consult.answers.shelf import Shelf
from consult.dates import clock
from consult.files import BadFile
from consult.interview import intake as steps
from consult.interview.intake import REVIEW, Intake, start
from consult.records.codec import Loaded, dump_draft, read_file
from consult.records.drafts import DraftFile
from consult.records.store import CannotSave, new_export_path, save_text, stamp
from consult.records.used import remember_products, used_products
from consult.records.wanted import Origin, Purpose, Wanted
from consult.trade import Voice

if TYPE_CHECKING:
    from consult.buying.look import LookFor
    from consult.consultation import Consultation
    from consult.gates.judge import Judgement
    from consult.remedies.day import DayLog
    from consult.remedies.remedy import Remedy
    from consult.report.copies import Copy
    from consult.report.rests import Rests
    from consult.salon import SalonConfig


OPENED_TWICE = (
    "opened in another window as well; both are kept, each as an unfinished consultation of its own"
)


QUARTER = 15
TO_MIX_MINUTES = 10
"""Minutes from a result to the first touch at the least (assumption); it can be set to any other time."""


class Session:
    """Holds the one changing thing, the intake; everything shown is computed from it.

    at      a fixed moment of judgement (demo clients), or None for the clock
    draft   where the unfinished consultation is kept; nothing is kept of demo clients
    error   why the last change is not on the disk; empty when it is
    before  the result that was shown before another answer was given; None until then
    candidates  packs that were ticked or typed to be compared before one is bought
    day     the log of a day that went wrong: as it stood in the file, or as it is being told
    notice  what else the user has to know about the file
    """

    def __init__(
        self,
        voice: Voice = Voice.HOME,
        *,
        intake: Intake | None = None,
        at: datetime | None = None,
        draft: DraftFile | None = None,
        keep: bool = True,
        salon: "SalonConfig | None" = None,
        shelf: Shelf | None = None,
    ) -> None:
        self.voice = voice
        self.intake = intake or start()
        self.at = at
        self.draft = draft or DraftFile()
        self.keep = keep
        self.salon = salon
        self.shelf = shelf
        self.candidates: tuple[Product, ...] = ()
        self._purpose = Purpose.COLOUR
        self.day: DayLog | None = None
        self.error = ""
        self.notice = ""
        self._half_typed: dict[str, str] = {}
        self._computed: Consultation | None = None
        self.before: Consultation | None = None
        self._shown: Consultation | None = None
        self._start: datetime | None = None
        self._rests: tuple[Consultation, Rests] | None = None
        self._judged: tuple[Answers, datetime, Judgement] | None = None
        self._looked: tuple[Answers, datetime, LookFor] | None = None

    @classmethod
    def resume(
        cls, loaded: Loaded, draft: DraftFile, salon: "SalonConfig | None" = None, shelf: Shelf | None = None
    ) -> "Session":
        """Go on with an unfinished consultation where it was left."""
        session = cls(
            loaded.voice or Voice.HOME,
            intake=start(loaded.answers.at_version(SCHEMA), loaded.position),
            draft=draft,
            salon=salon,
            shelf=shelf,
        )
        session._half_typed[session.intake.position] = loaded.typed or ""
        session.day = loaded.day
        session.purpose, session.candidates = loaded.purpose, loaded.candidates
        return session

    @classmethod
    def demo(
        cls, loaded: Loaded, voice: Voice, salon: "SalonConfig | None" = None, shelf: Shelf | None = None
    ) -> "Session":
        """Open a demo client at its own moment; nothing is kept."""
        return cls(
            voice,
            intake=start(loaded.answers),
            at=loaded.consulted_at,
            keep=False,
            salon=salon,
            shelf=shelf,
        )

    @property
    def answers(self) -> Answers:
        return self.intake.answers

    @property
    def purpose(self) -> Purpose:
        """What it is for. Before buying, nothing is asked of a product."""
        return self._purpose

    @purpose.setter
    def purpose(self, purpose: Purpose) -> None:
        self._purpose, self._judged = purpose, None
        over = steps.OF_A_PRODUCT if purpose is Purpose.BUY else ()
        self.intake = steps.passing_over(self.intake, over)

    @property
    def products(self) -> tuple[Product, ...]:
        """Products that are known and need not be typed again: those of the shelf, then those used before."""
        shelf = self.shelf.product if self.shelf else ()
        return (*shelf, *(product for product in self._used if product not in shelf))

    @cached_property
    def _used(self) -> tuple[Product, ...]:
        return used_products() if self.keep else ()

    @property
    def typed(self) -> str:
        """What is half typed at the question in hand."""
        return self._half_typed.get(self.intake.position, "")

    @property
    def trouble(self) -> str:
        """What the user has to know about the file, the worst first; empty when all is well."""
        return self.error or self.notice

    def now(self) -> datetime:
        """The moment of judgement."""
        return self.at or clock()

    @property
    def start(self) -> time:
        """When the first touch is to be: as it was set, or the next quarter of an hour with time to mix."""
        if self._start is None:
            ready = self.now() + timedelta(minutes=TO_MIX_MINUTES)
            self._start = ready + timedelta(minutes=-ready.minute % QUARTER)
        return self._start.time()

    def move_start(self, minutes: int) -> None:
        """The first touch so many minutes later, or earlier where it is less than 0."""
        at = datetime.combine(self.now(), self.start)
        self._start = at + timedelta(minutes=minutes)

    def change(self, intake: Intake) -> None:
        """Take a new intake and save it; a failed save is told in `error` and loses nothing here."""
        if intake.answers != self.intake.answers:
            self._half_typed.pop(self.intake.position, None)
        self.intake = intake
        self.save()

    def type(self, text: str) -> None:
        """Keep a half-typed answer in the draft."""
        self._half_typed[self.intake.position] = text
        self.save()

    def save(self) -> None:
        """Write the draft. The consultation goes on when the disk will not take it."""
        if not self.keep:
            return
        try:
            if self.draft.save(self._draft_text(), datetime.now()):
                self.notice = OPENED_TWICE
            self.error = ""
        except CannotSave as error:
            self.error = f"not saved: {error}"

    def save_at(self, path: Path, *, new: bool) -> None:
        """Keep the draft in another place from now on. Raises CannotSave, or Taken when `new` and a file is there."""
        save_text(path, self._draft_text(), new=new)
        self.draft = DraftFile(path, stamp(path))
        self.error = ""

    def _draft_text(self) -> str:
        place = self.intake.position, self.typed
        return dump_draft(self.answers, self.voice, *place, self.day, self.purpose, self.candidates)

    def judgement(self) -> "Judgement":
        """The judgement of the answers now, without a plan: what the gate panel shows while questions are asked."""
        now = self.now()
        if self._judged is None or self._judged[:2] != (self.answers, now):
            self._judged = (self.answers, now, self._judge(now))
        return self._judged[2]

    def _judge(self, now: datetime) -> "Judgement":
        from consult.head.build import build_head
        from consult.judging import judge_head

        rules = self.salon.rules if self.salon else None
        if self.purpose is Purpose.BUY:
            from consult.buying.look import empty_handed, of_the_head

            head = empty_handed(self.answers)
            return of_the_head(judge_head(head, build_head(head, now.date()), now, rules))
        return judge_head(self.answers, build_head(self.answers, now.date()), now, rules)

    def look_for(self) -> "LookFor":
        """What to look for in the shop; computed once for the same answers and minute."""
        from consult.buying.look import look_for

        now = self.now()
        if self._looked is None or self._looked[:2] != (self.answers, now):
            self._looked = (self.answers, now, look_for(self.answers, now, self.salon))
        return self._looked[2]

    def consultation(self) -> "Consultation":
        """Everything that follows from the answers now; computed once for the same answers and minute."""

        from consult.consultation import consult

        now = self.now()
        if self._computed is None or (self._computed.answers, self._computed.now) != (self.answers, now):
            self._computed = consult(self.answers, now, self.salon, self.shelf)
        return self._computed

    @property
    def rests(self) -> "Rests | None":
        """On which answers each sentence of the result rests, where that has been looked for."""
        found = self.consultation()
        return self._rests[1] if self._rests and self._rests[0] is found else None

    def look_behind(self, stopped: Callable[[], bool]) -> "Rests":
        """Look for it, which takes a second or two; `stopped` ends it, and then it is not kept."""
        from consult.report.rests import Rests

        found = self.consultation()
        rests = Rests(found, self.voice, stopped)
        if not stopped():
            self._rests = (found, rests)
        return rests

    def note_shown(self) -> None:
        """A result is on the screen: of two different ones, `before` is the one that was shown before."""
        found = self.consultation()
        if self._shown and self._shown.answers != found.answers:
            self.before = self._shown
        self._shown = found

    def have_product(self) -> None:
        """A product is in hand now: go on with its questions."""
        self.purpose = Purpose.COLOUR
        self.change(steps.with_new_product(self.intake))

    def compare(self, candidates: tuple[Product, ...]) -> None:
        """Take the packs that are to be compared, and save them."""
        self.candidates = candidates
        self.save()

    def tell_day(self, day: "DayLog") -> None:
        """Take what is told of a day that went wrong, and save it."""
        if day != self.day:
            self.day = day
            self.save()

    def remedy(self) -> "Remedy":
        """What to do about the day; its own moment counts where it was told."""
        from consult.remedies.day import DayLog
        from consult.remedies.remedy import remedy

        day = self.day or DayLog()
        return remedy(self.answers, day, known(day.done_at) or self.now(), self.salon)

    def export(self, path: Path, *, new: bool) -> None:
        """Write the record and let the draft go. After a day that went wrong the record has the day written in, so that
        a reaction stops the next consultation. Raises CannotSave, or Taken when `new` and a file is there; then the
        draft stays."""
        from consult.records.record import dump_record

        if self.purpose is Purpose.WRONG:
            found = self.remedy()
            text = dump_record(found.recorded, found.day)
        else:
            text = dump_record(self.consultation(), self.day)
        save_text(path, text, new=new)
        self.error = ""
        if self.keep:
            remember_products(self.answers.product, self.answers.lengths_product)
        try:
            self.draft.remove()
        except CannotSave as error:
            self.notice = f"the record is written, but the unfinished consultation stays: {error}"

    def export_sheet(self, path: Path, copy: "Copy", *, new: bool) -> None:
        """Write the working sheet in the form that the file's name ends in, HTML where it names none; the draft stays.
        Raises CannotSave, or Taken when `new` and a file is there."""
        from consult.paper import FORMS
        from consult.report.sheet import working_sheet

        form = FORMS.get(path.suffix.lower(), FORMS[".html"])
        save_text(path, form(working_sheet(self.consultation(), self.voice, copy, self.start)), new=new)

    def export_path(self) -> Path:
        """The place that is offered for the record."""
        return new_export_path(clock())


def open_session(wanted: Wanted, salon: "SalonConfig | None" = None, shelf: Shelf | None = None) -> Session:
    """The session of what is wanted. Raises BadFile when its file cannot be read.

    A file is opened for a judgement of today: its answers are taken, its old result is not. A demo client
    is judged at its own moment.
    """
    session = _opened(wanted, salon, shelf)
    if wanted.purpose is not Purpose.COLOUR:
        session.purpose = wanted.purpose
    return session


def _opened(wanted: Wanted, salon: "SalonConfig | None", shelf: Shelf | None) -> Session:
    if wanted.path is None:
        return Session(wanted.voice, salon=salon, shelf=shelf)
    loaded = read_file(wanted.path, clock())
    if wanted.purpose is not Purpose.COLOUR:
        salon = salon or _salon_in(loaded, wanted.path)
    if wanted.origin is Origin.DRAFT:
        draft = DraftFile.taken(wanted.path, datetime.now())
        if draft.path:
            # Until it was taken, another window could write to it.
            loaded = read_file(draft.path, clock())
        return Session.resume(loaded, draft, salon, shelf)
    if wanted.origin is Origin.DEMO:
        return Session.demo(loaded, wanted.voice, salon, shelf)
    answers = loaded.of_today()
    intake = start(answers, REVIEW if get(answers, "client.age") else None)
    session = Session(wanted.voice, intake=intake, salon=salon, shelf=shelf)
    # It is an answer now, and whoever changes that answer is not overruled by the log at the next opening.
    session.day = loaded.day and loaded.day.model_copy(update={"minutes_putting_on": None})
    return session


def _salon_in(loaded: Loaded, path: Path) -> "SalonConfig | None":
    """The rules and numbers that a record was judged by. Raises BadFile."""
    from consult.records.record import salon_of
    from consult.salon import BadConfig

    try:
        return salon_of(loaded)
    except BadConfig as error:
        raise BadFile(str(path), f"salon: {error}") from None
