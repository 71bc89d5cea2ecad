"""The day is killed at random moments under a clock that is told what it shows: nothing that was shown is lost, and
every clock is right when the day is opened again.

Run from the project's folder: `python -m tests.hands.day [KILLS] [SEED]`. Every tenth kill is left to the machine's own
clocks. `python -m tests.hands.day drive SPEED DEMO` opens a demo client's day in this terminal, so many times as fast.
"""

import os
import random
import re
import sys
import tempfile
import time
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any, Final

import tomli
import tomli_w

from consult.day.acts import Act, Did
from consult.day.clock import Reading
from consult.day.kept import Kept
from consult.records.demos import demo_files
from consult.records.store import HOME_VARIABLE
from tests.hands.terminal import Hangs, Terminal

DEMOS: Final = ("tomas", "ines", "henrik", "sunniva", "odile", "agnes")
SECTIONS: Final = "front left|front right|back left|back right|lengths and ends"
_ON: Final = re.compile(rf"\d ({SECTIONS}) +(?:put )?on ([\d:]+)")
_NOW: Final = re.compile(r"^ (NOW|WAIT) ", re.MULTILINE)
_ROUND: Final = re.compile(r" (\S.*?)  (?:at most|\d+ to) \d+ min from the")
TOLD_CLOCK: Final = """
import sys
from pathlib import Path
from consult.day import day
from consult.day.clock import Reading
import consult.screens.day
file = Path(sys.argv.pop(1))
def told():
    utc, up, boot = file.read_text().split()
    return Reading(float(utc), float(up), boot)
day.open_day.__kwdefaults__["clock"] = told
consult.screens.day.REPEATED = 0
from consult.cli import run
run()
"""
"""The program with a clock that shows what stands in a file."""
QUICK_CLOCK: Final = """
import sys, time
from consult.day import day
from consult.day.clock import Reading, read_clock
speed, first = float(sys.argv.pop(1)), read_clock()
def quick():
    now = read_clock()
    return Reading(first.utc + speed * (now.utc - first.utc), first.up + speed * (now.up - first.up), now.boot)
day.open_day.__kwdefaults__["clock"] = quick
from consult.cli import run
run()
"""
"""The program with a clock that goes so many times as fast."""
NEVER: Final = -1.0


def fresh_record(name: str, folder: Path) -> Path:
    """A demo client who is judged now: every date is moved by as much."""
    data = tomli.loads(demo_files()[name].read_text("utf-8"))
    judged = data["record"]["consulted_at"]
    by = datetime.now(judged.tzinfo).replace(second=0, microsecond=0) - judged
    path = folder / f"{name}.toml"
    path.write_text(tomli_w.dumps(_moved(data, by)), "utf-8")
    return path


def _moved(data: Any, by: timedelta) -> Any:
    if isinstance(data, dict):
        return {name: _moved(value, by) for name, value in data.items()}
    if isinstance(data, list):
        return [_moved(value, by) for value in data]
    if isinstance(data, datetime):
        return data + by
    return data + timedelta(days=by.days) if isinstance(data, date) else data


@dataclass
class Clock:
    """What the program's clock shows. `true` are the seconds that really passed."""

    file: Path
    kind: str
    utc: float = field(default_factory=time.time)
    up: float = 1_000.0
    boot: str = "b0"
    true: float = 0.0

    def write(self) -> None:
        fresh = self.file.with_suffix(".new")
        fresh.write_text(f"{self.utc!r} {self.up!r} {self.boot}")
        os.replace(fresh, self.file)

    def go(self, seconds: float) -> None:
        self.utc, self.up, self.true = self.utc + seconds, self.up + seconds, self.true + seconds
        self.write()

    def while_off(self, seconds: float) -> None:
        """What becomes of it while the program is dead."""
        self.true += seconds
        self.utc += seconds
        if self.kind == "sleep that is not counted":
            pass
        elif self.kind == "restart":
            self.boot, self.up = f"b{int(self.boot[1:]) + 1}", min(20.0, seconds)
        else:
            self.up += seconds
            if self.kind == "set back":
                self.utc -= 500
        self.write()

    @property
    def reading(self) -> Reading:
        return Reading(self.utc, self.up, self.boot)


KINDS: Final = ("going on", "sleep that is not counted", "restart", "set back")


class Run:
    """One day with several kills in it."""

    def __init__(self, seed: int, folder: Path) -> None:
        self.chance = random.Random(seed)
        self.home = folder / "home"
        self.home.mkdir(parents=True)
        self.record = fresh_record(DEMOS[seed % len(DEMOS)], folder)
        self.clock = Clock(folder / "clock", self.chance.choice(KINDS))
        self.clock.write()
        self.shown: list[Act] = []
        self.begun: dict[str, float] = {}
        self.pressed = 0.0
        self.error = NEVER

    def opened(self) -> Terminal:
        command = (sys.executable, "-c", TOLD_CLOCK, str(self.clock.file))
        return Terminal(self.home, 100, 40, "day", str(self.record), command=command)

    def one_kill(self) -> list[str]:
        """Open it, look at every clock, press keys, kill it; what is wrong, or nothing."""
        with self.opened() as terminal:
            terminal.sees("The day", "undo")
            self.shown.append(Act(Did.OPEN, self.clock.reading))
            wrong = self._clocks(terminal)
            in_flight = False
            for _ in range(self.chance.randint(2, 12)):
                if wrong:
                    break
                self.clock.go(self.chance.choice([1.0, 20.0, 61.5, 150.0, 300.0]))
                wrong += self._clocks(terminal)
                before = self._acts()
                key = self.chance.choices(" +lu", (12, 1, 1, 1))[0]
                self.pressed = self.clock.true
                terminal.child.send(key)
                in_flight = self.chance.random() < 0.25
                if in_flight:
                    terminal.read_for(self.chance.uniform(0, 0.05))
                    break
                self._answered(terminal, before, key)
                wrong += self._clocks(terminal)
            terminal.kill()
        return wrong + self._lost(in_flight)

    def _acts(self) -> tuple[Act, ...]:
        found = self._log()
        return found.acts if found else ()

    def _log(self) -> Kept | None:
        files = list((self.home / "days").glob("*.toml"))
        if not files:
            return None
        log = Kept(datetime.now(UTC), files[0])
        log.close()
        return log

    def _answered(self, terminal: Terminal, before: tuple[Act, ...], key: str) -> None:
        """Wait until the screen has answered a key; what it answered with has to be on the disk then."""
        terminal.read_for(0.4)
        after = self._acts()
        self.shown = [*self.shown, *after[len(before) :]]
        if key == " " and len(after) == len(before) and "Nothing is due" not in terminal.screen:
            terminal.sees("Nothing is due")

    def _lost(self, in_flight: bool) -> list[str]:
        """Every act that was shown is in the log, in its order, and at most the one under way is there besides."""
        found = self._acts()
        mine = tuple(self.shown)
        self.shown = list(found)
        if found[: len(mine)] != mine or len(found) > len(mine) + in_flight:
            return [f"lost: {len(mine)} acts were shown, {len(found)} stand in the log"]
        return []

    def _clocks(self, terminal: Terminal) -> list[str]:
        """Every section's clock on the screen, against the time that really passed since the key that began it."""
        deadline = time.monotonic() + 5
        while True:
            terminal.read_for(0.1)
            seen = clocks_on(terminal.screen)
            terminal.read_for(0.1)
            if seen != clocks_on(terminal.screen) or not _NOW.search(terminal.screen):
                continue  # It is being painted.
            for gone in set(self.begun) - set(seen):
                del self.begun[gone]
            for name in seen:
                self.begun.setdefault(name, self.pressed)
            off = max((abs(self.clock.true - self.begun[n] - on) for n, on in seen.items()), default=0.0)
            if off <= 1 or time.monotonic() > deadline:
                break
        self.error = max(self.error, off)
        return [f"{self.clock.kind}: a clock is {off:.0f} s wrong:\n{terminal.screen}"] if off > 1 else []


def clocks_on(screen: str) -> dict[str, float]:
    """Round and section -> seconds that it has been on, as the screen shows it."""
    found, of = {}, ""
    for row in screen.splitlines():
        if heading := _ROUND.match(row):
            of = heading[1]
        if clock := _ON.search(row):
            found[f"{of}: {clock[1]}"] = _seconds(clock[2])
    return found


def _seconds(clock: str) -> float:
    total = 0
    for part in clock.split(":"):
        total = 60 * total + int(part)
    return float(total)


def real(folder: Path, chance: random.Random) -> tuple[float, list[str]]:
    """By the machine's own clocks: seconds by which the clock is wrong after a kill, and what else is."""
    home = folder / "home"
    home.mkdir(parents=True)
    record = fresh_record("tomas", folder)
    with Terminal(home, 100, 40, "day", str(record)) as terminal:
        terminal.sees("The day", "undo")
        for _ in range(20):
            terminal.read_for(0.75)
            if "first touch" in terminal.screen and "Space: first touch" in terminal.screen:
                break
            if "the first hair has it" in terminal.screen:
                break
            terminal.child.send(" ")
        terminal.read_for(0.75)
        terminal.child.send(" ")
        began = time.monotonic()
        terminal.sees("put on 0:0")
        terminal.read_for(chance.uniform(0, 1.5))
        terminal.kill()
    time.sleep(chance.uniform(1, 4))
    with Terminal(home, 100, 40, "day", str(record)) as terminal:
        terminal.sees("front left   put on")
        terminal.read_for(chance.uniform(0.3, 1.2))
        passed = time.monotonic() - began
        on = clocks_on(terminal.screen)["New growth: front left"]
        terminal.kill()
    # The clock shows whole seconds, and its last painting is a fifth of a second old at most.
    off = max(0.0, on - passed, passed - on - 1.2)
    return off, [f"by the machine's clocks {off:.1f} s wrong"] if off > 1 else []


def faults(seed: int, folder: Path, kills: int = 5) -> tuple[float, list[str]]:
    """(largest error of a clock in seconds, what is wrong) over one day with so many kills."""
    run, wrong = Run(seed, folder), []
    os.environ[HOME_VARIABLE] = str(run.home)
    for _ in range(kills):
        try:
            wrong += run.one_kill()
        except (Hangs, AssertionError) as error:
            wrong.append(f"{type(error).__name__}: {error}")
        run.clock.while_off(run.chance.choice([2.0, 45.0, 240.0]))
        if wrong:
            break
    return run.error, [f"seed {seed}: {line}" for line in wrong]


def main(kills: int, seed: int) -> int:
    started, done, failed, worst = time.monotonic(), 0, 0, 0.0
    while done < kills:
        with tempfile.TemporaryDirectory() as folder:
            if done % 10 == 9:
                error, wrong = real(Path(folder), random.Random(seed))
                done += 1
            else:
                several = min(5, kills - done, 9 - done % 10)
                error, wrong = faults(seed, Path(folder), several)
                done += several
        seed += 1
        worst, failed = max(worst, error), failed + bool(wrong)
        print("".join(f"{line}\n" for line in wrong), end="", flush=True)
    took = time.monotonic() - started
    print(f"day: {done} kills, {failed} days wrong; the worst clock {worst:.1f} s off; {took:.0f} s")
    return 1 if failed else 0


def drive(speed: str, name: str) -> None:
    """Open a day in this terminal under a quick clock; nothing comes back."""
    folder = Path(tempfile.mkdtemp())
    record = fresh_record(name, folder)
    os.environ[HOME_VARIABLE] = str(folder / "home")
    os.execv(sys.executable, [sys.executable, "-c", QUICK_CLOCK, speed, "day", str(record)])


if __name__ == "__main__":
    if sys.argv[1:2] == ["drive"]:
        drive(*sys.argv[2:4])
    numbers = [int(number) for number in sys.argv[1:]]
    sys.exit(main(*(numbers + [50, 1][len(numbers) :])))
