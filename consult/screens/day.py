"""The day: a large clock for what is on the head now, what to do, how long each section may stay, what comes next."""

import time
from collections.abc import Sequence
from typing import Any, ClassVar, Final

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content

from consult.answers.base import known
from consult.cleaning import clean_text
from consult.day.acts import Did
from consult.day.day import Day
from consult.day.standing import OnSection, Phase, Standing, Task, What, name_of
from consult.day.told import (
    clock_words,
    down_words,
    leaflet_words,
    notes,
    phase_words,
    press_words,
    short_words,
    task_words,
)
from consult.day.work import MINUTE, Round
from consult.screens.messages import ClosePage, OpenExport
from consult.screens.page import EMERGENCY, EXPORT, HELP, LOOK, QUIT, Page
from consult.session import Session
from consult.widgets.keys import Key, bindings
from consult.widgets.text import Piece, TextBlock, lines, styled
from consult.widgets.time_figures import figures, scale_for, stay_bar

TICK: Final = 0.2
"""Seconds between two looks at the clock; what has not changed is not painted."""
RING_AGAIN: Final = MINUTE
"""Seconds after which what is due and not done rings again (assumption)."""
REPEATED: Final = 0.6
"""Seconds within which the same key is a finger that lies on it (assumption)."""
BLINK, SAID = 0.5, 4.0
"""Seconds of a blink, and of an answer to a key (assumption)."""
MOST_BAR: Final = 70
"""Columns of the bar of a section at most: a minute of the usual leaflet is two of them."""
_ACTIVE: Final = (Phase.ON, Phase.PUT_ON)


class DayPage(Page):
    """Carries a plan out. Everything shown is computed from the log and the clock; a tick only paints."""

    CSS_PATH: ClassVar[Any] = ["page.tcss", "day.tcss"]
    KEYS: ClassVar[Sequence[Key]] = (
        Key("Space", "done", "what stands there is done; so does Enter", (("space,enter", "done"),)),
        Key("r", "rinse now", "all of it is rinsed now, before its minutes are over", (("r", "rinse"),)),
        Key("s", "stop", "stop: rinse, put nothing more on", (("s", "stop"),)),
        Key(
            "e", "emergency", "somebody is hurt: what to do now; the clock goes on", (("e", "app.emergency"),)
        ),
        Key("l", "later", "ring again in two minutes, never past the longest", (("l", "later"),)),
        Key("+", "minutes", "more minutes, never past the longest", (("plus,plus_sign,kp_plus", "add"),)),
        Key("u", "undo", "take the last press back", (("u", "undo"),)),
        Key("2", "", "the second of two sections that are put on at once is done", (("2", "second"),)),
        EXPORT,
        HELP,
        LOOK,
        Key(
            "Esc",
            "",
            "back; the clock goes on, and F8 in the result opens the day again",
            (("escape", "back"),),
        ),
        EMERGENCY,
        QUIT,
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(KEYS)

    def __init__(self, session: Session, day: Day) -> None:
        super().__init__()
        self.session = session
        self.day = day
        self._rung: tuple[str, float] = ("", 0.0)
        self._pressed = float("-inf")
        self._said: tuple[str, float, str] = ("", 0.0, "")

    def body(self) -> ComposeResult:
        yield TextBlock(id="heading")
        yield TextBlock(id="trouble")
        with Horizontal(id="clocks"):
            with Vertical():
                yield TextBlock(id="on-for")
                yield TextBlock(id="on-what")
            with Vertical():
                yield TextBlock(id="until")
                yield TextBlock(id="until-what")
        yield TextBlock(id="now")
        yield TextBlock(id="told")
        yield TextBlock(id="sections")

    def on_mount(self) -> None:
        name = known(self.session.answers.client.name) or ""
        self.query_one("#heading", TextBlock).show(
            styled(("consult ", "bold $accent"), ("The day ", "bold"), clean_text(name))
        )
        self.day.open()
        self.set_interval(TICK, self.show_standing)
        self.show_standing()

    def on_unmount(self) -> None:
        self.day.close()

    # --- what is shown ---------------------------------------------------------------------------

    def show_standing(self) -> None:
        """Paint what has changed."""
        found = self.day.stands()
        self._show_trouble()
        self._show_clocks(found)
        now = found.now
        style = "bold $error" if now.what in (What.MUST_RINSE, What.STOPPED) else "bold"
        shown = now if now.due else None
        say = task_words(self.day.work, now).in_voice(self.session.voice)
        if shown is None:
            say = f"Nothing to do for {down_words(now.left or 0.0)}. Next: {short_words(self.day.work, now)}."
            style = ""
        self.query_one("#now", TextBlock).show(lines(self._now(found, say, style)))
        self.query_one("#told", TextBlock).show(lines(self._told(found)))
        self.query_one("#sections", TextBlock).show(lines(self._sections(found)))
        if now.what is What.END and self.day.writes and found.progress.begun:
            self._end()
        self._ring(found)

    def _show_trouble(self) -> None:
        trouble = self.query_one("#trouble", TextBlock)
        words = self.day.error
        if not self.day.writes:
            words = "This day is open in another window; here it is only shown."
        elif not self.day.kept:
            words = "An invented client: this day is for practice, nothing of it is kept."
        trouble.show(styled((clean_text(words), "bold $error" if self.day.error else "$warning")))
        trouble.display = bool(words)

    def _show_clocks(self, found: Standing) -> None:
        on_for = found.on_for
        self._show_time("#on-for", clock_words(on_for or 0.0))
        self.query_one("#on-what", TextBlock).show(
            styled(
                "on the head, from the first touch" if on_for is not None else "nothing is on the head",
            )
        )
        left, what = self._until(found)
        self._show_time("#until", "" if left is None else down_words(left))
        self.query_one("#until-what", TextBlock).show(styled(what))

    def _show_time(self, place: str, time: str) -> None:
        """As large as the window bears: it is read from the basin."""
        drawn = figures(time, scale_for(self.size.width // 2 - 2, self.size.height))
        self.query_one(place, TextBlock).show(lines([styled((line, "bold")) for line in drawn]))

    def _until(self, found: Standing) -> tuple[float | None, str]:
        """What the second clock runs down to: the rinse, where one is in sight."""
        if found.now.what in (What.MUST_RINSE, What.STOPPED):
            return 0.0, "rinse now"
        if found.rinse_in is not None:
            return max(0.0, found.rinse_in), "until it comes off"
        if found.now.what is What.PUT_ON and found.now.left is not None:
            return max(0.0, found.now.left), "until longer than planned"
        return None, ""

    def _now(self, found: Standing, say: str, style: str) -> list[Content]:
        now = found.now
        rows = [styled(("NOW  " if now.due else "WAIT ", "bold $accent"), (say, style))]
        if not self.day.writes:
            return rows
        press = press_words(now).in_voice(self.session.voice) if now.due else ""
        second = found.then_in_hand
        also = f"   2: {self._section_name(second)} done" if second else ""
        off = f"   put off for {down_words(found.put_off)}" if found.put_off else ""
        if press or also:
            rows.append(styled("     ", (f"{press}{also}", "$accent"), (off, "$muted")))
        return rows

    def _section_name(self, key: str) -> str:
        return next(s.name for r in self.day.work.rounds for s in r.sections if s.key == key)

    def _told(self, found: Standing) -> list[Content]:
        """Notes, and what comes next by the clock."""
        voice = self.session.voice
        said, at, about = self._said
        still = about == name_of(found.now) and time.monotonic() - at < SAID
        rows = [styled((said, "bold $accent"))] if said and still else []
        rows += [styled(("! ", "bold $warning"), (note.in_voice(voice), "$warning")) for note in notes(found)]
        coming = [f"{short_words(self.day.work, t)} in {down_words(t.left or 0.0)}" for t in found.then[:3]]
        if coming:
            rows.append(styled(("Then: ", "bold"), "; ".join(coming)))
        if found.now.what is What.END:
            rows += self._ended()
        elif found.addable and found.now.what is not What.PUT_ON:
            rows.append(styled((f"+ adds {found.addable} min at most", "$muted")))
        return rows

    def _ended(self) -> list[Content]:
        if not self.day.writes:
            return []
        return [
            styled(
                "F4 writes it into the record: when, where, how many minutes, and how long putting on took."
            ),
            styled("What comes out wrong, today or later: consult wrong RECORD knows this day then."),
        ]

    def _sections(self, found: Standing) -> list[Content]:
        rows, rounds = [], self.day.work.rounds
        room = self.query_one("#sections").size.height
        bars = len(rounds) + 2 * sum(section.counted is not None for section in found.sections) <= room
        for a_round in rounds:
            own = [section for section in found.sections if section.round == a_round.number]
            rows += self._round(a_round, own, bars=bars and self.has_class("tall"))
        return rows

    def _round(self, a_round: Round, own: list[OnSection], *, bars: bool) -> list[Content]:
        """A round in one line; while it is on the head, each of its sections in one, with a bar where there is room."""
        name = a_round.name[:1].upper() + a_round.name[1:]
        if not any(section.phase in _ACTIVE for section in own):
            phases = dict.fromkeys(section.phase.value for section in own)
            return [styled((name, "bold $heading"), f"  {' and '.join(phases)}")]
        key = "   │ shortest, end of the bar longest" if bars else ""
        rows = [styled((name, "bold $heading"), f"  {leaflet_words(own[0].batch)}", (key, "$muted"))]
        width = max(len(section.name) for section in own)
        for number, section in enumerate(own, 1):
            counted = ""
            if section.counted is not None:
                counted = f"  ({clock_words(section.counted)} by the leaflet)"
            style = "bold $error" if section.stays is not None and section.stays <= 0 else ""
            pieces: list[Piece] = [f"  {number} {section.name.ljust(width)}  ", (phase_words(section), style)]
            rows.append(styled(*pieces, (counted, "$muted")))
            if bars and section.counted is not None and section.stays is not None:
                # A limit may end the stay before the leaflet's longest.
                ends, columns = section.counted + section.stays, min(self.size.width // 2, MOST_BAR)
                rows.append(
                    Content("    ") + stay_bar(section.counted, section.batch.shortest, ends, columns)
                )
        return rows

    # --- bell, word, one blink ---------------------------------------------------------------------

    def _ring(self, found: Standing) -> None:
        """Once when something has come due, and again every minute until it is done."""
        name = self._rings_for(found)
        rung, at = self._rung
        if not name:
            self._rung = ("", 0.0)
            return
        if name == rung and time.monotonic() - at < RING_AGAIN:
            return
        self._rung = (name, time.monotonic())
        self.app.bell()
        if self.app.animation_level != "none":
            block = self.query_one("#now")
            block.add_class("blink")
            self.set_timer(BLINK, lambda: block.remove_class("blink"))

    @staticmethod
    def _rings_for(found: Standing) -> str:
        """What rings: what has come due by a clock."""
        task: Task = found.now
        timed = task.overdue or task.what in (What.MUST_RINSE, What.STOPPED)
        return name_of(task) if timed and not found.put_off else ""

    # --- what is pressed ---------------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A window that only shows the day takes no act."""
        acts = ("done", "later", "add", "rinse", "stop", "undo", "second")
        if action in acts and not self.day.writes:
            return False
        return super().check_action(action, parameters)

    def _say(self, words: str) -> None:
        """Answer a key on the page itself: a window over it would hide the clock."""
        self._said = (words, time.monotonic(), name_of(self.day.stands().now))
        self.show_standing()

    def _lies_on_it(self) -> bool:
        """Whether this is a finger that lies on the key: it would run through everything."""
        before, self._pressed = self._pressed, time.monotonic()
        return self._pressed - before < REPEATED

    def action_done(self) -> None:
        found = self.day.stands()
        if self._lies_on_it() or found.now.what is What.END:
            return
        if not found.now.due:
            self._say("Nothing is due yet.")
            return
        self.day.do(found)
        self.show_standing()

    def action_second(self) -> None:
        second = self.day.stands().then_in_hand
        if second and not self._lies_on_it():
            self.day.press(Did.DONE, second)
            self.show_standing()

    def action_later(self) -> None:
        found = self.day.stands()
        self.day.put_off(found)
        if found.now.what in (What.MUST_RINSE, What.STOPPED):
            self._say("Not later: rinse now.")
        else:
            self.show_standing()

    def action_add(self) -> None:
        added = self.day.add(self.day.stands())
        self._say(
            f"{added} minutes more." if added else "No minutes can be added: the longest would be passed."
        )

    def action_rinse(self) -> None:
        found = self.day.stands()
        keys = " ".join(s.key for s in found.sections if s.phase in _ACTIVE)
        if keys:
            self.day.press(Did.OFF, keys)
            self.show_standing()

    def action_stop(self) -> None:
        if not self.day.stands().progress.stopped:
            self.day.press(Did.STOP)
            self.show_standing()

    def action_undo(self) -> None:
        self.day.press(Did.BACK)
        self.show_standing()

    def _end(self) -> None:
        """Everything is off: what the record keeps of the day is ready for it."""
        self.day.end()
        self.session.tell_day(self.day.log(self.session.day))

    def action_export(self) -> None:
        self.post_message(OpenExport())

    def action_back(self) -> None:
        self.post_message(ClosePage(self))
