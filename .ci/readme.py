"""Run every command of a README's `sh` blocks, in order; those that open the wizard run in a terminal.

A command may end in `# exits N`. Only the standard library is used: this runs before anything is installed.
"""

import os
import pty
import re
import select
import subprocess
import sys
import time
from pathlib import Path

WIZARD = re.compile(r"consult(\s+demo(\s+\w+)?)?$")
PAINTED = b"quit"
LONGEST = 600


def commands(text: str) -> list[tuple[str, int]]:
    """(command, expected exit code) of every line in the `sh` blocks."""
    found = []
    for block in re.findall(r"^```sh\n(.*?)^```", text, re.M | re.S):
        for line in block.splitlines():
            command, _, _note = line.partition("  # exits ")
            command = command.split("    #")[0].strip()
            if command:
                code = re.search(r"# exits (\d+)", line)
                found.append((command.split(" # exits")[0].strip(), int(code[1]) if code else 0))
    return found


def run_wizard(command: str) -> int:
    """Run a command in a terminal of its own until its key line is painted, then press Ctrl+Q."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.environ.update(TERM="xterm-256color", COLUMNS="120", LINES="40")
        os.execvp("bash", ["bash", "-c", f"stty cols 120 rows 40; {command}"])
    seen, asked, start = b"", False, time.monotonic()
    while time.monotonic() - start < LONGEST:
        ready, _, _ = select.select([terminal], [], [], 0.5)
        if ready:
            try:
                data = os.read(terminal, 65536)
            except OSError:
                break
            if not data:
                break
            seen += data
        elif not asked and PAINTED in seen:
            os.write(terminal, b"\x11")
            asked = True
    _, status = os.waitpid(pid, 0)
    if not asked:
        print(seen.decode("utf-8", "replace")[-2000:])
        return 99
    print(f"   the wizard was painted ({len(seen)} bytes) and left with Ctrl+Q")
    return os.waitstatus_to_exitcode(status)


def main() -> int:
    for command, expected in commands(Path(sys.argv[1]).read_text("utf-8")):
        print(f"$ {command}", flush=True)
        if WIZARD.search(command):
            code = run_wizard(command)
        else:
            quiet = "pytest" not in command
            done = subprocess.run(
                ["bash", "-c", command], check=False, stdout=subprocess.DEVNULL if quiet else None
            )
            code = done.returncode
        if code != expected:
            print(f"exit code {code}, expected {expected}: {command}")
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
